namespace CryoThermo.Equilibrium;

/// <summary>
/// The phase-fraction equation sum z_i (K_i - 1)/(1 + b (K_i - 1)) = 0 (Rachford, Rice, J. Petrol. Technol. 4 (1952) 19),
/// solved for the log-odds ln(b/(1 - b)) so that a phase of 1e-12 keeps its digits and no iterate can leave its bounds.
/// </summary>
internal static class RachfordRice
{
    /// <summary>
    /// Finds the light-phase fraction. Returns false when no root lies between 0 and 1, with <paramref name="logOdds"/>
    /// then minus infinity (all heavy) or plus infinity (all light).
    /// </summary>
    /// <param name="z">Overall mole fractions.</param>
    /// <param name="lnK">ln of light over heavy mole fraction.</param>
    /// <param name="logOdds">ln(b/(1 - b)).</param>
    public static bool TrySolve(ReadOnlySpan<double> z, ReadOnlySpan<double> lnK, out double logOdds)
    {
        // g(0) = sum z K - 1 must be positive, g(1) = 1 - sum z/K negative.
        double atZero = 0;
        double atOne = 0;
        for (int i = 0; i < z.Length; i++)
        {
            if (z[i] > 0)
            {
                atZero += z[i] * ExpMinusOne(lnK[i]);
                atOne -= z[i] * ExpMinusOne(-lnK[i]);
            }
        }

        if (!(atZero > 0))
        {
            logOdds = double.NegativeInfinity;
            return false;
        }

        if (!(atOne < 0))
        {
            logOdds = double.PositiveInfinity;
            return false;
        }

        // In the log-odds t the sum is smooth and monotone over the whole line.
        double low = -745;
        double high = 745;
        double t = 0;
        for (int iteration = 0; iteration < 200; iteration++)
        {
            double g = Evaluate(z, lnK, t, out double slope);
            if (g > 0)
            {
                low = t;
            }
            else
            {
                high = t;
            }

            double next = t - (g / slope);
            if (!(next > low && next < high))
            {
                // Far from the root in log-odds, a bounded step keeps the bracket shrinking quickly.
                next = 0.5 * (low + high);
            }

            if (Math.Abs(next - t) <= 1e-15 * (1 + Math.Abs(t)))
            {
                logOdds = next;
                return true;
            }

            t = next;
        }

        logOdds = t;
        return true;
    }

    // g = sum z_i (K-1)/(1 + b(K-1)) with b = 1/(1+e^-t); the slope is by t.
    private static double Evaluate(ReadOnlySpan<double> z, ReadOnlySpan<double> lnK, double t, out double slope)
    {
        double b;
        double oneMinusB;
        if (t < 0)
        {
            double e = Math.Exp(t);
            b = e / (1 + e);
            oneMinusB = 1 / (1 + e);
        }
        else
        {
            double e = Math.Exp(-t);
            b = 1 / (1 + e);
            oneMinusB = e / (1 + e);
        }

        double sum = 0;
        double derivative = 0;
        for (int i = 0; i < z.Length; i++)
        {
            if (z[i] <= 0)
            {
                continue;
            }

            double ratio;
            if (lnK[i] < 0)
            {
                double k = Math.Exp(lnK[i]);
                ratio = ExpMinusOne(lnK[i]) / (oneMinusB + (b * k));
            }
            else
            {
                double inverse = Math.Exp(-lnK[i]);
                ratio = -ExpMinusOne(-lnK[i]) / ((oneMinusB * inverse) + b);
            }

            sum += z[i] * ratio;
            derivative -= z[i] * ratio * ratio;
        }

        slope = derivative * b * oneMinusB;
        return sum;
    }

    /// <summary>e^x - 1 with its digits kept near zero.</summary>
    internal static double ExpMinusOne(double x)
    {
        if (Math.Abs(x) > 0.5)
        {
            return Math.Exp(x) - 1;
        }

        // e^x - 1 = 2 tanh(x/2)/(1 - tanh(x/2))
        double tanh = Math.Tanh(0.5 * x);
        return 2 * tanh / (1 - tanh);
    }
}
