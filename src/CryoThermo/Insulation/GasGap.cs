using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>The space between two walls that gas fills; the inner wall is the one enclosed. Immutable and thread-safe.</summary>
public sealed record GasGap
{
    private readonly Func<double, double, double> nusselt;

    private GasGap(string description, double width, double areaRatio, double conductanceLength, double rayleighLength, Func<double, double, double> nusselt)
    {
        Description = description;
        Width = Length.FromMeters(width);
        AreaRatio = areaRatio;
        ConductanceLength = conductanceLength;
        RayleighLength = rayleighLength;
        this.nusselt = nusselt;
    }

    /// <summary>For reports.</summary>
    public string Description { get; }

    /// <summary>Distance between the walls.</summary>
    public Length Width { get; }

    /// <summary>Area of the inner wall over that of the outer wall, above 0 to 1.</summary>
    public double AreaRatio { get; }

    /// <summary>Conductivity over this is the heat of conduction for each area of the inner wall and kelvin, m.</summary>
    internal double ConductanceLength { get; }

    /// <summary>Length of the Rayleigh number, m.</summary>
    internal double RayleighLength { get; }

    /// <summary>Wide walls side by side with a gas that stays still: the cold side below, or a gap too narrow for convection.</summary>
    /// <param name="width">0.01 mm to 1 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The width is out of its range.</exception>
    public static GasGap StillPlates(Length width)
    {
        double gap = Width1(width);
        return new($"still gas of {width.Millimeters:G4} mm between plates", gap, 1, gap, gap, static (_, _) => 1);
    }

    /// <summary>Vertical walls side by side, with natural convection after ElSherbiny, Raithby and Hollands.</summary>
    /// <param name="width">0.01 mm to 1 m.</param>
    /// <param name="height">Five times the width to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static GasGap VerticalPlates(Length width, Length height)
    {
        double gap = Width1(width);
        double aspect = Guard.InRange(height.Meters, 5 * gap, 100, "m", nameof(height)) / gap;
        return new(
            $"{width.Millimeters:G4} mm between vertical plates {height.Millimeters:G4} mm high", gap, 1, gap, gap, (rayleigh, _) => ConvectionForms.VerticalGap(rayleigh, aspect));
    }

    /// <summary>Horizontal walls with the warm one below, with natural convection after Hollands, Raithby and Konicek.</summary>
    /// <param name="width">0.01 mm to 1 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The width is out of its range.</exception>
    public static GasGap WarmPlateBelow(Length width)
    {
        double gap = Width1(width);
        return new($"{width.Millimeters:G4} mm between horizontal plates, the warm one below", gap, 1, gap, gap, static (rayleigh, _) => ConvectionForms.GapHeatedBelow(rayleigh));
    }

    /// <summary>Horizontal cylinders, one in the other, with natural convection after Raithby and Hollands.</summary>
    /// <param name="innerDiameter">0.1 mm to 10 m.</param>
    /// <param name="outerDiameter">1.001 times that to 100 times that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static GasGap HorizontalCylinders(Length innerDiameter, Length outerDiameter)
    {
        (double own, double around) = Radii(innerDiameter, outerDiameter);
        return new(
            $"horizontal cylinders of {innerDiameter.Millimeters:G4} and {outerDiameter.Millimeters:G4} mm",
            around - own,
            own / around,
            own * Math.Log(around / own),
            ConvectionForms.AnnulusLength(own, around),
            ConvectionForms.Annulus);
    }

    /// <summary>Spheres, one in the other; the gas is taken to stay still, and a note tells where it would not.</summary>
    /// <param name="innerDiameter">0.1 mm to 10 m.</param>
    /// <param name="outerDiameter">1.001 times that to 100 times that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public static GasGap Spheres(Length innerDiameter, Length outerDiameter)
    {
        (double own, double around) = Radii(innerDiameter, outerDiameter);
        double ratio = own / around;
        return new(
            $"spheres of {innerDiameter.Millimeters:G4} and {outerDiameter.Millimeters:G4} mm", around - own, ratio * ratio, own * (1 - ratio), around - own, static (_, _) => double.NaN);
    }

    /// <summary>Heat over that of conduction alone; NaN where no convection is known for the shape.</summary>
    internal double Nusselt(double rayleigh, double prandtl) => rayleigh > 0 ? nusselt(rayleigh, prandtl) : 1;

    private static double Width1(Length width) => Guard.InRange(width.Meters, 1e-5, 1, "m", nameof(width));

    private static (double Inner, double Outer) Radii(Length innerDiameter, Length outerDiameter)
    {
        double own = 0.5 * Guard.InRange(innerDiameter.Meters, 1e-4, 10, "m", nameof(innerDiameter));
        return (own, 0.5 * Guard.InRange(outerDiameter.Meters, 2.002 * own, 200 * own, "m", nameof(outerDiameter)));
    }
}
