using CryoThermo.Coolers;
using CryoThermo.Machines;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers;

/// <summary>
/// Published and computed cases. "Computed, regression": another implementation of Peng-Robinson (1976) with the same pair
/// parameters; it guards the equations here and proves nothing about nature.
/// </summary>
public sealed class ThrottleCycleTests(ITestOutputHelper output)
{
    private static readonly (string, double)[] FiveComponents =
        [("nitrogen", 0.30), ("methane", 0.25), ("ethane", 0.20), ("propane", 0.10), ("isobutane", 0.15)];

    // J. H. Derking et al., Cryogenics 57 (2013) 26-30 (abstract): composition, pressures and measured figures; confidence high.
    private static readonly (string, double)[] Ternary = [("methane", 0.39), ("ethane", 0.20), ("isobutane", 0.41)];

    // Computed, regression; one case a row: K and J/mol.
    public static TheoryData<int, double> FiveComponentDifferences => new()
    {
        { 120, 1591 }, { 130, 1620 }, { 140, 1541 }, { 150, 1453 }, { 160, 1477 }, { 170, 1693 }, { 180, 2085 }, { 190, 2548 }, { 200, 3045 },
        { 220, 4578 }, { 240, 5879 }, { 260, 4212 }, { 270, 3157 }, { 280, 1865 }, { 290, 608 }, { 300, 572 },
    };

    public static TheoryData<int, double> TernaryDifferences => new()
    {
        { 125, 364 }, { 128, 1069 }, { 130, 1377 }, { 135, 1865 }, { 140, 2148 }, { 150, 2475 }, { 160, 2720 }, { 170, 2559 }, { 180, 2189 }, { 190, 2257 },
        { 200, 2493 }, { 250, 9496 }, { 285, 4954 }, { 290, 3795 }, { 295, 2362 }, { 297, 1688 }, { 300, 630 },
    };

    [Theory]
    [MemberData(nameof(FiveComponentDifferences))] // stated tolerance for the same equation 0.5 %; rounded to 1 J/mol
    public void FiveComponentBlendAgainstAnotherImplementation(int kelvins, double expected) =>
        Assert.Equal(expected, Shared.Five.IsothermalEnthalpyDifference(K(kelvins)).JoulesPerMole, (0.005 * expected) + 0.5);

    [Theory]
    [MemberData(nameof(TernaryDifferences))] // stated tolerance 10 %; rounded to 1 J/mol. Measured here: within 0.8 %
    public void TernaryBlendAgainstAnotherImplementation(int kelvins, double expected) =>
        Assert.Equal(expected, Shared.Three.IsothermalEnthalpyDifference(K(kelvins)).JoulesPerMole, (0.1 * expected) + 0.5);

    /// <summary>Computed, regression, on a grid of 10 K: the true least value lies at or a little below it.</summary>
    [Theory]
    [InlineData(1.5, 15, 280, 1453)]
    [InlineData(1.5, 15, 300, 572)]
    [InlineData(1.0, 15, 280, 1641)]
    [InlineData(2.5, 15, 280, 1176)]
    [InlineData(1.5, 12, 280, 767)]
    [InlineData(1.5, 18, 280, 1602)]
    [InlineData(1.5, 20, 280, 1687)]
    public void BoundOfTheFiveComponentBlend(double low, double high, double warm, double expected)
    {
        ThrottleCycle cycle = new(WorkingFluid.Mixture(FiveComponents).WithModel(FluidModel.PengRobinson), Pressure.FromBars(low), Pressure.FromBars(high), K(warm), K(118));
        CycleLimit limit = cycle.GreatestCooling(K(120));
        double bound = limit.GreatestCooling.JoulesPerMole;
        output.WriteLine($"{low}/{high} bar to {warm} K: {bound:0.0} J/mol at {limit.PinchTemperature.Kelvins:0.00} K");
        Assert.InRange(bound, 0.985 * expected, (1.005 * expected) + 0.5);
    }

    [Fact]
    public void ThePinchOfTheFiveComponentBlendLiesInsideNear150K()
    {
        CycleLimit limit = new ThrottleCycle(WorkingFluid.Mixture(FiveComponents).WithModel(FluidModel.PengRobinson), Pressure.FromBars(1.5), Pressure.FromBars(15), K(280), K(118))
            .GreatestCooling(K(120));
        Assert.Equal(PinchLocation.Inside, limit.Location);
        Assert.InRange(limit.PinchTemperature.Kelvins, 145, 155);
        Assert.Equal(PinchLocation.WarmEnd, Shared.Five.GreatestCooling(K(120)).Location);
    }

