namespace CryoThermo.Checks.Values;

/// <summary>A bubble or dew point of the mixture standard computed here by a separate program: a regression. SI, molar.</summary>
public sealed record MultiFluidEquilibrium(
    string Label,
    bool IsBubblePoint,
    double Temperature,
    IReadOnlyList<string> Components,
    IReadOnlyList<double> MoleFractions,
    double Pressure,
    IReadOnlyList<double> Incipient,
    double LiquidMolarDensity,
    double VaporMolarDensity,
    string Note);
