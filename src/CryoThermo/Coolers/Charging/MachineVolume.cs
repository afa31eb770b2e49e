using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>One space of a machine that the charge reaches, for example "compressor shell" or "buffer". Immutable and thread-safe.</summary>
public sealed class MachineVolume
{
    /// <summary>Coldest temperature a space may have while it is charged, K: solids are not judged.</summary>
    internal const double LowestKelvins = 220;

    /// <summary>Warmest temperature a space may have, K.</summary>
    internal const double HighestKelvins = 500;

    /// <summary>Describes a space.</summary>
    /// <param name="name">What it is called in results.</param>
    /// <param name="volume">Free volume, above zero: what oil and iron take up is not part of it.</param>
    /// <param name="temperature">220 to 500 K. A machine is charged warm; what freezes is not judged here.</param>
    /// <exception cref="ArgumentException">The name is blank.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Volume or temperature is out of its range.</exception>
    public MachineVolume(string name, Volume volume, Temperature temperature)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Guard.Positive(volume.CubicMeters, "m3", nameof(volume));
        Guard.InRange(temperature.Kelvins, LowestKelvins, HighestKelvins, "K", nameof(temperature));
        Name = name;
        Volume = volume;
        Temperature = temperature;
    }

    /// <summary>What it is called in results.</summary>
    public string Name { get; }

    /// <summary>Free volume.</summary>
    public Volume Volume { get; }

    /// <summary>Temperature of the gas in it.</summary>
    public Temperature Temperature { get; }

    /// <inheritdoc/>
    public override string ToString() => $"{Name}, {Volume.Liters:G4} L at {Temperature.Kelvins:F2} K ({Temperature.DegreesCelsius:F2} degC)";
}
