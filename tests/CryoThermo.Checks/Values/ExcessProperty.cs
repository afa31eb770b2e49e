namespace CryoThermo.Checks.Values;

/// <summary>Excess Gibbs energy and enthalpy of a liquid, J/mol.</summary>
public sealed record ExcessProperty(
    double Temperature,
    IReadOnlyDictionary<string, double> MoleFractions,
    double ExcessGibbsEnergy,
    double? ExcessEnthalpy,
    double Uncertainty,
    string Kind,
    string Source,
    bool FromMemory,
    string Reliability,
    NotedExcess NotedPengRobinson,
    NotedExcess NotedSoaveRedlichKwong);