    [Fact]
    public void TheMeasuredTernaryCoolerIsWithinItsBound()
    {
        // The same abstract: below 130 K without load; 46 mW net and 20 mW of losses at 150 K with 1.35 mg/s, 1765 J/mol gross.
        // Expected by the compilation of cases: lowest ideal 124-127 K, bound 2.1-2.5 kJ/mol up to 295 K, measured over bound 0.70-0.85.
        double molarMass = Shared.Three.Fluid.Composition.MolarMass.KilogramsPerMole;
        double measured = 66e-3 / (1.35e-6 / molarMass);
        Assert.Equal(1765, measured, 5.0);
        ThrottleCycle cycle = new(Shared.Three.Fluid, Pressure.FromBars(1.3), Pressure.FromBars(9.4), K(295), K(118));
        double bound = cycle.GreatestCooling(K(150)).GreatestCooling.JoulesPerMole;
        LowestTemperature lowest = cycle.LowestTemperature()!;
        output.WriteLine($"bound {bound:0} J/mol, measured over bound {measured / bound:0.00}, lowest {lowest.Temperature.Kelvins:0.00} K");
        Assert.InRange(bound, 2100, 2500);
        Assert.InRange(measured / bound, 0.70, 0.85);
        Assert.InRange(lowest.Temperature.Kelvins, 124 - 2, 127 + 2); // stated tolerance of bubble temperatures 2 K
    }

