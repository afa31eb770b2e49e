using System.Collections.Immutable;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>Reads the parts of a pair file that belong to the multi-fluid model.</summary>
internal static class MultiFluidReader
{
    private const double LeastBeta = 0.2;
    private const double GreatestBeta = 5;
    private const double LeastGamma = 0.2;
    private const double GreatestGamma = 5;
    private const double GreatestWeight = 10;

    /// <summary>Reads the file of a mixture standard: equations, departure functions and pairs.</summary>
    public static MultiFluidFile ReadStandard(string text, string file, SubstanceIdentityTable known) =>
        JsonBlock.ReadFile(text, file, root =>
        {
            root.RequireOnly("sources", "standardEquations", "departureFunctions", "multiFluidPairs");
            SourceTable sources = new(root.Check, root.Labelled("sources", SourceEntry.From));
            MultiFluidFile read = Read(root, sources, known, ImmutableDictionary<string, DepartureFunction>.Empty);
            ImmutableDictionary<string, HelmholtzEquation>.Builder equations = ImmutableDictionary.CreateBuilder<string, HelmholtzEquation>(StringComparer.Ordinal);
            foreach (JsonBlock block in root.List("standardEquations", block => block))
            {
                block.RequireOnly("substance", "equation");
                SubstanceIdentity identity = Find(block, "substance", known);
                if (equations.ContainsKey(identity.Key))
                {
                    throw block.Check.Broken("substance", $"{identity.Name} already has an equation in this file");
                }

                equations.Add(identity.Key, EquationReader.ReadEquation(block.RequiredBlock("equation"), sources, isOfMixtureStandard: true));
            }

            HashSet<(string, string)> pairs = [.. read.Pairs.Select(p => CubicPairTable.KeyOf(p.First.Key, p.Second.Key))];
            string[] keys = [.. equations.Keys.Order(StringComparer.Ordinal)];
            for (int i = 0; i < keys.Length; i++)
            {
                for (int j = 0; j < i; j++)
                {
                    if (!pairs.Contains(CubicPairTable.KeyOf(keys[i], keys[j])))
                    {
                        throw root.Check.Broken("multiFluidPairs", $"has no pair of {keys[j]} and {keys[i]}, which both have a standard equation");
                    }
                }
            }

            sources.RequireAllUsed();
            return read with { Equations = equations.ToImmutable() };
        });

    /// <summary>Reads departure functions and pairs.</summary>
    /// <param name="root">The file.</param>
    /// <param name="sources">Its sources.</param>
    /// <param name="known">Identities known.</param>
    /// <param name="departures">Departure functions known already; a pair may refer to them.</param>
    public static MultiFluidFile Read(
        JsonBlock root, SourceTable sources, SubstanceIdentityTable known, ImmutableDictionary<string, DepartureFunction> departures)
    {
        ImmutableDictionary<string, DepartureFunction>.Builder own = ImmutableDictionary.CreateBuilder<string, DepartureFunction>(StringComparer.Ordinal);
        foreach (JsonBlock block in root.List("departureFunctions", block => block))
        {
            DepartureFunction function = ReadDeparture(block, sources);
            if (own.ContainsKey(function.Name) || departures.ContainsKey(function.Name))
            {
                throw block.Check.Broken("name", $"'{function.Name}' already names a departure function");
            }

            own.Add(function.Name, function);
        }

        ImmutableDictionary<string, DepartureFunction> all = departures.AddRange(own);
        HashSet<(string, string)> seen = [];
        IReadOnlyList<MultiFluidPair> pairs = root.List("multiFluidPairs", block =>
        {
            MultiFluidPair pair = ReadPair(block, sources, known, all);
            if (!seen.Add(CubicPairTable.KeyOf(pair.First.Key, pair.Second.Key)))
            {
                throw block.Check.Broken("second", $"{pair.First.Name} and {pair.Second.Name} already are a multi-fluid pair of this file");
            }

            return pair;
        });
        return new(ImmutableDictionary<string, HelmholtzEquation>.Empty, own.ToImmutable(), pairs);
    }

    private static DepartureFunction ReadDeparture(JsonBlock block, SourceTable sources)
    {
        block.RequireOnly("name", "source", "densityTerms", "skewedTerms");
        DepartureFunction function = new(
            block.RequiredText("name"),
            block.List("densityTerms", EquationReader.ReadDensityTerm),
            block.List("skewedTerms", ReadSkewedTerm),
            sources.Find(block.Check, block.Text("source")));
        if (function.DensityTerms.Count + function.SkewedTerms.Count == 0)
        {
            throw block.Check.Broken("densityTerms", "must hold at least one term, or 'skewedTerms' must");
        }

        // A term with less than a whole factor delta has no second virial coefficient.
        for (int i = 0; i < function.DensityTerms.Count; i++)
        {
            if (function.DensityTerms[i].DensityExponent < 1)
            {
                throw block.Check.Broken($"densityTerms[{i}].densityExponent", "must be at least 1");
            }
        }

        return function;
    }

