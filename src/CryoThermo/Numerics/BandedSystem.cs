namespace CryoThermo.Numerics;

/// <summary>
/// Linear systems whose coefficients lie near the diagonal, solved by elimination with partial pivoting inside the band. Memory is kept from one solve to the next.
/// Not thread-safe.
/// </summary>
internal sealed class BandedSystem
{
    private readonly int size;
    private readonly int below;
    private readonly int width;
    private readonly double[] band;

    /// <summary>Prepares a system of zeros.</summary>
    /// <param name="size">Number of unknowns.</param>
    /// <param name="below">Diagonals below the main one.</param>
    /// <param name="above">Diagonals above the main one.</param>
    public BandedSystem(int size, int below, int above)
    {
        this.size = size;
        this.below = below;

        // Exchanged rows reach further to the right.
        width = (2 * below) + above + 1;
        band = new double[size * width];
        Right = new double[size];
    }

    /// <summary>Right sides before the solve, unknowns after it.</summary>
    public double[] Right { get; }

    /// <summary>Coefficient of a row and a column inside the band.</summary>
    public ref double this[int row, int column] => ref band[(row * width) + column - row + below];

    /// <summary>Sets all coefficients and right sides to zero.</summary>
    public void Clear()
    {
        Array.Clear(band);
        Array.Clear(Right);
    }

    /// <summary>Solves; the coefficients are destroyed. False when the system is singular to rounding.</summary>
    public bool Solve()
    {
        int reach = width - below - 1;
        for (int column = 0; column < size; column++)
        {
            int lastRow = Math.Min(size - 1, column + below);
            int pivot = column;
            for (int row = column + 1; row <= lastRow; row++)
            {
                if (Math.Abs(this[row, column]) > Math.Abs(this[pivot, column]))
                {
                    pivot = row;
                }
            }

            double largest = this[pivot, column];
            if (!(Math.Abs(largest) > 1e-300) || !double.IsFinite(largest))
            {
                return false;
            }

            int lastColumn = Math.Min(size - 1, column + reach);
            if (pivot != column)
            {
                for (int k = column; k <= lastColumn; k++)
                {
                    (this[column, k], this[pivot, k]) = (this[pivot, k], this[column, k]);
                }

                (Right[column], Right[pivot]) = (Right[pivot], Right[column]);
            }

            for (int row = column + 1; row <= lastRow; row++)
            {
                double factor = this[row, column] / largest;
                if (factor == 0)
                {
                    continue;
                }

                for (int k = column + 1; k <= lastColumn; k++)
                {
                    this[row, k] -= factor * this[column, k];
                }

                this[row, column] = 0;
                Right[row] -= factor * Right[column];
            }
        }

        for (int row = size - 1; row >= 0; row--)
        {
            double sum = Right[row];
            int lastColumn = Math.Min(size - 1, row + reach);
            for (int k = row + 1; k <= lastColumn; k++)
            {
                sum -= this[row, k] * Right[k];
            }

            Right[row] = sum / this[row, row];
        }

        return true;
    }
}
