namespace CryoThermo.Substances;

/// <summary>
/// One polynomial or exponential term of a reduced residual Helmholtz energy, n delta^d tau^t exp(-delta^c), with the factor
/// exp(-delta^c) left out for c = 0; tau = reducing temperature over T, delta = density over reducing density. Immutable.
/// </summary>
/// <param name="Coefficient">n.</param>
/// <param name="TemperatureExponent">t, the exponent of tau.</param>
/// <param name="DensityExponent">d, the exponent of delta; not negative.</param>
/// <param name="DecayExponent">c, the exponent of delta inside the exponential, 0 to 7; 0 for a polynomial term.</param>
public sealed record DensityTerm(double Coefficient, double TemperatureExponent, double DensityExponent, int DecayExponent);
