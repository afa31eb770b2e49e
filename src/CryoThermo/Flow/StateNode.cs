using CryoThermo.Equilibrium;

namespace CryoThermo.Flow;

/// <summary>A state of a stream, with its slopes. SI, per kilogram.</summary>
/// <param name="Place">Where on its line it is, rising along it.</param>
/// <param name="Pressure">Pa.</param>
/// <param name="Enthalpy">J/kg.</param>
/// <param name="Temperature">K.</param>
/// <param name="Volume">m3/kg, all phases at one velocity.</param>
/// <param name="VolumeByPressure">dv/dp at constant enthalpy, m3/(kg Pa).</param>
/// <param name="VolumeByEnthalpy">dv/dh at constant pressure, m3/J.</param>
/// <param name="TemperatureByPressure">dT/dp at constant enthalpy, K/Pa.</param>
/// <param name="TemperatureByEnthalpy">dT/dh at constant pressure, K kg/J.</param>
/// <param name="Viscosity">Pa s, of the whole.</param>
/// <param name="VaporMassFraction">kg/kg.</param>
/// <param name="State">The equilibrium; null where the figures come from elsewhere.</param>
/// <param name="Trials">The stationary trials of its last stability test; null where there are none.</param>
internal sealed record StateNode(
    double Place,
    double Pressure,
    double Enthalpy,
    double Temperature,
    double Volume,
    double VolumeByPressure,
    double VolumeByEnthalpy,
    double TemperatureByPressure,
    double TemperatureByEnthalpy,
    double Viscosity,
    double VaporMassFraction,
    EquilibriumResult? State,
    StationaryTrials? Trials = null);
