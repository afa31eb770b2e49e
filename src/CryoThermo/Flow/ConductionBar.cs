using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A bar of one material that conducts along its length. Immutable and thread-safe.</summary>
public sealed record ConductionBar
{
    /// <summary>Describes a bar.</summary>
    /// <param name="material">What it is made of, with a known conductivity.</param>
    /// <param name="length">Along the heat, above zero.</param>
    /// <param name="crossSection">Across it, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is not above zero.</exception>
    /// <exception cref="ArgumentException">The conductivity of the material is not known.</exception>
    public ConductionBar(SolidMaterial material, Length length, Area crossSection)
    {
        ArgumentNullException.ThrowIfNull(material);
        material.RequireConductivity(nameof(material));
        Guard.Positive(length.Meters, "m", nameof(length));
        Guard.Positive(crossSection.SquareMeters, "m2", nameof(crossSection));
        Material = material;
        Length = length;
        CrossSection = crossSection;
    }

    /// <summary>What it is made of.</summary>
    public SolidMaterial Material { get; }

    /// <summary>Along the heat.</summary>
    public Length Length { get; }

    /// <summary>Across it.</summary>
    public Area CrossSection { get; }

    /// <summary>The wall of a tube.</summary>
    /// <param name="material">What it is made of, with a known conductivity.</param>
    /// <param name="length">Its length.</param>
    /// <param name="outerDiameter">Outside.</param>
    /// <param name="wall">Thickness, at most half of that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    /// <exception cref="ArgumentException">The conductivity of the material is not known.</exception>
    public static ConductionBar Tube(SolidMaterial material, Length length, Length outerDiameter, Length wall)
    {
        double outer = Guard.Positive(outerDiameter.Meters, "m", nameof(outerDiameter));
        double thickness = Guard.InRange(wall.Meters, double.Epsilon, outer / 2, "m", nameof(wall));
        return new(material, length, Area.FromSquareMeters(Math.PI * thickness * (outer - thickness)));
    }
}
