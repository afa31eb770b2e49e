using System.Text.Json.Serialization;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>Where the charge sits in the running machine; for the pressure at rest. Liquid is taken as moving with its vapour, which counts less of it than is held up.</summary>
/// <param name="WarmLow">Warm spaces at low pressure: shell, buffer, suction line.</param>
/// <param name="WarmHigh">Warm spaces at high pressure: after-cooler, filters.</param>
/// <param name="RecuperatorLow">Low-pressure side of the recuperator.</param>
/// <param name="RecuperatorHigh">High-pressure side of the recuperator.</param>
/// <param name="ColdHead">The cold head, at the cold temperature and low pressure.</param>
public sealed record MachineSpaces(
    [property: JsonPropertyName("warmLowLiters"), JsonConverter(typeof(LitersConverter))] Volume WarmLow,
    [property: JsonPropertyName("warmHighLiters"), JsonConverter(typeof(LitersConverter))] Volume WarmHigh,
    [property: JsonPropertyName("recuperatorLowLiters"), JsonConverter(typeof(LitersConverter))] Volume RecuperatorLow,
    [property: JsonPropertyName("recuperatorHighLiters"), JsonConverter(typeof(LitersConverter))] Volume RecuperatorHigh,
    [property: JsonPropertyName("coldHeadLiters"), JsonConverter(typeof(LitersConverter))] Volume ColdHead)
{
    /// <summary>All of it.</summary>
    [JsonIgnore]
    public Volume Total => WarmLow + WarmHigh + RecuperatorLow + RecuperatorHigh + ColdHead;
}
