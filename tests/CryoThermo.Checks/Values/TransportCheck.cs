namespace CryoThermo.Checks.Values;

/// <summary>
/// A published value of a transport correlation, to be met to its last printed digit: K, mol/m3 or kg/m3, the value in its unit; a known miss says why.
/// </summary>
public sealed record TransportCheck(
    string Fluid,
    double Temperature,
    double? MolarDensity,
    double? MassDensity,
    TransportQuantity Quantity,
    double Value,
    string Unit,
    double Resolution,
    string Source,
    bool FromMemory,
    string? Miss);
