namespace CryoThermo.Checks.Values;

/// <summary>Isothermal enthalpy differences of a blend between two pressures, J/mol over K: a regression.</summary>
public sealed record EnthalpyDifferenceTable(
    string Name,
    IReadOnlyDictionary<string, double> MoleFractions,
    string Source,
    double LowPressure,
    double? HighPressure,
    double? BubbleAtLowPressure,
    double? DewAtLowPressure,
    double? BubbleAtHighPressure,
    double? DewAtHighPressure,
    IReadOnlyList<IReadOnlyList<double>>? Differences);
