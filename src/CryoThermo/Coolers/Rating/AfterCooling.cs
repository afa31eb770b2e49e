using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>How the compressed stream is brought back towards the room. Immutable and thread-safe.</summary>
public sealed class AfterCooling
{
    private readonly double aboveRoom;
    private readonly Pressure drop;

    private AfterCooling(double aboveRoom, Pressure drop, AmbientCooler? cooler)
    {
        this.aboveRoom = aboveRoom;
        this.drop = drop;
        Cooler = cooler;
    }

    /// <summary>The cooler by its own figures; null where the approach to the room is given.</summary>
    public AmbientCooler? Cooler { get; }

    internal Pressure PressureDrop => Cooler?.PressureDrop ?? drop;

    /// <summary>An after-cooler whose outlet stays a given difference above the room, or as the discharge where that is colder.</summary>
    /// <param name="aboveRoom">-30 to 100 K; below zero only with colder water or a chiller.</param>
    /// <param name="pressureDrop">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static AfterCooling WithApproach(TemperatureDelta aboveRoom, Pressure pressureDrop = default)
    {
        Guard.InRange(pressureDrop.Pascals, 0, 1e8, "Pa", nameof(pressureDrop));
        return new(Guard.InRange(aboveRoom.Kelvins, -30, 100, "K", nameof(aboveRoom)), pressureDrop, null);
    }

    /// <summary>An after-cooler in room air or water at the temperature of the room.</summary>
    /// <param name="cooler">The cooler.</param>
    public static AfterCooling By(AmbientCooler cooler)
    {
        ArgumentNullException.ThrowIfNull(cooler);
        return new(0, default, cooler);
    }

    /// <summary>Whether an outlet, K, is the approach to the room, which nothing in the stream moves.</summary>
    internal bool IsHeld(double outlet, double room) => Cooler is null && outlet >= room + aboveRoom;

    /// <summary>Outlet temperature, K, of a discharge.</summary>
    internal double OutletTemperature(State discharge, double flow, double room)
    {
        if (Cooler is null)
        {
            // What arrives colder, from a wet suction, is not warmed.
            return Math.Min(room + aboveRoom, discharge.Temperature.Kelvins);
        }

        // A discharge colder than the room is left as it is.
        return discharge.Temperature.Kelvins <= room + 0.01
            ? discharge.Temperature.Kelvins
            : Cooler.Cool(discharge, MolarFlow.FromMolesPerSecond(flow), Temperature.FromKelvins(room)).Outlet.Temperature.Kelvins;
    }
}
