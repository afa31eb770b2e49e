namespace CryoThermo.Equilibrium.Solids;

/// <summary>
/// How much of each component is solid at a temperature and pressure: the rest is solved as a fluid until fluid and solid fugacity are equal
/// for every component that is partly solid, and no other one would freeze. One component after the other; each step lowers the Gibbs energy.
/// </summary>
internal static class FreezeFlash
{
    private const double Tolerance = 1e-9;
    private const int MostSweeps = 300;

    // Less fluid than this share of the whole counts as none.
    private const double NoFluid = 1e-7;

    // Thinner components are solved as traces, which do not act on the others.
    private const double Trace = 1e-9;

    /// <summary>Solves.</summary>
    /// <param name="solids">The solids.</param>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="z">Composition of the whole.</param>
    /// <param name="frozen">Receives the solid amount of each component, moles over moles of the whole.</param>
    /// <param name="fluid">The fluid left, null when all is solid.</param>
    /// <param name="residual">Largest ln ratio of fluid to solid fugacity of a component that is partly solid, or by which another one should freeze.</param>
    /// <returns>False when it did not converge.</returns>
    public static bool TrySolve(
        SolidMixture solids, double temperature, double pressure, ReadOnlySpan<double> z, Span<double> frozen, out EquilibriumResult? fluid, out double residual)
    {
        int n = z.Length;
        double[] left = z.ToArray();
        double[] values = new double[n];
        frozen.Clear();
        fluid = null;
        residual = double.PositiveInfinity;
        for (int sweep = 0; sweep < MostSweeps; sweep++)
        {
            fluid = Saturation(solids, temperature, pressure, left, values);
            residual = 0;
            for (int i = 0; i < n; i++)
            {
                residual = Math.Max(residual, left[i] < z[i] ? Math.Abs(values[i]) : Math.Max(0, values[i]));
            }

            if (residual <= Tolerance)
            {
                for (int i = 0; i < n; i++)
                {
                    frozen[i] = z[i] - left[i];
                }

                return true;
            }

            for (int i = 0; i < n; i++)
            {
                if (left[i] < z[i] || values[i] > 0)
                {
                    left[i] = Remaining(solids, temperature, pressure, left, i, z[i]);
                }
            }

            if (left.Sum() < NoFluid)
            {
                z.CopyTo(frozen);
                fluid = null;
                residual = 0;
                return true;
            }
        }

        return false;
    }

    private static EquilibriumResult Saturation(SolidMixture solids, double temperature, double pressure, double[] left, double[] values)
    {
        int n = left.Length;
        double sum = left.Sum();
        Span<double> x = stackalloc double[n];
        Span<double> lnAmounts = stackalloc double[n];
        double kept = 0;
        for (int i = 0; i < n; i++)
        {
            lnAmounts[i] = Math.Log(left[i] / sum);
            x[i] = left[i] / sum < Trace ? 0 : left[i];
            kept += x[i];
        }

        for (int i = 0; i < n; i++)
        {
            x[i] /= kept;
        }

        return solids.LnSaturation(temperature, pressure, x, lnAmounts, values);
    }

    // The amount of one component that stays fluid while the others keep theirs: all of it, or where both fugacities are equal.
    private static double Remaining(SolidMixture solids, double temperature, double pressure, double[] left, int component, double whole)
    {
        double[] trial = [.. left];
        double[] values = new double[left.Length];
        double others = left.Sum() - left[component];
        double high = Math.Log(whole);
        double atHigh = At(high);
        if (atHigh <= 0)
        {
            return whole;
        }

        if (others <= NoFluid * whole)
        {
            return 0;
        }

        double low = high;
        double atLow = atHigh;
        while (atLow > 0)
        {
            high = low;
            atHigh = atLow;
            low -= Math.Max(0.5, 1.01 * atLow);
            if (low < -690)
            {
                return 0;
            }

            atLow = At(low);
        }

        int side = 0;
        for (int step = 0; step < 100 && high - low > 1e-14; step++)
        {
            double middle = step < 60 ? high - ((high - low) * atHigh / (atHigh - atLow)) : 0.5 * (high + low);
            double value = At(middle);
            if (Math.Abs(value) < 0.1 * Tolerance)
            {
                return Math.Exp(middle);
            }

            if (value > 0)
            {
                high = middle;
                atHigh = value;
                atLow *= side > 0 ? 0.5 : 1;
                side = 1;
            }
            else
            {
                low = middle;
                atLow = value;
                atHigh *= side < 0 ? 0.5 : 1;
                side = -1;
            }
        }

        return Math.Exp(0.5 * (high + low));

        double At(double ln)
        {
            trial[component] = Math.Exp(ln);
            Saturation(solids, temperature, pressure, trial, values);
            return values[component];
        }
    }
}
