namespace CryoThermo.Substances;

/// <summary>
/// Coefficients that fit a substance to the corresponding-states transport of nitrogen: the ratio of volumes is
/// (Vc/Vc of nitrogen) (constant + slope times reduced density). Immutable and thread-safe.
/// </summary>
/// <param name="CriticalTemperature">K; the coefficients belong to this figure, which may differ from that of the substance.</param>
/// <param name="CriticalMolarVolume">m3/mol; likewise.</param>
/// <param name="MolarMass">kg/mol; likewise.</param>
/// <param name="ViscosityConstant">Constant for the viscosity, dimensionless.</param>
/// <param name="ViscositySlope">Slope for the viscosity, dimensionless.</param>
/// <param name="ViscosityUncertaintyPercent">Uncertainty of the dense pure fluid's viscosity, percent.</param>
/// <param name="ConductivityConstant">Constant for the thermal conductivity, dimensionless.</param>
/// <param name="ConductivitySlope">Slope for the thermal conductivity, dimensionless.</param>
/// <param name="ConductivityUncertaintyPercent">Uncertainty of the dense pure fluid's conductivity, percent.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record CorrespondingStatesCoefficients(
    double CriticalTemperature,
    double CriticalMolarVolume,
    double MolarMass,
    double ViscosityConstant,
    double ViscositySlope,
    double ViscosityUncertaintyPercent,
    double ConductivityConstant,
    double ConductivitySlope,
    double ConductivityUncertaintyPercent,
    Provenance Provenance);
