namespace CryoThermo.Substances;

/// <summary>
/// Constants of the simplified crossover equation for the thermal conductivity near the critical point
/// (G. A. Olchowy, J. V. Sengers, Int. J. Thermophys. 10 (1989) 417). Immutable and thread-safe.
/// </summary>
/// <param name="Amplitude">R0, dimensionless.</param>
/// <param name="CorrelationLength">xi0, m.</param>
/// <param name="SusceptibilityAmplitude">Gamma, dimensionless.</param>
/// <param name="CutoffLength">Length whose inverse cuts off the long waves, m.</param>
/// <param name="ReferenceTemperature">Temperature from which the enhancement vanishes, K.</param>
/// <param name="SusceptibilityExponent">gamma, dimensionless.</param>
/// <param name="CriticalPressure">Pa absolute.</param>
/// <param name="CriticalMolarDensity">mol/m3.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record CriticalEnhancement(
    double Amplitude,
    double CorrelationLength,
    double SusceptibilityAmplitude,
    double CutoffLength,
    double ReferenceTemperature,
    double SusceptibilityExponent,
    double CriticalPressure,
    double CriticalMolarDensity,
    Provenance Provenance);
