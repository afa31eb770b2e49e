using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// The upper cooler of a cascade: its cold head cools the compressed stream of the lower cooler before that enters its cold box, and may carry a load of its own.
/// Immutable and thread-safe.
/// </summary>
public sealed class UpperCooler
{
    /// <summary>Rooms whose curves are kept.</summary>
    private const int MostRooms = 8;

    private readonly Lock guard = new();
    private readonly Dictionary<double, Lazy<UpperCurve>> curves = [];

    /// <summary>Names the cooler.</summary>
    /// <param name="cooler">The cooler; it stands in the same room.</param>
    /// <param name="charge">Its own charge.</param>
    /// <param name="approach">The lower stream leaves the upper cold head warmer than that by this, 0.1 to 60 K.</param>
    /// <param name="extraLoad">Load on the upper cold head besides the stream, zero or more.</param>
    /// <exception cref="ArgumentException">The charge is pure, or flammable beside an oxidiser.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public UpperCooler(Cooler cooler, CoolerCharge charge, TemperatureDelta approach, Power extraLoad = default)
    {
        ArgumentNullException.ThrowIfNull(cooler);
        ArgumentNullException.ThrowIfNull(charge);
        Guard.InRange(approach.Kelvins, 0.1, 60, "K", nameof(approach));
        Guard.InRange((double)extraLoad.Watts, 0, 1e9, "W", nameof(extraLoad));
        Cooler.CheckFluid(charge.Fluid, nameof(charge));
        Cooler = cooler;
        Charge = charge;
        Approach = approach;
        ExtraLoad = extraLoad;
    }

    /// <summary>The cooler.</summary>
    public Cooler Cooler { get; }

    /// <summary>Its charge.</summary>
    public CoolerCharge Charge { get; }

    /// <summary>Of the lower stream's outlet to the upper cold head.</summary>
    public TemperatureDelta Approach { get; }

    /// <summary>Load on the upper cold head besides the stream.</summary>
    public Power ExtraLoad { get; }

    /// <summary>What is left at its cold head in a room, K; computed once for each room.</summary>
    /// <exception cref="CoolerRefusedException">The upper cooler does not run, or does not carry its own load.</exception>
    internal UpperCurve CurveIn(double room)
    {
        Lazy<UpperCurve>? found;
        lock (guard)
        {
            if (!curves.TryGetValue(room, out found))
            {
                if (curves.Count >= MostRooms)
                {
                    curves.Clear();
                }

                found = new(() => new(this, room));
                curves[room] = found;
            }
        }

        try
        {
            return found.Value;
        }
        catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
        {
            throw new CoolerRefusedException(CoolerObstacle.PreCooler, "The upper cooler does not run: " + error.Message);
        }
    }
}
