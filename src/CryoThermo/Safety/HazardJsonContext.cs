using System.Text.Json.Serialization;

namespace CryoThermo.Safety;

/// <summary>Source-generated reading of the hazard records.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    UseStringEnumConverter = true)]
[JsonSerializable(typeof(SubstanceHazardFile))]
internal sealed partial class HazardJsonContext : JsonSerializerContext;
