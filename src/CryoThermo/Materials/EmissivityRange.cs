namespace CryoThermo.Materials;

/// <summary>What the emissivity of a finish may be. Immutable and thread-safe.</summary>
/// <param name="Least">The best surfaces of the kind.</param>
/// <param name="Typical">The geometric mean of least and greatest: a choice of this library, not a measurement.</param>
/// <param name="Greatest">The worst surfaces of the kind.</param>
public sealed record EmissivityRange(double Least, double Typical, double Greatest);
