using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>A wall that gas molecules strike. Immutable and thread-safe.</summary>
public sealed record GasSurface
{
    /// <summary>Describes a wall.</summary>
    /// <param name="temperature">3 to 500 K.</param>
    /// <param name="accommodation">
    /// Accommodation coefficient, 0.01 to 1: how much of the way to the temperature of the wall a molecule comes in one stroke. Left out, the table of
    /// <see cref="Insulation.Accommodation"/> is taken.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public GasSurface(Temperature temperature, double? accommodation = null)
    {
        Guard.InRange(temperature.Kelvins, 3, 500, "K", nameof(temperature));
        if (accommodation is { } given)
        {
            Guard.InRange(given, 0.01, 1, "of full accommodation", nameof(accommodation));
        }

        Temperature = temperature;
        Accommodation = accommodation;
    }

    /// <summary>Temperature of the wall.</summary>
    public Temperature Temperature { get; }

    /// <summary>Accommodation coefficient; null for that of the table.</summary>
    public double? Accommodation { get; }
}
