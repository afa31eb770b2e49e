using CryoThermo.Flow;
using CryoThermo.HeatTransfer;

namespace CryoThermo.Tests.HeatTransfer;

/// <summary>
/// Condensation in tubes: M. M. Shah, Int. J. Heat Mass Transfer 22 (1979) 547 (from memory), 17 %, Re of the whole as liquid above 350, 0.002 &lt; reduced pressure &lt; 0.44; and
/// HVAC&amp;R Res. 15 (2009) 889 (from memory), 15 %, horizontal, vertical and inclined tubes.
/// </summary>
internal static class ShahCondensation
{
    /// <summary>The form of 1979, W/(m2 K).</summary>
    public static double Of1979(in StreamProperties p, double massFlux, double diameter) =>
        LiquidFilm.Whole(p, massFlux, diameter)
        * (Math.Pow(1 - p.Quality, 0.8) + (3.8 * Math.Pow(p.Quality, 0.76) * Math.Pow(1 - p.Quality, 0.04) / Math.Pow(p.ReducedPressure, 0.38)));

    /// <summary>The form of 2009, W/(m2 K): it steps where gravity begins to matter.</summary>
    public static double Of2009(in StreamProperties p, double massFlux, double diameter)
    {
        double driven = Of1979(p, massFlux, diameter)
            * Math.Pow(p.Liquid.Viscosity / (14 * p.Vapor.Viscosity), 0.0058 + (0.557 * p.ReducedPressure));
        if (CavalliniCondensation.VaporVelocity(p, massFlux, diameter) >= LeastVelocity(p))
        {
            return driven;
        }

        double reynolds = (1 - p.Quality) * massFlux * diameter / p.Liquid.Viscosity;
        double k = p.Liquid.Conductivity;
        double lifted = p.Liquid.Density * (p.Liquid.Density - p.Vapor.Density) * TwoPhaseStream.Gravity * k * k * k / (p.Liquid.Viscosity * p.Liquid.Viscosity);
        return driven + (1.32 / Math.Cbrt(reynolds) * Math.Cbrt(lifted));
    }

    /// <summary>The velocity of the vapour from which the film is driven by it alone.</summary>
    public static double LeastVelocity(in StreamProperties p) =>
        0.98 * Math.Pow((Math.Pow((1 / p.Quality) - 1, 0.8) * Math.Pow(p.ReducedPressure, 0.4)) + 0.263, -0.62);
}
