namespace CryoThermo.Substances;

/// <summary>A point of a pure fluid. Immutable.</summary>
/// <param name="Temperature">K.</param>
/// <param name="Pressure">Pa absolute.</param>
/// <param name="MolarDensity">mol/m3.</param>
public sealed record FluidPoint(double Temperature, double Pressure, double MolarDensity);
