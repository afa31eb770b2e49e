using System.Text.Json;
using System.Text.Json.Serialization;

namespace CryoThermo.Substances;

/// <summary>Compile-time readers of the data files: camel-case members, comments allowed, unknown and repeated members refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    AllowDuplicateProperties = false,
    AllowTrailingCommas = true,
    ReadCommentHandling = JsonCommentHandling.Skip)]
[JsonSerializable(typeof(SubstanceDocument))]
[JsonSerializable(typeof(IdentityDocument))]
[JsonSerializable(typeof(PairDocument))]
internal sealed partial class DataJsonContext : JsonSerializerContext;
