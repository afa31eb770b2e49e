using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Numerics;

/// <summary>Least squares with coefficients of zero or more: Lawson and Hanson, Solving Least Squares Problems (1974), chapter 23.</summary>
internal static class NonNegativeLeastSquares
{
    /// <summary>Minimises |A c - b| with c of zero or more.</summary>
    public static Vector<double> Solve(Matrix<double> a, Vector<double> b)
    {
        int n = a.ColumnCount;
        Vector<double> c = Vector<double>.Build.Dense(n);
        bool[] free = new bool[n];
        double tolerance = 1e-12 * a.TransposeThisAndMultiply(b).AbsoluteMaximum();
        for (int round = 0; round < 30 * n; round++)
        {
            Vector<double> gradient = a.TransposeThisAndMultiply(b - (a * c));
            int next = Enumerable.Range(0, n).Where(j => !free[j]).DefaultIfEmpty(-1).MaxBy(j => j < 0 ? double.NegativeInfinity : gradient[j]);
            if (next < 0 || gradient[next] <= tolerance)
            {
                break;
            }

            free[next] = true;
            while (true)
            {
                int[] columns = [.. Enumerable.Range(0, n).Where(j => free[j])];
                if (columns.Length == 0)
                {
                    break;
                }

                Vector<double> trial = Matrix<double>.Build.DenseOfColumnVectors(columns.Select(a.Column)).QR().Solve(b);
                if (trial.Minimum() > 0)
                {
                    c.Clear();
                    for (int k = 0; k < columns.Length; k++)
                    {
                        c[columns[k]] = trial[k];
                    }

                    break;
                }

                // As far towards the trial as all stay at zero or above; what reaches zero is fixed there.
                double step = 1;
                for (int k = 0; k < columns.Length; k++)
                {
                    step = trial[k] <= 0 ? Math.Min(step, c[columns[k]] / (c[columns[k]] - trial[k])) : step;
                }

                for (int k = 0; k < columns.Length; k++)
                {
                    int j = columns[k];
                    c[j] += step * (trial[k] - c[j]);
                    if (trial[k] <= 0 && c[j] <= 1e-14)
                    {
                        c[j] = 0;
                        free[j] = false;
                    }
                }
            }
        }

        return c;
    }
}
