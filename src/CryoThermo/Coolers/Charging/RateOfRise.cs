using CryoThermo.Diagnostics;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// The rise of the pressure in a shut vacuum split into a leak, which goes on as a straight line, and outgassing, which levels off:
/// p = p0 + A t + B (1 - exp(-t/tau)), fitted by least squares. For each tau the other three are linear, so tau alone is searched for.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The form is common practice, no source: real outgassing has many time constants, and the part of it that is slow against the test counts
/// as leak. Surfaces and oil that give off vapour up to its vapour pressure behave like the levelling term; a boiling residue of water
/// holds the pressure at its vapour pressure, 23 hPa at 20 degC.
/// </remarks>
public sealed class RateOfRise
{
    private const int Scanned = 61;

    private RateOfRise(double volume, double[] parameters, double[] errors, double scatter, bool split, double span, int points)
    {
        Start = Pressure.FromPascals(parameters[0]);
        LeakRatePascalCubicMetersPerSecond = volume * parameters[1];
        LeakRateUncertaintyPascalCubicMetersPerSecond = volume * errors[1];
        OutgassedPressure = Pressure.FromPascals(parameters[2]);
        OutgassedPressureUncertainty = Pressure.FromPascals(errors[2]);
        TimeConstant = split ? Duration.FromSeconds(parameters[3]) : null;
        Scatter = Pressure.FromPascals(scatter);
        IsSplit = split;
        Span = Duration.FromSeconds(span);
        PointCount = points;
    }

    /// <summary>Pressure at the time zero of the fit.</summary>
    public Pressure Start { get; }

    /// <summary>The leak: volume times the straight part, Pa m3/s.</summary>
    public double LeakRatePascalCubicMetersPerSecond { get; }

    /// <summary>Its standard error from the scatter of the readings about the fit, Pa m3/s.</summary>
    public double LeakRateUncertaintyPascalCubicMetersPerSecond { get; }

    /// <summary>The leak in mbar L/s.</summary>
    public double LeakRateMillibarLitersPerSecond => 10 * LeakRatePascalCubicMetersPerSecond;

    /// <summary>Pressure that outgassing adds in the end; zero when the readings show none.</summary>
    public Pressure OutgassedPressure { get; }

    /// <summary>Its standard error.</summary>
    public Pressure OutgassedPressureUncertainty { get; }

    /// <summary>Time constant of the outgassing; null when the readings show none.</summary>
    public Duration? TimeConstant { get; }

    /// <summary>Standard deviation of the readings about the fit.</summary>
    public Pressure Scatter { get; }

    /// <summary>
    /// Whether the readings tell outgassing from a leak: the levelling part is more than three of its standard errors and levels off within the
    /// test. When not, a straight line is fitted and all of the rise counts as leak; its standard error says nothing about a slow outgassing.
    /// </summary>
    public bool IsSplit { get; }

    /// <summary>Time from the first to the last reading.</summary>
    public Duration Span { get; }

    /// <summary>How many readings.</summary>
    public int PointCount { get; }

    /// <summary>Fits readings.</summary>
    /// <param name="volume">Volume of the shut machine.</param>
    /// <param name="readings">At least 6, at rising times.</param>
    /// <exception cref="ArgumentException">There are too few readings, or times do not rise.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The volume is not above zero, or a pressure or time is negative.</exception>
    public static RateOfRise Fit(Volume volume, IReadOnlyList<RateOfRisePoint> readings)
    {
        double space = Guard.Positive(volume.CubicMeters, "m3", nameof(volume));
        ArgumentNullException.ThrowIfNull(readings);
        if (readings.Count < 6)
        {
            throw new ArgumentException($"readings holds {readings.Count} points; at least 6 are needed for four figures and their scatter.", nameof(readings));
        }

        double[] t = [.. readings.Select((r, i) => Guard.InRange(r.Time.Seconds, 0, 1e9, "s", $"readings[{i}].Time"))];
        double[] p = [.. readings.Select((r, i) => Guard.InRange(r.AbsolutePressure.Pascals, 0, 1e7, "Pa absolute", $"readings[{i}].AbsolutePressure"))];
        for (int i = 1; i < t.Length; i++)
        {
            if (!(t[i] > t[i - 1]))
            {
                throw new ArgumentException($"readings[{i}].Time is {t[i]:G6} s, not after the {t[i - 1]:G6} s before it.", nameof(readings));
            }
        }

        double span = t[^1] - t[0];
        (double[] line, double lineSquares, double[] lineErrors) = Linear(t, p, null);
        double low = Math.Log(0.3 * span / t.Length);
        double high = Math.Log(3 * span);
        double best = Minimum(x => Linear(t, p, Math.Exp(x)).Squares, low, high);
        double tau = Math.Exp(best);
        (double[] full, double squares, _) = Linear(t, p, tau);
        double[] errors = Errors(t, full, tau, squares);
        bool split = tau < span
            && tau > 0.31 * span / t.Length
            && full[2] > 0
            && full[2] > 3 * errors[2]
            && squares < lineSquares;
        return split
            ? new(space, [full[0], full[1], full[2], tau], errors, Math.Sqrt(squares / (t.Length - 4)), true, span, t.Length)
            : new(space, [line[0], line[1], 0, 0], [lineErrors[0], lineErrors[1], 0], Math.Sqrt(lineSquares / (t.Length - 2)), false, span, t.Length);
    }

