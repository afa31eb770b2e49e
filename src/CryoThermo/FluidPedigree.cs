using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>
/// What a working fluid was computed with and how well founded it is: the model, each pair of components with its tier,
/// and what had to be estimated. Immutable and thread-safe.
/// </summary>
/// <param name="Model">The model taken.</param>
/// <param name="Reason">Why it was taken.</param>
/// <param name="Pairs">The interaction parameter of each pair of components, with tier, source and error band.</param>
public sealed record FluidPedigree(FluidModel Model, string Reason, IReadOnlyList<CubicPair> Pairs)
{
    /// <summary>The pairs whose parameter is estimated rather than published or fitted.</summary>
    public IEnumerable<CubicPair> EstimatedPairs => Pairs.Where(p => p.Tier == PairTier.Estimated);

    /// <summary>The model, why it was taken, and how many pairs are estimated.</summary>
    public override string ToString() => $"{Model}: {Reason}; {EstimatedPairs.Count()} of {Pairs.Count} pairs estimated";
}
