using CryoThermo.Diagnostics;
using CryoThermo.Numerics;

namespace CryoThermo.Machines;

/// <summary>
/// An efficiency over the pressure ratio of a compressor: a curve through points, smooth in the logarithm of the ratio, which neither overshoots nor turns back between
/// them. Beyond the points the value of the nearest one stands, and <see cref="Covers"/> says so. Immutable and thread-safe.
/// </summary>
public sealed class PressureRatioCurve
{
    private readonly MonotoneCubic? cubic;
    private readonly double factor = 1;
    private readonly double tilt;
    private readonly double reference = 1;

    /// <summary>Draws the curve.</summary>
    /// <param name="points">Pressure ratio (absolute pressures, 1 to 1000) and efficiency (above 0 to 1), in rising order of the ratio; a single point holds for every ratio.</param>
    /// <param name="source">Where the points come from.</param>
    /// <exception cref="ArgumentException">There is no point, or the ratios do not rise.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public PressureRatioCurve(IReadOnlyList<(double PressureRatio, double Efficiency)> points, Source? source = null)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count == 0)
        {
            throw new ArgumentException("points is empty; at least one is needed.", nameof(points));
        }

        for (int i = 0; i < points.Count; i++)
        {
            Guard.InRange(points[i].PressureRatio, 1, 1000, "(pressure ratio)", nameof(points));
            Guard.InRange(points[i].Efficiency, 1e-6, 1, "(efficiency)", nameof(points));
            if (i > 0 && !(points[i].PressureRatio > points[i - 1].PressureRatio))
            {
                throw new ArgumentException(
                    $"points[{i}] has a pressure ratio of {points[i].PressureRatio:G6} behind one of {points[i - 1].PressureRatio:G6}; the ratios must rise.", nameof(points));
            }
        }

        Points = [.. points];
        Source = source;
        cubic = points.Count == 1
            ? null
            : new([.. points.Select(p => Math.Log(p.PressureRatio))], [.. points.Select(p => p.Efficiency)]);
    }

    private PressureRatioCurve(PressureRatioCurve shape, double factor, double tilt, double reference)
    {
        cubic = shape.cubic;
        this.factor = factor * shape.factor;
        this.tilt = tilt + shape.tilt;
        this.reference = reference;
        Source = shape.Source;
        Points = [.. shape.Points.Select(p => (p.PressureRatio, factor * p.Efficiency * Math.Pow(p.PressureRatio / reference, tilt)))];
    }

    /// <summary>The points.</summary>
    public IReadOnlyList<(double PressureRatio, double Efficiency)> Points { get; }

    /// <summary>Where the points come from; null where it was not told.</summary>
    public Source? Source { get; }

    /// <summary>One value for every pressure ratio.</summary>
    /// <param name="efficiency">Above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static PressureRatioCurve Constant(double efficiency) => new([(1, efficiency)]);

    /// <summary>Whether a pressure ratio lies within the points; a curve of one point covers every ratio.</summary>
    /// <param name="pressureRatio">Discharge over suction pressure, absolute.</param>
    public bool Covers(double pressureRatio) =>
        Points.Count == 1 || (pressureRatio >= Points[0].PressureRatio * (1 - 1e-12) && pressureRatio <= Points[^1].PressureRatio * (1 + 1e-12));

    /// <summary>The efficiency at a pressure ratio; beyond the points that of the nearest one.</summary>
    /// <param name="pressureRatio">Discharge over suction pressure, absolute, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is below 1 or not finite.</exception>
    public double At(double pressureRatio)
    {
        Guard.InRange(pressureRatio, 1, double.MaxValue, "(pressure ratio)");
        if (cubic is null)
        {
            return Points[0].Efficiency;
        }

        double held = Math.Clamp(pressureRatio, Points[0].PressureRatio, Points[^1].PressureRatio);
        return factor * cubic.At(Math.Log(held)) * Math.Pow(held / reference, tilt);
    }

    /// <summary>
    /// The same shape through another point, and turned about it: the efficiency there is the one given, and is multiplied by (ratio / that ratio)^tilt elsewhere.
    /// </summary>
    /// <param name="pressureRatio">Ratio of the point.</param>
    /// <param name="efficiency">Efficiency at the point, above 0 to 1.</param>
    /// <param name="tilt">Power of the ratio, -1 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the curve would pass 1 somewhere.</exception>
    internal PressureRatioCurve Through(double pressureRatio, double efficiency, double tilt = 0)
    {
        Guard.InRange(efficiency, 1e-6, 1, "(efficiency)");
        Guard.InRange(tilt, -1, 1, string.Empty);
        if (cubic is null)
        {
            return Constant(efficiency);
        }

        double held = Math.Clamp(pressureRatio, Points[0].PressureRatio, Points[^1].PressureRatio);
        PressureRatioCurve through = new(this, efficiency / At(pressureRatio), tilt, held);
        (double ratio, double most) = through.Points.MaxBy(p => p.Efficiency);
        return most <= 1
            ? through
            : throw new ArgumentOutOfRangeException(
                nameof(efficiency),
                efficiency,
                $"efficiency is {efficiency:G4} at a pressure ratio of {pressureRatio:G4}; a curve of this shape would then pass 1 at a ratio of {ratio:G4} ({most:G4}). Check power, capacity and condition.");
    }
}
