using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

public sealed class CaloricFlashTests
{
    public static TheoryData<string> Names => ["methane", "wide", "two liquids", "nitrogen and ethane", "five parts", "neon and nitrogen", "twenty-five"];

    [Theory]
    [MemberData(nameof(Names))]
    public void EnthalpyAndEntropyLeadBackToTheTemperature(string name)
    {
        WorkingFluid fluid = Named(name);
        Random random = new(71);
        int count = name == "twenty-five" ? 15 : 100;
        for (int k = 0; k < count; k++)
        {
            double t = 65 + (285 * random.NextDouble());
            Pressure p = Pressure.FromPascals(Math.Pow(10, 4 + (3.2 * random.NextDouble())));
            State s = fluid.At(Temperature.FromKelvins(t), p);
            State byEnthalpy = fluid.AtEnthalpy(p, s.MolarEnthalpy);
            State byEntropy = fluid.AtEntropy(p, s.MolarEntropy);
            Assert.True(Math.Abs(byEnthalpy.Temperature.Kelvins - t) < 1e-7, $"{byEnthalpy.Temperature.Kelvins:R} K instead of {t:R} K from h at {p}");
            Assert.True(Math.Abs(byEntropy.Temperature.Kelvins - t) < 1e-7, $"{byEntropy.Temperature.Kelvins:R} K instead of {t:R} K from s at {p}");
            Assert.Equal(s.MolarEnthalpy.JoulesPerMole, byEnthalpy.MolarEnthalpy.JoulesPerMole, 1e-7);
            Assert.Equal(s.MolarEntropy.JoulesPerMoleKelvin, byEntropy.MolarEntropy.JoulesPerMoleKelvin, 1e-9);
            if (!s.HasUnresolvedPhase)
            {
                Assert.Equal(s.VaporFraction, byEnthalpy.VaporFraction, 1e-6);
                Assert.Equal(s.VaporFraction, byEntropy.VaporFraction, 1e-6);
            }
        }
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(1e-9)]
    [InlineData(0.37)]
    [InlineData(1.0)]
    public void PureFluidInsideItsDome(double vapor)
    {
        WorkingFluid fluid = WorkingFluid.Pure("propane");
        Pressure p = Pressure.FromBars(3);
        Saturation saturation = fluid.Saturation(p);
        double h = saturation.Liquid.MolarEnthalpy.JoulesPerMole + (vapor * saturation.EnthalpyOfVaporization.JoulesPerMole);
        State s = fluid.AtEnthalpy(p, MolarEnergy.FromJoulesPerMole(h));
        Assert.Equal(saturation.Temperature.Kelvins, s.Temperature.Kelvins, 1e-9);
        Assert.Equal(vapor, s.VaporFraction, 1e-9);
        Assert.Equal(h, s.MolarEnthalpy.JoulesPerMole, 1e-7);
        Assert.Equal(1, s.Phases.Sum(x => x.Fraction), 1e-15);
        if (vapor is > 0 and < 1)
        {
            Assert.Null(s.IsobaricHeatCapacity);
            Assert.Equal(2, s.Phases.Count);
        }

        double entropy = saturation.Liquid.MolarEntropy.JoulesPerMoleKelvin + (vapor * saturation.EnthalpyOfVaporization.JoulesPerMole / saturation.Temperature.Kelvins);
        State t = fluid.AtEntropy(p, MolarEntropy.FromJoulesPerMoleKelvin(entropy));
        Assert.Equal(vapor, t.VaporFraction, 1e-8);
        Assert.Equal(saturation.Temperature.Kelvins, t.Temperature.Kelvins, 1e-6);
    }

    [Fact]
    public void AzeotropeBoilsAtOneTemperature()
    {
        // Carbon dioxide and ethane have an azeotrope. Its composition in this model, at 20 bar: where the first bubble is like the liquid.
        Pressure p = Pressure.FromBars(20);
        double low = 0.5;
        double high = 0.9;
        Assert.True(Excess(low) * Excess(high) < 0, "no azeotrope between 0.5 and 0.9");
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Excess(low) * Excess(middle) > 0 ? (middle, high) : (low, middle);
        }

        double x = 0.5 * (low + high);
        WorkingFluid fluid = Mix(x);
        State bubble = fluid.BubblePoint(p);
        State dew = fluid.DewPoint(p);
        Assert.Equal(bubble.Temperature.Kelvins, dew.Temperature.Kelvins, 1e-7);

        // An azeotrope boils below both pure fluids here.
        Assert.True(bubble.Temperature < WorkingFluid.Pure("ethane").Saturation(p).Temperature);
        Assert.True(bubble.Temperature < WorkingFluid.Pure("carbon dioxide").Saturation(p).Temperature);
        double liquid = bubble.Phases.Single(q => q.Kind == PhaseKind.Liquid).MolarEnthalpy.JoulesPerMole;
        double vapor = dew.Phases.Single(q => q.Kind == PhaseKind.Vapor).MolarEnthalpy.JoulesPerMole;
        Assert.True(vapor - liquid > 5000);
        foreach (double share in new[] { 0.001, 0.3, 0.5, 0.9 })
        {
            double h = liquid + (share * (vapor - liquid));
            State s = fluid.AtEnthalpy(p, MolarEnergy.FromJoulesPerMole(h));
            Assert.Equal(h, s.MolarEnthalpy.JoulesPerMole, 1e-7);
            Assert.Equal(bubble.Temperature.Kelvins, s.Temperature.Kelvins, 1e-6);
            Assert.Equal(share, s.VaporFraction, 1e-6);
            AssertSums(s);
            State t = fluid.AtEntropy(p, s.MolarEntropy);
            Assert.Equal(share, t.VaporFraction, 1e-6);
        }

