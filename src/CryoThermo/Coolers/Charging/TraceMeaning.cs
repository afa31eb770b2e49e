namespace CryoThermo.Coolers.Charging;

/// <summary>What a trace left in a machine does at its cold end. Immutable and thread-safe.</summary>
/// <param name="Trace">The trace.</param>
/// <param name="FrostPoint">Where it begins to freeze out at the low pressure; null when it does not.</param>
/// <param name="Plugging">How soon its frost closes the restriction.</param>
public sealed record TraceMeaning(TraceImpurity Trace, FreezingPoint? FrostPoint, PluggingEstimate Plugging);
