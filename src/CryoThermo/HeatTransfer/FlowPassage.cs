using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// A passage in which a stream flows along a wall: inside a tube, between two tubes, or around several tubes in a tube; straight or coiled. It tells the film coefficient, the
/// friction and how much liquid it holds. Immutable and thread-safe.
/// </summary>
public sealed class FlowPassage
{
    private const double LeastMeters = 5e-5;
    private const double MostMeters = 1;
    private const double DrawnCopperMeters = 1e-6;
    private const double GreatestRelativeRoughness = 0.05;
    private const int MostTubes = 1000;

    /// <summary>Share of a plane that equal circles cover at most, pi/(2 sqrt(3)).</summary>
    private const double DensestPacking = 0.9069;

    /// <summary>Least inner diameter of a tube around 1, 2, 3... equal tubes, over theirs: geometry of packed circles.</summary>
    private static readonly double[] LeastAround = [1, 2, 2.1547, 2.4142, 2.7013, 3, 3];

    private FlowPassage(PassageShape shape, Length inner, Length outer, int tubes, PassageWall wall, Length? coil, Length? roughness)
    {
        Shape = shape;
        InnerDiameter = inner;
        OuterDiameter = outer;
        TubeCount = tubes;
        HeatedWall = wall;
        CoilDiameter = coil;
        double d = outer.Meters;
        double hydraulic = ((d * d) - (tubes * inner.Meters * inner.Meters)) / (d + (tubes * inner.Meters));
        Roughness = roughness ?? Length.FromMeters(Math.Min(DrawnCopperMeters, GreatestRelativeRoughness * hydraulic));
        Guard.InRange(Roughness.Meters, 0, GreatestRelativeRoughness * hydraulic, "m", nameof(roughness));
        if (coil is { } c)
        {
            Guard.InRange(c.Meters, d / FrictionFactor.GreatestCoilRatio, 1000 * d, "m", "coilDiameter");
        }

        Kernel = new(this);
    }

    /// <summary>Inside a round tube.</summary>
    /// <param name="bore">Inner diameter, 0.05 mm to 1 m.</param>
    /// <param name="coilDiameter">Mean diameter of the coil, 3.33 to 1000 bores; null for a straight tube.</param>
    /// <param name="roughness">Roughness of the wall, at most a twentieth of the bore; null for 1 micrometre, drawn copper (0.5 to 2 micrometres, from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static FlowPassage RoundTube(Length bore, Length? coilDiameter = null, Length? roughness = null)
    {
        Guard.InRange(bore.Meters, LeastMeters, MostMeters, "m", nameof(bore));
        return new(PassageShape.RoundTube, Length.Zero, bore, 0, PassageWall.Outer, coilDiameter, roughness);
    }

