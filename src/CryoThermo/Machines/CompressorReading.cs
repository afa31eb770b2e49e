using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>One measured point of a compressor. Immutable and thread-safe.</summary>
public sealed record CompressorReading
{
    /// <summary>Names the point.</summary>
    /// <param name="suction">State at the suction port, without liquid.</param>
    /// <param name="dischargePressure">Absolute, above that of the suction.</param>
    /// <param name="massFlow">Mass flow, above zero; null where it was not measured.</param>
    /// <param name="power">Power, above zero, always the shaft's or always the electrical one; null where it was not measured.</param>
    /// <exception cref="ArgumentException">Neither flow nor power is given, or the suction holds liquid.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CompressorReading(State suction, Pressure dischargePressure, MassFlow? massFlow, Power? power)
    {
        ArgumentNullException.ThrowIfNull(suction);
        if (massFlow is null && power is null)
        {
            throw new ArgumentException("massFlow and power are both missing; at least one is needed.", nameof(massFlow));
        }

        if (suction.VaporFraction < 1)
        {
            throw new ArgumentException($"suction is {suction.PhaseDescription}; a point with liquid at the suction says nothing about the machine.", nameof(suction));
        }

        Guard.InRange(dischargePressure.Pascals, suction.Pressure.Pascals * (1 + 1e-9), 1e9, "Pa absolute", nameof(dischargePressure));
        if (massFlow is { } m)
        {
            Guard.Positive(m.KilogramsPerSecond, "kg/s", nameof(massFlow));
        }

        if (power is { } w)
        {
            Guard.Positive((double)w.Watts, "W", nameof(power));
        }

        Suction = suction;
        DischargePressure = dischargePressure;
        MassFlow = massFlow;
        Power = power;
    }

    /// <summary>State at the suction port.</summary>
    public State Suction { get; }

    /// <summary>Absolute.</summary>
    public Pressure DischargePressure { get; }

    /// <summary>Mass flow; null where it was not measured.</summary>
    public MassFlow? MassFlow { get; }

    /// <summary>Power; null where it was not measured.</summary>
    public Power? Power { get; }
}
