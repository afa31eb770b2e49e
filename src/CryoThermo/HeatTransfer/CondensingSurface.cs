using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>A cold wall on which vapour condenses. Immutable and thread-safe.</summary>
public sealed record CondensingSurface
{
    private CondensingSurface(string description, bool isHorizontalTube, double length, double width)
    {
        Description = description;
        IsHorizontalTube = isHorizontalTube;
        LengthMeters = length;
        WidthMeters = width;
    }

    /// <summary>What it is.</summary>
    public string Description { get; }

    /// <summary>Whether it is a tube lying; otherwise the film runs down a vertical wall.</summary>
    public bool IsHorizontalTube { get; }

    /// <summary>Its area.</summary>
    public Area Area => Area.FromSquareMeters(LengthMeters * WidthMeters * (IsHorizontalTube ? Math.PI : 1));

    /// <summary>Height of a wall, diameter of a tube lying: the length of the vapour's layer.</summary>
    internal double LengthMeters { get; }

    /// <summary>Width of a wall, length of a tube lying.</summary>
    internal double WidthMeters { get; }

    /// <summary>How far the condensate runs: the area over the edge that it leaves.</summary>
    internal double RunMeters => IsHorizontalTube ? Math.PI * LengthMeters : LengthMeters;

    /// <summary>A vertical wall, or the side of a cold head.</summary>
    /// <param name="height">0.5 mm to 20 m.</param>
    /// <param name="width">0.1 mm to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static CondensingSurface VerticalWall(Length height, Length width) => new(
        $"vertical wall {height.Millimeters:G4} mm high, {width.Millimeters:G4} mm wide",
        false,
        Guard.InRange(height.Meters, 5e-4, 20, "m", nameof(height)),
        Guard.InRange(width.Meters, 1e-4, 100, "m", nameof(width)));

    /// <summary>A vertical tube, outside or inside, much wider than the film is thick.</summary>
    /// <param name="diameter">On the side of the vapour, 1 mm to 10 m.</param>
    /// <param name="height">0.5 mm to 20 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static CondensingSurface VerticalTube(Length diameter, Length height) => new(
        $"vertical tube {diameter.Millimeters:G4} mm wide, {height.Millimeters:G4} mm high",
        false,
        Guard.InRange(height.Meters, 5e-4, 20, "m", nameof(height)),
        Math.PI * Guard.InRange(diameter.Meters, 1e-3, 10, "m", nameof(diameter)));

    /// <summary>A horizontal tube, outside.</summary>
    /// <param name="diameter">0.5 mm to 1 m.</param>
    /// <param name="length">1 mm to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static CondensingSurface HorizontalTube(Length diameter, Length length) => new(
        $"horizontal tube {diameter.Millimeters:G4} mm wide, {length.Millimeters:G4} mm long",
        true,
        Guard.InRange(diameter.Meters, 5e-4, 1, "m", nameof(diameter)),
        Guard.InRange(length.Meters, 1e-3, 100, "m", nameof(length)));

    /// <inheritdoc/>
    public override string ToString() => Description;
}
