namespace CryoThermo.Checks.Values;

/// <summary>A published example the library cannot compute yet.</summary>
public sealed record UncoveredExample(string What, string Source, string Why);
