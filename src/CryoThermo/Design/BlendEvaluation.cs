using System.Text.Json;
using System.Text.Json.Serialization;
using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>What a blend does in a problem, on the cycle limit. A pure function of problem, candidate and model. Immutable and thread-safe.</summary>
/// <param name="Candidate">The blend.</param>
/// <param name="Model">Name of the model it was computed with.</param>
/// <param name="CapacityPerMole">Greatest cooling a mole circulated: least enthalpy difference of the streams, the least approach apart, from cold to warm end.</param>
/// <param name="PinchTemperature">Where it is least, on the low-pressure stream.</param>
/// <param name="Pinch">Whether that is the warm end, inside, or the cold end.</param>
/// <param name="CapacityPerSuctionVolumeJoulesPerLiter">Cooling over the volume swept at the suction, J/L; with a compressor its volumetric efficiency counts.</param>
/// <param name="WorkPerMole">Work a mole circulated.</param>
/// <param name="WorkBasis">Which work that is.</param>
/// <param name="PercentOfCarnot">100 Q (T0/T - 1) over the work, T0 ambient.</param>
/// <param name="LowestTemperature">Lowest temperature at which the cycle still carries the load (none: still cools); null where it was not asked for, or is not below the warm end.</param>
/// <param name="CapacityPerConductanceKelvins">Cooling over the recuperator's conductance, K; null without a least approach or without cooling.</param>
/// <param name="Cooling">Cooling with the flow of the compressor; null without one.</param>
/// <param name="SuctionTemperature">Temperature at the compressor inlet.</param>
/// <param name="DischargeTemperature">Temperature at the compressor outlet; null without a compressor.</param>
/// <param name="Constraints">Each limit asked for, with value, limit and margin.</param>
/// <param name="PricePerMole">Price of a mole of the charge; null where a price is missing.</param>
/// <param name="GreatestImpurityFraction">Most impurities the stated purities leave, mole fraction; null where a purity is missing.</param>
public sealed record BlendEvaluation(
    BlendCandidate Candidate,
    string Model,
    [property: JsonPropertyName("capacityJoulesPerMole"), JsonConverter(typeof(JoulesPerMoleConverter))] MolarEnergy CapacityPerMole,
    [property: JsonPropertyName("pinchTemperatureKelvins"), JsonConverter(typeof(KelvinsConverter))] Temperature PinchTemperature,
    [property: JsonConverter(typeof(JsonStringEnumConverter<PinchLocation>))] PinchLocation Pinch,
    double CapacityPerSuctionVolumeJoulesPerLiter,
    [property: JsonPropertyName("workJoulesPerMole"), JsonConverter(typeof(JoulesPerMoleConverter))] MolarEnergy WorkPerMole,
    WorkBasis WorkBasis,
    double PercentOfCarnot,
    [property: JsonPropertyName("lowestTemperatureKelvins"), JsonConverter(typeof(KelvinsConverter))] Temperature? LowestTemperature,
    double? CapacityPerConductanceKelvins,
    [property: JsonPropertyName("coolingWatts"), JsonConverter(typeof(WattsConverter))] Power? Cooling,
    [property: JsonPropertyName("suctionTemperatureKelvins"), JsonConverter(typeof(KelvinsConverter))] Temperature SuctionTemperature,
    [property: JsonPropertyName("dischargeTemperatureKelvins"), JsonConverter(typeof(KelvinsConverter))] Temperature? DischargeTemperature,
    IReadOnlyList<ConstraintMargin> Constraints,
    double? PricePerMole,
    double? GreatestImpurityFraction)
{
    /// <summary>Whether every limit is kept.</summary>
    [JsonIgnore]
    public bool IsFeasible => Constraints.All(c => c.IsKept);

    /// <summary>Evaluates a blend.</summary>
    /// <param name="problem">What it is wanted for.</param>
    /// <param name="candidate">The blend.</param>
    /// <param name="model">The model; null for the recommended one.</param>
    /// <exception cref="ArgumentException">The problem or the candidate contradicts itself, or the model does not describe the components.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public static BlendEvaluation Of(BlendProblem problem, BlendCandidate candidate, FluidModel? model = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(candidate);
        problem.Check();
        candidate.Check(problem);
        return new BlendEvaluator(problem, model ?? FluidModel.Recommended).Report(candidate);
    }

    /// <summary>Reads what <see cref="ToJson"/> wrote.</summary>
    /// <param name="json">The text.</param>
    /// <exception cref="JsonException">It is not such a text.</exception>
    public static BlendEvaluation FromJson(string json) =>
        JsonSerializer.Deserialize(json, BlendJsonContext.Default.BlendEvaluation) ?? throw new JsonException("The text holds null; expected is an evaluation.");

    /// <summary>The evaluation as JSON, every unit in its name.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, BlendJsonContext.Default.BlendEvaluation);

    /// <summary>The figure of an objective in its unit; NaN is never given: null where it was not computed.</summary>
    /// <param name="objective">Which.</param>
    public double? ValueOf(BlendObjective objective) => objective switch
    {
        BlendObjective.CapacityPerMole => CapacityPerMole.JoulesPerMole,
        BlendObjective.CapacityPerSuctionVolume => CapacityPerSuctionVolumeJoulesPerLiter,
        BlendObjective.PercentOfCarnot => PercentOfCarnot,
        BlendObjective.LowestTemperature => LowestTemperature?.Kelvins,
        BlendObjective.CapacityPerConductance => CapacityPerConductanceKelvins,
        _ => throw new ArgumentOutOfRangeException(nameof(objective), objective, $"objective is {objective}; it must be one of the enumeration."),
    };
}
