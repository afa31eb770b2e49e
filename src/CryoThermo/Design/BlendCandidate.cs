using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>A blend of the components of a problem and the pressures it runs between.</summary>
/// <param name="MoleFractions">Mole fractions in the order of the problem's components, sum 1 within 1e-6.</param>
/// <param name="LowPressure">Absolute.</param>
/// <param name="HighPressure">Absolute, above the low one.</param>
public sealed record BlendCandidate(
    IReadOnlyList<double> MoleFractions,
    [property: JsonPropertyName("lowPressurePascals"), JsonConverter(typeof(PascalsConverter))] Pressure LowPressure,
    [property: JsonPropertyName("highPressurePascals"), JsonConverter(typeof(PascalsConverter))] Pressure HighPressure)
{
    /// <summary>Reads what <see cref="ToJson"/> wrote.</summary>
    /// <param name="json">The text.</param>
    /// <exception cref="JsonException">It is not such a text.</exception>
    public static BlendCandidate FromJson(string json) =>
        JsonSerializer.Deserialize(json, BlendJsonContext.Default.BlendCandidate) ?? throw new JsonException("The text holds null; expected is a blend.");

    /// <summary>The candidate as JSON, every unit in its name.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, BlendJsonContext.Default.BlendCandidate);

    /// <summary>The blend as a fluid, components without amount left out, with the recommended model.</summary>
    /// <param name="problem">The problem it belongs to.</param>
    /// <exception cref="ArgumentException">The candidate does not belong to the problem.</exception>
    public WorkingFluid Fluid(BlendProblem problem)
    {
        Check(problem);
        double sum = MoleFractions.Sum();
        return WorkingFluid.Mixture([.. problem.Components.Select((c, i) => (c.Substance, MoleFraction: MoleFractions[i] / sum)).Where(c => c.MoleFraction > 0)]);
    }

    /// <inheritdoc/>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"{string.Join("/", MoleFractions.Select(x => x.ToString("0.####", CultureInfo.InvariantCulture)))} at {LowPressure.Bars:0.###}/{HighPressure.Bars:0.###} bar absolute");

    internal void Check(BlendProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        if (MoleFractions is null || MoleFractions.Count != problem.Components.Count)
        {
            throw BlendProblem.Fault(nameof(MoleFractions), $"MoleFractions holds {MoleFractions?.Count ?? 0} values; the problem has {problem.Components.Count} components.");
        }

        if (MoleFractions.Any(x => !(x >= 0 && x <= 1 + Composition.SumTolerance)) || !(Math.Abs(MoleFractions.Sum() - 1) <= Composition.SumTolerance))
        {
            throw BlendProblem.Fault(nameof(MoleFractions), $"The mole fractions sum to {MoleFractions.Sum():R}; each must be 0 to 1 and they must sum to 1 within {Composition.SumTolerance:G1}.");
        }

        Diagnostics.Guard.Positive(LowPressure.Pascals, "Pa", nameof(LowPressure));
        Diagnostics.Guard.InRange(HighPressure.Pascals, LowPressure.Pascals * 1.0001, 1e8, "Pa", nameof(HighPressure));
    }
}
