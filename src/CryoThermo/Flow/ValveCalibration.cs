using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// The opening curve of a valve from a bench test with air: Kv of each reading with its uncertainty, a smooth rising curve through them, the dead band, and what
/// looks wrong. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Kv is the coefficient that gives the known flow at the pressures of the test by the equations of <see cref="ControlValve"/> for the style stated. A valve
/// that follows another law has another coefficient at other pressure ratios.
/// </remarks>
public sealed class ValveCalibration
{
    /// <summary>A seat may pass this share of the widest Kv when shut (class II of IEC 60534-4, from memory).</summary>
    private const double SeatLeakShare = 0.005;

    /// <summary>How many standard uncertainties a finding needs.</summary>
    private const double Sure = 4;

    /// <summary>A valve is stuck where over this share of its travel Kv surely rises by less than this share; a square-root valve, the flattest of the usual ones, rises by 29 % in its last two fifths.</summary>
    private const double StuckTravel = 0.4;
    private const double StuckRise = 0.15;
    private const int StuckReadings = 5;

    /// <summary>Least share of the flow that has to be missing, besides being sure.</summary>
    private const double LeastMissing = 0.05;

    private const int CurvePoints = 40;
    private const int LeastOpenings = 4;

    /// <summary>No reading counts as better than this.</summary>
    private const double LeastUncertainty = 1e-4;

    private readonly MonotoneFit? fit;
    private readonly double lowest;
    private readonly double highest;

    private ValveCalibration(BenchTest test, IReadOnlyList<BenchReading> readings)
    {
        Test = test;
        WorkingFluid air = WorkingFluid.Pure("air");
        double density = air.At(test.IntakeTemperature, test.IntakePressure).Density.KilogramsPerCubicMeter;
        Points = WithShutEnd([.. readings.Select(r => Evaluate(test, air, density, r)).OrderBy(p => p.Reading.Steps)]);
        CalibrationPoint[] flowing = [.. Points.Where(p => !p.IsAtLimit)];
        int openings = Points.Select(p => p.Reading.Steps).Distinct().Count();
        if (openings < LeastOpenings)
        {
            throw new ArgumentException($"readings has {openings} openings; at least {LeastOpenings} are needed.", nameof(readings));
        }

        List<string> notChecked = [];
        List<BenchFinding> findings = [];
        Findings = findings;
        NotChecked = notChecked;
        int passing = flowing.Select(p => p.Reading.Steps).Distinct().Count();
        if (passing < LeastOpenings)
        {
            findings.Add(new(
                BenchFindingKind.StuckValve,
                $"Of {openings} openings {passing} let the pressure stay below its limit: the needle does not follow the drive, or something closes the valve. Or the valve is too small for this compressor at every opening: then blow off a known part of the air."));
            return;
        }

        double[] steps = [.. flowing.Select(p => p.Reading.Steps)];
        fit = new(steps, [.. flowing.Select(p => p.FlowCoefficientKv)], [.. flowing.Select(p => Math.Max(p.UncertaintyShare, LeastUncertainty))]);
        (lowest, highest) = (steps[0], steps[^1]);
        FindLeak(findings, notChecked);
        FindStuck(flowing, findings);
        FindMissingFlow(findings, notChecked);
        if (findings.All(f => f.Kind != BenchFindingKind.ClosedEndLeak) && lowest > 0)
        {
            // By the straight line from the lowest flow: a pressure at its limit only bounds Kv, and does not tell that the valve is shut.
            double shut = Math.Min(test.ClosedUpToSteps ?? 0, lowest);
            double next = lowest + ((highest - lowest) / CurvePoints);
            double slope = (fit.At(next) - fit.At(lowest)) / (next - lowest);
            double start = slope > 0 ? lowest - (fit.At(lowest) / slope) : shut;
            DeadBandSteps = Math.Min(Math.Max(start, shut), lowest * (1 - 1e-6));
            DeadBandRange = (Math.Min(shut, DeadBandSteps.Value), lowest);
        }

        List<OpeningPoint> curve = DeadBandSteps is { } band ? [new(band, 0, true)] : [];
        for (int i = 0; i <= CurvePoints; i++)
        {
            double at = lowest + ((highest - lowest) * i / CurvePoints);
            curve.Add(new(at, Math.Max(fit.At(at), curve.Count > 0 ? curve[^1].FlowCoefficientKv : 0)));
        }

        Curve = new(curve);
    }

    /// <summary>The test.</summary>
    public BenchTest Test { get; }

    /// <summary>What each reading tells, by rising steps.</summary>
    public IReadOnlyList<CalibrationPoint> Points { get; }

