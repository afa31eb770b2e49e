using UnitsNet;

namespace CryoThermo.Design;

/// <summary>What one uncertainty does to the cooling at the target. Immutable.</summary>
/// <param name="Rank">1 for the largest.</param>
/// <param name="Uncertainty">What is not known.</param>
/// <param name="AtLowerBound">Net cooling at the target with it at its lower bound.</param>
/// <param name="AtUpperBound">The same at its upper bound.</param>
/// <param name="PercentOfVariance">Of the variance of the net cooling.</param>
public sealed record UncertaintyContribution(int Rank, CoolerUncertainty Uncertainty, Power AtLowerBound, Power AtUpperBound, double PercentOfVariance);
