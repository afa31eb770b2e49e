namespace CryoThermo.Checks.Values;

/// <summary>A limit that is known not to be kept, with the value reached and what is known about why. Nothing is adjusted for it.</summary>
public sealed record KnownMiss(string Subject, double Reached, double Limit, string Reason);