    private static SkewedTerm ReadSkewedTerm(JsonBlock block)
    {
        block.RequireOnly(
            "coefficient", "temperatureExponent", "densityExponent", "densitySharpness", "densityCenter", "densityDecay", "decayCenter");
        double exponent = block.InRange("densityExponent", 1, 30, string.Empty);
        return new(
            block.RequiredNumber("coefficient"),
            block.RequiredNumber("temperatureExponent"),
            exponent,
            block.InRange("densitySharpness", 0, 100, string.Empty),
            block.RequiredNumber("densityCenter"),
            block.RequiredNumber("densityDecay"),
            block.RequiredNumber("decayCenter"));
    }

    private static MultiFluidPair ReadPair(
        JsonBlock block, SourceTable sources, SubstanceIdentityTable known, ImmutableDictionary<string, DepartureFunction> departures)
    {
        block.RequireOnly(
            "first",
            "second",
            "tier",
            "source",
            "fittedTo",
            "volumeReducing",
            "temperatureReducing",
            "departure",
            "departureWeight",
            "basis",
            "verified",
            "standardErrors");
        SubstanceIdentity first = Find(block, "first", known);
        SubstanceIdentity second = Find(block, "second", known);
        if (first.Equals(second))
        {
            throw block.Check.Broken("second", $"must be another substance than the first ({first.Name})");
        }

        PairTier tier = block.RequiredText("tier") switch
        {
            "published" => PairTier.Published,
            "fitted here" => PairTier.FittedHere,
            string other => throw block.Check.Broken("tier", $"must be 'published' or 'fitted here', found '{other}'"),
        };
        string? fittedTo = block.OptionalText("fittedTo");
        if (tier == PairTier.FittedHere && fittedTo is null)
        {
            throw block.Check.Broken("fittedTo", "is missing");
        }

        JsonBlock? errors = block.OptionalBlock("standardErrors");
        if (tier != PairTier.FittedHere && (fittedTo is not null || errors is not null))
        {
            throw block.Check.Broken(fittedTo is null ? "standardErrors" : "fittedTo", "belongs to a pair of tier 'fitted here' only");
        }

        DepartureFunction? departure = null;
        double weight = 0;
        if (block.OptionalText("departure") is { } name)
        {
            departure = departures.TryGetValue(name, out DepartureFunction? found)
                ? found
                : throw block.Check.Broken("departure", $"'{name}' is no departure function of this file or of those known ({string.Join(", ", departures.Keys.Order(StringComparer.Ordinal))})");
            weight = block.InRange("departureWeight", -GreatestWeight, GreatestWeight, string.Empty);
        }
        else if (block.Number("departureWeight") is not null)
        {
            throw block.Check.Broken("departureWeight", "belongs to a pair with a departure function; give 'departure'");
        }

        Source source = sources.Find(block.Check, block.Text("source"));
        return new(
            first,
            second,
            ReadReducing(block.RequiredBlock("volumeReducing")),
            ReadReducing(block.RequiredBlock("temperatureReducing")),
            departure,
            weight,
            tier,
            block.OptionalText("verified") is { } verified ? source with { Verified = verified } : source,
            fittedTo,
            block.OptionalText("basis"),
            errors is null ? null : ReadErrors(errors),
            HalfWidth95: null);
    }

    private static ReducingParameters ReadReducing(JsonBlock block)
    {
        block.RequireOnly("beta", "gamma");
        return new(block.InRange("beta", LeastBeta, GreatestBeta, string.Empty), block.InRange("gamma", LeastGamma, GreatestGamma, string.Empty));
    }

    private static MultiFluidPairErrors ReadErrors(JsonBlock block)
    {
        block.RequireOnly("volumeBeta", "volumeGamma", "temperatureBeta", "temperatureGamma", "departureWeight");
        return new(Error("volumeBeta"), Error("volumeGamma"), Error("temperatureBeta"), Error("temperatureGamma"), Error("departureWeight"));

        double Error(string field) => block.Number(field) is null ? 0 : block.InRange(field, 0, 10, string.Empty);
    }

    private static SubstanceIdentity Find(JsonBlock block, string field, SubstanceIdentityTable known)
    {
        string text = block.RequiredText(field);
        return known.TryFind(text, out SubstanceIdentity? identity) ? identity : throw block.Check.Broken(field, known.UnknownMessage(text));
    }
}
