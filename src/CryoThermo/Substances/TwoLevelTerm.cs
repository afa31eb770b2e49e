namespace CryoThermo.Substances;

/// <summary>
/// A system of two energy levels in cp0/R: weight x^2 g exp(-x) / (1 + g exp(-x))^2 with x the characteristic temperature over T and g the
/// ratio of the degeneracies (Schottky function). With g = 1 it is the squared hyperbolic-cosine form (x/2)^2 / cosh^2(x/2).
/// </summary>
/// <param name="Weight">Weight, dimensionless.</param>
/// <param name="CharacteristicTemperature">Energy difference over the Boltzmann constant, K.</param>
/// <param name="DegeneracyRatio">Degeneracy of the upper over that of the lower level.</param>
public sealed record TwoLevelTerm(double Weight, double CharacteristicTemperature, double DegeneracyRatio) : HeatCapacityTerm
{
    /// <inheritdoc/>
    public override double At(double temperature)
    {
        double x = CharacteristicTemperature / temperature;
        if (x > LargestExponent)
        {
            return 0;
        }

        double population = DegeneracyRatio * Math.Exp(-x);
        return Weight * x * x * population / ((1 + population) * (1 + population));
    }
}
