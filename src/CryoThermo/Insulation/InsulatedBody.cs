using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>The cold body that insulation of one thickness covers; its measures are those under the insulation. Immutable and thread-safe.</summary>
public sealed record InsulatedBody
{
    private readonly Func<double, double> shape;
    private readonly Func<double, double> outside;

    private InsulatedBody(string description, double greatestThickness, bool isCurved, Func<double, double> shape, Func<double, double> outside)
    {
        Description = description;
        GreatestThickness = Length.FromMeters(greatestThickness);
        IsCurved = isCurved;
        this.shape = shape;
        this.outside = outside;
    }

    /// <summary>For reports.</summary>
    public string Description { get; }

    /// <summary>Thickest insulation the form holds for.</summary>
    public Length GreatestThickness { get; }

    /// <summary>Whether it is a tube or a sphere: insulating a thin one may at first raise the heat.</summary>
    public bool IsCurved { get; }

    /// <summary>A flat wall; its edges are left out.</summary>
    /// <param name="area">1 mm2 to 1000 m2.</param>
    /// <exception cref="ArgumentOutOfRangeException">The area is out of its range.</exception>
    public static InsulatedBody Wall(Area area)
    {
        double a = Guard.InRange(area.SquareMeters, 1e-6, 1000, "m2", nameof(area));
        return new($"wall of {a:G4} m2", 10, false, x => a / x, _ => a);
    }

    /// <summary>A tube or cylinder, without its ends.</summary>
    /// <param name="outerDiameter">Of the tube, 0.1 mm to 10 m.</param>
    /// <param name="length">1 mm to 1000 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static InsulatedBody Cylinder(Length outerDiameter, Length length)
    {
        double d = Guard.InRange(outerDiameter.Meters, 1e-4, 10, "m", nameof(outerDiameter));
        double l = Guard.InRange(length.Meters, 1e-3, 1000, "m", nameof(length));
        return new($"cylinder of {1e3 * d:G4} mm, {l:G4} m long", 10, true, x => 2 * Math.PI * l / Math.Log(1 + (2 * x / d)), x => Math.PI * (d + (2 * x)) * l) { BareWidth = d };
    }

    /// <summary>A sphere.</summary>
    /// <param name="diameter">0.1 mm to 10 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The diameter is out of its range.</exception>
    public static InsulatedBody Sphere(Length diameter)
    {
        double d = Guard.InRange(diameter.Meters, 1e-4, 10, "m", nameof(diameter));
        return new($"sphere of {1e3 * d:G4} mm", 10, true, x => Math.PI * d * (d + (2 * x)) / x, x => Math.PI * (d + (2 * x)) * (d + (2 * x))) { IsSphere = true, BareWidth = d };
    }

    /// <summary>
    /// A box by its faces, edges (0.54 of their length) and corners (0.15 of the thickness): I. Langmuir, E. Q. Adams, G. S. Meikle, Trans. Am. Electrochem. Soc. 24 (1913) 53,
    /// as textbooks give it, for sides above a fifth of the thickness (from memory).
    /// </summary>
    /// <param name="length">1 mm to 10 m.</param>
    /// <param name="width">1 mm to 10 m.</param>
    /// <param name="height">1 mm to 10 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static InsulatedBody Box(Length length, Length width, Length height)
    {
        double a = Guard.InRange(length.Meters, 1e-3, 10, "m", nameof(length));
        double b = Guard.InRange(width.Meters, 1e-3, 10, "m", nameof(width));
        double c = Guard.InRange(height.Meters, 1e-3, 10, "m", nameof(height));
        double faces = 2 * ((a * b) + (b * c) + (c * a));
        return new(
            $"box of {1e3 * a:G4} x {1e3 * b:G4} x {1e3 * c:G4} mm",
            5 * Math.Min(a, Math.Min(b, c)),
            false,
            x => (faces / x) + (0.54 * 4 * (a + b + c)) + (8 * 0.15 * x),
            x => 2 * (((a + (2 * x)) * (b + (2 * x))) + ((b + (2 * x)) * (c + (2 * x))) + ((c + (2 * x)) * (a + (2 * x)))));
    }

    /// <summary>Whether it is a sphere.</summary>
    internal bool IsSphere { get; private init; }

    /// <summary>Outer diameter of what is round, m; infinite for what is flat.</summary>
    internal double OuterWidth(double thickness) => BareWidth + (2 * thickness);

    private double BareWidth { get; init; } = double.PositiveInfinity;

    /// <summary>Heat over mean conductivity and difference of temperature, m.</summary>
    internal double Shape(double thickness) => shape(thickness);

    /// <summary>Area of the outside of the insulation, m2.</summary>
    internal double OuterArea(double thickness) => outside(thickness);
}
