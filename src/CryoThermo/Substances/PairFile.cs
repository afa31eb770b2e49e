using System.Collections.Immutable;

namespace CryoThermo.Substances;

/// <summary>What a pair file holds.</summary>
/// <param name="Pairs">Pairs of the plain cubic equations.</param>
/// <param name="MultiFluid">What it holds for the multi-fluid model; null when nothing.</param>
internal sealed record PairFile(ImmutableArray<CubicPair> Pairs, MultiFluidFile? MultiFluid);
