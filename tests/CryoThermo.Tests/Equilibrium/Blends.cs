namespace CryoThermo.Tests.Equilibrium;

/// <summary>Fluids the tests share, with Peng-Robinson and with the multi-fluid model.</summary>
internal static class Blends
{
    /// <summary>A blend for about 100 K: wide boiling, liquid splitting when cold.</summary>
    public static WorkingFluid Wide { get; } =
        WorkingFluid.Mixture(("nitrogen", 0.30), ("methane", 0.30), ("ethane", 0.15), ("propane", 0.25)).WithModel(FluidModel.PengRobinson);

    /// <summary>Splits into two liquids at 90 to 120 K.</summary>
    public static WorkingFluid TwoLiquids { get; } =
        WorkingFluid.Mixture(("nitrogen", 0.30), ("methane", 0.30), ("ethane", 0.20), ("propane", 0.20)).WithModel(FluidModel.PengRobinson);

    public static WorkingFluid NitrogenEthane { get; } = WorkingFluid.Mixture(("nitrogen", 0.5), ("ethane", 0.5)).WithModel(FluidModel.PengRobinson);

    public static WorkingFluid FiveParts { get; } = WorkingFluid.Mixture(
        ("argon", 0.2), ("methane", 0.3), ("ethylene", 0.2), ("propane", 0.15), ("isobutane", 0.15)).WithModel(FluidModel.PengRobinson);

    public static WorkingFluid NeonNitrogen { get; } = WorkingFluid.Mixture(("neon", 0.2), ("nitrogen", 0.8)).WithModel(FluidModel.PengRobinson);

    public static WorkingFluid TwentyFive { get; } = WorkingFluid.Mixture([.. new[]
    {
        "argon", "krypton", "xenon", "nitrogen", "oxygen", "carbon monoxide", "methane", "ethane", "ethylene", "propane", "propylene", "isobutane", "n-butane",
        "isopentane", "n-pentane", "neopentane", "n-hexane", "tetrafluoromethane", "trifluoromethane", "hexafluoroethane", "octafluoropropane",
        "carbon dioxide", "nitrous oxide", "1-butene", "sulfur hexafluoride",
    }.Select((name, i) => (name, (i + 1) / 325.0))]).WithModel(FluidModel.PengRobinson);

    /// <summary><see cref="Wide"/> with the multi-fluid model of the standard.</summary>
    public static WorkingFluid WideMultiFluid { get; } = Wide.WithModel(FluidModel.MultiFluid);

    /// <summary>A blend with further components in the multi-fluid frame.</summary>
    public static WorkingFluid FurtherMultiFluid { get; } = WorkingFluid.Mixture(
        ("nitrogen", 0.15), ("krypton", 0.1), ("methane", 0.25), ("ethylene", 0.2), ("propylene", 0.1), ("propane", 0.2));

    public static double[] Fractions(this WorkingFluid fluid) => [.. fluid.Composition.MoleFractions];
}
