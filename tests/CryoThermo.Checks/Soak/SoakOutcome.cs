namespace CryoThermo.Checks.Soak;

/// <summary>What one case gave.</summary>
/// <param name="Failure">What went wrong with full inputs; null when every rule was kept.</param>
/// <param name="Phases">Number of phases found, or 0 where the case does not apply.</param>
/// <param name="Unresolved">The answer was flagged: a further phase exists.</param>
/// <param name="Worst">The largest figure the rules bound, in the units of the kind.</param>
public sealed record SoakOutcome(string? Failure, int Phases, bool Unresolved, double Worst);