    /// <summary>The opening curve; null where fewer than four openings let the pressure stay below its limit.</summary>
    public OpeningCurve? Curve { get; }

    /// <summary>
    /// Steps up to which nothing passes, by a straight line from the lowest opening that let the pressure stay below its limit; null where that is zero, or a leak
    /// does not let it be told.
    /// </summary>
    public double? DeadBandSteps { get; }

    /// <summary>Where the valve must be shut by its maker, or zero, and the lowest opening that passed enough: the dead band ends between them. Null where it could not be told.</summary>
    public (double Shut, double Open)? DeadBandRange { get; }

    /// <summary>What looks wrong; empty when nothing does.</summary>
    public IReadOnlyList<BenchFinding> Findings { get; }

    /// <summary>What could not be checked with these readings, and what that would need.</summary>
    public IReadOnlyList<string> NotChecked { get; }

    /// <summary>Scatter of the readings over their stated uncertainties; 1 where they scatter as stated or less.</summary>
    public double Scatter => fit?.Scatter ?? 1;

    /// <summary>Evaluates a bench test.</summary>
    /// <param name="test">What is common to the readings.</param>
    /// <param name="readings">At four or more openings; several at one opening are welcome.</param>
    /// <exception cref="ArgumentException">There are too few openings.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A reading is out of its range.</exception>
    public static ValveCalibration FromBenchTest(BenchTest test, IReadOnlyList<BenchReading> readings)
    {
        ArgumentNullException.ThrowIfNull(test);
        ArgumentNullException.ThrowIfNull(readings);
        return new(test, readings);
    }

    /// <summary>Standard uncertainty of the curve at an opening, as a share: from the scatter of the readings and the common error of the flow.</summary>
    /// <param name="steps">Within the openings that passed.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside them.</exception>
    /// <exception cref="InvalidOperationException">There is no curve.</exception>
    public double UncertaintyShareAt(double steps)
    {
        if (fit is null)
        {
            throw new InvalidOperationException("There is no curve: fewer than four openings let the pressure stay below its limit.");
        }

        Guard.InRange(steps, lowest, highest, "steps");
        double own = fit.ShareAt(steps);
        return Math.Sqrt((own * own) + (Test.FlowShare * Test.FlowShare));
    }

