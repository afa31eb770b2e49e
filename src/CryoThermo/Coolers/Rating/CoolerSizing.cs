using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>A cooler sized for a demand. Immutable and thread-safe.</summary>
/// <param name="Demand">What was asked for.</param>
/// <param name="Cooler">The cooler of that size, its throttle a needle valve.</param>
/// <param name="Charge">The charge that circulates as asked for once what the spaces hold back is held back.</param>
/// <param name="Flow">That circulates.</param>
/// <param name="GreatestCooling">What the pressures allow with a perfect recuperator at this flow, leak not taken off.</param>
/// <param name="SweptVolumeFlow">Displacement times speed.</param>
/// <param name="ConductanceWattsPerKelvin">Of the recuperator, W/K; null where its tubes are the pattern.</param>
/// <param name="RecuperatorLength">Length of the tubes; null where the conductance is the pattern.</param>
/// <param name="Valve">The opening.</param>
/// <param name="CapillaryLength">Length of a capillary of the pattern's bore that passes the same; null where the pattern is none.</param>
/// <param name="StandingPressure">Of the charge in the machine, all of it at the temperature of the room, absolute.</param>
public sealed record CoolerSizing(
    CoolerDemand Demand,
    Cooler Cooler,
    CoolerCharge Charge,
    MolarFlow Flow,
    Power GreatestCooling,
    VolumeFlow SweptVolumeFlow,
    double? ConductanceWattsPerKelvin,
    Length? RecuperatorLength,
    ControlValve Valve,
    Length? CapillaryLength,
    Pressure StandingPressure)
{
    /// <summary>The sizes as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant($"Sized for {Demand.Load.Watts:G4} W at {Demand.ColdTemperature.Kelvins:F1} K ({Demand.ColdTemperature.DegreesCelsius:F1} degC)"),
        ["figure", "value"],
        [
            ["flow, mmol/s", FormattableString.Invariant($"{1000 * Flow.MolesPerSecond:F3}")],
            ["greatest cooling at this flow, W", FormattableString.Invariant($"{GreatestCooling.Watts:F2}")],
            ["swept volume, m3/h", FormattableString.Invariant($"{SweptVolumeFlow.CubicMetersPerHour:F3}")],
            ConductanceWattsPerKelvin is { } conductance
                ? ["recuperator, W/K", FormattableString.Invariant($"{conductance:F2}")]
                : ["recuperator, m", FormattableString.Invariant($"{RecuperatorLength?.Meters:F2}")],
            ["valve, Kv in m3/h", FormattableString.Invariant($"{Valve.FlowCoefficientKv:G4}")],
            ["capillary, m", CapillaryLength is { } length ? FormattableString.Invariant($"{length.Meters:F3}") : "-"],
            ["charge, g", FormattableString.Invariant($"{1000 * Charge.Mass.Kilograms:F1}")],
            ["charge, mole fractions", $"{Charge.Fluid.Composition}"],
            ["standing pressure, bar absolute", FormattableString.Invariant($"{StandingPressure.Bars:F3}")],
        ]);
}
