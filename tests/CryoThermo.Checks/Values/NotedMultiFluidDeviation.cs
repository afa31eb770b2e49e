namespace CryoThermo.Checks.Values;

/// <summary>
/// Deviation of the multi-fluid standard from a measured set as noted when the data were collected, percent or mole fraction, on some evenly
/// picked points.
/// </summary>
public sealed record NotedMultiFluidDeviation(
    string Set, MeasuredQuantity Quantity, string? Of, double MeanAbsolute, double Bias, double Largest, int Points, int NotSolved);