    [Fact]
    public void TheClassicFourComponentBlendReachesWhatIsReported()
    {
        // British patent 1,336,892 (1973) as quoted in reviews: 78 K without load (from memory, confidence medium; stated tolerance 2 K, D 15 %).
        ThrottleCycle cycle = new(
            WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.3), ("ethane", 0.2), ("propane", 0.2)).WithModel(FluidModel.PengRobinson), Pressure.FromBars(1), Pressure.FromBars(50), K(295), K(72));
        LowestTemperature lowest = cycle.LowestTemperature()!;
        output.WriteLine($"lowest {lowest.Temperature.Kelvins:0.00} K, bound at 80 K {cycle.GreatestCooling(K(80)).GreatestCooling.JoulesPerMole:0}, at 90 K {cycle.GreatestCooling(K(90)).GreatestCooling.JoulesPerMole:0} J/mol");
        Assert.InRange(lowest.Temperature.Kelvins, 76, 80);
        Assert.InRange(cycle.GreatestCooling(K(80)).GreatestCooling.JoulesPerMole, 0.8e3, 1.1e3);
        Assert.InRange(cycle.GreatestCooling(K(90)).GreatestCooling.JoulesPerMole, 1.1e3, 1.4e3);
    }

    [Theory]
    [InlineData(150, 45)]
    [InlineData(160, 302)]
    [InlineData(170, 572)]
    [InlineData(180, 1041)]
    [InlineData(190, 2111)]
    [InlineData(200, 3905)]
    [InlineData(240, 4729)]
    [InlineData(295, 5068)]
    public void MicroCoolerBlendAgainstAnotherImplementation(int kelvins, double expected)
    {
        // Composition recalled from the micro cryogenic cooler papers of 2010-2012 (confidence low); figures computed, regression: stated
        // tolerance 12 %, rounded to 1 J/mol. That computation names no interaction of n-butane and n-pentane; the library has 0.0174.
        WorkingFluid blend = WorkingFluid.Mixture(("methane", 0.08), ("ethane", 0.46), ("propane", 0.14), ("n-butane", 0.06), ("n-pentane", 0.26)).WithModel(FluidModel.PengRobinson);
        double difference = blend.At(K(kelvins), Pressure.FromBars(1)).MolarEnthalpy.JoulesPerMole - blend.At(K(kelvins), Pressure.FromBars(4)).MolarEnthalpy.JoulesPerMole;
        output.WriteLine($"{difference:0.0} against {expected} J/mol");
        Assert.Equal(expected, difference, (0.12 * expected) + 0.5);
    }

    [Fact]
    public void ALiquefiersColdEndNeedsAlmostNoCooling()
    {
        // Jensen, Skogestad, ADCHEM 2006, base case with one mixed refrigerant (from memory, confidence medium-low): 116 K, stated tolerance 3 K.
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.064), ("methane", 0.333), ("ethane", 0.353), ("n-butane", 0.25)).WithModel(FluidModel.PengRobinson);
        ThrottleCycle cycle = new(blend, Pressure.FromPascals(444500), Pressure.FromBars(22), K(303), K(108));
        double lowest = cycle.LowestTemperature()!.Temperature.Kelvins;
        output.WriteLine($"crossing at {lowest:0.00} K");
        Assert.InRange(lowest, 113, 119);
    }

    [Fact]
    public void PureNitrogenFrom300KIsLimitedByItsWarmEnd()
    {
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen").WithModel(FluidModel.PengRobinson);
        Pressure low = Pressure.FromAtmospheres(1);
        Pressure high = Pressure.FromAtmospheres(200);
        CycleLimit limit = new ThrottleCycle(nitrogen, low, high, K(300), K(76)).GreatestCooling(K(80));
        double isothermal = nitrogen.At(K(300), low).MolarEnthalpy.JoulesPerMole - nitrogen.At(K(300), high).MolarEnthalpy.JoulesPerMole;
        Assert.Equal(PinchLocation.WarmEnd, limit.Location);
        Assert.Equal(isothermal, limit.GreatestCooling.JoulesPerMole, 1e-6);

        // 899 J/mol at 20 MPa by a reference equation of state apart from this library, computed for this test and not published; 200 atm are 1.3 % more. The cubic's stated error
        // for the difference at 300 K is up to +21 %, +12 % at this pressure.
        double ratio = (nitrogen.At(K(300), low).MolarEnthalpy.JoulesPerMole - nitrogen.At(K(300), Pressure.FromMegapascals(20)).MolarEnthalpy.JoulesPerMole) / 899;
        output.WriteLine($"200 atm: {isothermal:0} J/mol; 20 MPa over the reference: {ratio:0.000}");
        CapacityError error = nitrogen.Model.CapacityErrorOf(nitrogen.Composition)!;
        Assert.InRange(ratio, 1 + (error.LowPercent / 100), 1 + (error.HighPercent / 100));
        Assert.Equal(1.12, ratio, 0.01);

        // The reference equation of the library itself gives that figure.
        WorkingFluid best = WorkingFluid.Pure("nitrogen");
        double byReference = best.At(K(300), low).MolarEnthalpy.JoulesPerMole - best.At(K(300), Pressure.FromMegapascals(20)).MolarEnthalpy.JoulesPerMole;
        Assert.Equal(899, byReference, 0.5);
        Assert.Null(best.Model.CapacityErrorOf(best.Composition));
    }

    [Fact]
    public void ArgonWithOxygenBoilsCloseAndCoolsLikeArgon()
    {
        // Int. J. Refrigeration 60 (2015) 54-61 (abstract): boils near 87.5 K; 1843 J/mol at 300 K, 30 MPa: computed, regression.
        WorkingFluid blend = WorkingFluid.Mixture(("argon", 0.8), ("oxygen", 0.2)).WithModel(FluidModel.PengRobinson);
        Pressure low = Pressure.FromAtmospheres(1);
        Pressure high = Pressure.FromMegapascals(30);
        double difference = blend.At(K(300), low).MolarEnthalpy.JoulesPerMole - blend.At(K(300), high).MolarEnthalpy.JoulesPerMole;
        WorkingFluid argon = WorkingFluid.Pure("argon").WithModel(blend.Model);
        double ofArgon = argon.At(K(300), low).MolarEnthalpy.JoulesPerMole - argon.At(K(300), high).MolarEnthalpy.JoulesPerMole;
        Assert.Equal(1843, difference, 0.005 * 1843);
        Assert.Equal(1, difference / ofArgon, 0.05);
        double bubble = blend.BubblePoint(low).Temperature.Kelvins;
        Assert.Equal(87.5, bubble, 0.5);
        Assert.InRange(blend.DewPoint(low).Temperature.Kelvins - bubble, 0, 0.3);
    }

    [Fact]
    public void PressuresInTheWrongOrderAreRefused()
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() =>
            new ThrottleCycle(WorkingFluid.Pure("nitrogen"), Pressure.FromBars(5), Pressure.FromBars(5), K(300), K(100)));
        Assert.Contains("highPressure is 5 bar", error.Message, StringComparison.Ordinal);
    }

    private static Temperature K(double kelvins) => Temperature.FromKelvins(kelvins);

    // Values below 120 K are withheld by the source: a second liquid may form.
    private static class Shared
    {
        public static readonly ThrottleCycle Five = new(WorkingFluid.Mixture(FiveComponents).WithModel(FluidModel.PengRobinson), Pressure.FromBars(1.5), Pressure.FromBars(15), K(300), K(118));

        public static readonly ThrottleCycle Three = new(WorkingFluid.Mixture(Ternary).WithModel(FluidModel.PengRobinson), Pressure.FromBars(1.3), Pressure.FromBars(9.4), K(300), K(118));
    }
}
