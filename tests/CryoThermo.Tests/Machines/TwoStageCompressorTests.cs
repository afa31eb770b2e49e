using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class TwoStageCompressorTests
{
    private static readonly AfterCooler Intercooler = new(Temperature.FromKelvins(300));

    private static Compressor Stage(double litersPerSecond, double clearance = 0) =>
        new(VolumeFlow.FromLitersPerSecond(litersPerSecond), new CylinderFilling(clearance), PressureRatioCurve.Constant(0.6));

    [Fact]
    public void WithoutClearanceAnIdealGasDividesByTheSweptVolumes()
    {
        // Same temperature at both suctions and no clearance: p between = p suction x swept first / swept second, for an ideal gas.
        WorkingFluid argon = WorkingFluid.Pure("argon");
        State suction = argon.At(Temperature.FromKelvins(300), Pressure.FromPascals(1000));
        TwoStageResult result = new TwoStageCompressor(Stage(1), Stage(0.3), Intercooler).Compress(suction, Pressure.FromPascals(12000));
        Assert.Equal(1000 / 0.3, result.IntermediatePressure.Pascals, 0.05);
        Assert.Equal(0, result.FlowMismatch, 1e-11);
    }

    [Fact]
    public void RealStagesCarryTheSameMassAndCloseTheirBalance()
    {
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");
        State suction = nitrogen.At(Temperature.FromKelvins(300), Pressure.FromBars(1.2));
        AfterCooler cooler = new(Temperature.FromKelvins(305), Pressure.FromBars(0.1));
        TwoStageResult result = new TwoStageCompressor(Stage(1, 0.04), Stage(0.35, 0.05), cooler).Compress(suction, Pressure.FromBars(14));
        Assert.Equal(0, result.FlowMismatch, 1e-11);
        Assert.InRange(result.IntermediatePressure.Bars, 1.3, 13);
        double first = (double)result.First.Power.Watts;
        double heat = (double)result.IntercoolerDuty.Watts;
        State cooled = nitrogen.At(Temperature.FromKelvins(305), result.IntermediatePressure - Pressure.FromBars(0.1));
        double flow = result.First.MolarFlow.MolesPerSecond;
        Assert.Equal(heat, first - (flow * (cooled.MolarEnthalpy - suction.MolarEnthalpy).JoulesPerMole), 1e-6 * first);
        Assert.Equal((double)result.Power.Watts, first + (double)result.Second.Power.Watts, 1e-9);

        // A single stage over the same ratio discharges hotter and takes more.
        CompressorResult single = Stage(1, 0.04).Compress(suction, Pressure.FromBars(14));
        Assert.True(single.Discharge.Temperature > result.Second.Discharge.Temperature);
        Assert.True(single.Power.Watts / (decimal)single.MolarFlow.MolesPerSecond > result.Power.Watts / (decimal)flow);
        (LimitReport one, LimitReport two) = result.Assess(CompressorLimits.Usual, CompressorLimits.Usual);
        Assert.NotEmpty(one.Checks);
        Assert.NotEmpty(two.Checks);
    }

    [Fact]
    public void StagesThatDoNotFitAreToldWhichIsWrong()
    {
        State suction = WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(300), Pressure.FromBars(1));
        Assert.Contains("second stage is too large", Assert.Throws<ArgumentOutOfRangeException>(
            () => new TwoStageCompressor(Stage(1), Stage(2), Intercooler).Compress(suction, Pressure.FromBars(9))).Message, StringComparison.Ordinal);
        Assert.Contains("second stage is too small", Assert.Throws<ArgumentOutOfRangeException>(
            () => new TwoStageCompressor(Stage(1), Stage(0.05), Intercooler).Compress(suction, Pressure.FromBars(9))).Message, StringComparison.Ordinal);
        Assert.Equal("dischargePressure", Assert.Throws<ArgumentOutOfRangeException>(
            () => new TwoStageCompressor(Stage(1), Stage(0.3), Intercooler).Compress(suction, Pressure.FromBars(0.9))).ParamName);
    }

    [Fact]
    public void RandomPairsMatchTheirFlows()
    {
        Random random = new(4);
        WorkingFluid[] fluids = [WorkingFluid.Pure("nitrogen"), WorkingFluid.Pure("methane"), WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.3), ("ethane", 0.2))];
        int solved = 0;
        for (int i = 0; i < 60; i++)
        {
            WorkingFluid fluid = fluids[random.Next(fluids.Length)];
            State suction = fluid.At(Temperature.FromKelvins(285 + (20 * random.NextDouble())), Pressure.FromBars(0.7 + (2 * random.NextDouble())));
            Pressure high = suction.Pressure * (3 + (20 * random.NextDouble()));
            TwoStageCompressor pair = new(
                Stage(1, 0.06 * random.NextDouble()), Stage(0.1 + random.NextDouble(), 0.06 * random.NextDouble()), new(Temperature.FromKelvins(295 + (20 * random.NextDouble())), 0.1 * random.NextDouble() * suction.Pressure));
            try
            {
                TwoStageResult result = pair.Compress(suction, high);
                Assert.Equal(0, result.FlowMismatch, 1e-9);
                Assert.True(result.IntermediatePressure > suction.Pressure && result.IntermediatePressure < high);
                solved++;
            }
            catch (ArgumentOutOfRangeException error) when (error.Message.Contains("second stage is too", StringComparison.Ordinal))
            {
                // The volumes were drawn blindly.
            }
        }

        Assert.InRange(solved, 30, 60);
    }
}
