namespace CryoThermo.Checks.Values;

/// <summary>Why a noted deviation is not met.</summary>
public sealed record DifferenceReason(string Set, MeasuredQuantity Quantity, string Reason);