    /// <summary>Between two tubes, the inner one in the middle. A tube out of the middle has less friction and, in laminar flow, a much smaller coefficient.</summary>
    /// <param name="innerDiameter">Outer diameter of the inner tube, 0.01 to 0.99 of <paramref name="outerDiameter"/>.</param>
    /// <param name="outerDiameter">Inner diameter of the outer tube, 0.05 mm to 1 m.</param>
    /// <param name="heatedWall">Through which of the two the heat goes; the other is taken as insulated.</param>
    /// <param name="coilDiameter">Mean diameter of the coil, 3.33 to 1000 outer diameters; null for straight tubes.</param>
    /// <param name="roughness">Roughness of the walls, at most a twentieth of the hydraulic diameter; null for 1 micrometre.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static FlowPassage Annulus(
        Length innerDiameter, Length outerDiameter, PassageWall heatedWall = PassageWall.Inner, Length? coilDiameter = null, Length? roughness = null)
    {
        Guard.InRange(outerDiameter.Meters, LeastMeters, MostMeters, "m", nameof(outerDiameter));
        Guard.InRange(
            innerDiameter.Meters,
            FrictionFactor.LeastDiameterRatio * outerDiameter.Meters,
            FrictionFactor.GreatestDiameterRatio * outerDiameter.Meters,
            "m",
            nameof(innerDiameter));
        return heatedWall is PassageWall.Inner or PassageWall.Outer
            ? new(PassageShape.Annulus, innerDiameter, outerDiameter, 1, heatedWall, coilDiameter, roughness)
            : throw new ArgumentOutOfRangeException(
                nameof(heatedWall), heatedWall, $"heatedWall is {heatedWall}; it must be one of {string.Join(", ", Enum.GetNames<PassageWall>())}.");
    }

    /// <summary>Around several equal tubes in a tube, along them; the heat goes through the tubes. Computed as a tube of the hydraulic diameter (common practice, no source).</summary>
    /// <param name="tubeCount">Number of tubes, 1 to 1000. One lies where it will: for one in the middle take <see cref="Annulus"/>.</param>
    /// <param name="tubeDiameter">Outer diameter of each, above zero; they must fit.</param>
    /// <param name="outerDiameter">Inner diameter of the tube around them, 0.05 mm to 1 m.</param>
    /// <param name="coilDiameter">Mean diameter of the coil, 3.33 to 1000 outer diameters; null for straight tubes.</param>
    /// <param name="roughness">Roughness of the walls, at most a twentieth of the hydraulic diameter; null for 1 micrometre.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the tubes do not fit.</exception>
    public static FlowPassage AroundTubes(int tubeCount, Length tubeDiameter, Length outerDiameter, Length? coilDiameter = null, Length? roughness = null)
    {
        Guard.InRange(tubeCount, 1, MostTubes, "tubes");
        Guard.InRange(outerDiameter.Meters, LeastMeters, MostMeters, "m", nameof(outerDiameter));
        double least = tubeCount == 1 ? 1 / FrictionFactor.GreatestDiameterRatio
            : tubeCount <= LeastAround.Length ? LeastAround[tubeCount - 1] : Math.Sqrt(tubeCount / DensestPacking);
        Guard.Positive(tubeDiameter.Meters, "m", nameof(tubeDiameter));
        Guard.InRange(tubeDiameter.Meters, 0.01 * outerDiameter.Meters / Math.Sqrt(tubeCount), outerDiameter.Meters / least, "m", nameof(tubeDiameter));
        return new(PassageShape.AroundTubes, tubeDiameter, outerDiameter, tubeCount, PassageWall.Inner, coilDiameter, roughness);
    }

    /// <summary>Outer diameter of the tube or tubes inside the passage; zero where there is none.</summary>
    public Length InnerDiameter { get; }

    /// <summary>Inner diameter of the tube around the passage.</summary>
    public Length OuterDiameter { get; }

    /// <summary>Number of tubes inside the passage.</summary>
    public int TubeCount { get; }

    /// <summary>The wall through which the heat goes.</summary>
    public PassageWall HeatedWall { get; }

    /// <summary>Mean diameter of the coil; null where it is straight.</summary>
    public Length? CoilDiameter { get; }

    /// <summary>Roughness of the walls.</summary>
    public Length Roughness { get; }

    /// <summary>Free cross-section.</summary>
    public Area FlowArea => Area.FromSquareMeters(Kernel.FlowArea);

    /// <summary>Four cross-sections over the wetted perimeter.</summary>
    public Length HydraulicDiameter => Length.FromMeters(Kernel.HydraulicDiameter);

    /// <summary>Perimeter of the wall through which the heat goes: times the length it is the area that film coefficients belong to.</summary>
    public Length HeatedPerimeter => Length.FromMeters(Kernel.HeatedPerimeter);

    /// <summary>Film coefficient, friction and hold-up of a stream in the passage at one place.</summary>
    /// <param name="state">What flows there, of one or two phases; two liquids are taken as one.</param>
    /// <param name="flow">Mass flow in the whole passage, above zero.</param>
    /// <param name="direction">Whether the stream is heated or cooled: boiling and condensing have their own formulae.</param>
    /// <param name="length">Length of the passage, over which the flow of a single phase develops; null for a long one, which is on the safe side.</param>
    /// <param name="heatFlux">Heat over area of the wall, which nucleate boiling of a pure fluid needs; null leaves that out, which is on the safe side.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ModelRangeException">The state lies outside the range of a correlation of its viscosity or conductivity and the fluid is strict about it.</exception>
    public PassageFilm Film(State state, MassFlow flow, HeatDirection direction, Length? length = null, HeatFlux? heatFlux = null)
    {
        ArgumentNullException.ThrowIfNull(state);
        double kilograms = Guard.InRange(flow.KilogramsPerSecond, 1e-12, 1e6, "kg/s", nameof(flow));
        double meters = length is { } l ? Guard.InRange(l.Meters, 1e-6, 1e6, "m", nameof(length)) : double.PositiveInfinity;
        double watts = heatFlux is { } q ? Guard.InRange(q.WattsPerSquareMeter, 0, 1e9, "W/m2", nameof(heatFlux)) : 0;
        return direction is HeatDirection.Heated or HeatDirection.Cooled
            ? PassageFilm.Of(this, state, kilograms / Kernel.FlowArea, direction, meters, watts)
            : throw new ArgumentOutOfRangeException(
                nameof(direction), direction, $"direction is {direction}; it must be one of {string.Join(", ", Enum.GetNames<HeatDirection>())}.");
    }

    internal PassageShape Shape { get; }

    internal PassageKernel Kernel { get; }

    /// <inheritdoc/>
    public override string ToString()
    {
        string coil = CoilDiameter is { } c ? $", coiled to {c.Millimeters:0.###} mm" : string.Empty;
        return Shape switch
        {
            PassageShape.RoundTube => $"tube of {OuterDiameter.Millimeters:0.###} mm{coil}",
            PassageShape.Annulus => $"annulus of {InnerDiameter.Millimeters:0.###} to {OuterDiameter.Millimeters:0.###} mm{coil}",
            _ => $"around {TubeCount} tubes of {InnerDiameter.Millimeters:0.###} mm in {OuterDiameter.Millimeters:0.###} mm{coil}",
        };
    }
}
