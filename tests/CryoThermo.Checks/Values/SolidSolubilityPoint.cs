namespace CryoThermo.Checks.Values;

/// <summary>Measured mole fraction of a dissolved solid in a liquid under its own vapour.</summary>
public sealed record SolidSolubilityPoint(
    string Solid, string Solvent, double Temperature, double MoleFraction, string Source, bool FromMemory, string Verified, string Confidence, string? Note);
