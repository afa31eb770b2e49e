namespace CryoThermo.Checks.Values;

/// <summary>A single-phase state computed by an independent program with Peng-Robinson: a regression. SI, molar.</summary>
public sealed record RegressionState(
    IReadOnlyList<string> Components,
    IReadOnlyList<double> MoleFractions,
    double Temperature,
    double Pressure,
    string Root,
    IReadOnlyList<PairInteraction> Interactions,
    double CompressibilityFactor,
    double MolarVolume,
    double MassDensity,
    double EnthalpyDeparture,
    double EntropyDeparture,
    double Enthalpy,
    double Entropy,
    double IsobaricHeatCapacity,
    double IsochoricHeatCapacity,
    double SpeedOfSound,
    double JouleThomsonCoefficient,
    IReadOnlyList<double> LnFugacityCoefficients);
