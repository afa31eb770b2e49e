using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class CylinderFillingTests
{
    private static readonly WorkingFluid Argon = WorkingFluid.Pure("argon");

    /// <summary>C = 0.03, n = 1.15, pressure ratio 8: clearance term 0.847 (worked example of refrigeration compressor texts, from memory).</summary>
    [Fact]
    public void TheWorkedExampleComesOut() =>
        Assert.Equal(0.847, new CylinderFilling(0.03).VolumetricEfficiency(Math.Pow(8, 1 / 1.15)), 5e-4);

    /// <summary>Dilute argon is an ideal gas of exponent 5/3 within 1e-5 at 1 mbar: 1 - C (r^(3/5) - 1), times the other two factors.</summary>
    [Theory]
    [InlineData(1.5, 0.04, 0, 1)]
    [InlineData(4, 0.02, 0.03, 0.9)]
    [InlineData(12, 0.05, 0.1, 0.85)]
    public void TheIdealGasFollowsTheClosedForm(double ratio, double clearance, double leak, double heating)
    {
        State suction = Argon.At(Temperature.FromKelvins(300), Pressure.FromPascals(100));
        Compressor compressor = new(VolumeFlow.FromLitersPerSecond(1), new(clearance, leak, heating), PressureRatioCurve.Constant(1));
        CompressorResult result = compressor.Compress(suction, Pressure.FromPascals(100 * ratio));
        double expected = (1 - (clearance * (Math.Pow(ratio, 0.6) - 1))) * (1 - leak) * heating;
        Assert.Equal(expected, result.VolumetricEfficiency, 1e-5);
        Assert.Equal(5.0 / 3, result.ReexpansionExponent!.Value, 1e-4);
        Assert.Equal(1e-3 * expected * 100 / (8.314462618 * 300), result.MolarFlow.MolesPerSecond, 1e-5 * result.MolarFlow.MolesPerSecond);
    }

    [Fact]
    public void TheExponentIsThatOfTheFluid()
    {
        // A heavy gas expands again by far more than argon does at the same ratio: n of 1.0 to 1.15 for isobutane, 1.6 to 1.8 for argon at these pressures.
        Compressor compressor = new(VolumeFlow.FromLitersPerSecond(1), new(0.03), PressureRatioCurve.Constant(0.6));
        CompressorResult heavy = compressor.Compress(WorkingFluid.Pure("isobutane").At(Temperature.FromKelvins(300), Pressure.FromBars(0.6)), Pressure.FromBars(5));
        CompressorResult light = compressor.Compress(Argon.At(Temperature.FromKelvins(300), Pressure.FromBars(0.6)), Pressure.FromBars(5));
        Assert.InRange(heavy.ReexpansionExponent!.Value, 1.0, 1.15);
        Assert.InRange(light.ReexpansionExponent!.Value, 1.6, 1.8);
        Assert.True(heavy.VolumetricEfficiency < light.VolumetricEfficiency);
    }

    [Fact]
    public void NothingIsDrawnInWhereTheClearanceFillsTheCylinder()
    {
        Compressor compressor = new(VolumeFlow.FromLitersPerSecond(1), new(0.2), PressureRatioCurve.Constant(0.6));
        State suction = WorkingFluid.Pure("propane").At(Temperature.FromKelvins(300), Pressure.FromBars(0.5));
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => compressor.Compress(suction, Pressure.FromBars(9)));
        Assert.Equal("dischargePressure", error.ParamName);
        Assert.Contains("clearance of 20 %", error.Message, StringComparison.Ordinal);
        Assert.Contains("below 6;", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ADischargeBeyondTheModelIsToldAsSuch()
    {
        Compressor compressor = new(VolumeFlow.FromLitersPerSecond(1), new(0.01), PressureRatioCurve.Constant(0.5));
        State suction = Argon.At(Temperature.FromKelvins(300), Pressure.FromBars(1));
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => compressor.Compress(suction, Pressure.FromBars(15)));
        Assert.Equal("dischargePressure", error.ParamName);
        Assert.Contains("hotter than 1000 K", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-0.01, 0, 1, "clearanceFraction")]
    [InlineData(0.31, 0, 1, "clearanceFraction")]
    [InlineData(0.03, 0.6, 1, "leakFraction")]
    [InlineData(0.03, 0, 0, "suctionHeatingFactor")]
    [InlineData(0.03, 0, 1.01, "suctionHeatingFactor")]
    [InlineData(double.NaN, 0, 1, "clearanceFraction")]
    public void FiguresOutOfRangeAreRefused(double clearance, double leak, double heating, string parameter) =>
        Assert.Equal(parameter, Assert.Throws<ArgumentOutOfRangeException>(() => new CylinderFilling(clearance, leak, heating)).ParamName);
}
