namespace CryoThermo.Numerics;

/// <summary>
/// Piecewise cubic through points that rises where they rise (Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238), with the slopes of Fritsch and
/// Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300. Immutable and thread-safe.
/// </summary>
internal sealed class MonotoneCubic
{
    private readonly double[] x;
    private readonly double[] y;
    private readonly double[] slopes;

    /// <summary>Takes two or more points with rising x.</summary>
    public MonotoneCubic(double[] x, double[] y)
    {
        this.x = x;
        this.y = y;
        int n = x.Length;
        slopes = new double[n];
        double[] steps = [.. Enumerable.Range(0, n - 1).Select(i => x[i + 1] - x[i])];
        double[] rises = [.. Enumerable.Range(0, n - 1).Select(i => (y[i + 1] - y[i]) / steps[i])];
        for (int i = 1; i < n - 1; i++)
        {
            if (rises[i - 1] * rises[i] > 0)
            {
                double a = (2 * steps[i]) + steps[i - 1];
                double b = steps[i] + (2 * steps[i - 1]);
                slopes[i] = (a + b) / ((a / rises[i - 1]) + (b / rises[i]));
            }
        }

        slopes[0] = n == 2 ? rises[0] : End(steps[0], steps[1], rises[0], rises[1]);
        slopes[n - 1] = n == 2 ? rises[0] : End(steps[n - 2], steps[n - 3], rises[n - 2], rises[n - 3]);
    }

    /// <summary>Slope at the last point.</summary>
    public double LastSlope => slopes[^1];

    /// <summary>Slope at the first point.</summary>
    public double FirstSlope => slopes[0];

    /// <summary>The value at a place between the first and last point.</summary>
    public double At(double place)
    {
        int i = Array.BinarySearch(x, place);
        i = Math.Clamp(i >= 0 ? i : ~i - 1, 0, x.Length - 2);
        double h = x[i + 1] - x[i];
        double t = (place - x[i]) / h;
        double u = 1 - t;
        double value = (u * u * (((1 + (2 * t)) * y[i]) + (t * h * slopes[i]))) + (t * t * (((3 - (2 * t)) * y[i + 1]) - (u * h * slopes[i + 1])));

        // Rounding must not leave the span of a level stretch.
        return Math.Clamp(value, Math.Min(y[i], y[i + 1]), Math.Max(y[i], y[i + 1]));
    }

    /// <summary>The slope at a place between the first and last point.</summary>
    public double SlopeAt(double place)
    {
        int i = Array.BinarySearch(x, place);
        i = Math.Clamp(i >= 0 ? i : ~i - 1, 0, x.Length - 2);
        double h = x[i + 1] - x[i];
        double t = (place - x[i]) / h;
        return (6 * t * (1 - t) * (y[i + 1] - y[i]) / h) + ((1 - t) * (1 - (3 * t)) * slopes[i]) + (t * ((3 * t) - 2) * slopes[i + 1]);
    }

    // Three points, one-sided, kept from turning the curve back.
    private static double End(double near, double next, double nearRise, double nextRise)
    {
        double slope = ((((2 * near) + next) * nearRise) - (near * nextRise)) / (near + next);
        return slope * nearRise <= 0 ? 0 : nearRise * nextRise <= 0 && Math.Abs(slope) > 3 * Math.Abs(nearRise) ? 3 * nearRise : slope;
    }
}
