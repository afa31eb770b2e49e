using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Tests.Flow;

/// <summary>
/// Friction in annuli and coils, friction and void fraction of two phases. Formulae from memory of the publications; the figures at the state below were computed from them by an
/// independent program, not published, and hold the code against slips alone. What is published or exact says so.
/// </summary>
public sealed class TwoPhaseFlowTests
{
    private const double Flux = 200;
    private const double Bore = 0.004;

    private static readonly TwoPhaseStream Stream = new(0.3, 600, 10, 150e-6, 8e-6, 0.012);

    // Exact factor of R. E. Lundberg, W. C. Reynolds, W. M. Kays, NASA TN D-1972 (1963), from memory; figures by an independent program.
    [Theory]
    [InlineData(0.05, 86.27)]
    [InlineData(0.1, 89.372)]
    [InlineData(0.25, 93.207)]
    [InlineData(0.5, 95.25)]
    [InlineData(0.75, 95.868)]
    public void LaminarFrictionInAnAnnulusIsExact(double ratio, double product)
    {
        Assert.Equal(product, 500 * FrictionFactor.Annulus(500, ratio), 1e-3 + (1e-5 * product));

        // The profile of the velocity itself: friction by the slopes at both walls, from the mean of 1 - r^2 + (1 - a^2) ln r/ln(1/a) taken by midpoints.
        const int Steps = 20000;
        double top = (1 - (ratio * ratio)) / Math.Log(1 / ratio);
        double sum = 0;
        for (int i = 0; i < Steps; i++)
        {
            double r = ratio + ((1 - ratio) * (i + 0.5) / Steps);
            sum += (1 - (r * r) + (top * Math.Log(r))) * r * (1 - ratio) / Steps;
        }

        double mean = 2 * sum / (1 - (ratio * ratio));

        // Wall force over area over mean: 4 mu (pressure gradient of this profile) balances; Darcy f Re = 2 (4) Dh^2/mean with Dh = 2 (1 - a).
        Assert.Equal(1, 500 * FrictionFactor.Annulus(500, ratio) / (8 * 4 * (1 - ratio) * (1 - ratio) / mean), 1e-6);
    }

    [Fact]
    public void AnAnnulusLiesBetweenTubeAndPlates()
    {
        // Exact: 96 between parallel plates; 64 without an inner tube is come to with the logarithm of the ratio only.
        Assert.Equal(96, 100 * FrictionFactor.Annulus(100, 0.99), 0.01);
        Assert.InRange(100 * FrictionFactor.Annulus(100, 0.01), 64, 83);

        // V. Gnielinski 2009 (from memory): f = (1.8 log10 Re* - 1.5)^-2, smooth; Churchill's curve stays within 3 % of it.
        for (double re = 1e4; re < 1e6; re *= 1.5)
        {
            double star = re * ((1.25 * Math.Log(0.5)) + 0.75) / (0.25 * Math.Log(0.5));
            Assert.Equal(1, FrictionFactor.Annulus(re, 0.5) * Math.Pow((1.8 * Math.Log10(star)) - 1.5, 2), 0.03);
        }
    }

