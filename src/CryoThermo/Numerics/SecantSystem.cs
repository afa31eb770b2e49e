namespace CryoThermo.Numerics;

/// <summary>
/// Steps towards a root of several equations in as many unknowns from values alone: C. G. Broyden's first method (Math. Comp. 19 (1965) 577), the inverse kept. It starts as
/// if every unknown moved its own equation by minus one, as the change of a map does. Holds its memory; not thread-safe.
/// </summary>
internal sealed class SecantSystem
{
    private readonly int n;
    private readonly double[] inverse;
    private readonly double[] product;
    private readonly double[] row;

    /// <summary>Creates the system.</summary>
    /// <param name="unknowns">Their number.</param>
    public SecantSystem(int unknowns)
    {
        n = unknowns;
        inverse = new double[n * n];
        product = new double[n];
        row = new double[n];
        Restart();
    }

    /// <summary>Takes over what another has learned.</summary>
    public void CopyFrom(SecantSystem other) => other.inverse.CopyTo(inverse, 0);

    /// <summary>Forgets what was learned.</summary>
    public void Restart()
    {
        Array.Clear(inverse);
        for (int i = 0; i < n; i++)
        {
            inverse[(i * n) + i] = -1;
        }
    }

    /// <summary>The step that would bring the values to zero.</summary>
    public void Step(ReadOnlySpan<double> values, Span<double> step)
    {
        for (int i = 0; i < n; i++)
        {
            double sum = 0;
            for (int j = 0; j < n; j++)
            {
                sum -= inverse[(i * n) + j] * values[j];
            }

            step[i] = sum;
        }
    }

    /// <summary>Learns from a step made and the change of the values that it brought.</summary>
    public void Learn(ReadOnlySpan<double> step, ReadOnlySpan<double> change)
    {
        double along = 0;
        double length = 0;
        for (int i = 0; i < n; i++)
        {
            product[i] = 0;
            row[i] = 0;
            for (int j = 0; j < n; j++)
            {
                product[i] += inverse[(i * n) + j] * change[j];
                row[i] += step[j] * inverse[(j * n) + i];
            }

            along += step[i] * product[i];
            length += step[i] * step[i];
        }

        // A change that turns the step round tells of noise or of a kink: nothing is learned from it.
        if (!(along > 0.05 * length))
        {
            return;
        }

        for (int i = 0; i < n; i++)
        {
            double left = (step[i] - product[i]) / along;
            for (int j = 0; j < n; j++)
            {
                inverse[(i * n) + j] += left * row[j];
            }
        }
    }
}
