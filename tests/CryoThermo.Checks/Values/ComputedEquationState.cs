using CryoThermo.Substances;

namespace CryoThermo.Checks.Values;

/// <summary>A single-phase state by an independent program: a regression. K, mol/m3, Pa, J/mol, J/(mol K), m/s, K/MPa.</summary>
public sealed record ComputedEquationState(
    string Fluid,
    EquationStandard Standard,
    double Temperature,
    double MolarDensity,
    double Pressure,
    double Enthalpy,
    double Entropy,
    double IsochoricHeatCapacity,
    double IsobaricHeatCapacity,
    double SpeedOfSound,
    double? JouleThomson,
    double? Residual);
