namespace CryoThermo.Substances;

/// <summary>
/// Parameters of the Peng-Robinson equation with a covolume that grows at low temperature, for helium, neon and hydrogen:
/// b(T) = b [(1 + A/(T + B)) / (1 + A/(Tc + B))]^3, alpha = Tr^(N(M-1)) exp(L(1 - Tr^(N M))). Immutable and thread-safe.
/// Method: Aasen, Hammer, Lasala, Jaubert, Wilhelmsen, Fluid Phase Equilib. 524 (2020) 112790.
/// </summary>
/// <param name="CovolumeNumerator">A, K.</param>
/// <param name="CovolumeOffset">B, K.</param>
/// <param name="AlphaL">L of the alpha function, dimensionless.</param>
/// <param name="AlphaM">M of the alpha function, dimensionless.</param>
/// <param name="AlphaN">N of the alpha function, dimensionless.</param>
/// <param name="CriticalTemperature">Critical temperature the parameters belong to, K.</param>
/// <param name="CriticalPressure">Critical pressure the parameters belong to, Pa.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record QuantumCorrectionParameters(
    double CovolumeNumerator,
    double CovolumeOffset,
    double AlphaL,
    double AlphaM,
    double AlphaN,
    double CriticalTemperature,
    double CriticalPressure,
    Provenance Provenance);
