namespace CryoThermo.Checks.Values;

/// <summary>The check point of the mixture standard with all its components. SI, molar; the source and what is known of it stand beside.</summary>
public sealed record MultiFluidCheckPoint(
    string Source,
    bool FromMemory,
    string Agreement,
    double Temperature,
    double Pressure,
    IReadOnlyList<string> Components,
    IReadOnlyList<double> MoleFractions,
    double MolarMass,
    double MolarDensity,
    double CompressibilityFactor,
    double PressureByDensity,
    double PressureByTemperature,
    double InternalEnergy,
    double Enthalpy,
    double Entropy,
    double GibbsEnergy,
    double IsochoricHeatCapacity,
    double IsobaricHeatCapacity,
    double SpeedOfSound,
    double JouleThomsonCoefficient,
    double IsentropicExponent);
