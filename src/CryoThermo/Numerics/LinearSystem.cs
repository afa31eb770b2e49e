namespace CryoThermo.Numerics;

/// <summary>Small dense linear systems in caller-owned memory, row-major, by elimination with partial pivoting.</summary>
internal static class LinearSystem
{
    /// <summary>Solves a x = b in place; a is destroyed. Returns false when a is singular to rounding.</summary>
    public static bool Solve(Span<double> a, int n, Span<double> b)
    {
        for (int column = 0; column < n; column++)
        {
            int pivot = column;
            double largest = Math.Abs(a[(column * n) + column]);
            for (int row = column + 1; row < n; row++)
            {
                double candidate = Math.Abs(a[(row * n) + column]);
                if (candidate > largest)
                {
                    largest = candidate;
                    pivot = row;
                }
            }

            if (!(largest > 1e-300) || !double.IsFinite(largest))
            {
                return false;
            }

            if (pivot != column)
            {
                for (int k = column; k < n; k++)
                {
                    (a[(column * n) + k], a[(pivot * n) + k]) = (a[(pivot * n) + k], a[(column * n) + k]);
                }

                (b[column], b[pivot]) = (b[pivot], b[column]);
            }

            for (int row = column + 1; row < n; row++)
            {
                double factor = a[(row * n) + column] / a[(column * n) + column];
                if (factor == 0)
                {
                    continue;
                }

                for (int k = column + 1; k < n; k++)
                {
                    a[(row * n) + k] -= factor * a[(column * n) + k];
                }

                b[row] -= factor * b[column];
            }
        }

        for (int row = n - 1; row >= 0; row--)
        {
            double sum = b[row];
            for (int k = row + 1; k < n; k++)
            {
                sum -= a[(row * n) + k] * b[k];
            }

            b[row] = sum / a[(row * n) + row];
        }

        return true;
    }
}
