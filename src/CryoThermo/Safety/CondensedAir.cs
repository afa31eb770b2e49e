using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>The first liquid that forms of air. Immutable and thread-safe.</summary>
/// <param name="DewPoint">Surfaces colder than this condense air.</param>
/// <param name="OxygenFraction">Mole fraction of oxygen in the first liquid.</param>
/// <param name="ArgonFraction">Mole fraction of argon in the first liquid.</param>
public sealed record CondensedAir(Temperature DewPoint, double OxygenFraction, double ArgonFraction);
