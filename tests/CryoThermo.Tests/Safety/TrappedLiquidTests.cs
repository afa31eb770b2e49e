using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Safety;

public sealed class TrappedLiquidTests(ITestOutputHelper output)
{
    private static readonly WorkingFluid Nitrogen = WorkingFluid.Pure("nitrogen");
    private static readonly State Full = Nitrogen.Saturation(Temperature.FromKelvins(77.355)).Liquid;

    [Fact]
    public void NitrogenShutInReachesThousandsOfBar()
    {
        // About 43 000 psi, 296 MPa, at 294 K is quoted in safety manuals (from memory), order of magnitude: within a tenth here.
        double pressure = new TrappedLiquid(Full).At(Temperature.FromKelvins(294)).Pressure.Megapascals;
        output.WriteLine($"{pressure:F1} MPa at 294 K, {new TrappedLiquid(Full).At(Temperature.FromKelvins(293)).Pressure.Megapascals:F1} at 293 K");
        Assert.Equal(1, pressure / 296, 0.1);

        // dp/dT = alpha/kappa, 1.75 MPa/K (of the data's estimates, not verified there).
        double slope = (new TrappedLiquid(Full).At(Temperature.FromKelvins(78.355)).Pressure - Full.Pressure).Megapascals;
        output.WriteLine($"{slope:F2} MPa in the first kelvin");
        Assert.Equal(1, slope / 1.75, 0.15);
        Assert.Equal(1, new TrappedLiquid(Full).LiquidShare, 1e-12);
    }

    [Fact]
    public void AVesselThatStretchesHoldsLess()
    {
        StretchingVessel tube = StretchingVessel.Cylinder(Length.FromMillimeters(10), Length.FromMillimeters(0.5), Pressure.FromGigapascals(120), 0.34);
        TrappedLiquid stiff = new(Full);
        TrappedLiquid soft = new(Full, tube);
        Temperature warm = Temperature.FromKelvins(120);
        double p = soft.At(warm).Pressure.Pascals;

        // Both conditions at once, recomputed: the density of the stretched volume, and the pressure of the fluid at it.
        double growth = (p - Full.Pressure.Pascals) * 10 / 0.5 / (4 * 120e9) * (5 - (4 * 0.34));
        Assert.Equal(1, Nitrogen.AtDensity(warm, Full.MolarDensity / (1 + growth)).Pressure.Pascals / p, 1e-7);
        Assert.True(p < 0.95 * stiff.At(warm).Pressure.Pascals);
        output.WriteLine($"{stiff.At(warm).Pressure.Bars:F0} stiff, {p / 1e5:F0} bar stretched");

        // Barlow: 200 MPa over 10 mm/(2 x 0.5 mm).
        Assert.Equal(200, tube.PressureAt(Pressure.FromMegapascals(200)).Bars, 1e-9);
        Assert.Equal(400, StretchingVessel.Sphere(Length.FromMillimeters(10), Length.FromMillimeters(0.5), Pressure.FromGigapascals(120)).PressureAt(Pressure.FromMegapascals(200)).Bars, 1e-9);
    }

    [Fact]
    public void TheTemperatureThatExceedsARatingIsFound()
    {
        TrappedLiquid shut = new(Full);
        Temperature at = shut.ReachesAt(Pressure.FromBars(40), Temperature.FromKelvins(293))!.Value;
        Assert.Equal(40, shut.At(at).Pressure.Bars, 1e-6);
        Assert.InRange(at.Kelvins, 77.4, 82);

        // Half full: gas above the critical density of nothing; it stays far lower, and a rating of 1 000 bar is not reached.
        State half = Nitrogen.AtDensity(Temperature.FromKelvins(77.355), Full.MolarDensity * 0.3);
        TrappedLiquid part = new(half);
        Assert.Equal(0.297, part.LiquidShare, 2e-3);
        Assert.Null(part.ReachesAt(Pressure.FromBars(1000), Temperature.FromKelvins(293)));
        Caution held = part.CautionAt(Temperature.FromKelvins(293), Pressure.FromBars(1000));
        Caution burst = shut.CautionAt(Temperature.FromKelvins(293), Pressure.FromBars(40));
        output.WriteLine(burst.Figure);
        Assert.Equal(CautionSeverity.Notice, held.Severity);
        Assert.Equal(CautionSeverity.Danger, burst.Severity);
        Assert.Contains("40 bar are passed at", burst.Figure, StringComparison.Ordinal);
        Assert.EndsWith("Local codes and licensed practice decide.", burst.Advice, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => shut.ReachesAt(Pressure.FromPascals(10), Temperature.FromKelvins(293)));
        Assert.Throws<ArgumentOutOfRangeException>(() => shut.ReachesAt(Pressure.FromBars(40), Temperature.FromKelvins(70)));
        Assert.Throws<ArgumentOutOfRangeException>(() => StretchingVessel.Sphere(Length.FromMillimeters(10), Length.FromMillimeters(2), Pressure.FromGigapascals(120)));
    }
}
