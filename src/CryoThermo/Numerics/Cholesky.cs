namespace CryoThermo.Numerics;

/// <summary>Cholesky factorisation of small symmetric matrices in caller-owned memory, row-major.</summary>
internal static class Cholesky
{
    /// <summary>
    /// Factors a + shift I = L L^T in place (lower triangle). Returns false when it is not positive definite to rounding.
    /// </summary>
    public static bool Factor(Span<double> a, int n, double shift)
    {
        for (int j = 0; j < n; j++)
        {
            Span<double> rowJ = a.Slice(j * n, n);
            double diagonal = rowJ[j] + shift;
            double whole = Math.Abs(diagonal);
            for (int k = 0; k < j; k++)
            {
                diagonal -= rowJ[k] * rowJ[k];
            }

            if (!(diagonal > 1e-13 * whole) || !double.IsFinite(diagonal))
            {
                return false;
            }

            double root = Math.Sqrt(diagonal);
            rowJ[j] = root;
            for (int i = j + 1; i < n; i++)
            {
                Span<double> rowI = a.Slice(i * n, n);
                double sum = rowI[j];
                for (int k = 0; k < j; k++)
                {
                    sum -= rowI[k] * rowJ[k];
                }

                rowI[j] = sum / root;
            }
        }

        return true;
    }

    /// <summary>Solves L L^T x = b in place.</summary>
    public static void Solve(ReadOnlySpan<double> factor, int n, Span<double> b)
    {
        for (int i = 0; i < n; i++)
        {
            double sum = b[i];
            for (int k = 0; k < i; k++)
            {
                sum -= factor[(i * n) + k] * b[k];
            }

            b[i] = sum / factor[(i * n) + i];
        }

        for (int i = n - 1; i >= 0; i--)
        {
            double sum = b[i];
            for (int k = i + 1; k < n; k++)
            {
                sum -= factor[(k * n) + i] * b[k];
            }

            b[i] = sum / factor[(i * n) + i];
        }
    }
}
