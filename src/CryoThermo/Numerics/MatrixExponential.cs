namespace CryoThermo.Numerics;

/// <summary>Exponential of a small square matrix, by halving until the series of Taylor converges at once, and squaring back.</summary>
internal static class MatrixExponential
{
    private const int Terms = 14;
    private const double LargestNorm = 0.25;

    /// <summary>The exponential.</summary>
    /// <param name="matrix">Square, finite; not changed.</param>
    public static double[,] Of(double[,] matrix)
    {
        int n = matrix.GetLength(0);
        double norm = 0;
        for (int i = 0; i < n; i++)
        {
            double row = 0;
            for (int j = 0; j < n; j++)
            {
                row += Math.Abs(matrix[i, j]);
            }

            norm = Math.Max(norm, row);
        }

        int squarings = norm > LargestNorm ? (int)Math.Ceiling(Math.Log2(norm / LargestNorm)) : 0;
        double[,] small = Scaled(matrix, Math.ScaleB(1, -squarings));
        double[,] sum = new double[n, n];
        double[,] term = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            sum[i, i] = 1;
            term[i, i] = 1;
        }

        for (int k = 1; k <= Terms; k++)
        {
            term = Scaled(Product(term, small), 1.0 / k);
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    sum[i, j] += term[i, j];
                }
            }
        }

        for (int k = 0; k < squarings; k++)
        {
            sum = Product(sum, sum);
        }

        return sum;
    }

    private static double[,] Scaled(double[,] a, double by)
    {
        int n = a.GetLength(0);
        double[,] b = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                b[i, j] = by * a[i, j];
            }
        }

        return b;
    }

    private static double[,] Product(double[,] a, double[,] b)
    {
        int n = a.GetLength(0);
        double[,] c = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int k = 0; k < n; k++)
            {
                double x = a[i, k];
                for (int j = 0; j < n; j++)
                {
                    c[i, j] += x * b[k, j];
                }
            }
        }

        return c;
    }
}
