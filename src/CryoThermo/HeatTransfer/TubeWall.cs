using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>The wall of a round tube of one material: heat through it, and its mass and heat capacity for each metre. Immutable and thread-safe.</summary>
public sealed record TubeWall
{
    private readonly double inner;
    private readonly double outer;

    /// <summary>Describes a tube.</summary>
    /// <param name="material">What it is made of, with a known conductivity.</param>
    /// <param name="outerDiameter">Outside, 0.01 mm to 10 m.</param>
    /// <param name="wall">Thickness, above zero and below half of that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    /// <exception cref="ArgumentException">The conductivity of the material is not known.</exception>
    public TubeWall(SolidMaterial material, Length outerDiameter, Length wall)
    {
        ArgumentNullException.ThrowIfNull(material);
        material.RequireConductivity(nameof(material));
        outer = Guard.InRange(outerDiameter.Meters, 1e-5, 10, "m", nameof(outerDiameter));
        double thickness = Guard.InRange(wall.Meters, 1e-9 * outer, 0.4999 * outer, "m", nameof(wall));
        inner = outer - (2 * thickness);
        Material = material;
    }

    /// <summary>What it is made of.</summary>
    public SolidMaterial Material { get; }

    /// <summary>Outside.</summary>
    public Length OuterDiameter => Length.FromMeters(outer);

    /// <summary>Inside.</summary>
    public Length InnerDiameter => Length.FromMeters(inner);

    /// <summary>Thickness of the wall.</summary>
    public Length Thickness => Length.FromMeters(0.5 * (outer - inner));

    /// <summary>Cross-section of the material, across the tube.</summary>
    public Area CrossSection => Area.FromSquareMeters(0.25 * Math.PI * (outer - inner) * (outer + inner));

    /// <summary>Mass for each metre.</summary>
    /// <exception cref="InvalidOperationException">The density of the material is not known.</exception>
    public LinearDensity MassPerLength => LinearDensity.FromKilogramsPerMeter(Material.Density.KilogramsPerCubicMeter * CrossSection.SquareMeters);

    /// <summary>
    /// Heat from inside to outside for each metre: 2 pi over ln(outer/inner) times the integral of k dT. Negative where the outside is the warmer.
    /// </summary>
    /// <param name="inside">Temperature of the inner surface, within the range of the material.</param>
    /// <param name="outside">Temperature of the outer surface, within the range of the material.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    public LinearPowerDensity HeatPerLength(Temperature inside, Temperature outside) =>
        LinearPowerDensity.FromWattsPerMeter(2 * Math.PI * Material.ConductivityIntegralWattsPerMeter(outside, inside) / Math.Log(outer / inner));

    /// <summary>Resistance of a metre of tube, m K/W: ln(outer/inner) over 2 pi k.</summary>
    /// <param name="mean">Mean temperature of the wall, within the range of the material.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    public double ResistanceMeterKelvinsPerWatt(Temperature mean) =>
        Math.Log(outer / inner) / (2 * Math.PI * Material.ConductivityAt(mean).WattsPerMeterKelvin);

    /// <summary>Heat capacity of a metre of tube, J/(m K).</summary>
    /// <param name="temperature">Within the range of the material's heat capacity.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">Density and heat capacity of the material are not known.</exception>
    public double HeatCapacityJoulesPerMeterKelvin(Temperature temperature) =>
        MassPerLength.KilogramsPerMeter * Material.HeatCapacityAt(temperature).JoulesPerKilogramKelvin;

    /// <summary>Heat that warms a metre of tube from one temperature to another, J/m; negative where the first is the warmer.</summary>
    /// <param name="from">Within the range of the material's heat capacity.</param>
    /// <param name="to">Within the range of the material's heat capacity.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">Density and heat capacity of the material are not known.</exception>
    public double EnthalpyJoulesPerMeter(Temperature from, Temperature to) =>
        MassPerLength.KilogramsPerMeter * Material.EnthalpyJoulesPerKilogram(from, to);
}
