using CryoThermo.Checks.Valves;
using CryoThermo.Flow;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Flow;

/// <summary>Made-up tests follow another law of flow than the evaluation; the rates over thousands of them are in docs/concepts/valves.md.</summary>
public sealed class ValveCalibrationTests(ITestOutputHelper output)
{
    private const double Atmosphere = 97000;

    /// <summary>
    /// 3 % of noise on each gauge reading. The true Kv is the one that gives the same flow at the pressures of the test. Of 300 tests of each law 98 of 100 keep 5 %
    /// everywhere; these are the first two of each seed.
    /// </summary>
    [Theory]
    [InlineData(FlowLaw.Nozzle)]
    [InlineData(FlowLaw.SharpEdge)]
    public void TheCurveIsWithinFivePercentThoughTheFlowFollowsAnotherLaw(FlowLaw law)
    {
        int within = 0;
        for (int seed = 1; seed <= 3; seed++)
        {
            for (int number = 0; number < 2; number++)
            {
                (double greatest, double rms, double small) = BenchRates.CurveError(law, 0.03, 0, seed, number);
                output.WriteLine($"{law} seed {seed} test {number}: greatest {greatest:P2}, rms {rms:P2}, against small drops {small:P1}");
                within += greatest <= 0.05 ? 1 : 0;
                Assert.True(rms < 0.025);
            }
        }

        Assert.True(within == 6, $"{within} of 6");
    }

    [Fact]
    public void AHundredHealthyTestsFindNothing() => Assert.Equal(0, BenchRates.Found(BenchFault.None, 100, 11, output.WriteLine));

    [Theory]
    [InlineData(BenchFault.Stuck)]
    [InlineData(BenchFault.SeatLeak)]
    [InlineData(BenchFault.HoseLeak)]
    [InlineData(BenchFault.WornCompressor)]
    public void AFaultIsFound(BenchFault fault) => Assert.True(BenchRates.Found(fault, 10, 12, output.WriteLine) >= 0.95);

    [Fact]
    public void TheUncertaintyOfTheCurveIsThatOfItsErrors()
    {
        // Errors over stated uncertainties of 40 tests, near the open end: their spread is near one.
        double squares = 0;
        int count = 0;
        for (int number = 0; number < 40; number++)
        {
            GeneratedBench bench = GeneratedBench.Create((FlowLaw)(number % 2), BenchFault.None, 0.03, 0.03, 5, number);
            ValveCalibration calibration = ValveCalibration.FromBenchTest(bench.Test, [.. bench.Readings.Select(r => r with { ArrivingFreeAir = null })]);
            double middle = 0.95 * calibration.Curve!.Widest.Steps;
            if (bench.TrueKv(middle) is not { } right)
            {
                continue;
            }

            double error = (calibration.Curve.KvAt(middle).FlowCoefficientKv / right) - 1;
            squares += Math.Pow(error / calibration.UncertaintyShareAt(middle), 2);
            count++;
        }

        output.WriteLine($"{Math.Sqrt(squares / count):F3}");
        Assert.True(count > 25);
        Assert.InRange(Math.Sqrt(squares / count), 0.7, 1.4);
    }

    [Fact]
    public void ReadingsWithoutErrorGiveTheValveBack()
    {
        // The evaluation's own law: a straight line above 40 steps.
        BenchTest test = Test() with { UpstreamLimit = Pressure.FromBars(9) };
        List<BenchReading> readings = [];
        for (int s = 0; s <= 500; s += 20)
        {
            readings.Add(new(s, Upstream(test, 1.6e-4 * (s - 40)), Pressure.FromPascals(Atmosphere), Temperature.FromKelvins(295)));
        }

        ValveCalibration calibration = ValveCalibration.FromBenchTest(test, readings);
        output.WriteLine(calibration.ToTable().ToString());
        Assert.Empty(calibration.Findings);
        Assert.Equal(2, calibration.NotChecked.Count);
        Assert.InRange(calibration.DeadBandSteps!.Value, 38, 42);
        Assert.True(calibration.Curve!.KvAt(70).IsExtrapolated);
        Assert.False(calibration.Curve.KvAt(110).IsExtrapolated);
        foreach (double s in new[] { 250.0, 300, 400, 500 })
        {
            Assert.Equal(1, calibration.Curve.KvAt(s).FlowCoefficientKv / (1.6e-4 * (s - 40)), 1e-3);
        }

        Assert.Equal(1, calibration.Scatter);

        // A flow that is off by 5 % for all readings moves the whole curve, and the uncertainty says so.
        Assert.InRange(ValveCalibration.FromBenchTest(test with { FlowShare = 0.05 }, readings).UncertaintyShareAt(400), 0.05, 0.052);
    }

