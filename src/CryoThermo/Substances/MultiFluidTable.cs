using System.Collections.Immutable;

namespace CryoThermo.Substances;

/// <summary>Pairs and departure functions of the multi-fluid model: those of the standard, those fitted here, those of users. Immutable and thread-safe.</summary>
internal sealed class MultiFluidTable
{
    private readonly ImmutableDictionary<(string, string), MultiFluidPair> standardPairs;
    private readonly ImmutableDictionary<(string, string), MultiFluidPair> furtherPairs;

    private MultiFluidTable(
        ImmutableDictionary<string, HelmholtzEquation> equations,
        ImmutableDictionary<string, DepartureFunction> departures,
        ImmutableDictionary<(string, string), MultiFluidPair> standard,
        ImmutableDictionary<(string, string), MultiFluidPair> further)
    {
        Equations = equations;
        Departures = departures;
        standardPairs = standard;
        furtherPairs = further;
    }

    /// <summary>The standard's own equations, by substance key.</summary>
    public ImmutableDictionary<string, HelmholtzEquation> Equations { get; }

    /// <summary>All departure functions, by name.</summary>
    public ImmutableDictionary<string, DepartureFunction> Departures { get; }

    /// <summary>The pairs of the standard.</summary>
    public IEnumerable<MultiFluidPair> StandardPairs => standardPairs.Values;

    /// <summary>The pairs that go before those of the standard in the recommended model.</summary>
    public IEnumerable<MultiFluidPair> FurtherPairs => furtherPairs.Values;

    /// <summary>All pairs, each once, as the recommended model takes them.</summary>
    public IEnumerable<MultiFluidPair> BestPairs => furtherPairs.Values.Concat(standardPairs.Where(p => !furtherPairs.ContainsKey(p.Key)).Select(p => p.Value));

    /// <summary>The table of a standard alone.</summary>
    public static MultiFluidTable Of(MultiFluidFile standard) => new(
        standard.Equations,
        standard.Departures,
        standard.Pairs.ToImmutableDictionary(KeyOf),
        ImmutableDictionary<(string, string), MultiFluidPair>.Empty);

    /// <summary>The table with the pairs of a further file, which go before those known so far.</summary>
    public MultiFluidTable With(MultiFluidFile file) =>
        new(Equations, Departures.AddRange(file.Departures), standardPairs, furtherPairs.SetItems(file.Pairs.Select(p => KeyValuePair.Create(KeyOf(p), p))));

    /// <summary>The table without the pairs that go before those of the standard.</summary>
    public MultiFluidTable StandardOnly() => new(Equations, Departures, standardPairs, ImmutableDictionary<(string, string), MultiFluidPair>.Empty);

    /// <summary>The pair of the standard, with the components in the order asked for; null when the standard does not hold both.</summary>
    public MultiFluidPair? FindStandard(SubstanceIdentity first, SubstanceIdentity second) => Find(standardPairs, first.Key, second.Key);

    /// <summary>
    /// The pair known best, with the components in the order asked for; null when none is known. A spin form of hydrogen takes that of normal
    /// hydrogen where it has none of its own.
    /// </summary>
    public MultiFluidPair? FindBest(SubstanceIdentity first, SubstanceIdentity second)
    {
        string parentOfFirst = CasNumber.WithoutSuffix(first.Key);
        string parentOfSecond = CasNumber.WithoutSuffix(second.Key);
        MultiFluidPair? best = Best(first.Key, second.Key);
        return best is not null || parentOfFirst == parentOfSecond
            ? best
            : Best(parentOfFirst, second.Key) ?? Best(first.Key, parentOfSecond) ?? Best(parentOfFirst, parentOfSecond);

        MultiFluidPair? Best(string a, string b) => Find(furtherPairs, a, b) ?? Find(standardPairs, a, b);
    }

    private static MultiFluidPair? Find(ImmutableDictionary<(string, string), MultiFluidPair> pairs, string first, string second)
    {
        MultiFluidPair? pair = pairs.GetValueOrDefault(CubicPairTable.KeyOf(first, second));
        return pair is null || pair.First.Key == first ? pair : pair.Exchange();
    }

    private static (string, string) KeyOf(MultiFluidPair pair) => CubicPairTable.KeyOf(pair.First.Key, pair.Second.Key);
}
