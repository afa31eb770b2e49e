using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>Thermodynamic figures of one phase. SI, molar.</summary>
/// <param name="MolarDensity">mol/m3.</param>
/// <param name="Enthalpy">J/mol, from the ideal gases of the components at 298.15 K.</param>
/// <param name="Entropy">J/(mol K), from the ideal gases of the components at 298.15 K and 101325 Pa.</param>
/// <param name="IsobaricHeatCapacity">J/(mol K).</param>
/// <param name="IsochoricHeatCapacity">J/(mol K).</param>
/// <param name="SpeedOfSound">m/s.</param>
/// <param name="JouleThomson">dT/dp at constant enthalpy, K/Pa.</param>
/// <param name="Expansion">(1/v) dv/dT at constant pressure, 1/K.</param>
/// <param name="Compressibility">-(1/v) dv/dp at constant temperature, 1/Pa.</param>
/// <param name="Root">Whether the density root is liquid-like or vapour-like.</param>
internal readonly record struct PhaseFigures(
    double MolarDensity,
    double Enthalpy,
    double Entropy,
    double IsobaricHeatCapacity,
    double IsochoricHeatCapacity,
    double SpeedOfSound,
    double JouleThomson,
    double Expansion,
    double Compressibility,
    DensityRoot Root);