    /// <summary>The calibration as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"Calibration with air: {(DeadBandSteps is { } band ? $"shut up to about {band:F0} steps ({DeadBandRange!.Value.Shut:F0} to {DeadBandRange.Value.Open:F0})" : "closed end not told")}; {(Findings.Count == 0 ? "nothing looks wrong" : string.Join(" ", Findings.Select(f => f.Message)))}",
        ["steps", "before, bar absolute", "before, bar above outlet", "Kv, m3/h", "+- %", "curve, m3/h", "+- %"],
        [.. Points.Select(p => (IReadOnlyList<string>)
        [
            $"{p.Reading.Steps:G6}",
            $"{p.Reading.UpstreamPressure.Bars:F3}",
            $"{(p.Reading.UpstreamPressure - p.Reading.OutletPressure).Bars:F3}",
            p.IsAtLimit ? "limit" : $"{p.FlowCoefficientKv:G4}",
            p.IsAtLimit ? string.Empty : $"{100 * p.UncertaintyShare:F1}",
            Curve is null ? string.Empty : $"{Curve.KvAt(p.Reading.Steps).FlowCoefficientKv:G4}",
            Curve is not null && p.Reading.Steps >= lowest && p.Reading.Steps <= highest ? $"{100 * UncertaintyShareAt(p.Reading.Steps):F1}" : string.Empty,
        ])]);

    private static CalibrationPoint Evaluate(BenchTest test, WorkingFluid air, double density, BenchReading reading)
    {
        double outlet = Guard.InRange(reading.OutletPressure.Pascals, 25e3, 1e7, "Pa absolute", nameof(reading.OutletPressure));
        double upstream = Guard.InRange(reading.UpstreamPressure.Pascals, outlet * (1 + 1e-6), 1e7, "Pa absolute", nameof(reading.UpstreamPressure));
        Guard.InRange(reading.AirTemperature.Kelvins, 230, 400, "K", nameof(reading.AirTemperature));
        Guard.InRange(reading.Steps, 0, 1e9, "steps", nameof(reading.Steps));
        VolumeFlow free = reading.ArrivingFreeAir ?? test.FreeAirDelivery;
        MassFlow flow = MassFlow.FromKilogramsPerSecond(Guard.Positive(free.CubicMetersPerSecond, "m3/s", nameof(reading.ArrivingFreeAir)) * density);
        double KvAt(double p) => ControlValve.ForFlow(
            air.At(reading.AirTemperature, Pressure.FromPascals(p)), Pressure.FromPascals(outlet), flow, test.Style).FlowCoefficientKv;
        double gauge = upstream - test.IntakePressure.Pascals;
        double deviation = Math.Sqrt(Square(test.GaugeReadingShare * gauge) + Square(test.GaugeReading.Pascals));
        double kv = KvAt(upstream);

        // A reading near the outlet pressure can be off by all of the difference: then as much as that.
        double shift = Math.Min(0.5 * (upstream - outlet), Math.Max(deviation, 1e-6 * upstream));
        double byPressure = Math.Abs(KvAt(upstream + shift) - KvAt(upstream - shift)) / (2 * shift * kv) * deviation;
        double byFlow = reading.ArrivingFreeAir is null ? test.FlowReadingShare : test.ArrivingFlowShare;
        double byTemperature = 0.5 * test.AirTemperature.Kelvins / reading.AirTemperature.Kelvins;
        bool atLimit = test.UpstreamLimit is { } limit && upstream >= limit.Pascals - (3 * LimitDeviation(test, limit));
        return new(reading, kv, Math.Sqrt(Square(byPressure) + Square(byFlow) + Square(byTemperature)), atLimit);
    }

    // A reading low by chance among those at the limit is one of them.
    private static CalibrationPoint[] WithShutEnd(CalibrationPoint[] sorted)
    {
        const double Most = 0.75;
        int end = -1;
        int atLimit = 0;
        for (int i = 0; i < sorted.Length; i++)
        {
            atLimit += sorted[i].IsAtLimit ? 1 : 0;
            end = sorted[i].IsAtLimit && atLimit >= Most * (i + 1) ? i : end;
        }

        return [.. sorted.Select((p, i) => i <= end ? p with { IsAtLimit = true } : p)];
    }

    private static double LimitDeviation(BenchTest test, Pressure limit) => Math.Sqrt(
        Square(test.GaugeReadingShare * (limit.Pascals - test.IntakePressure.Pascals)) + Square(test.GaugeReading.Pascals));

    private static double Square(double x) => x * x;

    private void FindLeak(List<BenchFinding> findings, List<string> notChecked)
    {
        CalibrationPoint[] shut = [.. Points.Where(p => p.Reading.Steps <= Test.ClosedUpToSteps)];
        if (shut.Length == 0)
        {
            notChecked.Add("Leak at the closed end: it needs a reading where the valve must be shut, and the steps up to which it must be.");
            return;
        }

        // Against the limit by their mean: a single reading may lie low by chance.
        double mean = shut.Average(p => p.Reading.UpstreamPressure.Pascals);
        if (Test.UpstreamLimit is { } limit && mean > limit.Pascals - Math.Max(Sure * LimitDeviation(Test, limit) / Math.Sqrt(shut.Length), 0.02 * limit.Pascals))
        {
            return;
        }

        double leak = shut.Average(p => p.FlowCoefficientKv);
        double widest = Points.Max(p => p.FlowCoefficientKv);
        if (leak > SeatLeakShare * widest)
        {
            findings.Add(new(
                BenchFindingKind.ClosedEndLeak,
                $"Shut, at up to {shut.Max(p => p.Reading.Steps):G4} steps, the pressure stays at {mean / 1e5:F2} bar absolute: air goes through an opening of Kv {leak:G3} m3/h, {100 * leak / widest:F1} % of the widest; a seat may pass {100 * SeatLeakShare:F1} %. Soap the joints before the valve; then the seat leaks, or the closed stop is not where the drive takes it to be."));
        }
    }

    private void FindStuck(CalibrationPoint[] flowing, List<BenchFinding> findings)
    {
        CalibrationPoint[] open = [.. flowing.Where(p => !(p.Reading.Steps <= Test.ClosedUpToSteps))];
        if (open.Length < StuckReadings)
        {
            return;
        }

        double travel = open[^1].Reading.Steps - open[0].Reading.Steps;
        (double Length, double From, double To, double Rise)? found = null;
        for (int first = 0; first < open.Length; first++)
        {
            for (int last = first + StuckReadings - 1; last < open.Length; last++)
            {
                double length = open[last].Reading.Steps - open[first].Reading.Steps;
                if (length < StuckTravel * travel || length <= found?.Length)
                {
                    continue;
                }

                (double rise, double error) = Rise(open.AsSpan(first, last - first + 1));
                if (rise + (3 * error) < StuckRise)
                {
                    found = (length, open[first].Reading.Steps, open[last].Reading.Steps, rise);
                }
            }
        }

        if (found is { } stuck)
        {
            findings.Add(new(
                BenchFindingKind.StuckValve,
                $"From {stuck.From:G4} to {stuck.To:G4} steps Kv rises by {100 * (Math.Exp(stuck.Rise) - 1):F0} % only: the needle does not follow the drive. Listen to the drive, check its wiring and current, look for dirt and ice; then home it to the closed stop and repeat."));
        }
    }

    // Weighted straight line of ln Kv over the steps: its rise over all of them, and the standard error of that from the stated uncertainties and the scatter.
    private (double Rise, double Error) Rise(ReadOnlySpan<CalibrationPoint> points)
    {
        double w = 0, wx = 0, wy = 0;
        foreach (CalibrationPoint p in points)
        {
            double weight = 1 / Square(Math.Max(p.UncertaintyShare, LeastUncertainty));
            w += weight;
            wx += weight * p.Reading.Steps;
            wy += weight * Math.Log(p.FlowCoefficientKv);
        }

        double middle = wx / w, level = wy / w, xx = 0, xy = 0;
        foreach (CalibrationPoint p in points)
        {
            double weight = 1 / Square(Math.Max(p.UncertaintyShare, LeastUncertainty));
            xx += weight * Square(p.Reading.Steps - middle);
            xy += weight * (p.Reading.Steps - middle) * (Math.Log(p.FlowCoefficientKv) - level);
        }

        double slope = xy / xx, squares = 0;
        foreach (CalibrationPoint p in points)
        {
            squares += Square((Math.Log(p.FlowCoefficientKv) - level - (slope * (p.Reading.Steps - middle))) / Math.Max(p.UncertaintyShare, LeastUncertainty));
        }

        double length = points[^1].Reading.Steps - points[0].Reading.Steps;
        double scatter = Math.Sqrt(Math.Max(1, squares / Math.Max(1, points.Length - 2)));
        return (slope * length, scatter / Math.Sqrt(xx) * length);
    }

    private void FindMissingFlow(List<BenchFinding> findings, List<string> notChecked)
    {
        CalibrationPoint[] measured = [.. Points.Where(p => !p.IsAtLimit && p.Reading.ArrivingFreeAir is not null)];
        if (measured.Length < 4)
        {
            notChecked.Add("Whether the known flow arrives, and whether it falls with pressure: it needs the flow measured behind the valve at four or more openings. From one pressure an opening they cannot be told from a wider valve.");
            return;
        }

        // Share that arrives, as a straight line over the pressure above the intake.
        double[] x = [.. measured.Select(p => (p.Reading.UpstreamPressure - Test.IntakePressure).Bars)];
        double[] y = [.. measured.Select(p => p.Reading.ArrivingFreeAir!.Value / Test.FreeAirDelivery)];
        double mx = x.Average(), my = y.Average();
        double xx = x.Sum(v => Square(v - mx));
        double slope = xx > 0 ? x.Zip(y, (a, b) => (a - mx) * (b - my)).Sum() / xx : 0;
        double squares = x.Zip(y, (a, b) => Square(b - my - (slope * (a - mx)))).Sum();
        double deviation = Math.Max(Math.Sqrt(squares / (x.Length - 2)), Math.Sqrt(Square(Test.ArrivingFlowShare) + Square(Test.FlowReadingShare)) * my);
        double slopeError = xx > 0 ? deviation / Math.Sqrt(xx) : double.MaxValue;
        double top = x.Max();
        double fall = -slope * top;
        bool falls = fall > LeastMissing && -slope > Sure * slopeError;
        double atRest = falls ? my - (slope * mx) : my;
        double restError = Math.Sqrt((Square(deviation) / x.Length) + (falls ? Square(slopeError * mx) : 0) + Square(Test.FlowShare));
        if (falls)
        {
            findings.Add(new(
                BenchFindingKind.FlowFallsWithPressure,
                $"What arrives falls by {100 * fall:F0} % of the known flow up to {top:F2} bar above the atmosphere. A compressor with clearance or worn rings does that, a leak before the valve as well: soap the joints. The curve is made with what arrives where it was measured."));
        }

        if (1 - atRest > Math.Max(LeastMissing, Sure * restError))
        {
            findings.Add(new(
                BenchFindingKind.KnownFlowNotArriving,
                $"{100 * (1 - atRest):F0} % of the known flow does not arrive behind the valve even at low pressure: the delivery stated is too high, or air leaves before the valve."));
        }
    }
}
