using System.Text.Json.Serialization;

namespace CryoThermo.Design;

/// <summary>What a blend is judged by.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<BlendObjective>))]
public enum BlendObjective
{
    /// <summary>Greatest cooling a mole circulated.</summary>
    CapacityPerMole,

    /// <summary>Greatest cooling over the volume swept at the suction.</summary>
    CapacityPerSuctionVolume,

    /// <summary>Cooling over the work, as a share of what Carnot allows between ambient and cold temperature.</summary>
    PercentOfCarnot,

    /// <summary>The lowest temperature at which the cycle still has the cooling wanted; lower is better.</summary>
    LowestTemperature,

    /// <summary>Cooling over the conductance of the recuperator; needs a least approach above zero.</summary>
    CapacityPerConductance,
}