        double Excess(double carbonDioxide)
        {
            State first = Mix(carbonDioxide).BubblePoint(p);
            return first.Phases.Single(q => q.Kind == PhaseKind.Vapor).Composition["carbon dioxide"] - carbonDioxide;
        }

        static WorkingFluid Mix(double carbonDioxide) => WorkingFluid.Mixture(("carbon dioxide", carbonDioxide), ("ethane", 1 - carbonDioxide));
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    public void BinaryThreePhaseLineMeetsTheTarget(double nitrogen)
    {
        // Nitrogen/ethane has a line of vapour and two liquids: at fixed pressure the third phase exists at one temperature,
        // where the enthalpy jumps. Pressures around it at 120 K, where nitrogen alone boils at 25 bar.
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", nitrogen), ("ethane", 1 - nitrogen));
        int jumps = 0;
        foreach (double bar in new[] { 20.0, 22, 24 })
        {
            Pressure p = Pressure.FromBars(bar);
            (double below, double above) = Jump(fluid, p);
            double low = fluid.At(Temperature.FromKelvins(below), p).MolarEnthalpy.JoulesPerMole;
            double high = fluid.At(Temperature.FromKelvins(above), p).MolarEnthalpy.JoulesPerMole;
            if (high - low < 10)
            {
                continue;
            }

            jumps++;
            double lastEntropy = double.NegativeInfinity;
            foreach (double share in new[] { 0.01, 0.25, 0.5, 0.75, 0.99 })
            {
                double h = low + (share * (high - low));
                State s = fluid.AtEnthalpy(p, MolarEnergy.FromJoulesPerMole(h));
                Assert.Equal(h, s.MolarEnthalpy.JoulesPerMole, 1e-7);
                Assert.InRange(s.Temperature.Kelvins, below - 1e-6, above + 1e-6);
                AssertSums(s);
                Assert.True(s.MolarEntropy.JoulesPerMoleKelvin > lastEntropy);
                lastEntropy = s.MolarEntropy.JoulesPerMoleKelvin;
                State t = fluid.AtEntropy(p, s.MolarEntropy);
                Assert.Equal(h, t.MolarEnthalpy.JoulesPerMole, 1e-6);
            }
        }

        Assert.True(jumps >= 2, $"{jumps} jumps of enthalpy found");
    }

    [Fact]
    public void TargetsNoTemperatureHasAreRefusedWithTheRange()
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.AtEnthalpy(Pressure.FromBars(2), MolarEnergy.FromJoulesPerMole(1e7)));
        Assert.Contains("molarEnthalpy is 10000000 J/mol", error.Message, StringComparison.Ordinal);
        Assert.Contains("10 to 1000 K", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.AtEntropy(Pressure.FromBars(2), MolarEntropy.FromJoulesPerMoleKelvin(-1e5)));
        Assert.Contains("molarEntropy is -100000 J/(mol K)", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AGuessChangesTheWayButNotTheAnswer()
    {
        double[] z = Blends.Wide.Fractions();
        EquilibriumResult plain = CaloricFlash.Solve(Blends.Wide.Kernel, CaloricVariable.Enthalpy, 5e5, -8000, z);
        foreach (double guess in new[] { 11.0, 90, 200, 999 })
        {
            EquilibriumResult guided = CaloricFlash.Solve(Blends.Wide.Kernel, CaloricVariable.Enthalpy, 5e5, -8000, z, guess);
            Assert.Equal(plain.Temperature, guided.Temperature, 1e-9);
        }
    }

    // Halving on the largest rise of enthalpy between 90 and 150 K.
    private static (double Below, double Above) Jump(WorkingFluid fluid, Pressure p)
    {
        double step = 0.5;
        double best = 90;
        double most = 0;
        for (double t = 90; t < 150; t += step)
        {
            double rise = H(t + step) - H(t);
            if (rise > most)
            {
                most = rise;
                best = t;
            }
        }

        double low = best;
        double high = best + step;
        while (high - low > 1e-9)
        {
            double middle = 0.5 * (low + high);
            double h = H(middle);
            (low, high) = h - H(low) > H(high) - h ? (low, middle) : (middle, high);
        }

        return (low, high);

        double H(double t) => fluid.At(Temperature.FromKelvins(t), p).MolarEnthalpy.JoulesPerMole;
    }

    private static void AssertSums(State s)
    {
        Assert.Equal(1, s.Phases.Sum(q => q.Fraction), 1e-12);
        Assert.Equal(s.MolarEnthalpy.JoulesPerMole, s.Phases.Sum(q => q.Fraction * q.MolarEnthalpy.JoulesPerMole), 0.05);
        for (int i = 0; i < s.Fluid.Composition.Components.Count; i++)
        {
            Assert.Equal(s.Fluid.Composition.MoleFractions[i], s.Phases.Sum(q => q.Fraction * q.Composition.MoleFractions[i]), 1e-5);
        }

        for (int i = 1; i < s.Phases.Count; i++)
        {
            Assert.True(s.Phases[i - 1].MolarDensity <= s.Phases[i].MolarDensity, $"phases are not lightest first: {string.Join("; ", s.Phases)}");
        }
    }

    private static WorkingFluid Named(string name) => name switch
    {
        "methane" => WorkingFluid.Pure("methane"),
        "wide" => Blends.Wide,
        "two liquids" => Blends.TwoLiquids,
        "nitrogen and ethane" => Blends.NitrogenEthane,
        "five parts" => Blends.FiveParts,
        "neon and nitrogen" => Blends.NeonNitrogen,
        _ => Blends.TwentyFive,
    };
}
