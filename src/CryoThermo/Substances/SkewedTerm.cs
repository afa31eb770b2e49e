namespace CryoThermo.Substances;

/// <summary>
/// One term of a departure function of the multi-fluid model, n delta^d tau^t exp(-eta (delta - epsilon)^2 - beta (delta - gamma)): a bell
/// over density alone, skewed by a decay; Kunz, Wagner, J. Chem. Eng. Data 57 (2012) 3032. Immutable.
/// </summary>
/// <param name="Coefficient">n.</param>
/// <param name="TemperatureExponent">t, the exponent of tau.</param>
/// <param name="DensityExponent">d, the exponent of delta; not negative.</param>
/// <param name="DensitySharpness">eta.</param>
/// <param name="DensityCenter">epsilon.</param>
/// <param name="DensityDecay">beta.</param>
/// <param name="DecayCenter">gamma.</param>
public sealed record SkewedTerm(
    double Coefficient,
    double TemperatureExponent,
    double DensityExponent,
    double DensitySharpness,
    double DensityCenter,
    double DensityDecay,
    double DecayCenter);
