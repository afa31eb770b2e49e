using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Natural convection of a gas or liquid shut in between two walls of given temperatures, with the properties of the medium midway. At pressures so low that
/// molecules cross the gap without meeting, this does not hold. Stateless and thread-safe.
/// </summary>
public static class GapConvection
{
    private static readonly Source VerticalSource = new("S. M. ElSherbiny, G. D. Raithby, K. G. T. Hollands, J. Heat Transfer 104 (1982) 96", FromMemory: true, Verified: "limit of conduction");
    private static readonly Source BelowSource = new("K. G. T. Hollands, G. D. Raithby, L. Konicek, Int. J. Heat Mass Transfer 18 (1975) 879", FromMemory: true, Verified: "onset at a Rayleigh number of 1708");
    private static readonly Source LayeredSource = new("conduction: the warm side above keeps the medium still", FromMemory: true);
    private static readonly Source AnnulusSource = new("G. D. Raithby, K. G. T. Hollands, Adv. Heat Transfer 11 (1975) 265", FromMemory: true, Verified: "textbook example of Incropera: Ra 171, 100 W/m");

    /// <summary>Between vertical walls.</summary>
    /// <param name="medium">What fills the gap.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="first">Temperature of one wall.</param>
    /// <param name="second">Temperature of the other wall.</param>
    /// <param name="gap">Width, 0.01 mm to 1 m.</param>
    /// <param name="height">Five times the width to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The medium has several phases at the mean temperature.</exception>
    public static GapConvectionResult Vertical(WorkingFluid medium, Pressure pressure, Temperature first, Temperature second, Length gap, Length height)
    {
        double width = Guard.InRange(gap.Meters, 1e-5, 1, "m", nameof(gap));
        double tall = Guard.InRange(height.Meters, 5 * width, 100, "m", nameof(height));
        (Medium film, double difference) = Film(medium, pressure, first, second);
        double rayleigh = film.Rayleigh(difference, width);
        double nusselt = rayleigh > 0 ? ConvectionForms.VerticalGap(rayleigh, tall / width) : 1;
        return Plane(film, difference, width, rayleigh, nusselt, 10, VerticalSource, 2e7);
    }

    /// <summary>Between horizontal walls.</summary>
    /// <param name="medium">What fills the gap; one that expands with temperature.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="lower">Temperature of the wall below.</param>
    /// <param name="upper">Temperature of the wall above.</param>
    /// <param name="gap">Width, 0.01 mm to 1 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The medium has several phases at the mean temperature.</exception>
    public static GapConvectionResult Horizontal(WorkingFluid medium, Pressure pressure, Temperature lower, Temperature upper, Length gap)
    {
        double width = Guard.InRange(gap.Meters, 1e-5, 1, "m", nameof(gap));
        (Medium film, double difference) = Film(medium, pressure, lower, upper);
        double rayleigh = film.Rayleigh(difference, width);
        return lower > upper && rayleigh > 0
            ? Plane(film, difference, width, rayleigh, ConvectionForms.GapHeatedBelow(rayleigh), 10, BelowSource, 1e8)
            : Plane(film, difference, width, rayleigh, 1, 5, LayeredSource, double.PositiveInfinity);
    }

    /// <summary>Between horizontal cylinders, one in the other.</summary>
    /// <param name="medium">What fills the gap.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="inner">Temperature of the inner cylinder.</param>
    /// <param name="outer">Temperature of the outer cylinder.</param>
    /// <param name="innerDiameter">0.1 mm to 10 m.</param>
    /// <param name="outerDiameter">1.001 times that to 100 times that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">The medium has several phases at the mean temperature.</exception>
    public static GapConvectionResult HorizontalCylinders(
        WorkingFluid medium, Pressure pressure, Temperature inner, Temperature outer, Length innerDiameter, Length outerDiameter)
    {
        double own = 0.5 * Guard.InRange(innerDiameter.Meters, 1e-4, 10, "m", nameof(innerDiameter));
        double around = 0.5 * Guard.InRange(outerDiameter.Meters, 2.002 * own, 200 * own, "m", nameof(outerDiameter));
        (Medium film, double difference) = Film(medium, pressure, inner, outer);
        double rayleigh = film.Rayleigh(difference, ConvectionForms.AnnulusLength(own, around));
        double nusselt = ConvectionForms.Annulus(rayleigh, film.Prandtl);
        double coefficient = nusselt * film.Conductivity / (own * Math.Log(around / own));
        return Result(coefficient, difference, rayleigh, nusselt, 15, AnnulusSource, 1e7);
    }

    private static (Medium Film, double Difference) Film(WorkingFluid medium, Pressure pressure, Temperature first, Temperature second) => (
        Medium.Between(medium, pressure, first.Kelvins, second.Kelvins), Math.Abs(first.Kelvins - second.Kelvins));

    private static GapConvectionResult Plane(
        Medium film, double difference, double width, double rayleigh, double nusselt, double uncertainty, Source source, double most) =>
        Result(nusselt * film.Conductivity / width, difference, rayleigh, nusselt, uncertainty, source, most);

    private static GapConvectionResult Result(
        double coefficient, double difference, double rayleigh, double nusselt, double uncertainty, Source source, double most) => new(
        rayleigh,
        nusselt,
        HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(coefficient),
        HeatFlux.FromWattsPerSquareMeter(coefficient * difference),
        uncertainty,
        source,
        rayleigh <= most ? [] : [$"The Rayleigh number is {rayleigh:G3}; the correlation was made for at most {most:G1}."]);
}
