using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>What is known about the parameters of two substances in a mixture model. Immutable and thread-safe.</summary>
/// <param name="First">One substance.</param>
/// <param name="Second">The other substance.</param>
/// <param name="Tier">How well the parameters are founded.</param>
/// <param name="Source">Where they come from.</param>
/// <param name="FittedTo">What they were fitted to; null when they were not fitted here.</param>
public abstract record BinaryPair(SubstanceIdentity First, SubstanceIdentity Second, PairTier Tier, Source Source, string? FittedTo)
{
    /// <summary>The parameters in words and figures, with the error band where they are estimated.</summary>
    public abstract string Parameters { get; }
}
