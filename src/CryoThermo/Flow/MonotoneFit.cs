using CryoThermo.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Flow;

/// <summary>
/// A smooth curve that never falls through readings with scatter: quadratic B-splines with rising coefficients (Ramsay, Stat. Sci. 3 (1988) 425), by non-negative
/// least squares on shares of the curve itself, weighted anew after Huber (Ann. Math. Stat. 35 (1964) 73), so that single wrong readings hardly count.
/// </summary>
internal sealed class MonotoneFit
{
    private const int Degree = 2;
    private const int Rounds = 20;
    private const double Elbow = 1.345;
    private const double MedianToDeviation = 1.4826;

    private readonly double[] knots;
    private readonly Vector<double> coefficients;
    private readonly Matrix<double> covariance;
    private readonly int[] free;

    /// <summary>Fits.</summary>
    /// <param name="x">Places, rising; some may be equal.</param>
    /// <param name="y">Values above zero.</param>
    /// <param name="shares">Standard uncertainty of each as a share.</param>
    public MonotoneFit(double[] x, double[] y, double[] shares)
    {
        double[] distinct = [.. x.Distinct()];
        int inner = Math.Clamp(Math.Min(x.Length / 7, distinct.Length - 3), 0, 5);
        knots =
        [
            .. Enumerable.Repeat(x[0], Degree + 1),
            .. Enumerable.Range(1, inner).Select(k => Quantile(distinct, (double)k / (inner + 1))),
            .. Enumerable.Repeat(x[^1], Degree + 1),
        ];
        int count = knots.Length - Degree - 1;
        Vector<double>[] rows = [.. x.Select(Row)];
        double[] model = [.. y];
        double[] weights = [.. Enumerable.Repeat(1.0, x.Length)];
        coefficients = Vector<double>.Build.Dense(count);
        Matrix<double> design = Matrix<double>.Build.Dense(1, 1);
        for (int round = 0; round < Rounds; round++)
        {
            double[] scaleOf = [.. model.Select((m, i) => Math.Sqrt(weights[i]) / (m * shares[i]))];
            design = Matrix<double>.Build.DenseOfRowVectors(rows.Select((r, i) => scaleOf[i] * r));
            coefficients = NonNegativeLeastSquares.Solve(design, Vector<double>.Build.Dense(x.Length, i => scaleOf[i] * y[i]));
            double[] before = model;
            model = [.. rows.Select((r, i) => Math.Max(r * coefficients, 0.1 * y[i]))];
            double[] misses = [.. y.Select((value, i) => ((value / model[i]) - 1) / shares[i])];
            Scatter = Math.Max(1, MedianToDeviation * Quantile([.. misses.Select(Math.Abs).Order()], 0.5));
            weights = [.. misses.Select(m => Math.Min(1, Elbow * Scatter / Math.Max(Math.Abs(m), 1e-300)))];
            if (model.Zip(before, (a, b) => Math.Abs((a / b) - 1)).Max() < 1e-9)
            {
                break;
            }
        }

        free = [.. Enumerable.Range(0, count).Where(j => coefficients[j] > 0)];
        Matrix<double> used = Matrix<double>.Build.DenseOfColumnVectors(free.Select(design.Column));
        covariance = used.TransposeThisAndMultiply(used).PseudoInverse() * (Scatter * Scatter);
    }

    /// <summary>Scatter of the readings over their stated uncertainty; 1 where they scatter less.</summary>
    public double Scatter { get; private set; }

    /// <summary>The curve.</summary>
    public double At(double x) => Row(x) * coefficients;

    /// <summary>Its standard uncertainty as a share of it.</summary>
    public double ShareAt(double x)
    {
        Vector<double> row = Row(x);
        Vector<double> used = Vector<double>.Build.Dense(free.Length, k => row[free[k]]);
        return Math.Sqrt(Math.Max(0, used * (covariance * used))) / At(x);
    }

    private static double Quantile(double[] sorted, double share)
    {
        double place = share * (sorted.Length - 1);
        int i = Math.Min((int)place, sorted.Length - 2);
        return sorted.Length == 1 ? sorted[0] : sorted[i] + ((place - i) * (sorted[i + 1] - sorted[i]));
    }

    // Sums of B-splines from each one to the last: each rises from 0 to 1.
    private Vector<double> Row(double x)
    {
        int count = knots.Length - Degree - 1;
        double[] b = new double[knots.Length - 1];
        int span = Degree;
        while (span < count - 1 && x >= knots[span + 1])
        {
            span++;
        }

        b[span] = 1;
        for (int d = 1; d <= Degree; d++)
        {
            for (int j = span - d; j <= span; j++)
            {
                double left = knots[j + d] > knots[j] ? (x - knots[j]) / (knots[j + d] - knots[j]) * b[j] : 0;
                double right = knots[j + d + 1] > knots[j + 1] ? (knots[j + d + 1] - x) / (knots[j + d + 1] - knots[j + 1]) * b[j + 1] : 0;
                b[j] = left + right;
            }
        }

        Vector<double> row = Vector<double>.Build.Dense(count);
        double sum = 0;
        for (int j = count - 1; j >= 0; j--)
        {
            sum += b[j];
            row[j] = sum;
        }

        return row;
    }
}
