namespace CryoThermo.Substances;

/// <summary>
/// One bell-shaped term of a reduced residual Helmholtz energy, n delta^d tau^t exp(-eta (delta - epsilon)^2 - beta (tau - gamma)^2);
/// Setzmann, Wagner, J. Phys. Chem. Ref. Data 20 (1991) 1061. Immutable.
/// </summary>
/// <param name="Coefficient">n.</param>
/// <param name="TemperatureExponent">t, the exponent of tau.</param>
/// <param name="DensityExponent">d, the exponent of delta; not negative.</param>
/// <param name="DensitySharpness">eta.</param>
/// <param name="DensityCenter">epsilon.</param>
/// <param name="TemperatureSharpness">beta.</param>
/// <param name="TemperatureCenter">gamma.</param>
public sealed record BellTerm(
    double Coefficient,
    double TemperatureExponent,
    double DensityExponent,
    double DensitySharpness,
    double DensityCenter,
    double TemperatureSharpness,
    double TemperatureCenter);
