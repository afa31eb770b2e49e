using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

public sealed class PureSaturationTests
{
    public static TheoryData<string> Substances => [.. SubstanceCatalog.Default.All.Select(s => s.Name)];

    private static readonly string[] Gases = ["helium", "neon", "hydrogen", "parahydrogen", "orthohydrogen"];

    public static TheoryData<string> QuantumGases => [.. Gases];

    public static IEnumerable<(string Name, FluidModel Model)> Samples =>
        from name in new[] { "nitrogen", "neon", "methane", "propane", "n-hexane", "water" }
        from model in new[] { FluidModel.PengRobinson, FluidModel.SoaveRedlichKwong, FluidModel.PengRobinsonTwu, FluidModel.PengRobinson.WithVolumeTranslation() }
        select (name, model);

    // The coldest of the samples, 0.45 of the critical temperature, must lie above the lowest of the model.
    public static IEnumerable<(string Name, FluidModel Model)> SamplesWithQuantumGases => Samples.Concat(
        from name in Gases
        from model in new[] { FluidModel.PengRobinsonQuantumCorrected, FluidModel.PengRobinsonQuantumCorrected.WithVolumeTranslation() }
        select (name, model));

    [Theory]
    [MemberData(nameof(Substances))]
    public void FugacitiesAreEqualFromColdToOneMillikelvinBelowCritical(string name) =>
        FugacitiesAreEqual(WorkingFluid.Pure(name).WithModel(FluidModel.PengRobinson).Kernel.Equation);

    [Theory]
    [MemberData(nameof(QuantumGases))]
    public void FugacitiesAreEqualWithQuantumCorrectionsToo(string name) =>
        FugacitiesAreEqual(WorkingFluid.Pure(name).WithModel(FluidModel.PengRobinsonQuantumCorrected).Kernel.Equation);

    private static void FugacitiesAreEqual(MixtureKernel kernel)
    {
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[1];
        double critical = kernel.CriticalTemperature(0);
        double last = 0;
        List<double> temperatures = [.. Enumerable.Range(2, 18).Select(i => critical * i / 20), critical - 1, critical - 0.1, critical - 0.01, critical - 0.001];
        temperatures.Sort();
        foreach (double t in temperatures)
        {
            Assert.True(PureSaturation.TryPressure(kernel, 0, t, scratch, out double p, out double liquid, out double vapor), $"{t} K");
            Assert.True(p > last, $"vapour pressure must rise: {p} Pa at {t} K after {last} Pa");
            Assert.True(liquid > vapor);
            last = p;
            double liquidAgain = kernel.LnFugacityCoefficients(t, p, [1], DensityRoot.Liquid, scratch, lnPhi, out DensityRoot foundLiquid);
            double ofLiquid = lnPhi[0];
            double vaporAgain = kernel.LnFugacityCoefficients(t, p, [1], DensityRoot.Vapor, scratch, lnPhi, out DensityRoot foundVapor);
            Assert.Equal(DensityRoot.Liquid, foundLiquid);
            Assert.Equal(DensityRoot.Vapor, foundVapor);

            // ln phi of a liquid at a tenth of its critical temperature is about -100; rounding 1e-14 of that, and of ln p.
            Assert.Equal(ofLiquid, lnPhi[0], 1e-12);
            Assert.Equal(1, liquid / liquidAgain, 1e-7);
            Assert.Equal(1, vapor / vaporAgain, 1e-7);
        }

        Assert.InRange(last / kernel.CriticalPressure(0), 0.999, 1);
    }

    [Fact]
    public void NothingAtAndAboveTheCriticalPoint()
    {
        MixtureKernel kernel = WorkingFluid.Pure("methane").Kernel.Equation;
        double[] scratch = new double[kernel.ScratchLength];
        double tc = kernel.CriticalTemperature(0);
        Assert.False(PureSaturation.TryPressure(kernel, 0, tc, scratch, out _, out _, out _));
        Assert.False(PureSaturation.TryPressure(kernel, 0, tc + 1, scratch, out _, out _, out _));
        Assert.False(PureSaturation.TryPressure(kernel, 0, double.NaN, scratch, out _, out _, out _));
        Assert.False(PureSaturation.TryTemperature(kernel, 0, kernel.CriticalPressure(0), scratch, out _, out _, out _));
        Assert.False(PureSaturation.TryTemperature(kernel, 0, 0, scratch, out _, out _, out _));
        Assert.False(PureSaturation.TryTemperature(kernel, 0, double.NaN, scratch, out _, out _, out _));
    }

