namespace CryoThermo.Substances;

/// <summary>
/// One non-analytic term of a reduced residual Helmholtz energy, n Delta^b delta psi, with
/// psi = exp(-C (delta - 1)^2 - D (tau - 1)^2), Delta = theta^2 + B ((delta - 1)^2)^a and
/// theta = (1 - tau) + A ((delta - 1)^2)^(1/(2 beta)); Span, Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509. Immutable.
/// </summary>
/// <param name="Coefficient">n.</param>
/// <param name="DistanceExponent">a.</param>
/// <param name="Exponent">b.</param>
/// <param name="CurveExponent">beta.</param>
/// <param name="CurveWeight">A.</param>
/// <param name="DistanceWeight">B.</param>
/// <param name="DensitySharpness">C.</param>
/// <param name="TemperatureSharpness">D.</param>
public sealed record CriticalTerm(
    double Coefficient,
    double DistanceExponent,
    double Exponent,
    double CurveExponent,
    double CurveWeight,
    double DistanceWeight,
    double DensitySharpness,
    double TemperatureSharpness);
