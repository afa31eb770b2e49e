using System.Text.Json.Serialization;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>A compressor in a few figures. The volumetric efficiency is the full one less what the gas left in the clearance takes up on expanding isentropically.</summary>
/// <param name="SweptVolumeFlow">Volume swept in unit time.</param>
/// <param name="IsentropicEfficiency">Isentropic over real work, above 0 to 1.</param>
/// <param name="FullVolumetricEfficiency">Volumetric efficiency at pressure ratio 1, above 0 to 1.</param>
/// <param name="ClearanceShare">Clearance over swept volume, 0 to 0.5.</param>
public sealed record BlendCompressor(
    [property: JsonPropertyName("sweptLitersPerSecond"), JsonConverter(typeof(LitersPerSecondConverter))] VolumeFlow SweptVolumeFlow,
    double IsentropicEfficiency,
    double FullVolumetricEfficiency = 1,
    double ClearanceShare = 0);
