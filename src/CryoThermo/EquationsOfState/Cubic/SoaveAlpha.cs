namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>sqrt(alpha) = 1 + m (1 - sqrt(T/Tc)), Soave, Chem. Eng. Sci. 27 (1972) 1197, with m from the acentric factor.</summary>
internal sealed class SoaveAlpha(double criticalTemperature, double m) : AlphaFunction
{
    /// <summary>Peng, Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59.</summary>
    public static SoaveAlpha PengRobinson1976(double criticalTemperature, double acentricFactor) =>
        new(criticalTemperature, 0.37464 + (acentricFactor * (1.54226 - (0.26992 * acentricFactor))));

    /// <summary>Robinson, Peng, Gas Processors Association Research Report RR-28 (1978): another cubic for acentric factors above 0.491.</summary>
    public static SoaveAlpha PengRobinson1978(double criticalTemperature, double acentricFactor) => acentricFactor <= 0.491
        ? PengRobinson1976(criticalTemperature, acentricFactor)
        : new(criticalTemperature, 0.379642 + (acentricFactor * (1.48503 + (acentricFactor * (-0.164423 + (0.016666 * acentricFactor))))));

    /// <summary>Soave, Chem. Eng. Sci. 27 (1972) 1197.</summary>
    public static SoaveAlpha SoaveRedlichKwong(double criticalTemperature, double acentricFactor) =>
        new(criticalTemperature, 0.480 + (acentricFactor * (1.574 - (0.176 * acentricFactor))));

    /// <inheritdoc/>
    public override double SquareRoot(double temperature, out double first, out double second)
    {
        double root = Math.Sqrt(temperature / criticalTemperature);
        first = -0.5 * m * root / temperature;
        second = -0.5 * first / temperature;
        return 1 + (m * (1 - root));
    }
}
