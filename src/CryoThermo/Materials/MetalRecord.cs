using System.Text.Json.Serialization;
using CryoThermo.Diagnostics;

namespace CryoThermo.Materials;

/// <summary>The file of metals as it stands.</summary>
internal sealed record MetalFile(IReadOnlyList<MetalRecord> Metals);

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
    public double[]? Logarithmic { get; init; }

    /// <summary>Coefficients of lg k = sum of a_i T^(i/2) over sum of b_i T^(i/2).</summary>
    public RationalFit? Rational { get; init; }

    /// <summary>Where the fit gives way to the table; null where it holds to the end.</summary>
    public double? FitEndsAtKelvins { get; init; }

    /// <summary>Temperature and conductivity, rising.</summary>
    public double[][]? Table { get; init; }

    public Source? Source { get; init; }

    public Source? TableSource { get; init; }

    public string? Remark { get; init; }
}

/// <summary>A ratio of two polynomials in the root of the temperature.</summary>
internal sealed record RationalFit(double[] Numerator, double[] Denominator);

/// <summary>Source-generated reading of the file.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(MetalFile))]
internal sealed partial class MetalJsonContext : JsonSerializerContext;
