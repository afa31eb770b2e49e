namespace CryoThermo.Substances;

/// <summary>
/// n (T/T_red)^t delta^d exp(-delta^l), without the exponential for l = 0, times ln(delta) where logarithmic.
/// </summary>
internal sealed record TransportTerm(
    double Coefficient, double TemperatureExponent, double DensityExponent, int DecayExponent, bool IsLogarithmic)
{
    /// <summary>The sum of terms. The density must not be zero.</summary>
    public static double Sum(TransportTerm[] terms, double lnTemperature, double lnDensity, double density)
    {
        double sum = 0;
        foreach (TransportTerm term in terms)
        {
            double exponent = (term.TemperatureExponent * lnTemperature) + (term.DensityExponent * lnDensity);
            if (term.DecayExponent > 0)
            {
                double decay = density;
                for (int i = 1; i < term.DecayExponent; i++)
                {
                    decay *= density;
                }

                exponent -= decay;
            }

            double value = term.Coefficient * Math.Exp(exponent);
            sum += term.IsLogarithmic ? value * lnDensity : value;
        }

        return sum;
    }
}
