namespace CryoThermo.Checks.Values;

/// <summary>Calculated minus measured on a sample: percent, or mole fraction.</summary>
public sealed record NotedFigure(
    MeasuredQuantity Quantity, string? Of, string Unit, double MeanAbsolute, double Bias, double Largest, int Points);
