using System.Text.Json;
using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// Heat capacity and density of a metal, with sources and uncertainty; the figures themselves are asked of <see cref="Metal"/>. Immutable and thread-safe.
/// </summary>
public sealed class MetalHeatCapacity
{
    private const string ResourceName = "Materials/metal-heat-capacity.json";

    private static readonly Lazy<IReadOnlyList<MetalHeatCapacity>> Loaded = new(Load);

    private readonly double[]? logarithmic;
    private readonly MonotoneCubic? table;
    private readonly double[] nodes = [];
    private readonly double lowest;
    private readonly double highest;

    private MetalHeatCapacity(JsonElement record)
    {
        Metals = [.. record.GetProperty("metals").EnumerateArray().Select(m => m.GetString()!)];
        lowest = record.GetProperty("lowestKelvins").GetDouble();
        highest = record.GetProperty("highestKelvins").GetDouble();
        UncertaintyShare = record.GetProperty("uncertaintyShare").GetDouble();
        UncertaintyBasis = record.GetProperty("uncertaintyBasis").GetString()!;
        Source = SourceOf(record);
        Remark = record.TryGetProperty("remark", out JsonElement remark) ? remark.GetString() : null;
        if (record.TryGetProperty("logarithmic", out JsonElement fit))
        {
            logarithmic = [.. fit.EnumerateArray().Select(e => e.GetDouble())];
        }
        else
        {
            double[][] points = [.. record.GetProperty("table").EnumerateArray().Select(p => (double[])[.. p.EnumerateArray().Select(e => e.GetDouble())])];
            nodes = [.. points.Select(p => p[0])];
            table = new(nodes, [.. points.Select(p => p[1])]);
        }

        JsonElement density = record.GetProperty("density");
        DensityKilogramsPerCubicMeter = density.GetProperty("kilogramsPerCubicMeter").GetDouble();
        DensityUncertaintyShare = density.GetProperty("uncertaintyShare").GetDouble();
        DensitySource = SourceOf(density);
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
    public double DensityUncertaintyShare { get; }

    /// <summary>Where the density comes from.</summary>
    public Source DensitySource { get; }

    internal double DensityKilogramsPerCubicMeter { get; }

    private IReadOnlyList<string> Metals { get; }

    /// <summary>That of a metal; null where none is known.</summary>
    internal static MetalHeatCapacity? Of(string metal) => Loaded.Value.FirstOrDefault(h => h.Metals.Contains(metal, StringComparer.Ordinal));

    /// <summary>Heat capacity, J/(kg K), at a temperature in K within the range.</summary>
    internal double At(double t)
    {
        if (table is not null)
        {
            return table.At(t);
        }

        double x = Math.Log10(t);
        double sum = 0;
        for (int i = logarithmic!.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + logarithmic[i];
        }

        return Math.Pow(10, sum);
    }

    /// <summary>Integral of c dT, J/kg, between temperatures in K within the range.</summary>
    internal double Integral(double from, double to) => TemperatureIntegral.Of(At, from, to, nodes);

    internal double Check(Temperature temperature, string metal, string parameter)
    {
        double t = temperature.Kelvins;
        return t >= lowest && t <= highest
            ? t
            : throw new ArgumentOutOfRangeException(
                parameter, t, $"{parameter} is {t:G6} K; the heat capacity of {metal} is known from {lowest:G6} to {highest:G6} K only.");
    }

    private static Source SourceOf(JsonElement record)
    {
        JsonElement source = record.GetProperty("source");
        return new(source.GetProperty("publication").GetString()!, source.GetProperty("fromMemory").GetBoolean(), source.GetProperty("verified").GetString());
    }

    private static MetalHeatCapacity[] Load()
    {
        using Stream stream = typeof(MetalHeatCapacity).Assembly.GetManifestResourceStream(ResourceName)
            ?? throw new SubstanceDataException(ResourceName, "(file)", "the embedded resource is missing.");
        using JsonDocument file = JsonDocument.Parse(stream);
        return [.. file.RootElement.GetProperty("heatCapacities").EnumerateArray().Select(h => new MetalHeatCapacity(h))];
    }
}
