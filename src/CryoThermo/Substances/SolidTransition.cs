namespace CryoThermo.Substances;

/// <summary>A transition between two crystal forms of a pure substance. Immutable and thread-safe.</summary>
/// <param name="Temperature">K.</param>
/// <param name="Enthalpy">Taken up on warming, J/mol.</param>
/// <param name="Phases">Which forms, in words.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record SolidTransition(double Temperature, double Enthalpy, string Phases, Provenance Provenance);