    /// <summary>The split as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        IsSplit ? "Rate of rise, split" : "Rate of rise: the readings do not tell outgassing from a leak",
        ["", "value", "standard error"],
        [
            ["leak, Pa m3/s", $"{LeakRatePascalCubicMetersPerSecond:E3}", $"{LeakRateUncertaintyPascalCubicMetersPerSecond:E1}"],
            ["leak, mbar L/s", $"{LeakRateMillibarLitersPerSecond:E3}", $"{10 * LeakRateUncertaintyPascalCubicMetersPerSecond:E1}"],
            ["outgassing in the end, Pa", $"{OutgassedPressure.Pascals:G4}", $"{OutgassedPressureUncertainty.Pascals:G2}"],
            ["time constant, s", TimeConstant is { } time ? $"{time.Seconds:G4}" : "none", string.Empty],
            ["scatter of the readings, Pa", $"{Scatter.Pascals:G3}", string.Empty],
        ]);

    // Linear least squares for a fixed time constant; without one a straight line. Pressures and times scaled to order one.
    private static (double[] Parameters, double Squares, double[] Errors) Linear(double[] t, double[] p, double? tau)
    {
        int columns = tau is null ? 2 : 3;
        double span = t[^1];

        // Normal equations: three columns of order one need no more.
        Matrix<double> normal = Matrix<double>.Build.Dense(columns, columns);
        Vector<double> right = Vector<double>.Build.Dense(columns);
        Span<double> row = stackalloc double[3];
        for (int i = 0; i < t.Length; i++)
        {
            row[0] = 1;
            row[1] = t[i] / span;
            row[2] = tau is { } constant ? -Math.Exp(-t[i] / constant) : 0;
            for (int j = 0; j < columns; j++)
            {
                right[j] += row[j] * p[i];
                for (int k = 0; k < columns; k++)
                {
                    normal[j, k] += row[j] * row[k];
                }
            }
        }

        Matrix<double> inverse = normal.Inverse();
        Vector<double> x = inverse * right;
        double squares = 0;
        for (int i = 0; i < t.Length; i++)
        {
            double miss = x[0] + (x[1] * t[i] / span) - (tau is { } constant ? x[2] * Math.Exp(-t[i] / constant) : 0) - p[i];
            squares += miss * miss;
        }

        Matrix<double> covariance = inverse * (squares / Math.Max(1, t.Length - columns));
        double b = columns == 3 ? x[2] : 0;

        // -exp is the levelling part less its end: the constant takes B with it.
        return (
            [x[0] - b, x[1] / span, b],
            squares,
            [Math.Sqrt(Math.Abs(covariance[0, 0])), Math.Sqrt(Math.Abs(covariance[1, 1])) / span, columns == 3 ? Math.Sqrt(Math.Abs(covariance[2, 2])) : 0]);
    }

    // Standard errors with the time constant free as well.
    private static double[] Errors(double[] t, double[] at, double tau, double squares)
    {
        double span = t[^1];
        Matrix<double> slopes = Matrix<double>.Build.Dense(t.Length, 4, (i, j) => j switch
        {
            0 => 1,
            1 => t[i] / span,
            2 => 1 - Math.Exp(-t[i] / tau),
            _ => -at[2] * (t[i] / tau) * Math.Exp(-t[i] / tau),
        });
        Matrix<double> normal = slopes.TransposeThisAndMultiply(slopes);
        if (!(Math.Abs(at[2]) > 0) || normal.ConditionNumber() > 1e14)
        {
            return [double.MaxValue, double.MaxValue, double.MaxValue];
        }

        Matrix<double> covariance = normal.Inverse() * (squares / (t.Length - 4));
        return [Math.Sqrt(Math.Abs(covariance[0, 0])), Math.Sqrt(Math.Abs(covariance[1, 1])) / span, Math.Sqrt(Math.Abs(covariance[2, 2]))];
    }

    // A scan, then golden section about its least point.
    private static double Minimum(Func<double, double> function, double low, double high)
    {
        double step = (high - low) / (Scanned - 1);
        int least = Enumerable.Range(0, Scanned).MinBy(i => function(low + (i * step)));
        double a = low + (Math.Max(0, least - 1) * step);
        double b = low + (Math.Min(Scanned - 1, least + 1) * step);
        double ratio = (Math.Sqrt(5) - 1) / 2;
        double c = b - (ratio * (b - a));
        double d = a + (ratio * (b - a));
        (double fc, double fd) = (function(c), function(d));
        for (int i = 0; i < 40; i++)
        {
            if (fc < fd)
            {
                (b, d, fd) = (d, c, fc);
                c = b - (ratio * (b - a));
                fc = function(c);
            }
            else
            {
                (a, c, fc) = (c, d, fd);
                d = a + (ratio * (b - a));
                fd = function(d);
            }
        }

        return 0.5 * (a + b);
    }
}