    [Fact]
    public void CoilsFollowTheirPublications()
    {
        // Critical Reynolds number at d/D = 0.05: E. F. Schmidt 1967, and H. Ito 1959 from the formula written here; they are 3.0 % apart.
        Assert.Equal(7437.6, FrictionFactor.CoilCriticalReynolds(0.05), 0.05);
        Assert.Equal(1, FrictionFactor.CoilCriticalReynolds(0.05) / (20000 * Math.Pow(0.05, 0.32)), 0.035);
        Assert.Equal(7668.3, 20000 * Math.Pow(0.05, 0.32), 0.05);

        // R. L. Manlapaz, S. W. Churchill 1980 and H. Ito 1959 at De = 100 and 1000; they agree within 1.1 %.
        foreach ((double dean, double manlapaz, double ito) in new[] { (100.0, 1.4731, 1.4881), (1000.0, 3.5639, 3.6022) })
        {
            Assert.Equal(manlapaz, FrictionFactor.ManlapazChurchill(dean, 0.05), 5e-5);
            Assert.Equal(ito, 21.5 * dean / Math.Pow(1.56 + Math.Log10(dean), 5.73), 5e-5);
            Assert.Equal(1, ito / FrictionFactor.ManlapazChurchill(dean, 0.05), 0.011);
            double reynolds = dean / Math.Sqrt(0.05);
            Assert.Equal(64 / reynolds * manlapaz, FrictionFactor.Coil(reynolds, 0.05), 1e-4 * 64 / reynolds);
        }

        Assert.Equal(0.032048, FrictionFactor.Ito(2e4, 0.05), 5e-7);
        Assert.Equal(0.032048, FrictionFactor.Coil(2e4, 0.05), 5e-7);

        // A slow flow does not feel the bend, nor does one in a wide coil.
        Assert.Equal(64, 1e-3 * FrictionFactor.Coil(1e-3, 0.05), 1e-3);
        Assert.Equal(1, FrictionFactor.Coil(1e5, 1e-7) / FrictionFactor.Churchill(1e5), 1e-12);
    }

    [Theory]
    [InlineData(1e-4)]
    [InlineData(0.01)]
    [InlineData(0.05)]
    [InlineData(0.3)]
    public void FrictionInACoilHasNoSteps(double ratio)
    {
        double critical = FrictionFactor.CoilCriticalReynolds(ratio);
        double[] joins = [critical, 1.5 * critical, 15 / Math.Sqrt(ratio), 25 / Math.Sqrt(ratio), 35 / Math.Sqrt(ratio), 45 / Math.Sqrt(ratio), 100];
        foreach (double re in joins)
        {
            Assert.Equal(1, FrictionFactor.Coil(re * (1 + 1e-10), ratio) / FrictionFactor.Coil(re * (1 - 1e-10), ratio), 1e-6);
        }

        for (double re = 1; re < 1e6; re *= 1.1)
        {
            Assert.True(FrictionFactor.Coil(re, ratio) >= 0.999 * 64 / re);
        }
    }

