using CryoThermo.Diagnostics;
using CryoThermo.Numerics;

namespace CryoThermo.Flow;

/// <summary>
/// Flow coefficient over the steps of a stepper-driven needle: through a table, monotone between its points, zero in the dead band at the closed end, straight
/// on beyond the table and flagged there. Immutable and thread-safe.
/// </summary>
public sealed class OpeningCurve
{
    private readonly MonotoneCubic curve;

    /// <summary>Takes a table.</summary>
    /// <param name="points">
    /// Two or more, with rising steps and a Kv that never falls. Points with a Kv of zero are the dead band; without one the closed end is not known. A first point
    /// marked as extrapolated is a guess, and what lies between it and the next is flagged.
    /// </param>
    /// <exception cref="ArgumentException">There are too few points, or their order is wrong.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is negative or not finite.</exception>
    public OpeningCurve(params IReadOnlyList<OpeningPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        for (int i = 0; i < points.Count; i++)
        {
            Guard.InRange(points[i].Steps, 0, 1e9, "steps", $"points[{i}].Steps");
            Guard.InRange(points[i].FlowCoefficientKv, 0, 1e5, "m3/h (Kv)", $"points[{i}].FlowCoefficientKv");
            if (points[i].IsExtrapolated && i > 0)
            {
                throw new ArgumentException($"points[{i}] is marked as extrapolated; only the first point may be.", nameof(points));
            }

            if (i > 0 && !(points[i].Steps > points[i - 1].Steps && points[i].FlowCoefficientKv >= points[i - 1].FlowCoefficientKv))
            {
                throw new ArgumentException(
                    $"points[{i}] is {points[i].Steps:G6} steps, Kv {points[i].FlowCoefficientKv:G6}, after {points[i - 1].Steps:G6} steps, Kv {points[i - 1].FlowCoefficientKv:G6}: steps must rise, and Kv must not fall.",
                    nameof(points));
            }
        }

        OpeningPoint[] shut = [.. points.Where(p => p.FlowCoefficientKv == 0)];
        DeadBandSteps = shut.Length > 0 ? shut[^1].Steps : null;
        Points = [.. points];
        OpeningPoint[] open = [.. points.Skip(Math.Max(0, shut.Length - 1))];
        if (open.Length < 2 || !(open[^1].FlowCoefficientKv > 0))
        {
            throw new ArgumentException("points holds no two openings of which one passes anything; a curve needs them.", nameof(points));
        }

        curve = new([.. open.Select(p => p.Steps)], [.. open.Select(p => p.FlowCoefficientKv)]);
        First = open[0];
    }

    /// <summary>The table.</summary>
    public IReadOnlyList<OpeningPoint> Points { get; }

    /// <summary>Steps up to which nothing passes; null where the table does not tell.</summary>
    public double? DeadBandSteps { get; }

    /// <summary>The widest opening of the table.</summary>
    public OpeningPoint Widest => Points[^1];

    private OpeningPoint First { get; }

    private double LowestKnown => Points.First(p => !p.IsExtrapolated).Steps;

    /// <summary>Kv at an opening.</summary>
    /// <param name="steps">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public OpeningPoint KvAt(double steps)
    {
        Guard.InRange(steps, 0, 1e9, "steps");
        if (steps > Widest.Steps)
        {
            return new(steps, Widest.FlowCoefficientKv + (curve.LastSlope * (steps - Widest.Steps)), true);
        }

        return steps >= First.Steps ? new(steps, curve.At(steps), steps < LowestKnown)
            : DeadBandSteps is not null ? new(steps, 0, First.IsExtrapolated)
            : new(steps, Math.Max(0, First.FlowCoefficientKv - (curve.FirstSlope * (First.Steps - steps))), true);
    }

    /// <summary>How many steps open: the least opening with a Kv.</summary>
    /// <param name="flowCoefficientKv">Kv, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero, or beyond a curve that is level at its end.</exception>
    public OpeningPoint StepsFor(double flowCoefficientKv)
    {
        double kv = Guard.Positive(flowCoefficientKv, "m3/h (Kv)");
        if (kv > Widest.FlowCoefficientKv)
        {
            return curve.LastSlope > 0
                ? new(Widest.Steps + ((kv - Widest.FlowCoefficientKv) / curve.LastSlope), kv, true)
                : throw new ArgumentOutOfRangeException(
                    nameof(flowCoefficientKv), kv, $"flowCoefficientKv is {kv:G6} m3/h; the valve has {Widest.FlowCoefficientKv:G6} m3/h at {Widest.Steps:G6} steps and rises no more.");
        }

        if (kv < First.FlowCoefficientKv)
        {
            return new(curve.FirstSlope > 0 ? Math.Max(0, First.Steps - ((First.FlowCoefficientKv - kv) / curve.FirstSlope)) : 0, kv, true);
        }

        int i = Points.Index().First(p => p.Item.FlowCoefficientKv >= kv).Index;
        double steps = Points[i].FlowCoefficientKv == kv
            ? Points[i].Steps
            : BracketedRoot.Solve(s => curve.At(s) - kv, Points[i - 1].Steps, Points[i].Steps);
        return new(steps, kv, steps < LowestKnown);
    }

    /// <summary>The table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        "Opening curve",
        ["steps", "Kv, m3/h", "Cv, US gal/min"],
        [.. Points.Select(p => (IReadOnlyList<string>)[$"{p.Steps:G6}", $"{p.FlowCoefficientKv:G4}", $"{1.156 * p.FlowCoefficientKv:G4}"])]);
}
