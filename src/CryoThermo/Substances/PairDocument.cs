namespace CryoThermo.Substances;

internal sealed class InteractionEntry
{
    public double? Interaction { get; set; }

    public string? Confidence { get; set; }

    public double? StandardError { get; set; }

    public string? Verified { get; set; }
}

internal sealed class PairEntry
{
    public string? First { get; set; }

    public string? Second { get; set; }

    public string? Tier { get; set; }

    public string? Source { get; set; }

    public string? FittedTo { get; set; }

    public InteractionEntry? PengRobinson { get; set; }

    public InteractionEntry? SoaveRedlichKwong { get; set; }
}

internal sealed class QuantumCubicPairEntry
{
    public string? First { get; set; }

    public string? Second { get; set; }

    public double? Interaction { get; set; }

    public string? Source { get; set; }
}

/// <summary>A pair file as written; the rules are held by <see cref="CubicPairReader"/>.</summary>
internal sealed class PairDocument
{
    public IReadOnlyDictionary<string, SourceEntry?>? Sources { get; set; }

    public IReadOnlyList<PairEntry?>? Pairs { get; set; }

    public IReadOnlyList<QuantumCubicPairEntry?>? QuantumCubicPairs { get; set; }
}
