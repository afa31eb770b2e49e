using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// Radiation across a bare vacuum between grey, diffuse walls, with floating shields between them: exact for such walls. Conduction along and into shields, and
/// the gas left, are not in it. Stateless and thread-safe.
/// </summary>
public static class VacuumRadiation
{
    /// <summary>Between walls of given emissivity.</summary>
    /// <param name="inner">Temperature of the wall enclosed, 0.1 to 3000 K.</param>
    /// <param name="innerEmissivity">1e-4 to 1.</param>
    /// <param name="outer">Temperature of the wall around it, 0.1 to 3000 K.</param>
    /// <param name="outerEmissivity">1e-4 to 1.</param>
    /// <param name="areaRatio">Area of the inner over that of the outer wall, above 0 to 1.</param>
    /// <param name="shields">From the inner to the outer; none where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">A shield is smaller than what it encloses.</exception>
    public static VacuumRadiationResult Across(
        Temperature inner, double innerEmissivity, Temperature outer, double outerEmissivity, double areaRatio = 1, IReadOnlyList<FloatingShield>? shields = null)
    {
        double own = Guard.InRange(inner.Kelvins, 0.1, 3000, "K", nameof(inner));
        double around = Guard.InRange(outer.Kelvins, 0.1, 3000, "K", nameof(outer));
        Guard.InRange(areaRatio, 1e-6, 1, "of the outer area");
        shields ??= [];
        double[] resistance = new double[shields.Count + 1];
        double area = 1;
        double emissivity = innerEmissivity;
        for (int i = 0; i <= shields.Count; i++)
        {
            double nextArea = i < shields.Count ? shields[i].AreaOverInner : 1 / areaRatio;
            if (nextArea < area * (1 - 1e-9))
            {
                throw new ArgumentException(
                    $"shields[{i}] or the outer wall has {nextArea:G5} of the inner area inside of which lies {area:G5} of it; areas must not fall towards the outside.", nameof(shields));
            }

            double next = i < shields.Count ? shields[i].InnerSideEmissivity : outerEmissivity;
            double factor = GreySurfaces.Enclosed(inner, emissivity, outer, next, Math.Min(1, area / nextArea)).ExchangeFactor;
            resistance[i] = 1 / (area * factor);
            area = nextArea;
            emissivity = i < shields.Count ? shields[i].OuterSideEmissivity : emissivity;
        }

        double black = (Math.Pow(around, 4) - Math.Pow(own, 4)) * StefanBoltzmann;
        double share = 1 / resistance.Sum();
        List<Temperature> between = [];
        double passed = 0;
        foreach (double part in resistance[..^1])
        {
            passed += part * share;
            between.Add(Temperature.FromKelvins(Math.Pow(Math.Pow(own, 4) + (passed * black / StefanBoltzmann), 0.25)));
        }

        return new(HeatFlux.FromWattsPerSquareMeter(share * black), share, between);
    }

    /// <summary>Between finished walls, each with the emissivity of its finish at its own temperature: least, typical and greatest.</summary>
    /// <param name="inner">Temperature of the wall enclosed, within the range of its finish.</param>
    /// <param name="innerFinish">Its finish.</param>
    /// <param name="outer">Temperature of the wall around it, within the range of its finish.</param>
    /// <param name="outerFinish">Its finish.</param>
    /// <param name="areaRatio">Area of the inner over that of the outer wall, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static FigureBand<HeatFlux> BetweenFinishes(Temperature inner, SurfaceFinish innerFinish, Temperature outer, SurfaceFinish outerFinish, double areaRatio)
    {
        ArgumentNullException.ThrowIfNull(innerFinish);
        ArgumentNullException.ThrowIfNull(outerFinish);
        EmissivityRange own = innerFinish.EmissivityAt(inner);
        EmissivityRange around = outerFinish.EmissivityAt(outer);
        HeatFlux[] fluxes =
        [
            Across(inner, own.Typical, outer, around.Typical, areaRatio).Flux,
            Across(inner, own.Least, outer, around.Least, areaRatio).Flux,
            Across(inner, own.Greatest, outer, around.Greatest, areaRatio).Flux,
        ];
        return fluxes[1] <= fluxes[2] ? new(fluxes[0], fluxes[1], fluxes[2]) : new(fluxes[0], fluxes[2], fluxes[1]);
    }

    /// <summary>Stefan-Boltzmann constant, W/(m2 K4): CODATA 2018.</summary>
    private const double StefanBoltzmann = 5.670374419e-8;
}
