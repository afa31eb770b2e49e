using CryoThermo.Substances;

namespace CryoThermo.Coolers.Charging;

/// <summary>A gas in a charge that nobody wanted there. Immutable and thread-safe.</summary>
/// <param name="Component">What it is.</param>
/// <param name="MoleFraction">Its share of everything in the machine.</param>
public sealed record ForeignGas(Substance Component, double MoleFraction);
