using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

/// <summary>Thermodynamic identities between figures that are computed apart from one another.</summary>
public sealed class FluidKernelTests
{
    public static TheoryData<string> Models => ["Peng-Robinson", "Soave-Redlich-Kwong", "Stryjek-Vera", "Twu", "translated"];

    [Theory]
    [MemberData(nameof(Models))]
    public void HeatCapacityEntropyAndJouleThomsonFollowFromDifferencesOfEnthalpy(string model)
    {
        WorkingFluid fluid = Modelled(Blends.FiveParts, model);
        foreach ((double t, double bar) in new[] { (300.0, 1.0), (340, 20), (380, 80), (110, 30), (150, 150), (400, 5) })
        {
            State s = At(fluid, t, bar * 1e5);
            Phase phase = Assert.Single(s.Phases);

            // Four-point central differences: error of fourth order in the step, below 1e-9; rounding of h (1e4 J/mol, 1e-16) over the step.
            double dT = 0.05;
            double cp = Slope(x => H(fluid, x, bar * 1e5), t, dT);
            Assert.Equal(1, phase.IsobaricHeatCapacity.JoulesPerMoleKelvin / cp, 1e-8);
            Assert.Equal(cp, s.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin, 1e-8 * cp);
            double byT = Slope(x => At(fluid, x, bar * 1e5).MolarEntropy.JoulesPerMoleKelvin, t, dT);
            Assert.Equal(1, byT * t / cp, 1e-8);

            double dP = bar * 1e5 * 1e-3;
            double hByP = Slope(x => H(fluid, t, x), bar * 1e5, dP);
            double sByP = Slope(x => At(fluid, t, x).MolarEntropy.JoulesPerMoleKelvin, bar * 1e5, dP);
            double v = 1 / s.MolarDensity.MolesPerCubicMeter;
            double expansion = Slope(x => 1 / At(fluid, x, bar * 1e5).MolarDensity.MolesPerCubicMeter, t, dT);

            // dh = T ds + v dp; ds/dp = -dv/dT. Volumes carry the translation, enthalpies must follow. A liquid's terms are
            // small against the enthalpy they are taken from: 1e4 J/mol times 1e-16 over the pressure step.
            double rounding = 1e-11 / dP;
            Assert.Equal((t * sByP) + v, hByP, (1e-8 * v) + rounding);
            Assert.Equal(-expansion, sByP, (1e-7 * Math.Abs(expansion)) + (rounding / t));
            Assert.Equal(-hByP / cp * 1e5, s.JouleThomsonCoefficientKelvinsPerBar!.Value, (1e-7 * Math.Abs(s.JouleThomsonCoefficientKelvinsPerBar.Value)) + (rounding / cp * 1e6));
        }
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void JouleThomsonCoefficientIsTheSlopeOfFlashesAtConstantEnthalpy(string model)
    {
        WorkingFluid fluid = Modelled(Blends.FiveParts, model);
        foreach ((double t, double bar) in new[] { (340.0, 20.0), (380, 80), (400, 5) })
        {
            State s = At(fluid, t, bar * 1e5);
            double slope = Slope(p => fluid.AtEnthalpy(Pressure.FromPascals(p), s.MolarEnthalpy).Temperature.Kelvins, bar * 1e5, bar * 300);

            // Temperatures of the flash are good to 2e-13 of 300 K, over a step of 3e-3 of the pressure.
            Assert.Equal(slope * 1e5, s.JouleThomsonCoefficientKelvinsPerBar!.Value, 1e-7);
        }
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void SpeedOfSoundIsTheSlopeOfFlashesAtConstantEntropy(string model)
    {
        WorkingFluid fluid = Modelled(Blends.FiveParts, model);
        foreach ((double t, double bar) in new[] { (300.0, 1.0), (340, 20), (380, 80), (110, 30), (150, 150) })
        {
            State s = At(fluid, t, bar * 1e5);
            double slope = Slope(
                p => fluid.AtEntropy(Pressure.FromPascals(p), s.MolarEntropy).Density.KilogramsPerCubicMeter, bar * 1e5, bar * 100);
            double speed = s.SpeedOfSound!.Value.MetersPerSecond;

            // A liquid's density moves by 1e-5 over the step: digits of the density over that, about 1e-9 to 1e-8 of the slope.
            Assert.Equal(1, speed * speed * slope, 1e-6);
        }
    }

    [Theory]
    [InlineData("wide", 3.0)]
    [InlineData("wide", 15.0)]
    [InlineData("two liquids", 20.0)]
    [InlineData("five parts", 8.0)]
    public void HeatCapacityOfSeveralPhasesIsTheSlopeOfTheirEnthalpy(string name, double bar)
    {
        WorkingFluid fluid = name switch { "wide" => Blends.Wide, "two liquids" => Blends.TwoLiquids, _ => Blends.FiveParts };
        int compared = 0;
        for (double t = 90.3; t < 280; t += 3.7)
        {
            State s = At(fluid, t, bar * 1e5);
            State below = At(fluid, t - 0.04, bar * 1e5);
            State above = At(fluid, t + 0.04, bar * 1e5);
            if (s.Phases.Count < 2 || s.HasUnresolvedPhase || below.PhaseDescription != s.PhaseDescription || above.PhaseDescription != s.PhaseDescription)
            {
                continue;
            }

            compared++;
            double cp = Slope(x => H(fluid, x, bar * 1e5), t, 0.02);
            double byEntropy = t * Slope(x => At(fluid, x, bar * 1e5).MolarEntropy.JoulesPerMoleKelvin, t, 0.02);

            // Fourth order in 0.02 K; h is good to about 1e-9 J/mol where fugacities are solved to 1e-11 only.
            Assert.Equal(1, s.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin / cp, 1e-6);
            Assert.Equal(1, byEntropy / cp, 1e-6);
        }

        Assert.True(compared > 8, $"{compared} states compared");
    }

    [Fact]
    public void IdealGasLimit()
    {
        // At a pascal the residual is 1e-7 of R T: h is the sum of the ideal gases, s has the mixing term and the pressure term.
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", 0.25), ("methane", 0.75)).WithModel(FluidModel.PengRobinson);
        State s = At(fluid, 298.15, 1);
        Assert.Equal(0, s.MolarEnthalpy.JoulesPerMole, 1e-3);
        double mixing = -8.314462618 * ((0.25 * Math.Log(0.25)) + (0.75 * Math.Log(0.75)) + Math.Log(1 / 101325.0));
        Assert.Equal(mixing, s.MolarEntropy.JoulesPerMoleKelvin, 1e-5);
        Assert.Equal(1 / (8.314462618 * 298.15), s.MolarDensity.MolesPerCubicMeter, 1e-9);

        // The ideal speed of sound: c^2 = gamma R T/M.
        double cp = s.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin;
        double expected = Math.Sqrt(cp / (cp - 8.314462618) * 8.314462618 * 298.15 / fluid.Composition.MolarMass.KilogramsPerMole);
        Assert.Equal(1, s.SpeedOfSound!.Value.MetersPerSecond / expected, 1e-6);
    }

    [Fact]
    public void TotalsAreSumsOverThePhases()
    {
        State s = At(Blends.Wide, 150, 8e5);
        Assert.Equal(2, s.Phases.Count);
        Assert.Equal(s.MolarEnthalpy.JoulesPerMole, s.Phases.Sum(p => p.Fraction * p.MolarEnthalpy.JoulesPerMole), 1e-9);
        Assert.Equal(s.MolarEntropy.JoulesPerMoleKelvin, s.Phases.Sum(p => p.Fraction * p.MolarEntropy.JoulesPerMoleKelvin), 1e-11);
        Assert.Equal(1 / s.MolarDensity.MolesPerCubicMeter, s.Phases.Sum(p => p.Fraction / p.MolarDensity.MolesPerCubicMeter), 1e-16);
        Assert.True(s.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin > s.Phases.Sum(p => p.Fraction * p.IsobaricHeatCapacity.JoulesPerMoleKelvin));
        Assert.Null(s.SpeedOfSound);
    }

    private static State At(WorkingFluid fluid, double t, double p) => fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));

    private static double H(WorkingFluid fluid, double t, double p) => At(fluid, t, p).MolarEnthalpy.JoulesPerMole;

    private static double Slope(Func<double, double> f, double x, double h) =>
        ((8 * (f(x + h) - f(x - h))) - (f(x + (2 * h)) - f(x - (2 * h)))) / (12 * h);

    private static WorkingFluid Modelled(WorkingFluid fluid, string model) => fluid.WithModel(model switch
    {
        "Peng-Robinson" => FluidModel.PengRobinson,
        "Soave-Redlich-Kwong" => FluidModel.SoaveRedlichKwong,
        "Stryjek-Vera" => FluidModel.PengRobinsonStryjekVera,
        "Twu" => FluidModel.PengRobinsonTwu,
        _ => FluidModel.SoaveRedlichKwong.WithVolumeTranslation(),
    });
}
