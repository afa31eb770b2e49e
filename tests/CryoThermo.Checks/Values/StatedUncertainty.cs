namespace CryoThermo.Checks.Values;

/// <summary>Expanded uncertainty of a measured quantity, relative or absolute in the unit of its column.</summary>
public sealed record StatedUncertainty(MeasuredQuantity Quantity, string? Of, double? Relative, double? Absolute);
