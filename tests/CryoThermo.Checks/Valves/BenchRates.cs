using CryoThermo.Flow;

namespace CryoThermo.Checks.Valves;

/// <summary>How often the calibration of made-up bench tests is right, and how far its curve is off.</summary>
public static class BenchRates
{
    private static readonly (BenchFault Fault, BenchFindingKind[] Found)[] Expected =
    [
        (BenchFault.Stuck, [BenchFindingKind.StuckValve]),
        (BenchFault.SeatLeak, [BenchFindingKind.ClosedEndLeak]),
        (BenchFault.HoseLeak, [BenchFindingKind.KnownFlowNotArriving, BenchFindingKind.FlowFallsWithPressure]),
        (BenchFault.WornCompressor, [BenchFindingKind.FlowFallsWithPressure]),
    ];

    /// <summary>
    /// Share of tests with one fault in which it is found; for none the share with any finding. Both flow laws in turn, 3 % of noise of the gauge, and in every other
    /// pair 3 % of the flow as well.
    /// </summary>
    public static double Found(BenchFault fault, int count, int seed, Action<string>? tell = null)
    {
        int found = 0;
        for (int number = 0; number < count; number++)
        {
            GeneratedBench bench = GeneratedBench.Create((FlowLaw)(number % 2), fault, 0.03, number % 4 < 2 ? 0 : 0.03, seed, number);
            ValveCalibration calibration = ValveCalibration.FromBenchTest(bench.Test, bench.Readings);
            bool isFound = fault == BenchFault.None
                ? calibration.Findings.Count > 0
                : calibration.Findings.Any(f => Expected.Single(e => e.Fault == fault).Found.Contains(f.Kind));
            if (isFound == (fault == BenchFault.None))
            {
                tell?.Invoke($"{fault} seed {seed} test {number}: {string.Join(" | ", calibration.Findings)}");
            }

            found += isFound ? 1 : 0;
        }

        return (double)found / count;
    }

    /// <summary>Greatest and root-mean-square error of the curve of one healthy test, over the openings that pass, at the true coefficient of the test condition.</summary>
    public static (double Greatest, double RootMeanSquare, double SmallDrop) CurveError(FlowLaw law, double gaugeNoise, double flowNoise, int seed, int number)
    {
        GeneratedBench bench = GeneratedBench.Create(law, BenchFault.None, gaugeNoise, flowNoise, seed, number);

        // The flow behind the valve takes no part here: it would hide that of the compressor.
        ValveCalibration calibration = ValveCalibration.FromBenchTest(bench.Test, [.. bench.Readings.Select(r => r with { ArrivingFreeAir = null })]);
        double low = calibration.DeadBandRange?.Open ?? calibration.Curve!.Points[0].Steps;
        OpeningCurve curve = calibration.Curve!;
        double high = curve.Widest.Steps;
        List<double> errors = [];
        double small = 0;
        for (int i = 0; i <= 100; i++)
        {
            double s = low + ((high - low) * i / 100);
            if (bench.TrueKv(s) is { } kv)
            {
                errors.Add((curve.KvAt(s).FlowCoefficientKv / kv) - 1);
                small = Math.Max(small, Math.Abs((curve.KvAt(s).FlowCoefficientKv / bench.SmallDropKv(s)) - 1));
            }
        }

        return (errors.Max(Math.Abs), Math.Sqrt(errors.Average(e => e * e)), small);
    }

    /// <summary>Writes all rates.</summary>
    public static int Write(int count, int seeds, TextWriter output)
    {
        foreach (FlowLaw law in Enum.GetValues<FlowLaw>())
        {
            foreach ((double gauge, double flow) in new[] { (0.03, 0.0), (0.03, 0.03) })
            {
                (double Greatest, double RootMeanSquare, double SmallDrop)[] errors =
                    [.. Enumerable.Range(1, seeds).SelectMany(seed => Enumerable.Range(0, count / 10).Select(n => CurveError(law, gauge, flow, seed, n)))];
                double[] greatest = [.. errors.Select(e => e.Greatest).Order()];
                output.WriteLine(
                    $"{law}, gauge {gauge:P0}, flow {flow:P0}: curve off by {errors.Average(e => e.RootMeanSquare):P2} (rms), greatest {greatest.Average():P2} on average, {greatest[(int)(0.95 * greatest.Length)]:P2} in 95 of 100 tests, {greatest[^1]:P2} at most; within 5 % everywhere in {greatest.Count(g => g <= 0.05) / (double)greatest.Length:P1} of {greatest.Length}; against small drops at most {errors.Select(e => e.SmallDrop).Order().ElementAt((int)(0.95 * errors.Length)):P1} in 95 of 100");
            }
        }

        foreach (BenchFault fault in Enum.GetValues<BenchFault>())
        {
            double[] rates = [.. Enumerable.Range(1, seeds).Select(seed => Found(fault, count, seed, output.WriteLine))];
            output.WriteLine($"{fault}: {(fault == BenchFault.None ? "any finding" : "found")} in {string.Join(", ", rates.Select(r => $"{r:P1}"))} of {count} tests a seed");
        }

        return 0;
    }
}
