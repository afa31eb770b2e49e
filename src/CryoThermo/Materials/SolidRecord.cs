using System.Text.Json;
using CryoThermo.Diagnostics;

namespace CryoThermo.Materials;

/// <summary>
/// The conductivity of a solid in the file: one of the two fits, a table, a fit continued by a table, or integrals. Temperatures in K, conductivities in
/// W/(m K), integrals in W/m.
/// </summary>
internal sealed record SolidRecord(double LowestKelvins, double HighestKelvins, double UncertaintyShare, string UncertaintyBasis)
{
    /// <summary>Coefficients of lg k = sum of a_i (lg T)^i.</summary>
    public double[]? Logarithmic { get; private init; }

    /// <summary>Coefficients of lg k = sum of a_i T^(i/2) over sum of b_i T^(i/2).</summary>
    public RationalFit? Rational { get; private init; }

    /// <summary>Where the fit gives way to the table; null where it holds to the end.</summary>
    public double? FitEndsAtKelvins { get; private init; }

    /// <summary>Temperature and conductivity, rising.</summary>
    public double[][]? Table { get; private init; }

    /// <summary>Temperature and integral from the lowest temperature, rising.</summary>
    public double[][]? IntegralTable { get; private init; }

    public Source? Source { get; private init; }

    public Source? TableSource { get; private init; }

    public string? Remark { get; private init; }

    /// <summary>Reads the conductivity of one solid; null where the file has none.</summary>
    public static SolidRecord? Read(JsonElement solid) => !solid.TryGetProperty("lowestKelvins", out JsonElement lowest) ? null : new(
        lowest.GetDouble(),
        solid.GetProperty("highestKelvins").GetDouble(),
        solid.GetProperty("uncertaintyShare").GetDouble(),
        MaterialFile.Text(solid, "uncertaintyBasis")!)
    {
        Logarithmic = MaterialFile.Numbers(solid, "logarithmic"),
        Rational = solid.TryGetProperty("rational", out JsonElement ratio)
            ? new(MaterialFile.Numbers(ratio.GetProperty("numerator")), MaterialFile.Numbers(ratio.GetProperty("denominator")))
            : null,
        FitEndsAtKelvins = MaterialFile.Number(solid, "fitEndsAtKelvins"),
        Table = MaterialFile.Rows(solid, "table"),
        IntegralTable = MaterialFile.Rows(solid, "integralTable"),
        Source = solid.TryGetProperty("source", out _) ? MaterialFile.Source(solid) : null,
        TableSource = solid.TryGetProperty("tableSource", out _) ? MaterialFile.Source(solid, "tableSource") : null,
        Remark = MaterialFile.Text(solid, "remark"),
    };
}

/// <summary>A ratio of two polynomials in the root of the temperature.</summary>
internal sealed record RationalFit(double[] Numerator, double[] Denominator);
