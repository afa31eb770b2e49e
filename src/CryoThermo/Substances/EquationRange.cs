namespace CryoThermo.Substances;

/// <summary>The stated range of an equation of state. Immutable.</summary>
/// <param name="LowestTemperature">K; usually the triple point.</param>
/// <param name="HighestTemperature">K.</param>
/// <param name="HighestPressure">Pa absolute.</param>
/// <param name="HighestMolarDensity">mol/m3: greatest density of the equation within the range of temperature and pressure.</param>
/// <param name="Note">Where the limits come from; null when nothing is to be said.</param>
public sealed record EquationRange(
    double LowestTemperature, double HighestTemperature, double HighestPressure, double HighestMolarDensity, string? Note);
