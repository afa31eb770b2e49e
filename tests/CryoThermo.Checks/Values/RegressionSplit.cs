namespace CryoThermo.Checks.Values;

/// <summary>An equilibrium computed by an independent program with Peng-Robinson: a regression.</summary>
public sealed record RegressionSplit(
    IReadOnlyList<string> Components,
    IReadOnlyList<double> MoleFractions,
    double Temperature,
    double Pressure,
    IReadOnlyList<PairInteraction> Interactions,
    IReadOnlyList<RegressionPhase> Phases,
    double GibbsEnergyOverRT);
