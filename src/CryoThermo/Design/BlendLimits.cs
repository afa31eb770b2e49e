using System.Text.Json.Serialization;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>What a blend must keep; what is null is not asked for. Immutable and thread-safe.</summary>
public sealed record BlendLimits
{
    /// <summary>No limits.</summary>
    public static BlendLimits None { get; } = new();

    /// <summary>How far below the cold temperature nothing may freeze yet, 0 to 60 K.</summary>
    [JsonPropertyName("freezingMarginKelvins"), JsonConverter(typeof(KelvinDifferenceConverter))]
    public TemperatureDelta? FreezingMargin { get; init; }

    /// <summary>Highest discharge temperature; needs a compressor.</summary>
    [JsonPropertyName("greatestDischargeTemperatureKelvins"), JsonConverter(typeof(KelvinsConverter))]
    public Temperature? GreatestDischargeTemperature { get; init; }

    /// <summary>Highest ratio of high to low pressure, above 1.</summary>
    public double? GreatestPressureRatio { get; init; }

    /// <summary>Highest pressure at rest, absolute; needs the spaces of the machine.</summary>
    [JsonPropertyName("greatestStandingPressurePascals"), JsonConverter(typeof(PascalsConverter))]
    public Pressure? GreatestStandingPressure { get; init; }

    /// <summary>Whether the charge must not burn in any proportion with air (ISO 10156, with the least published limits).</summary>
    public bool MustNotBurn { get; init; }

    /// <summary>Least mole fraction of components that do not burn, 0 to 1.</summary>
    public double? LeastInertFraction { get; init; }

    /// <summary>How far above its dew point the gas must enter the compressor, 0 K or more.</summary>
    [JsonPropertyName("leastSuctionSuperheatKelvins"), JsonConverter(typeof(KelvinDifferenceConverter))]
    public TemperatureDelta? LeastSuctionSuperheat { get; init; }

    /// <summary>Whether a second liquid is refused anywhere between cold and warm end.</summary>
    public bool NoSecondLiquid { get; init; }

    /// <summary>Most components of a blend; null for all at hand.</summary>
    public int? MostComponents { get; init; }
}
