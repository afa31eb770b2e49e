namespace CryoThermo.Checks.Values;

/// <summary>Measured eutectic of two components, K.</summary>
public sealed record EutecticPoint(
    string First, string Second, double Temperature, double Uncertainty, double MoleFractionOfFirst, string Source, bool FromMemory, string? Note);
