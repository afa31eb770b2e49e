namespace CryoThermo.Checks.Values;

/// <summary>A check value that is known not to be met, with what is known about why. Nothing is adjusted for it.</summary>
public sealed record EquationMiss(string Subject, string Reason);