    [Fact]
    public void FrictionOfTwoPhasesFollowsThePublications()
    {
        // H. Mueller-Steinhagen, K. Heck 1986: ends and the state.
        Assert.Equal(5089.2, TwoPhaseFriction.MuellerSteinhagenHeck(Stream, Flux, Bore), 0.05);
        Assert.Equal(308.54, TwoPhaseFriction.MuellerSteinhagenHeck(Stream with { Quality = 0 }, Flux, Bore), 0.005);
        Assert.Equal(8896.2, TwoPhaseFriction.MuellerSteinhagenHeck(Stream with { Quality = 1 }, Flux, Bore), 0.05);

        // L. Friedel 1979.
        Assert.Equal(5812.2, TwoPhaseFriction.Friedel(Stream, Flux, Bore), 0.05);

        // R. W. Lockhart, R. C. Martinelli 1949, D. Chisholm 1967, C = 20; X by its own phases flowing alone. The figure stands with 0.316 Re^-0.25; with 0.3164 it is 9704.4.
        Assert.Equal(9692.1, TwoPhaseFriction.LockhartMartinelli(Stream, Flux, Bore), 0.05);
        double x2 = Math.Pow(0.7 / 0.3, 1.75) * (10.0 / 600) * Math.Pow(150.0 / 8, 0.25);
        Assert.Equal(0.39087, Math.Sqrt(x2), 5e-6);
        double liquid = 0.316 * Math.Pow(0.7 * Flux * Bore / 150e-6, -0.25) * 0.49 * Flux * Flux / (2 * 600 * Bore);
        Assert.Equal(1, TwoPhaseFriction.LockhartMartinelli(Stream, Flux, Bore) / (liquid * (1 + (20 / Math.Sqrt(x2)) + (1 / x2))), 1e-12);

        // McAdams 1942, Cicchitti 1960, Dukler 1964: arithmetic.
        Assert.Equal(2.3715e-5, Stream.HomogeneousViscosity(TwoPhaseViscosity.McAdams), 5e-10);
        Assert.Equal(1.074e-4, Stream.HomogeneousViscosity(TwoPhaseViscosity.Cicchitti), 5e-9);
        Assert.Equal(1.3316e-5, Stream.HomogeneousViscosity(TwoPhaseViscosity.Dukler), 5e-10);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void EveryModelMeetsTheSinglePhases(int end)
    {
        TwoPhaseStream near = Stream with { Quality = Math.Abs(end - 1e-15) };
        TwoPhaseStream at = Stream with { Quality = end };
        Assert.Equal(1, TwoPhaseFriction.MuellerSteinhagenHeck(near, Flux, Bore) / TwoPhaseFriction.MuellerSteinhagenHeck(at, Flux, Bore), 1e-4);
        Assert.Equal(1, TwoPhaseFriction.Homogeneous(near, Flux, Bore, TwoPhaseViscosity.Cicchitti) / TwoPhaseFriction.Homogeneous(at, Flux, Bore, TwoPhaseViscosity.Cicchitti), 1e-6);

        // The slip terms of these two come in with a low power of the share of the other phase.
        Assert.Equal(1, TwoPhaseFriction.Friedel(near, Flux, Bore) / TwoPhaseFriction.Friedel(at, Flux, Bore), 0.02);
        Assert.Equal(1, TwoPhaseFriction.LockhartMartinelli(near, Flux, Bore) / TwoPhaseFriction.LockhartMartinelli(at, Flux, Bore), 1e-4);
    }

    [Fact]
    public void VoidFractionFollowsThePublications()
    {
        // S. M. Zivi 1964; S. Z. Rouhani, E. Axelsson 1970.
        Assert.Equal(0.86787, VoidFraction.Zivi(0.3, 10.0 / 600), 5e-6);
        double rouhani = VoidFraction.RouhaniAxelsson(
            0.3,
            Density.FromKilogramsPerCubicMeter(600),
            Density.FromKilogramsPerCubicMeter(10),
            ForcePerLength.FromNewtonsPerMeter(0.012),
            MassFlux.FromKilogramsPerSecondPerSquareMeter(200));
        Assert.Equal(0.87537, rouhani, 5e-6);
        Assert.Equal(0.96257, VoidFraction.Homogeneous(0.3, 10.0 / 600), 5e-6);

        // Exact ends and bounds; a fast flow of equal densities slips by the profile alone.
        Assert.Equal(0, VoidFraction.RouhaniAxelssonUnchecked(0, 600, 10, 0.012, 200));
        Assert.Equal(1, VoidFraction.RouhaniAxelssonUnchecked(1, 600, 10, 0.012, 200));
        Assert.Equal(0.3 / 1.084, VoidFraction.RouhaniAxelssonUnchecked(0.3, 600, 600, 0.012, 200), 1e-12);
        Assert.Equal(0.3, VoidFraction.Zivi(0.3, 1), 1e-12);
        for (double x = 0.01; x < 1; x += 0.01)
        {
            Assert.True(VoidFraction.RouhaniAxelssonUnchecked(x, 600, 10, 0.012, 20) < VoidFraction.RouhaniAxelssonUnchecked(x, 600, 10, 0.012, 200));
            Assert.True(VoidFraction.RouhaniAxelssonUnchecked(x, 600, 10, 0.012, 200) < VoidFraction.Homogeneous(x, 10.0 / 600));
            Assert.True(VoidFraction.Zivi(x, 10.0 / 600) < VoidFraction.Homogeneous(x, 10.0 / 600));
        }
    }

    [Fact]
    public void AViscousLiquidKeepsTheFrictionPositive()
    {
        // All liquid has a hundred times the friction of all vapour: the published form would be negative from x = 0.6 on.
        Assert.True((100 + (2 * (1 - 100) * 0.8)) * Math.Cbrt(0.2) + 0.512 < 0);
        double last = TwoPhaseFriction.MuellerSteinhagenHeck(100, 1, 0);
        Assert.Equal(100, last, 1e-12);
        for (double x = 0; x <= 1; x += 1e-3)
        {
            double next = TwoPhaseFriction.MuellerSteinhagenHeck(100, 1, x);
            Assert.True(next > 0.5);
            Assert.Equal(last, next, 0.3);
            last = next;
        }

        // Where both ends are alike both forms are.
        Assert.Equal(TwoPhaseFriction.MuellerSteinhagenHeck(1, 1, 0.7), TwoPhaseFriction.MuellerSteinhagenHeck(1 + 1e-12, 1, 0.7), 1e-9);
    }

    [Fact]
    public void ModelsOfABlendStandSideBySide()
    {
        State state = WorkingFluid.Mixture(("methane", 0.4), ("ethane", 0.3), ("propane", 0.3)).At(Temperature.FromKelvins(200), Pressure.FromBars(5));
        Assert.Equal(2, state.Phases.Count);
        double[] all =
        [
            .. Enum.GetValues<TwoPhaseFrictionModel>().Select(m => TwoPhaseFriction.PascalsPerMeter(
                state, MassFlux.FromKilogramsPerSecondPerSquareMeter(150), Length.FromMillimeters(4), m)),
        ];
        Assert.All(all, a => Assert.InRange(a / all[0], 0.4, 2.5));
        TwoPhaseStream stream = TwoPhaseStream.Of(state);
        Assert.Equal(state.VaporMassFraction, stream.Quality, 1e-12);
        Assert.Equal(all[0], TwoPhaseFriction.MuellerSteinhagenHeck(stream, 150, 4e-3), 1e-9 * all[0]);
    }

    [Fact]
    public void BadFiguresAreNamed()
    {
        State state = WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(100), Pressure.FromBars(1));
        MassFlux flux = MassFlux.FromKilogramsPerSecondPerSquareMeter(100);
        Length bore = Length.FromMillimeters(4);
        Assert.Contains("diameterRatio is 0.995", Assert.Throws<ArgumentOutOfRangeException>(() => FrictionFactor.Annulus(1e4, 0.995)).Message, StringComparison.Ordinal);
        Assert.Contains("allowed is 0 to 0.3", Assert.Throws<ArgumentOutOfRangeException>(() => FrictionFactor.Coil(1e4, 0.4)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => FrictionFactor.Coil(double.NaN, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => FrictionFactor.CoilCriticalReynolds(-0.1));
        Assert.Contains("quality is 1.5", Assert.Throws<ArgumentOutOfRangeException>(() => VoidFraction.Zivi(1.5, 0.1)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => VoidFraction.Homogeneous(0.5, 0));
        Assert.Contains("vaporDensity is 700 kg/m3", Assert.Throws<ArgumentOutOfRangeException>(() => VoidFraction.RouhaniAxelsson(
            0.3, Density.FromKilogramsPerCubicMeter(600), Density.FromKilogramsPerCubicMeter(700), ForcePerLength.FromNewtonsPerMeter(0.01), flux)).Message, StringComparison.Ordinal);
        Assert.Contains("flux is 0 kg/(s m2)", Assert.Throws<ArgumentOutOfRangeException>(
            () => TwoPhaseFriction.PascalsPerMeter(state, MassFlux.Zero, bore, TwoPhaseFrictionModel.Friedel)).Message, StringComparison.Ordinal);
        Assert.Contains("diameter is 0 m", Assert.Throws<ArgumentOutOfRangeException>(
            () => TwoPhaseFriction.PascalsPerMeter(state, flux, Length.Zero, TwoPhaseFrictionModel.Friedel)).Message, StringComparison.Ordinal);
        Assert.Contains("MuellerSteinhagenHeck, Friedel", Assert.Throws<ArgumentOutOfRangeException>(
            () => TwoPhaseFriction.PascalsPerMeter(state, flux, bore, (TwoPhaseFrictionModel)9)).Message, StringComparison.Ordinal);
    }
}
