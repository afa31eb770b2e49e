using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>One reading of a bench test with air. Immutable and thread-safe.</summary>
/// <param name="Steps">Opening in steps of the drive.</param>
/// <param name="UpstreamPressure">Absolute, steady, before the valve.</param>
/// <param name="OutletPressure">Absolute, behind it: the atmosphere, or what a hose there holds back.</param>
/// <param name="AirTemperature">Before the valve.</param>
/// <param name="ArrivingFreeAir">What was measured behind the valve, as free air of the intake; null where it was not.</param>
public sealed record BenchReading(double Steps, Pressure UpstreamPressure, Pressure OutletPressure, Temperature AirTemperature, VolumeFlow? ArrivingFreeAir = null)
{
    /// <summary>A reading of a gauge, with the outlet open to the atmosphere around it.</summary>
    /// <param name="steps">Opening in steps of the drive.</param>
    /// <param name="upstream">Before the valve.</param>
    /// <param name="airTemperature">Before the valve.</param>
    /// <param name="arrivingFreeAir">What was measured behind the valve; null where it was not.</param>
    public static BenchReading OfGauge(double steps, GaugePressure upstream, Temperature airTemperature, VolumeFlow? arrivingFreeAir = null) =>
        new(steps, upstream.Absolute, upstream.Atmosphere, airTemperature, arrivingFreeAir);
}
