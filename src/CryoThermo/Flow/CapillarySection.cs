using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A stretch of capillary of one bore. Immutable and thread-safe.</summary>
public sealed record CapillarySection
{
    private const double DrawnCopperMeters = 1e-6;

    /// <summary>Describes a stretch.</summary>
    /// <param name="bore">Inner diameter, 0.05 to 20 mm.</param>
    /// <param name="length">Length, 1 mm to 100 m.</param>
    /// <param name="roughness">Roughness of the wall, at most a twentieth of the bore; null for 1 micrometre, drawn copper (0.5 to 2 micrometres, from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CapillarySection(Length bore, Length length, Length? roughness = null)
    {
        Guard.InRange(bore.Millimeters, 0.05, 20, "mm", nameof(bore));
        Guard.InRange(length.Meters, 1e-3, 100, "m", nameof(length));
        Guard.InRange(roughness?.Meters ?? 0, 0, bore.Meters / 20, "m", nameof(roughness));
        Bore = bore;
        Length = length;
        Roughness = roughness ?? UnitsNet.Length.FromMeters(Math.Min(DrawnCopperMeters, bore.Meters / 20));
    }

    /// <summary>Inner diameter.</summary>
    public Length Bore { get; }

    /// <summary>Length.</summary>
    public Length Length { get; }

    /// <summary>Roughness of the wall.</summary>
    public Length Roughness { get; }

    internal double Diameter => Bore.Meters;

    internal double Area => 0.25 * Math.PI * Bore.Meters * Bore.Meters;
}
