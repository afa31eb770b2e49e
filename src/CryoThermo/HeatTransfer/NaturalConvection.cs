using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Natural convection of a still gas or liquid at a surface of one temperature, with the properties of the medium midway between surface and medium.
/// Stateless and thread-safe.
/// </summary>
public static class NaturalConvection
{
    /// <summary>Up to this root of 32 over the fourth root of Grashof, times height over diameter, two formulas of curvature were compared here.</summary>
    private const double MostSlender = 15;

    private static readonly Source CylinderSource = new("S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1049", FromMemory: true, Verified: "textbook example of a pipe in air");
    private static readonly Source PlateSource = new("S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323", FromMemory: true, Verified: "textbook example of a vertical plate in air");
    private static readonly Source SlenderSource = new(
        "S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, with the curvature of C. O. Popiel, Heat Transfer Eng. 29 (2008) 521", FromMemory: true, Verified: "5 % more at a diameter of 35 heights over the fourth root of Grashof, the limit in textbooks; at most a quarter above E. J. Le Fevre, A. J. Ede (1956)");

    private static readonly Source FlatSource = new("W. H. McAdams, Heat Transmission (1954); J. R. Lloyd, W. R. Moran, J. Heat Transfer 96 (1974) 443", FromMemory: true);

    /// <summary>A horizontal cylinder.</summary>
    /// <param name="medium">For example <c>WorkingFluid.Pure("air")</c>.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="surface">Temperature of the surface.</param>
    /// <param name="surroundings">Temperature of the medium far off.</param>
    /// <param name="diameter">Outside, 0.01 mm to 10 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The medium has several phases at the film temperature.</exception>
    public static NaturalConvectionResult HorizontalCylinder(WorkingFluid medium, Pressure pressure, Temperature surface, Temperature surroundings, Length diameter)
    {
        double d = Guard.InRange(diameter.Meters, 1e-5, 10, "m", nameof(diameter));
        Medium film = Medium.Between(medium, pressure, surface.Kelvins, surroundings.Kelvins);
        double rayleigh = film.Rayleigh(surface.Kelvins - surroundings.Kelvins, d);
        return Result(film, surface, surroundings, d, rayleigh, ConvectionForms.HorizontalCylinder(rayleigh, film.Prandtl), 20, CylinderSource, 1e-6, 1e12);
    }

    /// <summary>A vertical plate, or a tank wall.</summary>
    /// <param name="medium">For example <c>WorkingFluid.Pure("air")</c>.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="surface">Temperature of the surface.</param>
    /// <param name="surroundings">Temperature of the medium far off.</param>
    /// <param name="height">1 mm to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The medium has several phases at the film temperature.</exception>
    public static NaturalConvectionResult VerticalPlate(WorkingFluid medium, Pressure pressure, Temperature surface, Temperature surroundings, Length height)
    {
        double h = Guard.InRange(height.Meters, 1e-3, 100, "m", nameof(height));
        Medium film = Medium.Between(medium, pressure, surface.Kelvins, surroundings.Kelvins);
        double rayleigh = film.Rayleigh(surface.Kelvins - surroundings.Kelvins, h);
        return Result(film, surface, surroundings, h, rayleigh, ConvectionForms.VerticalPlate(rayleigh, film.Prandtl), 20, PlateSource, 0.1, 1e12);
    }

    /// <summary>A vertical cylinder: the plate, and what curvature adds where the cylinder is slender.</summary>
    /// <param name="medium">For example <c>WorkingFluid.Pure("air")</c>.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="surface">Temperature of the surface.</param>
    /// <param name="surroundings">Temperature of the medium far off.</param>
    /// <param name="height">1 mm to 100 m.</param>
    /// <param name="diameter">0.01 mm to 10 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The medium has several phases at the film temperature.</exception>
    public static NaturalConvectionResult VerticalCylinder(
        WorkingFluid medium, Pressure pressure, Temperature surface, Temperature surroundings, Length height, Length diameter)
    {
        double h = Guard.InRange(height.Meters, 1e-3, 100, "m", nameof(height));
        double d = Guard.InRange(diameter.Meters, 1e-5, 10, "m", nameof(diameter));
        Medium film = Medium.Between(medium, pressure, surface.Kelvins, surroundings.Kelvins);
        double rayleigh = film.Rayleigh(surface.Kelvins - surroundings.Kelvins, h);
        double plate = ConvectionForms.VerticalPlate(rayleigh, film.Prandtl);
        double slenderness = rayleigh > 0 ? Math.Sqrt(32) * Math.Pow(rayleigh / film.Prandtl, -0.25) * h / d : 0;
        NaturalConvectionResult result = Result(
            film, surface, surroundings, h, rayleigh, plate * ConvectionForms.Curvature(slenderness), 25, SlenderSource, 0.1, 1e12);
        return slenderness <= MostSlender
            ? result
            : result with { Notes = [.. result.Notes, $"The cylinder is a wire: its slenderness of {slenderness:G3} lies beyond {MostSlender}, up to which the curvature was compared."] };
    }

    /// <summary>A horizontal plate, one side.</summary>
    /// <param name="medium">For example <c>WorkingFluid.Pure("air")</c>.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="surface">Temperature of the surface.</param>
    /// <param name="surroundings">Temperature of the medium far off.</param>
    /// <param name="area">Of the side.</param>
    /// <param name="perimeter">Around it; area over perimeter is 0.1 mm to 10 m.</param>
    /// <param name="facesUp">Whether the side looks up.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The medium has several phases at the film temperature.</exception>
    public static NaturalConvectionResult HorizontalPlate(
        WorkingFluid medium, Pressure pressure, Temperature surface, Temperature surroundings, Area area, Length perimeter, bool facesUp)
    {
        Guard.Positive(perimeter.Meters, "m", nameof(perimeter));
        double l = Guard.InRange(area.SquareMeters / perimeter.Meters, 1e-4, 10, "m of area over perimeter", nameof(area));
        Medium film = Medium.Between(medium, pressure, surface.Kelvins, surroundings.Kelvins);
        double difference = surface.Kelvins - surroundings.Kelvins;
        double rayleigh = film.Rayleigh(difference, l);
        bool rises = difference * film.Expansion > 0;
        return rises == facesUp
            ? Result(film, surface, surroundings, l, rayleigh, ConvectionForms.HorizontalPlateFree(rayleigh), 25, FlatSource, 1e4, 1e11)
            : Result(film, surface, surroundings, l, rayleigh, ConvectionForms.HorizontalPlateCovered(rayleigh), 30, FlatSource, 1e5, 1e10);
    }

    private static NaturalConvectionResult Result(
        Medium film, Temperature surface, Temperature surroundings, double length, double rayleigh, double nusselt, double uncertainty, Source source, double least, double most)
    {
        double coefficient = nusselt * film.Conductivity / length;
        IReadOnlyList<string> notes = rayleigh >= least && rayleigh <= most
            ? []
            : [$"The Rayleigh number is {rayleigh:G3}; the correlation was made for {least:G1} to {most:G1}."];
        return new(
            HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(coefficient),
            HeatFlux.FromWattsPerSquareMeter(coefficient * (surface.Kelvins - surroundings.Kelvins)),
            rayleigh,
            nusselt,
            uncertainty,
            source,
            notes);
    }
}
