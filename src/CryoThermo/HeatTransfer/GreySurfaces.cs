using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Radiation between grey, diffuse surfaces with nothing between them that absorbs. Exact for such surfaces; real ones are known by their emissivity, within a
/// factor of two unless measured: polished metal 0.02 to 0.1, oxidised or lightly soiled 0.1 to 0.6, paint, plastics, ice and frost 0.85 to 0.96 (from memory).
/// Stateless and thread-safe.
/// </summary>
public static class GreySurfaces
{
    /// <summary>Stefan-Boltzmann constant, W/(m2 K4): CODATA 2018, exact by the definition of the kelvin.</summary>
    private const double StefanBoltzmann = 5.670374419e-8;

    /// <summary>Two wide plates, side by side.</summary>
    /// <param name="first">Temperature, 0 to 3000 K.</param>
    /// <param name="firstEmissivity">Above 0 to 1.</param>
    /// <param name="second">Temperature, 0 to 3000 K.</param>
    /// <param name="secondEmissivity">Above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static RadiationResult Plates(Temperature first, double firstEmissivity, Temperature second, double secondEmissivity) =>
        Enclosed(first, firstEmissivity, second, secondEmissivity, 1);

    /// <summary>A body within another that surrounds it, cylinders or spheres or any convex body, diffuse.</summary>
    /// <param name="inner">Temperature of the body, 0 to 3000 K.</param>
    /// <param name="innerEmissivity">Above 0 to 1.</param>
    /// <param name="outer">Temperature around it, 0 to 3000 K.</param>
    /// <param name="outerEmissivity">Above 0 to 1.</param>
    /// <param name="areaRatio">Area of the body over the area around it, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static RadiationResult Enclosed(Temperature inner, double innerEmissivity, Temperature outer, double outerEmissivity, double areaRatio)
    {
        double own = Guard.InRange(inner.Kelvins, 0, 3000, "K", nameof(inner));
        double around = Guard.InRange(outer.Kelvins, 0, 3000, "K", nameof(outer));
        Guard.InRange(innerEmissivity, 1e-4, 1, "of black");
        Guard.InRange(outerEmissivity, 1e-4, 1, "of black");
        Guard.InRange(areaRatio, 0, 1, "of the area around");
        double factor = 1 / ((1 / innerEmissivity) + (areaRatio * ((1 / outerEmissivity) - 1)));
        double coefficient = factor * StefanBoltzmann * ((own * own) + (around * around)) * (own + around);
        return new(
            HeatFlux.FromWattsPerSquareMeter(coefficient * (own - around)),
            HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(coefficient),
            factor);
    }

    /// <summary>A small body in a large room.</summary>
    /// <param name="surface">Temperature, 0 to 3000 K.</param>
    /// <param name="emissivity">Above 0 to 1.</param>
    /// <param name="room">Temperature of its walls, 0 to 3000 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static RadiationResult ToRoom(Temperature surface, double emissivity, Temperature room) => Enclosed(surface, emissivity, room, 1, 0);
}
