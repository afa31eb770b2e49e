namespace CryoThermo.Checks.Accuracy;

/// <summary>A figure of a regression state.</summary>
/// <param name="Name">The figure in words.</param>
/// <param name="There">By the independent program.</param>
/// <param name="Here">By the library.</param>
/// <param name="NeedsSecondDerivative">True for figures that rest on second temperature derivatives.</param>
public sealed record RegressionFigure(string Name, double There, double Here, bool NeedsSecondDerivative);
