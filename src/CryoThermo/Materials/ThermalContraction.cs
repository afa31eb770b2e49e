using System.Text.Json;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// How much a material shrinks from 293 K: a fit over temperature, or one figure at 77 K. Immutable and thread-safe.
/// </summary>
public sealed class ThermalContraction
{
    /// <summary>How near to the temperature of a single figure one must ask, K.</summary>
    private const double Near = 0.5;

    private static readonly Lazy<IReadOnlyList<ThermalContraction>> Loaded =
        new(() => MaterialFile.Read("Materials/solid-contraction.json", "contractions", c => new ThermalContraction(c)));

    private readonly double[]? coefficients;
    private readonly double percentAt77;
    private readonly double lowest;
    private readonly double highest;
    private readonly string[] materials;

    private ThermalContraction(JsonElement record)
    {
        materials = MaterialFile.Texts(record, "materials");
        lowest = record.GetProperty("lowestKelvins").GetDouble();
        highest = record.GetProperty("highestKelvins").GetDouble();
        Uncertainty = Ratio.FromPercent(record.GetProperty("uncertaintyPercentagePoints").GetDouble());
        coefficients = MaterialFile.Numbers(record, "coefficients");
        percentAt77 = MaterialFile.Number(record, "percentTo77Kelvins") ?? 0;
        Source = MaterialFile.Source(record);
        Remark = MaterialFile.Text(record, "remark");
    }

    /// <summary>Whether one figure is known, at one temperature.</summary>
    public bool IsSingleFigure => coefficients is null;

    /// <summary>Lowest temperature.</summary>
    public Temperature Lowest => Temperature.FromKelvins(lowest);

    /// <summary>Highest temperature.</summary>
    public Temperature Highest => Temperature.FromKelvins(highest);

    /// <summary>How far the contraction may be off, as a share of the length; judged here from how fit and handbooks differ.</summary>
    public Ratio Uncertainty { get; }

    /// <summary>Where it comes from.</summary>
    public Source Source { get; }

    /// <summary>What to know before using it; null for nothing.</summary>
    public string? Remark { get; }

    /// <summary>Length lost on the way from 293 K to a temperature, over the length at 293 K; negative above 293 K.</summary>
    /// <param name="temperature">Within the range; within 0.5 K of a single figure's.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    public Ratio At(Temperature temperature)
    {
        double t = temperature.Kelvins;
        double slack = coefficients is null ? Near : 0;
        if (!(t >= lowest - slack && t <= highest + slack))
        {
            string range = coefficients is null ? $"at {lowest:G6} K only, within {Near} K" : $"from {lowest:G6} to {highest:G6} K only";
            throw new ArgumentOutOfRangeException(nameof(temperature), t, $"temperature is {t:G6} K; the contraction of {materials[0]} is known {range}.");
        }

        if (coefficients is null)
        {
            return Ratio.FromPercent(percentAt77);
        }

        // The fit gives the change of length in units of 1e-5 of it.
        double sum = 0;
        for (int i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * t) + coefficients[i];
        }

        return Ratio.FromDecimalFractions(-1e-5 * sum);
    }

    internal static ThermalContraction? Of(string material) => Loaded.Value.FirstOrDefault(c => c.materials.Contains(material, StringComparer.Ordinal));
}
