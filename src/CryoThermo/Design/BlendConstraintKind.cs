using System.Text.Json.Serialization;

namespace CryoThermo.Design;

/// <summary>What a blend must keep.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<BlendConstraintKind>))]
public enum BlendConstraintKind
{
    /// <summary>The cycle cools at all at the cold temperature.</summary>
    ColdTemperatureReached,

    /// <summary>The compressor's flow carries the load.</summary>
    Load,

    /// <summary>Nothing freezes down to the freezing margin below the cold temperature, at both pressures.</summary>
    Freezing,

    /// <summary>Discharge temperature of the compressor.</summary>
    DischargeTemperature,

    /// <summary>High over low pressure.</summary>
    PressureRatio,

    /// <summary>Pressure of the machine at rest, all of it at ambient temperature.</summary>
    StandingPressure,

    /// <summary>No oxidiser beside a fuel; always asked where both are at hand.</summary>
    FuelWithOxidiser,

    /// <summary>The charge does not burn in any proportion with air (ISO 10156).</summary>
    Flammability,

    /// <summary>Mole fraction of what does not burn.</summary>
    InertFraction,

    /// <summary>Distance of the compressor inlet to the dew point.</summary>
    SuctionSuperheat,

    /// <summary>No second liquid on either isobar between cold and warm end.</summary>
    SecondLiquid,

    /// <summary>Number of components.</summary>
    ComponentCount,
}
