using System.Text.Json.Serialization;

namespace CryoThermo.Design;

/// <summary>JSON of problems, candidates and evaluations without reflection.</summary>
[JsonSourceGenerationOptions(WriteIndented = true, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(BlendProblem))]
[JsonSerializable(typeof(BlendCandidate))]
[JsonSerializable(typeof(BlendEvaluation))]
internal sealed partial class BlendJsonContext : JsonSerializerContext;
