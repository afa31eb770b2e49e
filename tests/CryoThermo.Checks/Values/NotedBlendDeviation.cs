namespace CryoThermo.Checks.Values;

/// <summary>What Peng-Robinson gave for a blend when the data were collected, K off.</summary>
public sealed record NotedBlendDeviation(string Parameters, double BubbleDeviation, double DewDeviation, bool IndependentOfThisPoint);
