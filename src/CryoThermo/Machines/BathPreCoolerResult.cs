using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What a boiling bath does to a stream. Immutable and thread-safe.</summary>
/// <param name="Inlet">The stream before it.</param>
/// <param name="Outlet">The stream behind it.</param>
/// <param name="Duty">Heat taken from the stream.</param>
/// <param name="BathTemperature">Temperature of the bath.</param>
/// <param name="BoilOff">Mass that boils away, by the stream and by the heat leak.</param>
/// <param name="LiquidUse">The same as volume of liquid.</param>
/// <param name="GasVented">The same as gas at 20 degC and one atmosphere.</param>
/// <param name="LeastDifference">Least difference between stream and bath.</param>
/// <param name="EntropyProductionPerSecond">Of the heat's passage into the bath.</param>
/// <param name="Cautions">What to mind.</param>
public sealed record BathPreCoolerResult(
    State Inlet,
    State Outlet,
    Power Duty,
    Temperature BathTemperature,
    MassFlow BoilOff,
    VolumeFlow LiquidUse,
    VolumeFlow GasVented,
    TemperatureDelta LeastDifference,
    Entropy EntropyProductionPerSecond,
    IReadOnlyList<Caution> Cautions)
{
    /// <summary>How long a filling lasts at this rate.</summary>
    /// <param name="filling">Volume of liquid above the lowest level that still covers the coil.</param>
    /// <exception cref="ArgumentOutOfRangeException">The filling is not above zero, or nothing boils.</exception>
    public Duration LastsFor(Volume filling)
    {
        double volume = Guard.Positive(filling.CubicMeters, "m3", nameof(filling));
        return Duration.FromSeconds(volume / Guard.Positive(LiquidUse.CubicMetersPerSecond, "m3/s", nameof(LiquidUse)));
    }
}
