using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>What a cooler is to do, for sizing it. Immutable and thread-safe.</summary>
public sealed record CoolerDemand
{
    /// <summary>Names what is asked for.</summary>
    /// <param name="circulating">What circulates while it does it; the charge that leaves it so is found.</param>
    /// <param name="suctionPressure">Absolute.</param>
    /// <param name="dischargePressure">Absolute, above the suction pressure.</param>
    /// <param name="coldTemperature">Of the stream that leaves the cold head, 15 K to the temperature of the room.</param>
    /// <param name="load">Above zero.</param>
    /// <param name="ambient">The room, 200 to 330 K.</param>
    /// <param name="shareOfLimit">Cooling taken over the greatest that the pressures allow, 0.05 to 0.98: near one the recuperator grows without end, 0.7 to 0.85 is usual (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CoolerDemand(
        WorkingFluid circulating, Pressure suctionPressure, Pressure dischargePressure, Temperature coldTemperature, Power load, Temperature ambient, double shareOfLimit = 0.75)
    {
        ArgumentNullException.ThrowIfNull(circulating);
        Guard.InRange(suctionPressure.Pascals, CoolerSolver.LowestSuction, 1e8, "Pa absolute", nameof(suctionPressure));
        Guard.InRange(dischargePressure.Pascals, CoolerSolver.LeastRatio * suctionPressure.Pascals, 1e8, "Pa absolute", nameof(dischargePressure));
        Guard.InRange(ambient.Kelvins, 200, 330, "K", nameof(ambient));
        Guard.InRange(coldTemperature.Kelvins, 15, ambient.Kelvins, "K", nameof(coldTemperature));
        Guard.Positive((double)load.Watts, "W", nameof(load));
        ShareOfLimit = Guard.InRange(shareOfLimit, 0.05, 0.98, "of the greatest cooling");
        Circulating = circulating;
        SuctionPressure = suctionPressure;
        DischargePressure = dischargePressure;
        ColdTemperature = coldTemperature;
        Load = load;
        AmbientTemperature = ambient;
    }

    /// <summary>What circulates.</summary>
    public WorkingFluid Circulating { get; }

    /// <summary>Absolute.</summary>
    public Pressure SuctionPressure { get; }

    /// <summary>Absolute.</summary>
    public Pressure DischargePressure { get; }

    /// <summary>Of the stream that leaves the cold head.</summary>
    public Temperature ColdTemperature { get; }

    /// <summary>Load on the cold head.</summary>
    public Power Load { get; }

    /// <summary>The room.</summary>
    public Temperature AmbientTemperature { get; }

    /// <summary>Cooling taken over the greatest that the pressures allow.</summary>
    public double ShareOfLimit { get; }
}
