namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>
/// b(T)/b(Tc) = [(1 + A/(T + B)) / (1 + A/(Tc + B))]^3: molecules as light as helium, neon and hydrogen seem larger the colder they are.
/// Aasen, Hammer, Lasala, Jaubert, Wilhelmsen, Fluid Phase Equilib. 524 (2020) 112790.
/// </summary>
/// <param name="numerator">A, K.</param>
/// <param name="offset">B, K.</param>
/// <param name="criticalTemperature">Tc, K.</param>
internal sealed class QuantumCovolume(double numerator, double offset, double criticalTemperature)
{
    private readonly double atCritical = 1 + (numerator / (criticalTemperature + offset));

    /// <summary>Ratio of the covolume to that at the critical temperature, with its first and second derivative by temperature.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="first">First derivative, 1/K.</param>
    /// <param name="second">Second derivative, 1/K2.</param>
    public double Ratio(double temperature, out double first, out double second)
    {
        double shifted = temperature + offset;
        double diameter = (1 + (numerator / shifted)) / atCritical;
        double diameterFirst = -numerator / (shifted * shifted * atCritical);
        double diameterSecond = -2 * diameterFirst / shifted;
        first = 3 * diameter * diameter * diameterFirst;
        second = 3 * diameter * ((2 * diameterFirst * diameterFirst) + (diameter * diameterSecond));
        return diameter * diameter * diameter;
    }
}
