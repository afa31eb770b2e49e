using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>
/// What a working fluid was computed with and how well founded it is: the model, the equation of state of a pure fluid, each pair of
/// components with its tier, and what had to be estimated. Immutable and thread-safe.
/// </summary>
/// <param name="Model">The model taken.</param>
/// <param name="Reason">Why it was taken.</param>
/// <param name="Pairs">
/// The parameters of each pair of components, with tier, source and error band: <see cref="CubicPair"/> under a cubic,
/// <see cref="MultiFluidPair"/> under the multi-fluid model.
/// </param>
/// <param name="Equation">The Helmholtz equation of a pure fluid, with source, marks, range and uncertainty per property; null for mixtures and under a cubic.</param>
/// <param name="ComponentEquations">Under the multi-fluid model the Helmholtz equation of each component; empty otherwise.</param>
public sealed record FluidPedigree(
    FluidModel Model,
    string Reason,
    IReadOnlyList<BinaryPair> Pairs,
    HelmholtzEquation? Equation,
    IReadOnlyList<HelmholtzEquation> ComponentEquations)
{
    internal FluidPedigree(FluidModel model, string reason, IReadOnlyList<BinaryPair> pairs, HelmholtzEquation? equation = null)
        : this(model, reason, pairs, equation, [])
    {
    }

    /// <summary>The pairs whose parameters are estimated rather than published or fitted.</summary>
    public IEnumerable<BinaryPair> EstimatedPairs => Pairs.Where(p => p.Tier == PairTier.Estimated);

    /// <summary>
    /// In words, one line each: constants of components that are not those of their substance file, and the range a mixture model states, beyond
    /// which its uncertainty is greater.
    /// </summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];

    /// <summary>The model, why it was taken, the publication of its equation, and how many pairs are estimated.</summary>
    public override string ToString() =>
        $"{Model}: {Reason}; "
        + (Equation is null ? $"{EstimatedPairs.Count()} of {Pairs.Count} pairs estimated" : Equation.Provenance.Source.Publication);
}
