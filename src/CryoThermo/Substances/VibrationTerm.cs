namespace CryoThermo.Substances;

/// <summary>
/// A harmonic oscillator in cp0/R: weight x^2 exp(-x) / (1 - exp(-x))^2 with x the characteristic temperature over T (Planck-Einstein function).
/// </summary>
/// <param name="Weight">Number of oscillators; fractional and negative in fitted forms.</param>
/// <param name="CharacteristicTemperature">Characteristic temperature, K.</param>
public sealed record VibrationTerm(double Weight, double CharacteristicTemperature) : HeatCapacityTerm
{
    /// <inheritdoc/>
    public override double At(double temperature)
    {
        double x = CharacteristicTemperature / temperature;
        if (x > LargestExponent)
        {
            return 0;
        }

        double half = x / (2 * Math.Sinh(x / 2));
        return Weight * half * half;
    }
}
