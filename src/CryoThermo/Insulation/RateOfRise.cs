using CryoThermo.Diagnostics;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// The rise of the pressure in a shut vacuum split into a leak, which goes on as a straight line, and outgassing, which levels off:
/// p = p0 + A t + B (1 - exp(-t/tau)), fitted by least squares. For each tau the other three are linear, so tau alone is searched for. Where it is told how
/// long the vacuum was pumped before, outgassing falls as one over the time since then instead, as from unbaked metal: p = p0 + A t + B ln(1 + t/t0).
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The forms are common practice, no source: real outgassing has many time constants, and the part of it that is slow against the test counts
/// as leak. Surfaces and oil that give off vapour up to its vapour pressure behave like the levelling term; a boiling residue of water
/// holds the pressure at its vapour pressure, 23 hPa at 20 degC.
/// </remarks>
public sealed class RateOfRise
{
    private const int Scanned = 61;

    private RateOfRise(double volume, double[] parameters, double[] errors, double scatter, bool split, double span, int points, bool levelsOff = true)
    {
        Start = Pressure.FromPascals(parameters[0]);
        LeakRatePascalCubicMetersPerSecond = volume * parameters[1];
        LeakRateUncertaintyPascalCubicMetersPerSecond = volume * errors[1];
        OutgassedPressure = Pressure.FromPascals(parameters[2]);
        OutgassedPressureUncertainty = Pressure.FromPascals(errors[2]);
        TimeConstant = split && levelsOff ? Duration.FromSeconds(parameters[3]) : null;
        OutgassingRatePascalCubicMetersPerSecond = split ? volume * parameters[2] / parameters[3] : 0;
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

    /// <summary>The outgassing at the time zero of the fit, Pa m3/s; zero when the readings show none.</summary>
    public double OutgassingRatePascalCubicMetersPerSecond { get; }

    /// <summary>B: the pressure that outgassing adds in the end, or while the time since the first pumping grows by a factor of e; zero when the readings show none.</summary>
    public Pressure OutgassedPressure { get; }

    /// <summary>Its standard error.</summary>
    public Pressure OutgassedPressureUncertainty { get; }

    /// <summary>Time constant of the outgassing; null when the readings show none, or where it does not level off.</summary>
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
    /// <param name="pumpedBefore">How long the surfaces were pumped before the time zero of the readings, for outgassing that falls as one over the time; null for outgassing that levels off.</param>
    /// <exception cref="ArgumentException">There are too few readings, or times do not rise.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The volume or the time pumped before is not above zero, or a pressure or time is negative.</exception>
    public static RateOfRise Fit(Volume volume, IReadOnlyList<RateOfRisePoint> readings, Duration? pumpedBefore = null)
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
        if (pumpedBefore is { } before)
        {
            double since = Guard.Positive(before.Seconds, "s", nameof(pumpedBefore));
            (double[] falling, double fallingSquares, double[] fallingErrors) = Linear(t, p, x => Math.Log(1 + (x / since)));
            return falling[2] > 3 * fallingErrors[2]
                ? new(space, [.. falling, since], fallingErrors, Math.Sqrt(fallingSquares / (t.Length - 3)), true, span, t.Length, levelsOff: false)
                : Straight();
        }

        double low = Math.Log(0.3 * span / t.Length);
        double high = Math.Log(3 * span);
        double best = Minimum(x => Levelling(Math.Exp(x)).Squares, low, high);
        double tau = Math.Exp(best);
        (double[] full, double squares, _) = Levelling(tau);
        double[] errors = Errors(t, full, tau, squares);
        bool split = tau < span
            && tau > 0.31 * span / t.Length
            && full[2] > 0
            && full[2] > 3 * errors[2]
            && squares < lineSquares;
        return split
            ? new(space, [full[0], full[1], full[2], tau], errors, Math.Sqrt(squares / (t.Length - 4)), true, span, t.Length)
            : Straight();

        RateOfRise Straight() => new(space, [line[0], line[1], 0, 0], [lineErrors[0], lineErrors[1], 0], Math.Sqrt(lineSquares / (t.Length - 2)), false, span, t.Length);

        // -exp is the levelling part less its end: the constant takes B with it.
        (double[] Parameters, double Squares, double[] Errors) Levelling(double constant)
        {
            (double[] found, double left, double[] uncertain) = Linear(t, p, x => -Math.Exp(-x / constant));
            return ([found[0] - found[2], found[1], found[2]], left, uncertain);
        }
    }

    /// <summary>The split as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        IsSplit ? "Rate of rise, split" : "Rate of rise: the readings do not tell outgassing from a leak",
        ["", "value", "standard error"],
        [
            ["leak, Pa m3/s", $"{LeakRatePascalCubicMetersPerSecond:E3}", $"{LeakRateUncertaintyPascalCubicMetersPerSecond:E1}"],
            ["leak, mbar L/s", $"{LeakRateMillibarLitersPerSecond:E3}", $"{10 * LeakRateUncertaintyPascalCubicMetersPerSecond:E1}"],
            [TimeConstant is null ? "outgassing for every factor e of time, Pa" : "outgassing in the end, Pa", $"{OutgassedPressure.Pascals:G4}", $"{OutgassedPressureUncertainty.Pascals:G2}"],
            ["outgassing at the start, Pa m3/s", $"{OutgassingRatePascalCubicMetersPerSecond:E3}", string.Empty],
            ["time constant, s", TimeConstant is { } time ? $"{time.Seconds:G4}" : "none", string.Empty],
            ["scatter of the readings, Pa", $"{Scatter.Pascals:G3}", string.Empty],
        ]);

    // Linear least squares with a shape of outgassing over time; without one a straight line. Pressures and times scaled to order one.
    private static (double[] Parameters, double Squares, double[] Errors) Linear(double[] t, double[] p, Func<double, double>? shape)
    {
        int columns = shape is null ? 2 : 3;
        double span = t[^1];

        // Normal equations: three columns of order one need no more.
        Matrix<double> normal = Matrix<double>.Build.Dense(columns, columns);
        Vector<double> right = Vector<double>.Build.Dense(columns);
        Span<double> row = stackalloc double[3];
        for (int i = 0; i < t.Length; i++)
        {
            row[0] = 1;
            row[1] = t[i] / span;
            row[2] = shape is null ? 0 : shape(t[i]);
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
            double miss = x[0] + (x[1] * t[i] / span) + (shape is null ? 0 : x[2] * shape(t[i])) - p[i];
            squares += miss * miss;
        }

        Matrix<double> covariance = inverse * (squares / Math.Max(1, t.Length - columns));
        return (
            [x[0], x[1] / span, columns == 3 ? x[2] : 0],
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
