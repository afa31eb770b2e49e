using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>What is known about a number besides its value. Immutable and thread-safe.</summary>
/// <param name="Source">Where it comes from, whether from memory, and what it was checked against.</param>
/// <param name="Uncertainty">Its uncertainty in words with the unit, where known.</param>
/// <param name="Note">Anything else a user of the number should know.</param>
public sealed record Provenance(Source Source, string? Uncertainty = null, string? Note = null);
