using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>How the stream is cooled below the after-cooler before it enters the cold box. Immutable and thread-safe.</summary>
public sealed class PreCooling
{
    private readonly double outlet;

    private PreCooling(double outlet, PreCooler? machine, BathPreCooler? bath, UpperCooler? upper)
    {
        this.outlet = outlet;
        Machine = machine;
        Bath = bath;
        Upper = upper;
    }

    /// <summary>The vapour-compression stage; null where something else cools.</summary>
    public PreCooler? Machine { get; }

    /// <summary>The boiling bath; null where something else cools.</summary>
    public BathPreCooler? Bath { get; }

    /// <summary>The upper cooler of a cascade; null where something else cools.</summary>
    public UpperCooler? Upper { get; }

    /// <summary>Whatever it is, it holds this outlet temperature; its power is not counted.</summary>
    /// <param name="outlet">100 to 400 K; a stream that is colder already is left as it is.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range.</exception>
    public static PreCooling To(Temperature outlet) => new(Guard.InRange(outlet.Kelvins, 100, 400, "K", nameof(outlet)), null, null, null);

    /// <summary>A vapour-compression stage, its condenser in the room.</summary>
    /// <param name="machine">The stage.</param>
    public static PreCooling By(PreCooler machine)
    {
        ArgumentNullException.ThrowIfNull(machine);
        return new(0, machine, null, null);
    }

    /// <summary>A bath that boils away.</summary>
    /// <param name="bath">The bath.</param>
    public static PreCooling By(BathPreCooler bath)
    {
        ArgumentNullException.ThrowIfNull(bath);
        return new(0, null, bath, null);
    }

    /// <summary>The cold head of another cooler: a cascade of two temperatures.</summary>
    /// <param name="upper">The other cooler.</param>
    public static PreCooling By(UpperCooler upper)
    {
        ArgumentNullException.ThrowIfNull(upper);
        return new(0, null, null, upper);
    }

    /// <summary>What becomes of a stream.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="flow">mol/s.</param>
    /// <param name="room">K.</param>
    /// <param name="near">What became of one nearby, to be carried over; null for none.</param>
    internal PreCooledStream Cool(State stream, double flow, double room, PreCooledStream? near)
    {
        if (Machine is not null)
        {
            return StagePreCooledStream.Of(Machine, stream, flow, room, near);
        }

        if (Upper is not null)
        {
            return UpperPreCooledStream.Of(Upper, stream, flow, room, near);
        }

        return new(Bath is not null
            ? stream.Temperature.Kelvins <= Bath.Temperature.Kelvins + 0.01 ? stream.Temperature.Kelvins : Bath.Cool(stream, MolarFlow.FromMolesPerSecond(flow)).Outlet.Temperature.Kelvins
            : Math.Min(outlet, stream.Temperature.Kelvins));
    }
}
