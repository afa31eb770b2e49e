using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>
/// What a working fluid was computed with and how well founded it is: the model, the equation of state of a pure fluid, each pair of
/// components with its tier, and what had to be estimated. Immutable and thread-safe.
/// </summary>
/// <param name="Model">The model taken.</param>
/// <param name="Reason">Why it was taken.</param>
/// <param name="Pairs">The interaction parameter of each pair of components, with tier, source and error band.</param>
/// <param name="Equation">The Helmholtz equation of a pure fluid, with source, marks, range and uncertainty per property; null under a cubic.</param>
public sealed record FluidPedigree(FluidModel Model, string Reason, IReadOnlyList<CubicPair> Pairs, HelmholtzEquation? Equation = null)
{
    /// <summary>The pairs whose parameter is estimated rather than published or fitted.</summary>
    public IEnumerable<CubicPair> EstimatedPairs => Pairs.Where(p => p.Tier == PairTier.Estimated);

    /// <summary>Constants of components that are not those of their substance file, in words, one line a component; mostly none.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];

    /// <summary>The model, why it was taken, the publication of its equation, and how many pairs are estimated.</summary>
    public override string ToString() =>
        $"{Model}: {Reason}; "
        + (Equation is null ? $"{EstimatedPairs.Count()} of {Pairs.Count} pairs estimated" : Equation.Provenance.Source.Publication);
}