    [Fact]
    public void AValveThatStaysShutIsToldAsStuck()
    {
        BenchTest test = Test() with { UpstreamLimit = Pressure.FromBars(9), GaugeReadingShare = 0.01 };
        BenchReading[] readings = [.. Enumerable.Range(0, 10).Select(i => new BenchReading(50 * i, Pressure.FromBars(9), Pressure.FromPascals(Atmosphere), Temperature.FromKelvins(295)))];
        ValveCalibration calibration = ValveCalibration.FromBenchTest(test, readings);
        Assert.Null(calibration.Curve);
        Assert.Equal(BenchFindingKind.StuckValve, Assert.Single(calibration.Findings).Kind);
        Assert.Throws<InvalidOperationException>(() => calibration.UncertaintyShareAt(100));
        Assert.Contains("limit", calibration.ToTable().ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void ASingleWrongReadingHardlyCounts()
    {
        BenchTest test = Test() with { GaugeReadingShare = 0.01 };
        BenchReading[] readings = [.. Enumerable.Range(0, 24).Select(i => new BenchReading(
            100 + (15 * i), Upstream(test, 1e-3 + (3e-5 * 15 * i)), Pressure.FromPascals(Atmosphere), Temperature.FromKelvins(295)))];
        double right = ValveCalibration.FromBenchTest(test, readings).Curve!.KvAt(280).FlowCoefficientKv;
        readings[12] = readings[12] with { UpstreamPressure = readings[12].UpstreamPressure * 1.5 };
        double with = ValveCalibration.FromBenchTest(test, readings).Curve!.KvAt(280).FlowCoefficientKv;
        output.WriteLine($"{with / right:F4}");
        Assert.Equal(1, with / right, 0.02);
    }

    [Fact]
    public void BadInputIsRefused()
    {
        BenchReading reading = new(100, Pressure.FromBars(3), Pressure.FromBars(1), Temperature.FromKelvins(295));
        Assert.Throws<ArgumentException>(() => ValveCalibration.FromBenchTest(Test(), [reading, reading with { Steps = 200 }]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ValveCalibration.FromBenchTest(Test(), [reading with { UpstreamPressure = Pressure.FromBars(0.9) }]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ValveCalibration.FromBenchTest(Test(), [reading with { AirTemperature = Temperature.FromKelvins(100) }]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Test() with { GaugeReadingShare = 2 });
        Assert.Throws<ArgumentOutOfRangeException>(() => Test() with { FreeAirDelivery = VolumeFlow.Zero });
        BenchReading gauge = BenchReading.OfGauge(10, new GaugePressure(Pressure.FromBars(2), Pressure.FromBars(0.97)), Temperature.FromKelvins(295));
        Assert.Equal(2.97, gauge.UpstreamPressure.Bars, 1e-12);
    }

    private static BenchTest Test() => new()
    {
        Style = ValveStyle.Needle,
        FreeAirDelivery = VolumeFlow.FromLitersPerMinute(25),
        IntakePressure = Pressure.FromPascals(Atmosphere),
        IntakeTemperature = Temperature.FromKelvins(295),
    };

    // The pressure before a valve of a Kv, or 9 bar where that is more.
    private static Pressure Upstream(BenchTest test, double kv)
    {
        WorkingFluid air = WorkingFluid.Pure("air");
        MassFlow flow = MassFlow.FromKilogramsPerSecond(test.FreeAirDelivery.CubicMetersPerSecond * air.At(test.IntakeTemperature, test.IntakePressure).Density.KilogramsPerCubicMeter);
        Pressure highest = Pressure.FromBars(9);
        if (kv <= 1e-7 || new ControlValve(kv, test.Style).FlowTo(air.At(Temperature.FromKelvins(295), highest), test.IntakePressure).MassFlow < flow)
        {
            return highest;
        }

        return new ControlValve(kv, test.Style).InletPressureFor(air, Temperature.FromKelvins(295), test.IntakePressure, flow, highest);
    }
}
