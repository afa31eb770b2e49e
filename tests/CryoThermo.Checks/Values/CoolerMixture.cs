namespace CryoThermo.Checks.Values;

/// <summary>A mixture from a publication with what was reported about it.</summary>
/// <param name="Name">Name of our own.</param>
/// <param name="MoleFractions">Mole fractions; one for a pure fluid.</param>
/// <param name="LowPressure">Low pressure, Pa absolute.</param>
/// <param name="HighPressure">High pressure, Pa absolute; null where only boiling or freezing is compared.</param>
/// <param name="Lowest">Where the isobars begin, K.</param>
/// <param name="Reported">What is reported, in words.</param>
/// <param name="Given">What is assumed and what is not stated, in words; null for nothing.</param>
/// <param name="Source">Publication.</param>
/// <param name="Mark">How it came here.</param>
/// <param name="Confidence">How sure the figures are.</param>
/// <param name="Tables">Names of the tables of differences by an independent program, among the enthalpy difference tables.</param>
/// <param name="BubbleTolerance">For bubble temperatures of those tables, K; null where none is stated.</param>
/// <param name="DewTolerance">For their dew temperatures, K.</param>
/// <param name="DifferenceTolerance">For their differences, as a part of each.</param>
/// <param name="SameEquationTolerance">For their differences by Peng-Robinson with the pairs of the tables, as a part; null where the one above holds.</param>
/// <param name="Limits">Cold and warm temperatures whose computed limits are shown, K.</param>
/// <param name="Figures">Figures to compare with.</param>
public sealed record CoolerMixture(
    string Name,
    IReadOnlyDictionary<string, double> MoleFractions,
    double LowPressure,
    double? HighPressure,
    double Lowest,
    string Reported,
    string? Given,
    string Source,
    SourceMark Mark,
    string Confidence,
    IReadOnlyList<string> Tables,
    double? BubbleTolerance,
    double? DewTolerance,
    double? DifferenceTolerance,
    double? SameEquationTolerance,
    IReadOnlyList<IReadOnlyList<double>> Limits,
    IReadOnlyList<CoolerFigure> Figures);
