using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// What two components of the multi-fluid model add to the residual Helmholtz energy beyond the sum of their own equations, over the
/// mixture's tau and delta. Immutable and thread-safe.
/// </summary>
/// <param name="Name">Its name, by which pairs refer to it.</param>
/// <param name="DensityTerms">Polynomial and exponential terms.</param>
/// <param name="SkewedTerms">Skewed bells; may be empty.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record DepartureFunction(
    string Name, IReadOnlyList<DensityTerm> DensityTerms, IReadOnlyList<SkewedTerm> SkewedTerms, Source Source)
{
    /// <summary>The name.</summary>
    public override string ToString() => Name;
}
