namespace CryoThermo.Checks.Values;

/// <summary>A column of a measured set.</summary>
public sealed record MeasuredColumn(MeasuredQuantity Quantity, string? Unit, string? Of);
