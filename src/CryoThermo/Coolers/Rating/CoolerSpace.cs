using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>A space of the machine that the charge fills; those of the recuperator belong to it. Immutable and thread-safe.</summary>
public sealed record CoolerSpace
{
    /// <summary>Describes a space.</summary>
    /// <param name="name">What it is called in results, for example "buffer".</param>
    /// <param name="volume">Free volume, above zero: what oil and iron take up is not part of it.</param>
    /// <param name="place">Where it lies.</param>
    /// <exception cref="ArgumentException">The name is blank.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The volume or the place is out of its range.</exception>
    public CoolerSpace(string name, Volume volume, SpacePlace place)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Guard.InRange(volume.CubicMeters, 1e-12, 1e3, "m3", nameof(volume));
        if (!Enum.IsDefined(place))
        {
            throw new ArgumentOutOfRangeException(nameof(place), place, $"place is {place}; it must be one of {string.Join(", ", Enum.GetNames<SpacePlace>())}.");
        }

        Name = name;
        Volume = volume;
        Place = place;
    }

    /// <summary>What it is called in results.</summary>
    public string Name { get; }

    /// <summary>Free volume.</summary>
    public Volume Volume { get; }

    /// <summary>Where it lies.</summary>
    public SpacePlace Place { get; }
}
