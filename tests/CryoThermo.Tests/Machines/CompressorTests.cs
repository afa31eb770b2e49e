using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class CompressorTests
{
    private const double GasConstant = 8.314462618;
    private static readonly WorkingFluid Argon = WorkingFluid.Pure("argon");

    [Theory]
    [InlineData(2, 1, 0)]
    [InlineData(5, 0.7, 0)]
    [InlineData(5, 0.7, 0.4)]
    [InlineData(10, 0.9, 0.2)]
    public void DiluteArgonFollowsTheIdealGasFormula(double ratio, double efficiency, double shellLoss)
    {
        // Ideal monatomic gas: cp = 5/2 R, k = 5/3. At 0.01 bar and 300 K the second virial coefficient of argon (-16 cm3/mol, from memory)
        // makes B p/(R T) 6e-6, so 0.01 % holds at every ratio here.
        Compressor compressor = new(VolumeFlow.FromLitersPerMinute(60), efficiency, 0.8, shellLoss);
        CompressorResult result = compressor.Compress(Argon.At(Temperature.FromKelvins(300), Pressure.FromBars(0.01)), Pressure.FromBars(0.01 * ratio));
        double isentropic = 2.5 * GasConstant * 300 * (Math.Pow(ratio, 0.4) - 1);
        double flow = 1e-3 * 0.8 * 1000 / (GasConstant * 300);
        double work = isentropic / efficiency;
        Assert.Equal(flow, result.MolarFlow.MolesPerSecond, 1e-4 * flow);
        Assert.Equal(flow * work, (double)result.Power.Watts, 1e-4 * flow * work);
        Assert.Equal(flow * work * shellLoss, (double)result.ShellHeat.Watts, 1e-4 * flow * work);
        Assert.Equal(300 + (work * (1 - shellLoss) / (2.5 * GasConstant)), result.Discharge.Temperature.Kelvins, 0.1);
        Assert.Equal(ratio, result.PressureRatio, 1e-12);
        Assert.False(result.LiquidAtSuction);
        Assert.Equal(flow * 39.948e-3, result.MassFlow.KilogramsPerSecond, 2e-4 * flow * 39.948e-3);
    }

    [Fact]
    public void AnIsentropicCompressorKeepsTheEntropy()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.3), ("propane", 0.4));
        State suction = blend.At(Temperature.FromKelvins(290), Pressure.FromBars(2));
        CompressorResult ideal = new Compressor(VolumeFlow.FromLitersPerMinute(60), 1, 1).Compress(suction, Pressure.FromBars(15));
        CompressorResult real = new Compressor(VolumeFlow.FromLitersPerMinute(60), 0.6, 1).Compress(suction, Pressure.FromBars(15));
        Assert.Equal(suction.MolarEntropy.JoulesPerMoleKelvin, ideal.Discharge.MolarEntropy.JoulesPerMoleKelvin, 1e-8);
        Assert.Equal((double)ideal.Power.Watts / 0.6, (double)real.Power.Watts, 1e-9 * (double)real.Power.Watts);
        Assert.True(real.Discharge.Temperature > ideal.Discharge.Temperature);
    }

    [Fact]
    public void LiquidAtTheSuctionIsTold()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("methane", 0.5), ("isobutane", 0.5));
        Assert.True(new Compressor(VolumeFlow.FromLitersPerMinute(60), 0.7, 0.8)
            .Compress(blend.At(Temperature.FromKelvins(230), Pressure.FromBars(2)), Pressure.FromBars(10)).LiquidAtSuction);
    }

    [Theory]
    [InlineData(0, 0.7, 0.8, 0, "sweptVolumeFlow")]
    [InlineData(1, 0, 0.8, 0, "isentropicEfficiency")]
    [InlineData(1, 1.1, 0.8, 0, "isentropicEfficiency")]
    [InlineData(1, 0.7, 0, 0, "volumetricEfficiency")]
    [InlineData(1, 0.7, 0.8, 1, "shellHeatLossFraction")]
    [InlineData(1, 0.7, 0.8, -0.1, "shellHeatLossFraction")]
    public void FiguresOutOfRangeAreNamed(double swept, double isentropic, double volumetric, double shellLoss, string parameter) =>
        Assert.Equal(
            parameter,
            Assert.Throws<ArgumentOutOfRangeException>(() => new Compressor(VolumeFlow.FromLitersPerMinute(swept), isentropic, volumetric, shellLoss)).ParamName);

    [Fact]
    public void ADischargeNotAboveTheSuctionIsRefused()
    {
        Compressor compressor = new(VolumeFlow.FromLitersPerMinute(60), 0.7, 0.8);
        State suction = Argon.At(Temperature.FromKelvins(300), Pressure.FromBars(2));
        Assert.Contains(
            "above the suction pressure of 2 bar",
            Assert.Throws<ArgumentOutOfRangeException>(() => compressor.Compress(suction, Pressure.FromBars(2))).Message,
            StringComparison.Ordinal);
    }
}
