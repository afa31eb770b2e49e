using System.Text.Json;
using System.Text.Json.Serialization;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>
/// What a blend is wanted for: the components at hand, temperatures, pressures, machine, limits and goals. It holds all that an evaluation
/// depends on beside the blend itself and the model, and can be written as JSON and read back. Immutable and thread-safe.
/// </summary>
public sealed class BlendProblem
{
    /// <summary>The components at hand, 1 to 12, none twice, all of the shipped catalogue.</summary>
    public required IReadOnlyList<BlendComponent> Components { get; init; }

    /// <summary>Temperature at which the returning stream leaves the cold head.</summary>
    [JsonPropertyName("coldTemperatureKelvins"), JsonConverter(typeof(KelvinsConverter))]
    public required Temperature ColdTemperature { get; init; }

    /// <summary>Temperature of the high-pressure stream where it enters the recuperator: after-cooler outlet, or pre-cooler outlet.</summary>
    [JsonPropertyName("warmEndKelvins"), JsonConverter(typeof(KelvinsConverter))]
    public required Temperature WarmEnd { get; init; }

    /// <summary>Temperature of the surroundings and, with a pre-cooler, of the compressor inlet; null for that of the warm end.</summary>
    [JsonPropertyName("ambientKelvins"), JsonConverter(typeof(KelvinsConverter))]
    public Temperature? Ambient { get; init; }

    /// <summary>Least low pressure, absolute.</summary>
    [JsonPropertyName("leastLowPressurePascals"), JsonConverter(typeof(PascalsConverter))]
    public required Pressure LeastLowPressure { get; init; }

    /// <summary>Greatest low pressure, absolute; the least one to fix it.</summary>
    [JsonPropertyName("greatestLowPressurePascals"), JsonConverter(typeof(PascalsConverter))]
    public required Pressure GreatestLowPressure { get; init; }

    /// <summary>Least high pressure, absolute, above the greatest low one.</summary>
    [JsonPropertyName("leastHighPressurePascals"), JsonConverter(typeof(PascalsConverter))]
    public required Pressure LeastHighPressure { get; init; }

    /// <summary>Greatest high pressure, absolute; the least one to fix it.</summary>
    [JsonPropertyName("greatestHighPressurePascals"), JsonConverter(typeof(PascalsConverter))]
    public required Pressure GreatestHighPressure { get; init; }

    /// <summary>Least difference of the streams along the recuperator; zero for a perfect one.</summary>
    [JsonPropertyName("leastApproachKelvins"), JsonConverter(typeof(KelvinDifferenceConverter))]
    public TemperatureDelta LeastApproach { get; init; }

    /// <summary>Cooling wanted with all leaks; null for none. Needs a compressor.</summary>
    [JsonPropertyName("loadWatts"), JsonConverter(typeof(WattsConverter))]
    public Power? Load { get; init; }

    /// <summary>The compressor; null where only pressures are known.</summary>
    public BlendCompressor? Compressor { get; init; }

    /// <summary>The spaces of the machine; null where the pressure at rest is not asked for.</summary>
    public MachineSpaces? Spaces { get; init; }

    /// <summary>What the blend must keep.</summary>
    public BlendLimits Limits { get; init; } = BlendLimits.None;

    /// <summary>What is wanted; several give a front.</summary>
    public IReadOnlyList<BlendGoal> Goals { get; init; } = [new(BlendObjective.CapacityPerMole)];

    /// <summary>Lowest temperature looked at where the lowest temperature is a goal; null for 40 K below the cold one, not below 60 K.</summary>
    [JsonPropertyName("lowestConsideredKelvins"), JsonConverter(typeof(KelvinsConverter))]
    public Temperature? LowestConsidered { get; init; }

    internal double ColdKelvins => ColdTemperature.Kelvins;

    internal double WarmKelvins => WarmEnd.Kelvins;

    internal double AmbientKelvins => Ambient?.Kelvins ?? WarmEnd.Kelvins;

    internal double ApproachKelvins => LeastApproach.Kelvins;

    internal double LowestKelvins => Math.Min(LowestConsidered?.Kelvins ?? Math.Max(60, ColdKelvins - 40), ColdKelvins);

    internal int MostComponents => Math.Min(Limits.MostComponents ?? Components.Count, Components.Count);

    /// <summary>Reads what <see cref="ToJson"/> wrote.</summary>
    /// <param name="json">The text.</param>
    /// <exception cref="JsonException">It is not such a text.</exception>
    public static BlendProblem FromJson(string json) =>
        JsonSerializer.Deserialize(json, BlendJsonContext.Default.BlendProblem) ?? throw new JsonException("The text holds null; expected is a blend problem.");

    /// <summary>The problem as JSON, every unit in its name.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, BlendJsonContext.Default.BlendProblem);

    /// <summary>The same problem with other limits.</summary>
    internal BlendProblem With(BlendLimits? limits = null, double warmer = 0, Power? load = null, bool withoutLoad = false) => new()
    {
        Components = Components,
        ColdTemperature = ColdTemperature,
        WarmEnd = Temperature.FromKelvins(WarmKelvins + warmer),
        Ambient = Temperature.FromKelvins(AmbientKelvins + warmer),
        LeastLowPressure = LeastLowPressure,
        GreatestLowPressure = GreatestLowPressure,
        LeastHighPressure = LeastHighPressure,
        GreatestHighPressure = GreatestHighPressure,
        LeastApproach = LeastApproach,
        Load = withoutLoad ? null : load ?? Load,
        Compressor = Compressor,
        Spaces = Spaces,
        Limits = limits ?? Limits,
        Goals = Goals,
        LowestConsidered = LowestConsidered,
    };

