namespace CryoThermo.Checks.Values;

/// <summary>A published worked example with its values.</summary>
public sealed record PublishedExample(
    string Name, string Source, bool FromMemory, string Given, string? NotCovered, IReadOnlyList<PublishedValue> Values);
