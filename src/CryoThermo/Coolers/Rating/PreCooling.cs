using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>How the stream is cooled below the after-cooler before it enters the cold box. Immutable and thread-safe.</summary>
public sealed class PreCooling
{
    private readonly double outlet;

    private PreCooling(double outlet, PreCooler? machine, BathPreCooler? bath)
    {
        this.outlet = outlet;
        Machine = machine;
        Bath = bath;
    }

    /// <summary>The vapour-compression stage; null where something else cools.</summary>
    public PreCooler? Machine { get; }

    /// <summary>The boiling bath; null where something else cools.</summary>
    public BathPreCooler? Bath { get; }

    /// <summary>Whatever it is, it holds this outlet temperature; its power is not counted.</summary>
    /// <param name="outlet">100 to 400 K; a stream that is colder already is left as it is.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range.</exception>
    public static PreCooling To(Temperature outlet) => new(Guard.InRange(outlet.Kelvins, 100, 400, "K", nameof(outlet)), null, null);

    /// <summary>A vapour-compression stage, its condenser in the room.</summary>
    /// <param name="machine">The stage.</param>
    public static PreCooling By(PreCooler machine)
    {
        ArgumentNullException.ThrowIfNull(machine);
        return new(0, machine, null);
    }

    /// <summary>A bath that boils away.</summary>
    /// <param name="bath">The bath.</param>
    public static PreCooling By(BathPreCooler bath)
    {
        ArgumentNullException.ThrowIfNull(bath);
        return new(0, null, bath);
    }

    /// <summary>Outlet temperature, K, of a stream.</summary>
    internal double OutletTemperature(State stream, double flow, double room)
    {
        MolarFlow moles = MolarFlow.FromMolesPerSecond(flow);
        if (Machine is not null)
        {
            return Machine.Cool(stream, moles, Temperature.FromKelvins(room)).StreamOutlet.Temperature.Kelvins;
        }

        return Bath is not null
            ? stream.Temperature.Kelvins <= Bath.Temperature.Kelvins + 0.01 ? stream.Temperature.Kelvins : Bath.Cool(stream, moles).Outlet.Temperature.Kelvins
            : Math.Min(outlet, stream.Temperature.Kelvins);
    }
}
