using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What an after-cooler does on one day. Immutable and thread-safe.</summary>
/// <param name="Inlet">State before it.</param>
/// <param name="Outlet">State behind it.</param>
/// <param name="MolarFlow">Flow through it.</param>
/// <param name="Duty">Heat rejected.</param>
/// <param name="MediumInlet">Temperature of the air or water before it.</param>
/// <param name="MediumOutlet">Temperature of the water or, mixed, of the air behind it.</param>
/// <param name="DewPoint">Dew point at the outlet pressure; null above the pressures at which the fluid has one.</param>
/// <param name="LeastDifference">Least difference between the stream and the water, or the air that enters.</param>
/// <param name="ConductanceWattsPerKelvin">UA to the water, or to the air that enters, W/K.</param>
/// <param name="EntropyProductionPerSecond">Of stream and medium together; losses of pressure of the stream are in it.</param>
public sealed record AmbientCoolerResult(
    State Inlet,
    State Outlet,
    MolarFlow MolarFlow,
    Power Duty,
    Temperature MediumInlet,
    Temperature MediumOutlet,
    Temperature? DewPoint,
    TemperatureDelta LeastDifference,
    double ConductanceWattsPerKelvin,
    Entropy EntropyProductionPerSecond)
{
    /// <summary>Whether liquid and vapour leave together; then the liquid must be spread evenly over what follows.</summary>
    public bool IsTwoPhase => Outlet.VaporFraction is > 0 and < 1;

    /// <summary>Moles of liquid over moles of the whole at the outlet.</summary>
    public double LiquidFraction => 1 - Outlet.VaporFraction;

    /// <summary>Outlet temperature less dew point: above zero all is gas; null where there is no dew point.</summary>
    public TemperatureDelta? AboveDewPoint => DewPoint is { } dew ? Outlet.Temperature - dew : null;
}
