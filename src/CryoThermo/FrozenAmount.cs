using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>Solid of one component beside a fluid. Immutable and thread-safe.</summary>
/// <param name="Component">The component.</param>
/// <param name="Amount">Solid moles over all moles of the whole.</param>
/// <param name="FrozenFraction">Solid moles over all moles of this component.</param>
public sealed record FrozenAmount(Substance Component, double Amount, double FrozenFraction);
