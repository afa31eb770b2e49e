namespace CryoThermo.Checks.Values;

/// <summary>What Peng-Robinson gave for an equilibrium point when the data were collected.</summary>
public sealed record NotedPoint(
    double? Temperature, double? Pressure, IReadOnlyDictionary<string, double>? Liquid, IReadOnlyDictionary<string, double>? Vapor);
