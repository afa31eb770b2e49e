using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// The wires of a thermometer: a free run from the warm place to the tube, a run laid along the tube and tied to it, and a free run to the sensor. Immutable and thread-safe.
/// </summary>
public sealed record SensorWires
{
    /// <summary>Describes the wires, all alike.</summary>
    /// <param name="material">Of their metal.</param>
    /// <param name="diameter">Of the metal, 1 micrometre to 10 mm.</param>
    /// <param name="count">1 to 1000.</param>
    /// <param name="warmRun">From the warm place to the tube, 1 mm to 100 m.</param>
    /// <param name="anchored">Along the tube, 0 to 100 m.</param>
    /// <param name="anchorConductanceWattsPerMeterKelvin">
    /// Between one wire and the tube for each metre and kelvin, 1e-4 to 100 W/(m K): conductivity of the glue or tape times its width over its thickness.
    /// </param>
    /// <param name="freeRun">From the end of the anchor to the sensor, 0.1 mm to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The conductivity of the material is not known.</exception>
    public SensorWires(
        SolidMaterial material, Length diameter, int count, Length warmRun, Length anchored, double anchorConductanceWattsPerMeterKelvin, Length freeRun)
    {
        ArgumentNullException.ThrowIfNull(material);
        material.RequireConductivity(nameof(material));
        Guard.InRange(diameter.Meters, 1e-6, 0.01, "m", nameof(diameter));
        Guard.InRange(count, 1, 1000, "wires");
        Guard.InRange(warmRun.Meters, 1e-3, 100, "m", nameof(warmRun));
        Guard.InRange(anchored.Meters, 0, 100, "m", nameof(anchored));
        Guard.InRange(anchorConductanceWattsPerMeterKelvin, 1e-4, 100, "W/(m K)");
        Guard.InRange(freeRun.Meters, 1e-4, 100, "m", nameof(freeRun));
        Material = material;
        Diameter = diameter;
        Count = count;
        WarmRun = warmRun;
        Anchored = anchored;
        AnchorConductanceWattsPerMeterKelvin = anchorConductanceWattsPerMeterKelvin;
        FreeRun = freeRun;
    }

    /// <summary>Of their metal.</summary>
    public SolidMaterial Material { get; }

    /// <summary>Of the metal.</summary>
    public Length Diameter { get; }

    /// <summary>How many.</summary>
    public int Count { get; }

    /// <summary>From the warm place to the tube.</summary>
    public Length WarmRun { get; }

    /// <summary>Along the tube.</summary>
    public Length Anchored { get; }

    /// <summary>Between one wire and the tube for each metre and kelvin.</summary>
    public double AnchorConductanceWattsPerMeterKelvin { get; }

    /// <summary>From the end of the anchor to the sensor.</summary>
    public Length FreeRun { get; }

    /// <summary>The same with another length along the tube.</summary>
    /// <param name="anchored">0 to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is out of its range.</exception>
    public SensorWires WithAnchored(Length anchored) => new(Material, Diameter, Count, WarmRun, anchored, AnchorConductanceWattsPerMeterKelvin, FreeRun);
}
