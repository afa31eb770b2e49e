namespace CryoThermo.Substances;

internal sealed class InteractionEntry
{
    public double? Interaction { get; init; }

    public string? Confidence { get; init; }

    public double? StandardError { get; init; }

    public double? InverseTemperatureCoefficient { get; init; }

    public double? InverseTemperatureStandardError { get; init; }

    public string? Verified { get; init; }

    public static InteractionEntry From(JsonBlock at)
    {
        at.RequireOnly("interaction", "confidence", "standardError", "inverseTemperatureCoefficient", "inverseTemperatureStandardError", "verified");
        return new InteractionEntry
        {
            Interaction = at.Number("interaction"),
            Confidence = at.Text("confidence"),
            StandardError = at.Number("standardError"),
            InverseTemperatureCoefficient = at.Number("inverseTemperatureCoefficient"),
            InverseTemperatureStandardError = at.Number("inverseTemperatureStandardError"),
            Verified = at.Text("verified"),
        };
    }
}

internal sealed class PairEntry
{
    public string? First { get; init; }

    public string? Second { get; init; }

    public string? Tier { get; init; }

    public string? Source { get; init; }

    public string? FittedTo { get; init; }

    public InteractionEntry? PengRobinson { get; init; }

    public InteractionEntry? SoaveRedlichKwong { get; init; }

    public static PairEntry From(JsonBlock at)
    {
        at.RequireOnly("first", "second", "tier", "source", "fittedTo", "pengRobinson", "soaveRedlichKwong");
        return new PairEntry
        {
            First = at.Text("first"),
            Second = at.Text("second"),
            Tier = at.Text("tier"),
            Source = at.Text("source"),
            FittedTo = at.Text("fittedTo"),
            PengRobinson = at.Block("pengRobinson", InteractionEntry.From),
            SoaveRedlichKwong = at.Block("soaveRedlichKwong", InteractionEntry.From),
        };
    }
}

internal sealed class QuantumCorrectedPairEntry
{
    public string? First { get; init; }

    public string? Second { get; init; }

    public double? Interaction { get; init; }

    public string? Source { get; init; }

    public static QuantumCorrectedPairEntry From(JsonBlock at)
    {
        at.RequireOnly("first", "second", "interaction", "source");
        return new QuantumCorrectedPairEntry
        {
            First = at.Text("first"),
            Second = at.Text("second"),
            Interaction = at.Number("interaction"),
            Source = at.Text("source"),
        };
    }
}

/// <summary>A pair file as written; the rules are held by <see cref="PairFileReader"/>.</summary>
internal sealed class PairDocument
{
    public IReadOnlyList<KeyValuePair<string, SourceEntry?>>? Sources { get; init; }

    public IReadOnlyList<PairEntry?>? Pairs { get; init; }

    public IReadOnlyList<QuantumCorrectedPairEntry?>? QuantumCorrectedPairs { get; init; }

    public static PairDocument From(JsonBlock at)
    {
        at.RequireOnly("sources", "pairs", "quantumCorrectedPairs", "departureFunctions", "multiFluidPairs");
        return new PairDocument
        {
            Sources = at.Labelled("sources", SourceEntry.From),
            Pairs = at.Blocks("pairs", PairEntry.From),
            QuantumCorrectedPairs = at.Blocks("quantumCorrectedPairs", QuantumCorrectedPairEntry.From),
        };
    }
}
