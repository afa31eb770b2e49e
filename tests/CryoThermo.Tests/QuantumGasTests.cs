using CryoThermo.Checks.Accuracy;
using CryoThermo.EquationsOfState;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests;

/// <summary>Helium, neon and hydrogen under Peng-Robinson with quantum corrections.</summary>
public sealed class QuantumGasTests
{
    private static readonly FluidModel Corrected = FluidModel.PengRobinsonQuantumCorrected;

    /// <summary>
    /// Mean absolute deviations in percent from the reference equations, computed here (docs/accuracy.md): a regression. What is proved is
    /// that vapour pressures, latent heats and densities are all nearer than those of plain Peng-Robinson.
    /// </summary>
    [Theory]
    [InlineData("helium", 0.87, 10.0)]
    [InlineData("neon", 0.55, 13.9)]
    [InlineData("hydrogen", 1.07, 12.6)]
    [InlineData("parahydrogen", 0.82, 12.4)]
    [InlineData("orthohydrogen", 0.73, 13.7)]
    public void SaturationIsNearerToTheReferenceEquationThanThatOfPlainPengRobinson(string gas, double pressure, double liquidDensity)
    {
        double[] corrected = Means(Corrected);
        double[] plain = Means(FluidModel.PengRobinson);
        Assert.InRange(corrected[0], 0.9 * pressure, pressure);
        Assert.InRange(corrected[1], 0.9 * liquidDensity, liquidDensity);
        Assert.All(corrected.Zip(plain), pair => Assert.True(pair.First < pair.Second, $"{pair.First} is not below {pair.Second}"));

        // Translated, the liquid is right at one temperature and within a few percent elsewhere; vapour pressures are the same.
        double[] translated = Means(Corrected.WithVolumeTranslation());
        Assert.Equal(corrected[0], translated[0], 1e-9);
        bool hasShift = SubstanceCatalog.Default.Find(gas).VolumeTranslation is not null;
        Assert.Equal(gas != "orthohydrogen", hasShift);
        Assert.True(hasShift ? translated[1] < 0.4 * corrected[1] : translated[1] == corrected[1], $"{translated[1]} after {corrected[1]}");

        double[] Means(FluidModel model) => [.. QuantumGasSection.SaturationOf(gas, model).Percent.Select(p => p.Average(Math.Abs))];
    }

    [Fact]
    public void HeliumIsComputedFromJustAboveItsLambdaPoint()
    {
        WorkingFluid helium = WorkingFluid.Pure("helium").WithModel(Corrected);
        Assert.Equal(0.42 * 5.1953, helium.Kernel.LowestTemperature, 1e-12);
        Assert.Equal(4.2226, helium.Saturation(Pressure.FromPascals(101325)).Temperature.Kelvins, 0.03);
        Assert.Throws<ArgumentOutOfRangeException>(() => helium.At(Temperature.FromKelvins(2.1), Pressure.FromBars(1)));

        // In company of others 10 K holds, as for every cubic; with hydrogen and neon 0.42 of their critical temperature.
        Assert.Equal(10, WorkingFluid.Mixture(("helium", 0.5), ("nitrogen", 0.5)).WithModel(Corrected).Kernel.LowestTemperature);
        Assert.Equal(0.42 * 33.19, WorkingFluid.Mixture(("helium", 0.5), ("hydrogen", 0.3), ("nitrogen", 0.2)).WithModel(Corrected).Kernel.LowestTemperature, 1e-12);
        Assert.Equal(0.42 * 44.492, WorkingFluid.Mixture(("helium", 0.5), ("neon", 0.5)).WithModel(Corrected).Kernel.LowestTemperature, 1e-12);
    }

    [Fact]
    public void HeatCapacityOfCompressedLiquidHydrogenIsPositiveDownToTheLowestTemperature()
    {
        // Melting lies above the lowest temperature at these pressures: what counts is that enthalpy has one temperature.
        WorkingFluid hydrogen = WorkingFluid.Pure("hydrogen").WithModel(Corrected);
        foreach (double bar in new[] { 1.0, 15, 60, 100 })
        {
            State s = hydrogen.At(Temperature.FromKelvins(hydrogen.Kernel.LowestTemperature), Pressure.FromBars(bar));
            Assert.True(s.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin > 0, $"{s.IsobaricHeatCapacity} at {bar} bar");
        }

        // Told with the model: more compressed it is not, and helium is not either.
        State denser = hydrogen.At(Temperature.FromKelvins(hydrogen.Kernel.LowestTemperature), Pressure.FromBars(200));
        Assert.True(denser.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin < 0);
        State helium = WorkingFluid.Pure("helium").WithModel(Corrected).At(Temperature.FromKelvins(3), Pressure.FromBars(60));
        Assert.True(helium.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin < 0);
        Assert.Contains("heat capacities turn negative in hydrogen next to 14 K above some 100 bar and in helium below 5 K above some 50 bar", Corrected.StatedUncertainty, StringComparison.Ordinal);
    }

