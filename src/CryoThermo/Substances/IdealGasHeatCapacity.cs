namespace CryoThermo.Substances;

/// <summary>The ideal-gas heat capacity of a substance as published: cp0/R is the sum of the terms. Immutable and thread-safe.</summary>
/// <param name="Terms">The terms of cp0/R.</param>
/// <param name="LowestTemperature">Lower end of the stated range, K.</param>
/// <param name="HighestTemperature">Upper end of the stated range, K.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record IdealGasHeatCapacity(
    IReadOnlyList<HeatCapacityTerm> Terms,
    double LowestTemperature,
    double HighestTemperature,
    Provenance Provenance)
{
    /// <summary>cp0/R, dimensionless.</summary>
    /// <param name="temperature">Temperature, K; greater than zero. The form also answers outside its stated range.</param>
    public double OverGasConstant(double temperature)
    {
        double sum = 0;
        foreach (HeatCapacityTerm term in Terms)
        {
            sum += term.At(temperature);
        }

        return sum;
    }
}
