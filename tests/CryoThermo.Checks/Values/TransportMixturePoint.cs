namespace CryoThermo.Checks.Values;

/// <summary>A single measured transport figure of a mixture: K, Pa, the unit given.</summary>
public sealed record TransportMixturePoint(
    IReadOnlyDictionary<string, double> MoleFractions,
    double Temperature,
    double Pressure,
    TransportQuantity Quantity,
    double Value,
    string Unit,
    string Source,
    bool FromMemory);
