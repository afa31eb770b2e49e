using CryoThermo.Diagnostics;

namespace CryoThermo.Insulation;

/// <summary>A gas that enters a vacuum at an even rate: a leak from outside, one from the circuit, what a seal lets through. Immutable and thread-safe.</summary>
public sealed record GasLoad
{
    /// <summary>Creates a load.</summary>
    /// <param name="name">What it is, for tables, for example "lid seal".</param>
    /// <param name="gas">Name of the gas in the library, for example "air" or "propane".</param>
    /// <param name="pascalCubicMetersPerSecond">Rate at the temperature of the space, Pa m3/s (1 Pa m3/s = 10 mbar L/s), zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is negative or not finite.</exception>
    /// <exception cref="ArgumentException">A name is empty.</exception>
    public GasLoad(string name, string gas, double pascalCubicMetersPerSecond)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentException.ThrowIfNullOrWhiteSpace(gas);
        Name = name;
        Gas = gas;
        PascalCubicMetersPerSecond = Guard.InRange(pascalCubicMetersPerSecond, 0, 1e6, "Pa m3/s");
    }

    /// <summary>What it is.</summary>
    public string Name { get; }

    /// <summary>The gas.</summary>
    public string Gas { get; }

    /// <summary>Rate at the temperature of the space, Pa m3/s.</summary>
    public double PascalCubicMetersPerSecond { get; }
}
