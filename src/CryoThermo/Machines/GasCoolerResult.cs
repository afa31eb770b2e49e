using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What a cooler of gas by water or air does. Immutable and thread-safe.</summary>
/// <param name="Outlet">State of the stream behind it; partly condensed where its dew point was passed.</param>
/// <param name="Duty">Heat taken from the stream.</param>
/// <param name="MediumOutlet">Temperature of the water or, mixed, of the air behind it.</param>
/// <param name="LeastDifference">Least difference between the stream and the water, or the air that enters.</param>
/// <param name="ConductanceWattsPerKelvin">UA to the water, or to the air that enters, W/K.</param>
public sealed record GasCoolerResult(
    State Outlet, Power Duty, Temperature MediumOutlet, TemperatureDelta LeastDifference, double ConductanceWattsPerKelvin);
