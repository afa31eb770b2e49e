using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>What was read after one component was filled: the gauge, the mass, or both. Immutable and thread-safe.</summary>
public sealed class ChargeReading
{
    /// <summary>Notes a reading.</summary>
    /// <param name="substance">The component that was filled.</param>
    /// <param name="gauge">What the gauge showed after it, with the atmosphere at that time; null when it was not read.</param>
    /// <param name="mass">Mass that was filled; null when it was not weighed.</param>
    /// <exception cref="ArgumentException">The name is blank, or neither is given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The mass is not finite, or the gauge shows a perfect vacuum.</exception>
    public ChargeReading(string substance, GaugePressure? gauge, Mass? mass)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(substance);
        if (gauge is null && mass is null)
        {
            throw new ArgumentException($"Neither gauge nor mass is given for {substance}; one is needed.", nameof(gauge));
        }

        if (gauge is { } reading)
        {
            Guard.Positive(reading.Absolute.Pascals, "Pa absolute", nameof(gauge));
        }

        if (mass is { } filled)
        {
            Guard.InRange(filled.Kilograms, -1000, 1000, "kg", nameof(mass));
        }

        Substance = substance;
        Gauge = gauge;
        Mass = mass;
    }

    /// <summary>The component that was filled.</summary>
    public string Substance { get; }

    /// <summary>What the gauge showed after it; null when it was not read.</summary>
    public GaugePressure? Gauge { get; }

    /// <summary>Mass that was filled; null when it was not weighed. A noisy scale may show a little below zero.</summary>
    public Mass? Mass { get; }
}
