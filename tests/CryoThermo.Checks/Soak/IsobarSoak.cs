using CryoThermo.Equilibrium;

namespace CryoThermo.Checks.Soak;

/// <summary>Builds the isobar of a blend over its whole range and compares it with flashes at random temperatures.</summary>
public static class IsobarSoak
{
    private const int Temperatures = 16;
    private const double Lowest = 65;
    private const double Highest = 400;
    private const double BesideNode = 1e-6;

    /// <summary>
    /// Enthalpy within the stated bound (1 J/mol and 1e-4 of the span) and the same phases at every temperature, other than where the flash
    /// or the table says that a phase is unresolved; the worst figure is the error over the bound.
    /// </summary>
    public static SoakOutcome Run(SoakCase soak)
    {
        FluidKernel fluid = soak.Fluid.Kernel;
        double[] z = [.. soak.Fluid.Composition.MoleFractions];

        // Below the stated temperatures heat capacities may be negative: a table leaves such stretches out.
        double low = Math.Max(Math.Max(Lowest, fluid.Equation.LowestStatedTemperature), fluid.Equation.LowestTemperatureAt(soak.Pressure));
        double high = Math.Min(Highest, fluid.HighestTemperature);
        IsobarTable table = IsobarBuilder.Build(fluid, z, soak.Pressure, low, high);
        double bound = Math.Min(1, 1e-4 * (table.MaxEnthalpy - table.MinEnthalpy));
        CaseRandom random = new(soak.Seed, soak.Number + 500_000_009);
        double worst = 0;
        bool flagged = false;
        foreach (PhaseRegion region in table.Regions)
        {
            flagged |= region == PhaseRegion.UnresolvedPhases;
        }

        int boundaries = 0;
        for (int i = 1; i < table.Regions.Length; i++)
        {
            boundaries += table.Regions[i] != table.Regions[i - 1] ? 1 : 0;
        }

        boundaries = boundaries == 0 ? 1 : boundaries <= 2 ? 2 : 3;
        for (int k = 0; k < Temperatures; k++)
        {
            double t = random.Uniform(low, high);
            EquilibriumResult flash = fluid.At(t, soak.Pressure, z);
            PhaseRegion told = table.Region(t);
            if (flash.StillUnstable || told == PhaseRegion.UnresolvedPhases)
            {
                continue;
            }

            double error = Math.Abs(table.Enthalpy(t) - flash.Totals.Enthalpy);
            if (!(error <= bound))
            {
                return new($"{soak}: isobar at {t:R} K: enthalpy is off by {error:G4} J/mol, bound {bound:G4}; {flash.Phases.Length} phases by flash, {told} by the table", boundaries, flagged, error / bound);
            }

            worst = Math.Max(worst, error / bound);
            PhaseRegion region = RegionOf(flash);
            if (region != told && DistanceToNode(table, t) > BesideNode)
            {
                return new($"{soak}: isobar at {t:R} K: {region} by flash, {told} by the table", boundaries, flagged, worst);
            }
        }

        return new(null, boundaries, flagged, worst);
    }

    private static PhaseRegion RegionOf(EquilibriumResult flash) => (flash.Phases.Length, flash.Phases[0].IsVapor) switch
    {
        (1, true) => PhaseRegion.Vapor,
        (1, false) => PhaseRegion.Liquid,
        (2, true) => PhaseRegion.LiquidVapor,
        (2, false) => PhaseRegion.TwoLiquids,
        (_, true) => PhaseRegion.TwoLiquidsVapor,
        _ => PhaseRegion.ThreeLiquids,
    };

    private static double DistanceToNode(IsobarTable table, double t)
    {
        double nearest = double.PositiveInfinity;
        foreach (double node in table.NodeTemperatures)
        {
            nearest = Math.Min(nearest, Math.Abs(node - t));
        }

        return nearest;
    }
}
