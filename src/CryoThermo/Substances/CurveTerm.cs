namespace CryoThermo.Substances;

/// <summary>One term of a <see cref="SaturationCurve"/>. Immutable.</summary>
/// <param name="Coefficient">n.</param>
/// <param name="Exponent">k.</param>
public sealed record CurveTerm(double Coefficient, double Exponent);
