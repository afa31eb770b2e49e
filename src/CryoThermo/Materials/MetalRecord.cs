using System.Text.Json;
using CryoThermo.Diagnostics;

namespace CryoThermo.Materials;

/// <summary>One metal of the file: one of the two fits, a table, or a fit continued by a table. Temperatures in K, conductivities in W/(m K).</summary>
internal sealed record MetalRecord(
    string Name,
    IReadOnlyList<string> AlsoKnownAs,
    double LowestKelvins,
    double HighestKelvins,
    double UncertaintyShare,
    string UncertaintyBasis)
{
    /// <summary>Coefficients of lg k = sum of a_i (lg T)^i.</summary>
    public double[]? Logarithmic { get; private init; }

    /// <summary>Coefficients of lg k = sum of a_i T^(i/2) over sum of b_i T^(i/2).</summary>
    public RationalFit? Rational { get; private init; }

    /// <summary>Where the fit gives way to the table; null where it holds to the end.</summary>
    public double? FitEndsAtKelvins { get; private init; }

    /// <summary>Temperature and conductivity, rising.</summary>
    public double[][]? Table { get; private init; }

    public Source? Source { get; private init; }

    public Source? TableSource { get; private init; }

    public string? Remark { get; private init; }

    /// <summary>Reads one metal; a field that is missing throws.</summary>
    public static MetalRecord Read(JsonElement metal) => new(
        Text(metal, "name")!,
        [.. metal.GetProperty("alsoKnownAs").EnumerateArray().Select(e => e.GetString()!)],
        metal.GetProperty("lowestKelvins").GetDouble(),
        metal.GetProperty("highestKelvins").GetDouble(),
        metal.GetProperty("uncertaintyShare").GetDouble(),
        Text(metal, "uncertaintyBasis")!)
    {
        Logarithmic = metal.TryGetProperty("logarithmic", out JsonElement fit) ? Numbers(fit) : null,
        Rational = metal.TryGetProperty("rational", out JsonElement ratio) ? new(Numbers(ratio.GetProperty("numerator")), Numbers(ratio.GetProperty("denominator"))) : null,
        FitEndsAtKelvins = metal.TryGetProperty("fitEndsAtKelvins", out JsonElement end) ? end.GetDouble() : null,
        Table = metal.TryGetProperty("table", out JsonElement table) ? [.. table.EnumerateArray().Select(Numbers)] : null,
        Source = SourceOf(metal, "source"),
        TableSource = SourceOf(metal, "tableSource"),
        Remark = metal.TryGetProperty("remark", out _) ? Text(metal, "remark") : null,
    };

    private static string? Text(JsonElement parent, string field) => parent.GetProperty(field).GetString();

    private static double[] Numbers(JsonElement array) => [.. array.EnumerateArray().Select(e => e.GetDouble())];

    private static Source? SourceOf(JsonElement metal, string field) => metal.TryGetProperty(field, out JsonElement source)
        ? new(Text(source, "publication")!, source.GetProperty("fromMemory").GetBoolean(), Text(source, "verified"))
        : null;
}

/// <summary>A ratio of two polynomials in the root of the temperature.</summary>
internal sealed record RationalFit(double[] Numerator, double[] Denominator);
