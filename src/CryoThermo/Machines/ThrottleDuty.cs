using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What a throttle has to pass at one moment of the machine's life. Immutable and thread-safe.</summary>
public sealed record ThrottleDuty
{
    /// <summary>Describes a duty.</summary>
    /// <param name="name">For reports: "start", "cold".</param>
    /// <param name="inlet">State before the throttle.</param>
    /// <param name="outletPressure">Absolute, below that.</param>
    /// <param name="flow">Molar flow of the compressor then, above zero.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public ThrottleDuty(string name, State inlet, Pressure outletPressure, MolarFlow flow)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(inlet);
        Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        if (!(outletPressure.Pascals > 0 && outletPressure.Pascals < inlet.Pressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(outletPressure), outletPressure, $"outletPressure is {outletPressure.Bars:G6} bar absolute; it must be above zero and below the inlet pressure, {inlet.Pressure.Bars:G6} bar.");
        }

        Name = name;
        Inlet = inlet;
        OutletPressure = outletPressure;
        Flow = flow;
    }

    /// <summary>For reports.</summary>
    public string Name { get; }

    /// <summary>State before the throttle.</summary>
    public State Inlet { get; }

    /// <summary>Absolute pressure behind it.</summary>
    public Pressure OutletPressure { get; }

    /// <summary>Molar flow.</summary>
    public MolarFlow Flow { get; }

    /// <summary>Mass flow.</summary>
    public MassFlow MassFlow => MassFlow.FromKilogramsPerSecond(Flow.MolesPerSecond * Inlet.Fluid.Composition.MolarMass.KilogramsPerMole);
}
