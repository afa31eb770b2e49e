namespace CryoThermo.Checks.Values;

/// <summary>Deviation of the recommended equation from a measured set as noted when the data were collected, percent, on some evenly picked points.</summary>
public sealed record NotedEquationDeviation(string Set, MeasuredQuantity Quantity, double MeanAbsolute, double Bias, double Largest, int Points);
