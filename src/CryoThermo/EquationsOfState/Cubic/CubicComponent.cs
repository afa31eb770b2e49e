namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>What a cubic equation needs to know of one component.</summary>
/// <param name="CriticalTemperature">K.</param>
/// <param name="CriticalPressure">Pa.</param>
/// <param name="AcentricFactor">Dimensionless.</param>
/// <param name="Alpha">Temperature function of the attraction.</param>
/// <param name="VolumeShift">True volume = cubic volume - shift, m3/mol; zero for none.</param>
/// <param name="Covolume">Temperature function of the covolume; null for a constant one.</param>
internal sealed record CubicComponent(
    double CriticalTemperature,
    double CriticalPressure,
    double AcentricFactor,
    AlphaFunction Alpha,
    double VolumeShift,
    QuantumCovolume? Covolume = null);