    /// <summary>Checks what belongs together.</summary>
    /// <exception cref="ArgumentException">A figure is out of its range or contradicts another.</exception>
    internal void Check()
    {
        const int MostOwned = 12;
        if (Components is null || Components.Count is < 1 or > MostOwned || Components.Any(c => c is null))
        {
            throw new ArgumentException($"Components holds {Components?.Count ?? 0} substances; allowed is 1 to {MostOwned}, none of them null.", nameof(Components));
        }

        foreach (BlendComponent component in Components)
        {
            if (component.Purity is { } purity)
            {
                Guard.InRange(purity, 0.5, 1, "mol/mol", nameof(BlendComponent.Purity));
            }

            if (component.PricePerKilogram is { } price)
            {
                Guard.InRange(price, 0, 1e9, "per kg", nameof(BlendComponent.PricePerKilogram));
            }
        }

        Guard.InRange(ColdKelvins, 20, 400, "K", nameof(ColdTemperature));
        Guard.InRange(ApproachKelvins, 0, 50, "K", nameof(LeastApproach));
        Guard.InRange(WarmKelvins, ColdKelvins + ApproachKelvins + 1, 450, "K", nameof(WarmEnd));
        Guard.InRange(AmbientKelvins, WarmKelvins - 1e-9, 450, "K", nameof(Ambient));
        double low = Guard.InRange(LeastLowPressure.Pascals, 1e3, 1e7, "Pa", nameof(LeastLowPressure));
        double lowTop = Guard.InRange(GreatestLowPressure.Pascals, low, 1e7, "Pa", nameof(GreatestLowPressure));
        double high = Guard.InRange(LeastHighPressure.Pascals, lowTop * 1.01, 5e7, "Pa", nameof(LeastHighPressure));
        Guard.InRange(GreatestHighPressure.Pascals, high, 5e7, "Pa", nameof(GreatestHighPressure));
        Guard.InRange(LowestKelvins, 20, ColdKelvins, "K", nameof(LowestConsidered));
        if (Compressor is { } compressor)
        {
            Guard.Positive(compressor.SweptVolumeFlow.CubicMetersPerSecond, "m3/s", nameof(BlendCompressor.SweptVolumeFlow));
            Guard.InRange(compressor.IsentropicEfficiency, 0.01, 1, string.Empty, nameof(BlendCompressor.IsentropicEfficiency));
            Guard.InRange(compressor.FullVolumetricEfficiency, 0.01, 1, string.Empty, nameof(BlendCompressor.FullVolumetricEfficiency));
            Guard.InRange(compressor.ClearanceShare, 0, 0.5, string.Empty, nameof(BlendCompressor.ClearanceShare));
        }

        if (Load is { } load)
        {
            Guard.Positive((double)load.Watts, "W", nameof(Load));
            RequireCompressor(nameof(Load));
        }

        CheckLimits();
        if (Goals is null || Goals.Count == 0 || Goals.Any(g => g is null || !(g.Weight > 0) || !double.IsFinite(g.Weight) || !Enum.IsDefined(g.Objective)))
        {
            throw new ArgumentException("Goals must hold at least one objective, each with a weight above zero.", nameof(Goals));
        }

        if (Goals.Any(g => g.Objective == BlendObjective.CapacityPerConductance) && !(ApproachKelvins > 0))
        {
            throw new ArgumentException("Capacity per conductance needs a least approach above zero: at zero the conductance is infinite.", nameof(LeastApproach));
        }
    }

    internal static ArgumentException Fault(string parameter, string message) => new(message, parameter);

    private void CheckLimits()
    {
        if (Limits.FreezingMargin is { } freezing)
        {
            Guard.InRange(freezing.Kelvins, 0, 60, "K", nameof(BlendLimits.FreezingMargin));
        }

        if (Limits.GreatestDischargeTemperature is { } discharge)
        {
            Guard.InRange(discharge.Kelvins, AmbientKelvins, 700, "K", nameof(BlendLimits.GreatestDischargeTemperature));
            RequireCompressor(nameof(BlendLimits.GreatestDischargeTemperature));
        }

        if (Limits.GreatestPressureRatio is { } ratio)
        {
            Guard.InRange(ratio, 1.01, 1e4, string.Empty, nameof(BlendLimits.GreatestPressureRatio));
        }

        if (Limits.GreatestStandingPressure is { } standing)
        {
            Guard.Positive(standing.Pascals, "Pa", nameof(BlendLimits.GreatestStandingPressure));
            if (Spaces is null || !(Spaces.Total.CubicMeters > 0))
            {
                throw new ArgumentException("A limit of the standing pressure needs the spaces of the machine.", nameof(Spaces));
            }
        }

        if (Limits.LeastInertFraction is { } inert)
        {
            Guard.InRange(inert, 0, 1, "mol/mol", nameof(BlendLimits.LeastInertFraction));
        }

        if (Limits.LeastSuctionSuperheat is { } superheat)
        {
            Guard.InRange(superheat.Kelvins, 0, 200, "K", nameof(BlendLimits.LeastSuctionSuperheat));
        }

        if (Limits.MostComponents is { } most)
        {
            Guard.InRange(most, 1, 12, "components", nameof(BlendLimits.MostComponents));
        }
    }

    private void RequireCompressor(string parameter)
    {
        if (Compressor is null)
        {
            throw Fault(nameof(Compressor), $"{parameter} needs a compressor.");
        }
    }
}
