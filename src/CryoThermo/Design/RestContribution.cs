using UnitsNet;

namespace CryoThermo.Design;

/// <summary>What one uncertainty does to where a cooler comes to rest. Immutable.</summary>
/// <param name="Rank">1 for the largest.</param>
/// <param name="Uncertainty">What is not known.</param>
/// <param name="AtLowerBound">How much warmer it rests with it at its lower bound than with everything nominal; below zero for colder.</param>
/// <param name="AtUpperBound">The same at its upper bound.</param>
/// <param name="PercentOfVariance">Of the variance of the cold temperature.</param>
public sealed record RestContribution(int Rank, CoolerUncertainty Uncertainty, TemperatureDelta AtLowerBound, TemperatureDelta AtUpperBound, double PercentOfVariance);
