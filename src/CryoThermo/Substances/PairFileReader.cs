using System.Collections.Immutable;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>Reads a pair file and holds the rules of its format.</summary>
internal static class PairFileReader
{
    private const double LargestInteraction = 1;

    /// <summary>Reads a pair file.</summary>
    /// <param name="text">Its text.</param>
    /// <param name="file">The name by which errors call it.</param>
    /// <param name="known">Identities known.</param>
    /// <param name="departures">Departure functions known already, asked for only by files with pairs of the multi-fluid model.</param>
    /// <exception cref="SubstanceDataException">The file breaks a rule of the format.</exception>
    public static PairFile Read(
        string text, string file, SubstanceIdentityTable known, Func<ImmutableDictionary<string, DepartureFunction>> departures) =>
        JsonBlock.ReadFile(text, file, block => Read(block, known, departures));

    private static PairFile Read(JsonBlock block, SubstanceIdentityTable known, Func<ImmutableDictionary<string, DepartureFunction>> departures)
    {
        PairDocument document = PairDocument.From(block);
        bool holdsMultiFluid = block.Holds("multiFluidPairs") || block.Holds("departureFunctions");
        FieldCheck root = block.Check;
        SourceTable sources = new(root, document.Sources);
        ImmutableArray<CubicPair>.Builder pairs = ImmutableArray.CreateBuilder<CubicPair>();
        HashSet<(string, string, CubicModelKind, PairTier)> seen = [];

        IReadOnlyList<PairEntry?> entries = holdsMultiFluid ? document.Pairs ?? [] : root.Required(document.Pairs, "pairs");
        for (int i = 0; i < entries.Count; i++)
        {
            string place = $"pairs[{i}]";
            FieldCheck at = root.Within(place);
            PairEntry entry = root.Required(entries[i], place);
            (SubstanceIdentity first, SubstanceIdentity second) = ReadSubstances(at, entry.First, entry.Second, known);
            PairTier tier = at.Required(entry.Tier, "tier") switch
            {
                "published" => PairTier.Published,
                "fitted here" => PairTier.FittedHere,
                _ => throw at.Broken("tier", $"must be 'published' or 'fitted here', found '{entry.Tier}'"),
            };
            if (tier == PairTier.FittedHere)
            {
                at.Text(entry.FittedTo, "fittedTo");
            }
            else if (entry.FittedTo is not null)
            {
                throw at.Broken("fittedTo", "belongs to a pair of tier 'fitted here' only");
            }

            Source source = sources.Find(at, entry.Source);
            if (entry.PengRobinson is null && entry.SoaveRedlichKwong is null)
            {
                throw at.Broken("pengRobinson", "is missing; give it, or soaveRedlichKwong, or both");
            }

            Add(entry.PengRobinson, "pengRobinson", CubicModelKind.PengRobinson);
            Add(entry.SoaveRedlichKwong, "soaveRedlichKwong", CubicModelKind.SoaveRedlichKwong);

            void Add(InteractionEntry? value, string field, CubicModelKind model)
            {
                if (value is null)
                {
                    return;
                }

                FieldCheck atValue = at.Within(field);
                (string, string) key = CubicPairTable.KeyOf(first.Key, second.Key);
                if (!seen.Add((key.Item1, key.Item2, model, tier)))
                {
                    throw at.Broken(field, $"{first.Name} and {second.Name} already have a value of tier '{entry.Tier}' in this file");
                }

                PairConfidence confidence = value.Confidence switch
                {
                    null => PairConfidence.NotStated,
                    "good" => PairConfidence.Good,
                    "low" => PairConfidence.Low,
                    _ => throw atValue.Broken("confidence", $"must be 'good' or 'low', found '{value.Confidence}'"),
                };
                if (value.InverseTemperatureStandardError is not null && value.InverseTemperatureCoefficient is null)
                {
                    throw atValue.Broken("inverseTemperatureStandardError", "belongs to an inverseTemperatureCoefficient, which is missing");
                }

                pairs.Add(new CubicPair(
                    first,
                    second,
                    model,
                    atValue.InRange(value.Interaction, "interaction", -LargestInteraction, LargestInteraction, "(dimensionless)"),
                    tier,
                    value.Verified is null ? source : source with { Verified = value.Verified },
                    entry.FittedTo,
                    confidence,
                    value.StandardError is null ? null : atValue.Positive(value.StandardError, "standardError", string.Empty),
                    HalfWidth95: null)
                {
                    InverseTemperatureCoefficient = value.InverseTemperatureCoefficient is null
                        ? 0
                        : atValue.InRange(
                            value.InverseTemperatureCoefficient, "inverseTemperatureCoefficient", -LargestInteraction, LargestInteraction, "(dimensionless)"),
                    InverseTemperatureStandardError = value.InverseTemperatureStandardError is null
                        ? null
                        : atValue.Positive(value.InverseTemperatureStandardError, "inverseTemperatureStandardError", string.Empty),
                });
            }
        }

        pairs.AddRange(ReadQuantumPairs(root, document.QuantumCorrectedPairs ?? [], sources, known));
        MultiFluidFile? multiFluid = holdsMultiFluid ? MultiFluidReader.Read(block, sources, known, departures()) : null;
        sources.RequireAllUsed();
        return new PairFile(pairs.ToImmutable(), multiFluid);
    }

    private static List<CubicPair> ReadQuantumPairs(
        FieldCheck root, IReadOnlyList<QuantumCorrectedPairEntry?> entries, SourceTable sources, SubstanceIdentityTable known)
    {
        List<CubicPair> pairs = new(entries.Count);
        HashSet<(string, string)> seen = [];
        for (int i = 0; i < entries.Count; i++)
        {
            string place = $"quantumCorrectedPairs[{i}]";
            FieldCheck at = root.Within(place);
            QuantumCorrectedPairEntry entry = root.Required(entries[i], place);
            (SubstanceIdentity first, SubstanceIdentity second) = ReadSubstances(at, entry.First, entry.Second, known);
            if (!seen.Add(CubicPairTable.KeyOf(first.Key, second.Key)))
            {
                throw at.Broken("interaction", $"{first.Name} and {second.Name} already have a value of this equation in this file");
            }

            pairs.Add(new CubicPair(
                first,
                second,
                CubicModelKind.PengRobinsonQuantumCorrected,
                at.InRange(entry.Interaction, "interaction", -LargestInteraction, LargestInteraction, "(dimensionless)"),
                PairTier.Published,
                sources.Find(at, entry.Source),
                FittedTo: null,
                PairConfidence.NotStated,
                StandardError: null,
                HalfWidth95: null));
        }

        return pairs;
    }

    private static (SubstanceIdentity First, SubstanceIdentity Second) ReadSubstances(
        FieldCheck at, string? first, string? second, SubstanceIdentityTable known)
    {
        SubstanceIdentity one = Find(first, "first");
        SubstanceIdentity other = Find(second, "second");
        return one.Equals(other) ? throw at.Broken("second", $"must be another substance than the first ({one.Name})") : (one, other);

        SubstanceIdentity Find(string? name, string field)
        {
            string text = at.Text(name, field);
            return known.TryFind(text, out SubstanceIdentity? identity) ? identity : throw at.Broken(field, known.UnknownMessage(text));
        }
    }
}
