using System.Text.Json;
using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// Heat capacity and density of a solid, with sources and uncertainty; the figures themselves are asked of <see cref="SolidMaterial"/>. Immutable and thread-safe.
/// </summary>
public sealed class SolidHeatCapacity
{
    private static readonly Lazy<IReadOnlyList<SolidHeatCapacity>> Loaded = new(() => MaterialFile.Read("Materials/solid-heat-capacity.json", "heatCapacities", h => new SolidHeatCapacity(h)));

    private readonly double[]? logarithmic;
    private readonly double[]? secondLogarithmic;
    private readonly double secondStart = double.PositiveInfinity;
    private readonly MonotoneCubic? table;
    private readonly double[] nodes = [];
    private readonly double lowest;
    private readonly double highest;

    private SolidHeatCapacity(JsonElement record)
    {
        Materials = MaterialFile.Texts(record, "materials");
        lowest = record.GetProperty("lowestKelvins").GetDouble();
        highest = record.GetProperty("highestKelvins").GetDouble();
        UncertaintyShare = record.GetProperty("uncertaintyShare").GetDouble();
        UncertaintyBasis = record.GetProperty("uncertaintyBasis").GetString()!;
        Source = MaterialFile.Source(record);
        Remark = MaterialFile.Text(record, "remark");
        logarithmic = MaterialFile.Numbers(record, "logarithmic");
        if (record.TryGetProperty("logarithmicAbove", out JsonElement above))
        {
            secondStart = above.GetProperty("fromKelvins").GetDouble();
            secondLogarithmic = MaterialFile.Numbers(above.GetProperty("coefficients"));
            nodes = [secondStart];
        }

        if (MaterialFile.Rows(record, "table") is { } points)
        {
            nodes = [.. points.Select(p => p[0])];
            table = new(nodes, [.. points.Select(p => p[1])]);
        }

        if (record.TryGetProperty("density", out JsonElement density))
        {
            DensityKilogramsPerCubicMeter = density.GetProperty("kilogramsPerCubicMeter").GetDouble();
            DensityUncertaintyShare = density.GetProperty("uncertaintyShare").GetDouble();
            DensitySource = MaterialFile.Source(density);
        }
    }

    /// <summary>Lowest temperature of the heat capacity.</summary>
    public Temperature Lowest => Temperature.FromKelvins(lowest);

    /// <summary>Highest temperature of the heat capacity.</summary>
    public Temperature Highest => Temperature.FromKelvins(highest);

    /// <summary>How far the heat capacity may be off, as a share of it; what that rests on is in <see cref="UncertaintyBasis"/>.</summary>
    public double UncertaintyShare { get; }

    /// <summary>What the uncertainty rests on.</summary>
    public string UncertaintyBasis { get; }

    /// <summary>Where the heat capacity comes from.</summary>
    public Source Source { get; }

    /// <summary>What to know before using it; null for nothing.</summary>
    public string? Remark { get; }

    /// <summary>How far the density at 293 K may be off, as a share of it; judged here.</summary>
    public double? DensityUncertaintyShare { get; }

    /// <summary>Where the density comes from.</summary>
    public Source? DensitySource { get; }

    internal double? DensityKilogramsPerCubicMeter { get; }

    private IReadOnlyList<string> Materials { get; }

    /// <summary>That of a material; null where none is known.</summary>
    internal static SolidHeatCapacity? Of(string material) => Loaded.Value.FirstOrDefault(h => h.Materials.Contains(material, StringComparer.Ordinal));

    /// <summary>Heat capacity, J/(kg K), at a temperature in K within the range.</summary>
    internal double At(double t)
    {
        if (table is not null)
        {
            return table.At(t);
        }

        double x = Math.Log10(t);
        double sum = 0;
        double[] fit = t >= secondStart ? secondLogarithmic! : logarithmic!;
        for (int i = fit.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + fit[i];
        }

        return Math.Pow(10, sum);
    }

    /// <summary>Integral of c dT, J/kg, between temperatures in K within the range.</summary>
    internal double Integral(double from, double to) => TemperatureIntegral.Of(At, from, to, nodes);

    internal double Check(Temperature temperature, string material, string parameter)
    {
        double t = temperature.Kelvins;
        return t >= lowest && t <= highest
            ? t
            : throw new ArgumentOutOfRangeException(
                parameter, t, $"{parameter} is {t:G6} K; the heat capacity of {material} is known from {lowest:G6} to {highest:G6} K only.");
    }
}
