namespace CryoThermo.Substances;

/// <summary>Range, uncertainty and source of one part of a transport correlation. Immutable and thread-safe.</summary>
/// <param name="LowestTemperature">Lower end of the range it is used in, K.</param>
/// <param name="HighestTemperature">Upper end, K.</param>
/// <param name="HighestPressure">Upper end, Pa absolute; null for the dilute gas and where none is stated.</param>
/// <param name="UncertaintyPercent">Stated uncertainty, percent of the value.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record TransportCorrelation(
    double LowestTemperature, double HighestTemperature, double? HighestPressure, double UncertaintyPercent, Provenance Provenance);