    [Fact]
    public void AtTheCriticalPointOfThePublicationBothDerivativesVanish()
    {
        foreach ((string gas, double tc, double pc) in new[] { ("helium", 5.1953, 2.276e5), ("neon", 44.492, 26.79e5), ("hydrogen", 33.19, 12.964e5) })
        {
            MixtureKernel kernel = WorkingFluid.Pure(gas).WithModel(Corrected).Kernel.Equation;
            Assert.Equal(tc, kernel.CriticalTemperature(0));
            double[] scratch = new double[kernel.ScratchLength];
            kernel.SetTemperature(tc, scratch);
            double density = kernel.CriticalDensity(0);
            Assert.Equal(1, kernel.Pressure(tc, density, [1], scratch, out double byVolume) / pc, 1e-12);
            Assert.Equal(0, byVolume / (density * pc), 1e-10);
            kernel.Pressure(tc, density * 1.001, [1], scratch, out double denser);
            kernel.Pressure(tc, density / 1.001, [1], scratch, out double thinner);
            Assert.True(denser < 0 && thinner < 0);
        }
    }

    [Fact]
    public void PedigreeTellsPairsAndConstants()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("neon", 0.2), ("hydrogen", 0.2), ("nitrogen", 0.3), ("methane", 0.3)).WithModel(Corrected);
        FluidPedigree pedigree = fluid.Pedigree;
        Assert.Equal(6, pedigree.Pairs.Count);
        Assert.Equal((PairTier.Published, 0.18), Pair("neon", "hydrogen"));
        Assert.Equal((PairTier.Published, 0.0311), Pair("nitrogen", "methane"));
        Assert.Equal((PairTier.Estimated, 0.0), Pair("hydrogen", "nitrogen"));
        Assert.Equal(4, pedigree.EstimatedPairs.Count());
        Assert.Equal(2, pedigree.Remarks.Count);
        Assert.StartsWith("neon: covolume and temperature function with the critical point they were published for, 44.492 K", pedigree.Remarks[0], StringComparison.Ordinal);
        Assert.Empty(fluid.WithModel(FluidModel.PengRobinson).Pedigree.Remarks);
        Assert.Contains(
            "parameters of normal hydrogen and its own critical point",
            Assert.Single(WorkingFluid.Pure("parahydrogen").WithModel(Corrected).Pedigree.Remarks),
            StringComparison.Ordinal);

        (PairTier Tier, double K) Pair(string a, string b)
        {
            CubicPair pair = (CubicPair)pedigree.Pairs.Single(p => (p.First.Name == a && p.Second.Name == b) || (p.First.Name == b && p.Second.Name == a));
            return (pair.Tier, pair.InteractionParameter);
        }
    }

    [Fact]
    public void WithoutTheseGasesItIsPlainPengRobinson()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.4), ("methane", 0.3), ("propane", 0.3));
        State plain = blend.WithModel(FluidModel.PengRobinson).At(Temperature.FromKelvins(180), Pressure.FromBars(12));
        State corrected = blend.WithModel(Corrected).At(Temperature.FromKelvins(180), Pressure.FromBars(12));
        Assert.Equal(plain.MolarEnthalpy.JoulesPerMole, corrected.MolarEnthalpy.JoulesPerMole);
        Assert.Equal(plain.VaporFraction, corrected.VaporFraction);
        Assert.Equal(blend.WithModel(FluidModel.PengRobinson).Pedigree.Pairs, blend.WithModel(Corrected).Pedigree.Pairs);
    }

    [Fact]
    public void HeatCapacityEntropyAndThrottlingFollowFromDifferencesOfEnthalpy()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("hydrogen", 0.25), ("neon", 0.2), ("helium", 0.25), ("nitrogen", 0.2), ("methane", 0.1)).WithModel(Corrected);
        foreach ((double t, double bar) in new[] { (300.0, 1.0), (340, 80), (200, 150), (150, 20), (120, 5) })
        {
            State s = At(t, bar * 1e5);
            double cp = Slope(x => At(x, bar * 1e5).MolarEnthalpy.JoulesPerMole, t, 0.05);
            Phase phase = Assert.Single(s.Phases);

            // Four-point differences: error of fourth order in the step below 1e-9; rounding of h (1e4 J/mol, 1e-16) over the step.
            Assert.Equal(1, phase.IsobaricHeatCapacity.JoulesPerMoleKelvin / cp, 1e-8);
            Assert.Equal(1, Slope(x => At(x, bar * 1e5).MolarEntropy.JoulesPerMoleKelvin, t, 0.05) * t / cp, 1e-8);
            double step = bar * 100;
            double byPressure = Slope(x => At(t, x).MolarEnthalpy.JoulesPerMole, bar * 1e5, step);
            double expected = -byPressure / cp * 1e5;
            Assert.Equal(expected, s.JouleThomsonCoefficientKelvinsPerBar!.Value, (1e-7 * Math.Abs(expected)) + (1e-11 * 1e5 / (cp * step)));
        }

        State At(double t, double p) => fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));

        static double Slope(Func<double, double> f, double x, double h) =>
            ((8 * (f(x + h) - f(x - h))) - (f(x + (2 * h)) - f(x - (2 * h)))) / (12 * h);
    }
}
