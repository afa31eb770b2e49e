using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>The pressure of a vacuum against time. Immutable and thread-safe.</summary>
public sealed class VacuumCourse
{
    private readonly List<VacuumPoint> points;

    internal VacuumCourse(VacuumSpace space, PumpSet? pumps, List<VacuumPoint> points, List<VacuumFlow> flows)
    {
        Space = space;
        Pumps = pumps;
        this.points = points;
        Flows = [.. flows.OrderByDescending(f => Math.Abs(f.PascalCubicMetersPerSecond))];
    }

    /// <summary>The space.</summary>
    public VacuumSpace Space { get; }

    /// <summary>The pumps; null where the valve to them was shut.</summary>
    public PumpSet? Pumps { get; }

    /// <summary>Points in the order of time; between them the logarithm of the pressure is straight within 1e-4.</summary>
    public IReadOnlyList<VacuumPoint> Points => points;

    /// <summary>The last point.</summary>
    public VacuumPoint Last => points[^1];

    /// <summary>What enters and leaves at the end, the largest first.</summary>
    public IReadOnlyList<VacuumFlow> Flows { get; }

    /// <summary>What a vacuum around cold parts can do.</summary>
    public IReadOnlyList<Caution> Cautions => Space.Cautions;

    /// <summary>Pressure at a time.</summary>
    /// <param name="time">From the first to the last point.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time lies outside.</exception>
    public Pressure PressureAt(Duration time)
    {
        double t = Guard.InRange(time.Seconds, points[0].Time.Seconds, Last.Time.Seconds, "s", nameof(time));
        int i = points.FindIndex(1, p => p.Time.Seconds >= t);
        (double from, double to) = (points[i - 1].Time.Seconds, points[i].Time.Seconds);
        (double before, double after) = (points[i - 1].AbsolutePressure.Pascals, points[i].AbsolutePressure.Pascals);
        return Pressure.FromPascals(before * Math.Pow(after / before, (t - from) / (to - from)));
    }

    /// <summary>First time at which a pressure is reached or passed, on the way down or up; null where it is not.</summary>
    /// <param name="pressure">Absolute.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public Duration? TimeTo(Pressure pressure)
    {
        double wanted = Guard.Positive(pressure.Pascals, "Pa", nameof(pressure));
        for (int i = 1; i < points.Count; i++)
        {
            double before = points[i - 1].AbsolutePressure.Pascals;
            double after = points[i].AbsolutePressure.Pascals;
            if ((before - wanted) * (after - wanted) <= 0 && before != after)
            {
                double share = Math.Log(wanted / before) / Math.Log(after / before);
                return Duration.FromSeconds(points[i - 1].Time.Seconds + (share * (points[i].Time.Seconds - points[i - 1].Time.Seconds)));
            }
        }

        return null;
    }

    /// <summary>What holds the pressure where it is, as a sentence.</summary>
    public string Explanation
    {
        get
        {
            double reach = Pumps?.Ultimate.Pascals ?? 0;
            double p = Last.AbsolutePressure.Pascals;
            VacuumFlow? most = Flows.FirstOrDefault(f => f.PascalCubicMetersPerSecond > 0);
            double entering = Flows.Where(f => f.PascalCubicMetersPerSecond > 0).Sum(f => f.PascalCubicMetersPerSecond);
            string held = FormattableString.Invariant($"{p:G3} Pa ({p / 100:G3} mbar) after {Last.Time.Hours:G3} h");
            return Pumps is not null && p < 1.2 * reach
                ? FormattableString.Invariant($"{held}: the pumps reach {reach:G3} Pa at no flow; only a better pump or one more in series goes lower.")
                : most is null
                    ? $"{held}: nothing enters."
                    : FormattableString.Invariant($"{held}: of {entering:E2} Pa m3/s that enter, {100 * most.PascalCubicMetersPerSecond / entering:F0} % are {most.Gas} from {most.Name}.");
        }
    }

    /// <summary>What enters and leaves at the end as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant($"Vacuum of {Space.Volume.Liters:G4} L after {Last.Time.Hours:G3} h: {Last.AbsolutePressure.Pascals:G3} Pa ({Last.AbsolutePressure.Millibars:G3} mbar)"),
        ["from or to", "gas", "Pa m3/s", "mbar L/s"],
        [.. Flows.Select(f => (IReadOnlyList<string>)
            [f.Name, f.Gas, FormattableString.Invariant($"{f.PascalCubicMetersPerSecond:E2}"), FormattableString.Invariant($"{10 * f.PascalCubicMetersPerSecond:E2}")])]);
}
