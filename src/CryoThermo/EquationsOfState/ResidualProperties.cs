namespace CryoThermo.EquationsOfState;

/// <summary>
/// What an equation of state adds to the ideal gas at the same temperature, pressure and composition, with the
/// pressure derivatives that heat capacities and the speed of sound need. SI, molar.
/// </summary>
/// <param name="MolarDensity">mol/m3.</param>
/// <param name="Enthalpy">Residual enthalpy at given T and p, J/mol.</param>
/// <param name="Entropy">Residual entropy at given T and p, J/(mol K).</param>
/// <param name="IsochoricHeatCapacity">Residual isochoric heat capacity, J/(mol K).</param>
/// <param name="IsobaricHeatCapacity">Residual isobaric heat capacity, J/(mol K).</param>
/// <param name="PressureByTemperature">dp/dT at constant volume, Pa/K.</param>
/// <param name="PressureByVolume">dp/dv at constant temperature, Pa mol/m3.</param>
/// <param name="ConversionHeatCapacity">Part of dh/dT at constant pressure, beyond the ideal gas's, that a reaction between forms of the substance carries, J/(mol K).</param>
internal readonly record struct ResidualProperties(
    double MolarDensity,
    double Enthalpy,
    double Entropy,
    double IsochoricHeatCapacity,
    double IsobaricHeatCapacity,
    double PressureByTemperature,
    double PressureByVolume,
    double ConversionHeatCapacity = 0);
