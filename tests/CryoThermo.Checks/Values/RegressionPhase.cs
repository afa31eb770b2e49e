namespace CryoThermo.Checks.Values;

/// <summary>A phase of a regression split.</summary>
public sealed record RegressionPhase(double Fraction, double CompressibilityFactor, IReadOnlyList<double> MoleFractions);
