using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// Surface tension between a pure liquid and its vapour, N/m: the sum of n (1 - T/T_red)^k over the terms. Immutable and thread-safe.
/// </summary>
/// <param name="ReducingTemperature">T_red, K.</param>
/// <param name="Terms">The terms, n in N/m.</param>
/// <param name="UncertaintyPercent">Stated uncertainty, percent.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record SurfaceTensionCurve(double ReducingTemperature, IReadOnlyList<CurveTerm> Terms, double UncertaintyPercent, Provenance Provenance)
{
    /// <summary>The surface tension, N/m; zero from the reducing temperature up.</summary>
    /// <param name="temperature">K, 0.001 to 100000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside.</exception>
    public double At(double temperature)
    {
        Guard.InRange(temperature, 1e-3, 1e5, "K");
        double distance = 1 - (temperature / ReducingTemperature);
        if (distance <= 0)
        {
            return 0;
        }

        double sum = 0;
        foreach (CurveTerm term in Terms)
        {
            sum += term.Coefficient * Math.Pow(distance, term.Exponent);
        }

        // A published sum may turn negative within a fifth of a kelvin of the critical point (methane), where the tension is all but zero.
        return Math.Max(sum, 0);
    }
}
