using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class WorkingFluidTests
{
    [Fact]
    public void BadInputNamesParameterValueUnitAndRange()
    {
        WorkingFluid fluid = Blends.Wide;
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => fluid.At(Temperature.FromKelvins(5), Pressure.FromBars(1)));
        Assert.Equal("temperature", error.ParamName);
        Assert.Contains("temperature is 5 K; allowed is 10 to 1000 K", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentOutOfRangeException>(() => fluid.At(Temperature.FromKelvins(100), Pressure.FromBars(-1)));
        Assert.Equal("pressure", error.ParamName);
        Assert.Contains("pressure is -100000 Pa; allowed is 0.001 to 2E+08 Pa", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentOutOfRangeException>(() => fluid.At(default, Pressure.FromBars(1)));
        Assert.Contains("0 K", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => fluid.BubblePoint(Pressure.FromPascals(1e-4)));
        Assert.Throws<ArgumentOutOfRangeException>(() => fluid.DewPoint(Temperature.FromKelvins(1001)));
    }

    [Fact]
    public void IsobarNamesItsOwnParameters()
    {
        Temperature warm = Temperature.FromKelvins(300);
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.Isobar(Pressure.FromBars(1), Temperature.FromKelvins(5), warm));
        Assert.Equal("lowest", error.ParamName);
        error = Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.Isobar(Pressure.FromBars(1), warm, Temperature.FromKelvins(2000)));
        Assert.Equal("highest", error.ParamName);
        error = Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.Isobar(Pressure.FromBars(1), warm, warm));
        Assert.Equal("highest", error.ParamName);
        Assert.Contains("above lowest, 300 K", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ARefusedEnthalpyNamesItsParameterAndTheWholeRange()
    {
        // A pure fluid is solved on one side of its boiling point; the range told must not end there.
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(
            () => WorkingFluid.Pure("methane").WithModel(FluidModel.PengRobinson).AtEnthalpy(Pressure.FromBars(1), MolarEnergy.FromJoulesPerMole(1e9)));
        Assert.Equal("molarEnthalpy", error.ParamName);
        Assert.Contains("(10 to 1000 K)", error.Message, StringComparison.Ordinal);
        Assert.Equal(
            "molarEntropy",
            Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.AtEntropy(Pressure.FromBars(1), MolarEntropy.FromJoulesPerMoleKelvin(1e9))).ParamName);
    }

    [Fact]
    public void AnUndefinedReferenceStateIsRefused() => Assert.Equal(
        "referenceState",
        Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.WithReferenceState((ReferenceState)77)).ParamName);

    [Fact]
    public void SaturationIsForPureFluidsBelowTheirCriticalPoint()
    {
        InvalidOperationException mixture = Assert.Throws<InvalidOperationException>(() => Blends.Wide.Saturation(Pressure.FromBars(1)));
        Assert.Contains("bubble or dew point", mixture.Message, StringComparison.Ordinal);
        WorkingFluid methane = WorkingFluid.Pure("methane");
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => methane.Saturation(Temperature.FromKelvins(200)));
        Assert.Contains("temperature is 200 K", error.Message, StringComparison.Ordinal);
        Assert.Contains("critical temperature of 190.5", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentOutOfRangeException>(() => methane.Saturation(Pressure.FromBars(50)));
        Assert.Contains("pressure is 50 bar", error.Message, StringComparison.Ordinal);
        Assert.Contains("critical pressure of 45.9", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void SaturationTellsBothPhases()
    {
        Saturation s = WorkingFluid.Pure("nitrogen").Saturation(Pressure.FromPascals(101325));
        Assert.Equal(PhaseKind.Liquid, Assert.Single(s.Liquid.Phases).Kind);
        Assert.Equal(PhaseKind.Vapor, Assert.Single(s.Vapor.Phases).Kind);
        Assert.Equal(0, s.Liquid.VaporFraction);
        Assert.Equal(1, s.Vapor.VaporFraction);

        // Normal boiling point 77.355 K, Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361; vapour pressures by this cubic are
        // stated to 1 to 3 %, which is 0.3 K here.
        Assert.InRange(s.Temperature.Kelvins, 77.0, 77.7);
        Assert.Equal((s.Vapor.MolarEnthalpy - s.Liquid.MolarEnthalpy).JoulesPerMole, s.EnthalpyOfVaporization.JoulesPerMole);
    }

    [Fact]
    public void DifferencesDoNotDependOnTheReferenceState()
    {
        foreach (WorkingFluid fluid in new[] { Blends.FiveParts, WorkingFluid.Pure("propane"), Blends.TwentyFive.WithModel(FluidModel.SoaveRedlichKwong) })
        {
            WorkingFluid other = fluid.WithReferenceState(ReferenceState.SaturatedLiquidAtOneAtmosphere);
            List<(double H, double S)> offsets = [];
            foreach ((double t, double bar) in new[] { (300.0, 1.0), (110, 20), (180, 6), (240, 40), (500, 0.01) })
            {
                State a = fluid.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));
                State b = other.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));
                offsets.Add((b.MolarEnthalpy.JoulesPerMole - a.MolarEnthalpy.JoulesPerMole, b.MolarEntropy.JoulesPerMoleKelvin - a.MolarEntropy.JoulesPerMoleKelvin));
                Assert.Equal(a.VaporFraction, b.VaporFraction);
                Assert.Equal(a.MolarDensity.MolesPerCubicMeter, b.MolarDensity.MolesPerCubicMeter);
            }

            // Offsets reach 4e4 J/mol: 1e-9 of them is asked for, a few roundings (1e-11) are there.
            Assert.All(offsets, o => Assert.Equal(offsets[0].H, o.H, 1e-9 * Math.Abs(offsets[0].H)));
            Assert.All(offsets, o => Assert.Equal(offsets[0].S, o.S, 1e-9 * Math.Abs(offsets[0].S)));
            Assert.True(Math.Abs(offsets[0].H) > 1000);
        }
    }

    [Fact]
    public void SaturatedLiquidIsTheZeroOfItsReferenceState()
    {
        Saturation s = WorkingFluid.Pure("propane").WithReferenceState(ReferenceState.SaturatedLiquidAtOneAtmosphere).Saturation(Pressure.FromPascals(101325));
        Assert.Equal(0, s.Liquid.MolarEnthalpy.JoulesPerMole, 1e-8);
        Assert.Equal(0, s.Liquid.MolarEntropy.JoulesPerMoleKelvin, 1e-10);
        WorkingFluid kept = WorkingFluid.Pure("propane").WithReferenceState(ReferenceState.SaturatedLiquidAtOneAtmosphere).WithModel(FluidModel.SoaveRedlichKwong);
        Assert.Equal(0, kept.Saturation(Pressure.FromPascals(101325)).Liquid.MolarEnthalpy.JoulesPerMole, 1e-8);
    }

    [Fact]
    public void OneFluidServesManyThreads()
    {
        WorkingFluid fluid = Blends.Wide;
        (double T, double Bar)[] points = [.. Enumerable.Range(0, 60).Select(i => (80 + (3.5 * i), 0.5 + (0.4 * i)))];
        string[] expected = [.. points.Select(Answer)];
        string[][] answers = new string[4][];
        Thread[] threads = [.. Enumerable.Range(0, 4).Select(k => new Thread(() => answers[k] = [.. points.Reverse().Select(Answer).Reverse()]))];
        Array.ForEach(threads, t => t.Start());
        Array.ForEach(threads, t => t.Join());
        Assert.All(answers, a => Assert.Equal(expected, a));

        string Answer((double T, double Bar) point)
        {
            State s = fluid.At(Temperature.FromKelvins(point.T), Pressure.FromBars(point.Bar));
            State h = fluid.AtEnthalpy(Pressure.FromBars(point.Bar), s.MolarEnthalpy);
            return $"{s.MolarEnthalpy.JoulesPerMole:R} {s.MolarEntropy.JoulesPerMoleKelvin:R} {s.VaporFraction:R} {h.Temperature.Kelvins:R}";
        }
    }

    [Fact]
    public void ModelsDifferAndKeepTheComposition()
    {
        WorkingFluid soave = Blends.Wide.WithModel(FluidModel.SoaveRedlichKwong);
        Assert.Same(Blends.Wide.Composition, soave.Composition);
        double first = Blends.Wide.At(Temperature.FromKelvins(300), Pressure.FromBars(18)).MolarEnthalpy.JoulesPerMole;
        double second = soave.At(Temperature.FromKelvins(300), Pressure.FromBars(18)).MolarEnthalpy.JoulesPerMole;
        Assert.InRange(Math.Abs(first - second), 1, 300);
        Assert.Contains("Soave-Redlich-Kwong", soave.ToString(), StringComparison.Ordinal);
        Assert.Throws<ArgumentNullException>(() => soave.WithModel(null!));
    }

    [Fact]
    public void TranslationGivesTheLiquidDensityItWasFittedTo()
    {
        WorkingFluid plain = WorkingFluid.Pure("propane").WithModel(FluidModel.PengRobinson);
        WorkingFluid translated = plain.WithModel(FluidModel.PengRobinson.WithVolumeTranslation());
        CryoThermo.Substances.VolumeTranslation fit = plain.Composition.Components[0].VolumeTranslation!;
        Temperature t = Temperature.FromKelvins(fit.FittedTemperature);
        double density = translated.Saturation(t).Liquid.MolarDensity.MolesPerCubicMeter;

        // The shift is stored with a few digits.
        Assert.Equal(1, density / fit.FittedMolarDensity, 2e-3);
        Assert.NotEqual(density, plain.Saturation(t).Liquid.MolarDensity.MolesPerCubicMeter);
        Assert.Equal(1, translated.Saturation(t).Pressure.Pascals / plain.Saturation(t).Pressure.Pascals, 1e-10);
    }
}
