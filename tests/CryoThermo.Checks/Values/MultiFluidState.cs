namespace CryoThermo.Checks.Values;

/// <summary>A single-phase state of the mixture standard computed here by a separate program: a regression. SI, molar.</summary>
public sealed record MultiFluidState(
    string Label,
    double Temperature,
    double Pressure,
    IReadOnlyList<string> Components,
    IReadOnlyList<double> MoleFractions,
    double MolarDensity,
    double Enthalpy,
    double Entropy,
    double IsobaricHeatCapacity,
    double IsochoricHeatCapacity,
    double SpeedOfSound,
    double JouleThomsonCoefficient,
    double PressureByDensity,
    IReadOnlyList<double> LnFugacityCoefficients);
