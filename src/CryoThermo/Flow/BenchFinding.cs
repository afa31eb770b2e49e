namespace CryoThermo.Flow;

/// <summary>What a bench test found wrong. Immutable and thread-safe.</summary>
/// <param name="Kind">What.</param>
/// <param name="Message">With figures, and what to do.</param>
public sealed record BenchFinding(BenchFindingKind Kind, string Message);
