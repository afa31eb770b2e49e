using System.Collections.Immutable;

namespace CryoThermo.Substances;

/// <summary>What a pair file holds.</summary>
/// <param name="Pairs">Pairs of the plain cubic equations.</param>
internal sealed record CubicPairFile(ImmutableArray<CubicPair> Pairs);
