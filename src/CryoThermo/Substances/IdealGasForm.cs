namespace CryoThermo.Substances;

/// <summary>
/// The ideal-gas part of a Helmholtz equation: its heat capacity, and the enthalpy and entropy its published integration constants
/// give at 298.15 K and 101325 Pa. Immutable.
/// </summary>
/// <param name="HeatCapacity">cp0/R.</param>
/// <param name="PublishedEnthalpy">Enthalpy of the ideal gas at 298.15 K counted from the published zero, J/mol.</param>
/// <param name="PublishedEntropy">Entropy of the ideal gas at 298.15 K and 101325 Pa counted from the published zero, J/(mol K).</param>
/// <param name="PublishedReference">The published zero in words.</param>
public sealed record IdealGasForm(
    IdealGasHeatCapacity HeatCapacity, double PublishedEnthalpy, double PublishedEntropy, string PublishedReference);
