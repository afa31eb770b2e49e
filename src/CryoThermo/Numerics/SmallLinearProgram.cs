namespace CryoThermo.Numerics;

/// <summary>
/// Maximises c x subject to A x &lt;= b, x &gt;= 0 with b &gt;= 0, for tens of variables and rows: the tableau form of the simplex method
/// (Dantzig 1947) from the slack basis, with Bland's rule against cycling after many steps.
/// </summary>
internal static class SmallLinearProgram
{
    private const double Tiny = 1e-11;

    /// <summary>Solves; false when the maximum is unbounded or the steps run out.</summary>
    /// <param name="objective">c.</param>
    /// <param name="rows">A, one row a constraint.</param>
    /// <param name="limits">b, none negative.</param>
    /// <param name="solution">Receives x.</param>
    public static bool TryMaximise(double[] objective, IReadOnlyList<double[]> rows, IReadOnlyList<double> limits, Span<double> solution)
    {
        int n = objective.Length;
        int m = rows.Count;
        double[,] table = new double[m + 1, n + m + 1];
        int[] basis = new int[m];
        for (int i = 0; i < m; i++)
        {
            for (int j = 0; j < n; j++)
            {
                table[i, j] = rows[i][j];
            }

            table[i, n + i] = 1;
            table[i, n + m] = Math.Max(0, limits[i]);
            basis[i] = n + i;
        }

        for (int j = 0; j < n; j++)
        {
            table[m, j] = -objective[j];
        }

        int mostSteps = 20 * (n + m);
        for (int step = 0; step < mostSteps; step++)
        {
            bool careful = step > 5 * (n + m);
            int column = Entering(table, n, m, careful);
            if (column < 0)
            {
                solution.Clear();
                for (int i = 0; i < m; i++)
                {
                    if (basis[i] < n)
                    {
                        solution[basis[i]] = table[i, n + m];
                    }
                }

                return true;
            }

            int row = Leaving(table, basis, n, m, column);
            if (row < 0)
            {
                return false;
            }

            Pivot(table, n, m, row, column);
            basis[row] = column;
        }

        return false;
    }

    private static int Entering(double[,] table, int n, int m, bool careful)
    {
        int column = -1;
        double most = -1e-9;
        for (int j = 0; j < n + m; j++)
        {
            if (table[m, j] < most)
            {
                column = j;
                if (careful)
                {
                    return column;
                }

                most = table[m, j];
            }
        }

        return column;
    }

    private static int Leaving(double[,] table, int[] basis, int n, int m, int column)
    {
        int row = -1;
        double least = double.PositiveInfinity;
        for (int i = 0; i < m; i++)
        {
            if (table[i, column] > Tiny)
            {
                double ratio = table[i, n + m] / table[i, column];
                if (ratio < least - Tiny || (ratio <= least + Tiny && row >= 0 && basis[i] < basis[row]))
                {
                    least = Math.Min(least, ratio);
                    row = i;
                }
            }
        }

        return row;
    }

    private static void Pivot(double[,] table, int n, int m, int row, int column)
    {
        double pivot = table[row, column];
        for (int j = 0; j <= n + m; j++)
        {
            table[row, j] /= pivot;
        }

        for (int i = 0; i <= m; i++)
        {
            double factor = table[i, column];
            if (i == row || factor == 0)
            {
                continue;
            }

            for (int j = 0; j <= n + m; j++)
            {
                table[i, j] -= factor * table[row, j];
            }
        }
    }
}
