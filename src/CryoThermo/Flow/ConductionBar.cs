using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A bar of one metal that conducts along its length. Immutable and thread-safe.</summary>
public sealed record ConductionBar
{
    /// <summary>Describes a bar.</summary>
    /// <param name="metal">Its metal.</param>
    /// <param name="length">Along the heat, above zero.</param>
    /// <param name="crossSection">Across it, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is not above zero.</exception>
    public ConductionBar(Metal metal, Length length, Area crossSection)
    {
        ArgumentNullException.ThrowIfNull(metal);
        Guard.Positive(length.Meters, "m", nameof(length));
        Guard.Positive(crossSection.SquareMeters, "m2", nameof(crossSection));
        Metal = metal;
        Length = length;
        CrossSection = crossSection;
    }

    /// <summary>Its metal.</summary>
    public Metal Metal { get; }

    /// <summary>Along the heat.</summary>
    public Length Length { get; }

    /// <summary>Across it.</summary>
    public Area CrossSection { get; }

    /// <summary>The wall of a tube.</summary>
    /// <param name="metal">Its metal.</param>
    /// <param name="length">Its length.</param>
    /// <param name="outerDiameter">Outside.</param>
    /// <param name="wall">Thickness, at most half of that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static ConductionBar Tube(Metal metal, Length length, Length outerDiameter, Length wall)
    {
        double outer = Guard.Positive(outerDiameter.Meters, "m", nameof(outerDiameter));
        double thickness = Guard.InRange(wall.Meters, double.Epsilon, outer / 2, "m", nameof(wall));
        return new(metal, length, Area.FromSquareMeters(Math.PI * thickness * (outer - thickness)));
    }
}
