namespace CryoThermo.Coolers;

/// <summary>A mixture as a cooler file states it; amounts are kept as given, never renormalised. Immutable and thread-safe.</summary>
/// <param name="Basis">What the amounts are.</param>
/// <param name="Components">The components in the file's order, each substance once.</param>
public sealed record MixtureDescription(MixtureBasis Basis, IReadOnlyList<ComponentAmount> Components);
