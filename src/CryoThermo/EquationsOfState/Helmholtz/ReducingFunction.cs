using CryoThermo.Substances;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// One of the two reducing functions of the multi-fluid model over composition,
/// Y = sum_i x_i^2 Y_i + sum_{i&lt;j} 2 x_i x_j beta gamma (x_i + x_j)/(beta^2 x_i + x_j) Y_ij, with the derivatives of ln Y by amounts.
/// Kunz, Wagner, J. Chem. Eng. Data 57 (2012) 3032. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// N^2 Y is homogeneous of second degree in the amounts, which makes the second derivatives of a pair short: with q = b x + y, b = beta^2 and
/// h = A x y (x + y)/q they are h_xx = 2 A (1 - b) (y/q)^3 and h_yy = 2 A b (b - 1) (x/q)^3.
/// </remarks>
internal sealed class ReducingFunction
{
    private readonly int count;
    private readonly double[] pure;
    private readonly double[] strength;
    private readonly double[] squaredBeta;

    private ReducingFunction(double[] pure, double[] strength, double[] squaredBeta)
    {
        count = pure.Length;
        this.pure = pure;
        this.strength = strength;
        this.squaredBeta = squaredBeta;
    }

    /// <summary>The reducing molar volume, m3/mol.</summary>
    /// <param name="molarDensity">Reducing molar densities of the components, mol/m3.</param>
    /// <param name="parameters">beta and gamma for each i &lt; j, N x N, row-major.</param>
    public static ReducingFunction OfVolume(ReadOnlySpan<double> molarDensity, ReadOnlySpan<ReducingParameters> parameters)
    {
        double[] roots = new double[molarDensity.Length];
        double[] volumes = new double[molarDensity.Length];
        for (int i = 0; i < roots.Length; i++)
        {
            roots[i] = Math.Cbrt(1 / molarDensity[i]);
            volumes[i] = 1 / molarDensity[i];
        }

        return Of(volumes, parameters, (i, j) => (roots[i] + roots[j]) * (roots[i] + roots[j]) * (roots[i] + roots[j]) / 8);
    }

    /// <summary>The reducing temperature, K.</summary>
    /// <param name="temperature">Reducing temperatures of the components, K.</param>
    /// <param name="parameters">beta and gamma for each i &lt; j, N x N, row-major.</param>
    public static ReducingFunction OfTemperature(ReadOnlySpan<double> temperature, ReadOnlySpan<ReducingParameters> parameters)
    {
        double[] temperatures = temperature.ToArray();
        return Of(temperatures, parameters, (i, j) => Math.Sqrt(temperatures[i] * temperatures[j]));
    }

    /// <summary>Y, with n d(ln Y)/d(n_i) for every component.</summary>
    /// <param name="x">Mole fractions, sum 1.</param>
    /// <param name="byAmount">Receives one value a component.</param>
    public double At(ReadOnlySpan<double> x, Span<double> byAmount)
    {
        double sum = 0;
        for (int i = 0; i < count; i++)
        {
            byAmount[i] = 2 * x[i] * pure[i];
            sum += x[i] * x[i] * pure[i];
        }

        int k = 0;
        for (int i = 0; i < count; i++)
        {
            double a = x[i];
            for (int j = i + 1; j < count; j++, k++)
            {
                double b = squaredBeta[k];
                double c = x[j];
                double q = (b * a) + c;
                if (q <= 0)
                {
                    continue;
                }

                double scale = strength[k] / q;
                double part = scale * a * c * (a + c);
                double second = scale / q;
                sum += part;
                byAmount[i] += second * c * ((b * a * a) + (2 * a * c) + (c * c));
                byAmount[j] += second * a * ((b * a * a) + (2 * b * a * c) + (c * c));
            }
        }

        for (int i = 0; i < count; i++)
        {
            byAmount[i] = (byAmount[i] / sum) - 2;
        }

        return sum;
    }

    /// <summary>n^2 d2(ln Y)/d(n_i)d(n_j).</summary>
    /// <param name="x">Mole fractions, sum 1.</param>
    /// <param name="value">Y, as returned by <see cref="At"/>.</param>
    /// <param name="byAmount">As filled by <see cref="At"/>.</param>
    /// <param name="byTwoAmounts">Receives N x N values, symmetric, row-major.</param>
    public void SecondAt(ReadOnlySpan<double> x, double value, ReadOnlySpan<double> byAmount, Span<double> byTwoAmounts)
    {
        for (int i = 0; i < count; i++)
        {
            byTwoAmounts[(i * count) + i] = 2 * pure[i];
        }

        int k = 0;
        for (int i = 0; i < count; i++)
        {
            for (int j = i + 1; j < count; j++, k++)
            {
                double b = squaredBeta[k];

                // Where both are absent the second derivatives depend on the direction; the middle one is taken.
                bool isAbsent = !((b * x[i]) + x[j] > 0);
                double a = isAbsent ? 1 : x[i];
                double c = isAbsent ? 1 : x[j];
                double q = (b * a) + c;
                double scale = strength[k] / (q * q * q);
                byTwoAmounts[(i * count) + i] += 2 * scale * (1 - b) * c * c * c;
                byTwoAmounts[(j * count) + j] += 2 * scale * b * (b - 1) * a * a * a;
                double n = (b * a * a) + (2 * a * c) + (c * c);
                byTwoAmounts[(i * count) + j] = scale * ((n * q) + (2 * c * (((a + c) * q) - n)));
            }
        }

        // ln Y = ln(N^2 Y) - 2 ln N.
        double inverse = 1 / value;
        for (int i = 0; i < count; i++)
        {
            double first = byAmount[i] + 2;
            for (int j = i; j < count; j++)
            {
                double entry = (byTwoAmounts[(i * count) + j] * inverse) - (first * (byAmount[j] + 2)) + 2;
                byTwoAmounts[(i * count) + j] = entry;
                byTwoAmounts[(j * count) + i] = entry;
            }
        }
    }

    private static ReducingFunction Of(double[] values, ReadOnlySpan<ReducingParameters> parameters, Func<int, int, double> mean)
    {
        int n = values.Length;
        double[] strengths = new double[n * (n - 1) / 2];
        double[] squares = new double[strengths.Length];
        int k = 0;
        for (int i = 0; i < n; i++)
        {
            for (int j = i + 1; j < n; j++, k++)
            {
                ReducingParameters pair = parameters[(i * n) + j];
                strengths[k] = 2 * pair.Beta * pair.Gamma * mean(i, j);
                squares[k] = pair.Beta * pair.Beta;
            }
        }

        return new(values, strengths, squares);
    }
}
