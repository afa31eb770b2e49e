namespace CryoThermo.Checks.Values;

/// <summary>A single equilibrium point; the phase that is missing was not given.</summary>
public sealed record EquilibriumPoint(
    string System,
    double Temperature,
    double Pressure,
    IReadOnlyDictionary<string, double>? Liquid,
    IReadOnlyDictionary<string, double>? Vapor,
    string Kind,
    string Source,
    bool FromMemory,
    string Reliability,
    NotedPoint Noted);
