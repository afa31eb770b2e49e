namespace CryoThermo.Flow;

/// <summary>A point along a tube. SI.</summary>
/// <param name="Position">m from the inlet of the tube.</param>
/// <param name="Pressure">Pa, static.</param>
/// <param name="Enthalpy">J/kg, static: the total less the kinetic energy.</param>
/// <param name="Temperature">K.</param>
/// <param name="TemperatureByEnthalpy">dT/dh at constant pressure, K kg/J.</param>
/// <param name="Volume">m3/kg.</param>
/// <param name="VaporMassFraction">kg/kg.</param>
internal readonly record struct TubePoint(
    double Position, double Pressure, double Enthalpy, double Temperature, double TemperatureByEnthalpy, double Volume, double VaporMassFraction);
