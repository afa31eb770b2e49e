using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>A cold surface that room air can reach: bare, or behind insulation that is not vapour-tight. Immutable and thread-safe.</summary>
/// <param name="Name">What the surface is, for the text of a caution, for example "transfer line".</param>
/// <param name="Temperature">The lowest temperature the surface takes in service.</param>
public sealed record ExposedSurface(string Name, Temperature Temperature);
