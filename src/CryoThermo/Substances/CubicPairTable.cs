using System.Collections.Immutable;

namespace CryoThermo.Substances;

/// <summary>The known pair parameters of the cubic equations, in layers: a file added later goes before those added earlier.</summary>
internal sealed class CubicPairTable
{
    public static readonly CubicPairTable Empty = new([], new Dictionary<(string, string, CubicModelKind), CubicPair>());

    private readonly ImmutableArray<PairFile> files;
    private readonly ImmutableDictionary<(string, string, CubicModelKind), CubicPair> bestPairs;

    private CubicPairTable(
        ImmutableArray<PairFile> files, IReadOnlyDictionary<(string, string, CubicModelKind), CubicPair> best)
    {
        this.files = files;
        bestPairs = best.ToImmutableDictionary();
    }

    /// <summary>The value in use for each known pair and model.</summary>
    public IEnumerable<CubicPair> Known => bestPairs.Values;

    public static (string Low, string High) KeyOf(string first, string second) =>
        string.CompareOrdinal(first, second) <= 0 ? (first, second) : (second, first);

    public CubicPairTable With(PairFile file)
    {
        Dictionary<(string, string, CubicModelKind), CubicPair> best = new(bestPairs);
        foreach (CubicPair pair in file.Pairs.OrderByDescending(p => p.Tier))
        {
            (string low, string high) = KeyOf(pair.First.Key, pair.Second.Key);
            best[(low, high, pair.Model)] = pair;
        }

        return new CubicPairTable(files.Add(file), best);
    }

    /// <summary>The published pairs alone.</summary>
    public CubicPairTable PublishedOnly() =>
        new([], bestPairs.Where(p => p.Value.Tier == PairTier.Published).ToDictionary(p => p.Key, p => p.Value));

    /// <summary>The known value of a pair; a spin form of hydrogen takes that of normal hydrogen where it has none of its own.</summary>
    public CubicPair? Find(SubstanceIdentity first, SubstanceIdentity second, CubicModelKind model)
    {
        if (Lookup(first.Key, second.Key) is { } own)
        {
            return own;
        }

        string firstParent = CasNumber.WithoutSuffix(first.Key);
        string secondParent = CasNumber.WithoutSuffix(second.Key);
        return firstParent == secondParent
            ? null
            : Lookup(firstParent, second.Key) ?? Lookup(first.Key, secondParent) ?? Lookup(firstParent, secondParent);

        CubicPair? Lookup(string a, string b)
        {
            (string low, string high) = KeyOf(a, b);
            return bestPairs.GetValueOrDefault((low, high, model));
        }
    }
}
