namespace CryoThermo.Checks.Values;

/// <summary>Listed boiling and dew temperature of a designated blend, K, at a pressure in Pa.</summary>
public sealed record BlendBoilingPoint(
    string Designation,
    IReadOnlyDictionary<string, double> MoleFractions,
    double Pressure,
    double BubbleTemperature,
    double DewTemperature,
    string Kind,
    string Source,
    bool FromMemory,
    string Reliability,
    NotedBlendDeviation Noted);
