namespace CryoThermo.Equilibrium;

/// <summary>Totals over all phases of an equilibrium state, per mole of the whole. SI.</summary>
/// <param name="Enthalpy">J/mol.</param>
/// <param name="Entropy">J/(mol K).</param>
/// <param name="Volume">m3/mol.</param>
/// <param name="EquilibriumHeatCapacity">dh/dT at constant pressure with the phases following, J/(mol K).</param>
internal readonly record struct CaloricFigures(double Enthalpy, double Entropy, double Volume, double EquilibriumHeatCapacity);