    [Fact]
    public void PressureAndTemperatureAreInverse()
    {
        foreach ((string name, FluidModel model) in SamplesWithQuantumGases)
        {
            MixtureKernel kernel = WorkingFluid.Pure(name).WithModel(model).Kernel.Equation;
            double[] scratch = new double[kernel.ScratchLength];
            double pc = kernel.CriticalPressure(0);
            foreach (double p in new[] { 1e-3, 1, 1e3, 101325, 1e6, 0.9 * pc, 0.999 * pc, 0.999999 * pc }.Where(p => p < pc))
            {
                Assert.True(PureSaturation.TryTemperature(kernel, 0, p, scratch, out double t, out _, out _), $"{name} {p}");
                Assert.True(PureSaturation.TryPressure(kernel, 0, t, scratch, out double back, out _, out _));
                Assert.Equal(1, back / p, 1e-10);
            }
        }
    }

    [Fact]
    public void SlopeOfSeparateSolvesIsThatOfLatentHeat()
    {
        foreach ((string name, FluidModel model) in SamplesWithQuantumGases)
        {
            WorkingFluid fluid = WorkingFluid.Pure(name).WithModel(model);
            MixtureKernel kernel = fluid.Kernel.Equation;
            double[] scratch = new double[kernel.ScratchLength];
            foreach (double reduced in new[] { 0.45, 0.6, 0.8, 0.95 })
            {
                double t = reduced * kernel.CriticalTemperature(0);
                Saturation saturation = fluid.Saturation(Temperature.FromKelvins(t));
                double volume = (1 / saturation.Vapor.MolarDensity.MolesPerCubicMeter) - (1 / saturation.Liquid.MolarDensity.MolesPerCubicMeter);
                double expected = saturation.EnthalpyOfVaporization.JoulesPerMole / (t * volume);

                // Four-point difference of ln p: error of fourth order, (2e-4)^4, and rounding 1e-15/1e-4.
                double h = 1e-4 * t;
                double slope = ((8 * (Ln(t + h) - Ln(t - h))) - (Ln(t + (2 * h)) - Ln(t - (2 * h)))) / (12 * h) * saturation.Pressure.Pascals;
                Assert.Equal(1, slope / expected, 1e-6);

                double Ln(double temperature)
                {
                    Assert.True(PureSaturation.TryPressure(kernel, 0, temperature, scratch, out double p, out _, out _));
                    return Math.Log(p);
                }
            }
        }
    }

    [Fact]
    public void EntropyOfVaporizationIsLatentHeatOverTemperature()
    {
        foreach ((string name, FluidModel model) in Samples)
        {
            Saturation s = WorkingFluid.Pure(name).WithModel(model).Saturation(Pressure.FromBars(1.5));
            double entropy = (s.Vapor.MolarEntropy - s.Liquid.MolarEntropy).JoulesPerMoleKelvin;
            Assert.Equal(s.EnthalpyOfVaporization.JoulesPerMole / s.Temperature.Kelvins, entropy, 1e-9 * entropy);
        }
    }

    [Theory]
    [MemberData(nameof(Substances))]
    public void LowestAcceptedTemperatureGivesAFiniteAnswerOrSaysWhyNot(string name)
    {
        WorkingFluid fluid = WorkingFluid.Pure(name).WithModel(FluidModel.PengRobinson);
        double critical = fluid.Kernel.Equation.CriticalTemperature(0);
        foreach (double t in new[] { 10.0, 12, 15, 20, 30 })
        {
            if (t >= critical)
            {
                Assert.Throws<ArgumentOutOfRangeException>(() => fluid.Saturation(Temperature.FromKelvins(t)));
                continue;
            }

            Saturation s;
            try
            {
                s = fluid.Saturation(Temperature.FromKelvins(t));
            }
            catch (ArgumentOutOfRangeException error)
            {
                // Too cold for any vapour to speak of; the ideal law ln p = ln pc + 5.4 (1 + w)(1 - Tc/T) says so roughly too.
                Assert.Contains("vapor pressure", error.Message, StringComparison.Ordinal);
                Assert.True(critical / t > 15, $"{name} at {t} K: {error.Message}");
                continue;
            }

            Assert.True(s.Pressure.Pascals > 0);
            Assert.True(s.Liquid.MolarDensity > s.Vapor.MolarDensity);
            double entropy = (s.Vapor.MolarEntropy - s.Liquid.MolarEntropy).JoulesPerMoleKelvin;
            Assert.Equal(1, s.EnthalpyOfVaporization.JoulesPerMole / t / entropy, 1e-9);
        }
    }
}
