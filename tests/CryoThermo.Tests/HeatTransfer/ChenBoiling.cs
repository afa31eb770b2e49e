using CryoThermo.HeatTransfer;

namespace CryoThermo.Tests.HeatTransfer;

/// <summary>Saturated flow boiling: J. C. Chen, Ind. Eng. Chem. Process Des. Dev. 5 (1966) 322 (from memory); states 30 %. It needs the superheat of the wall.</summary>
internal static class ChenBoiling
{
    /// <summary>W/(m2 K).</summary>
    /// <param name="p">Both phases.</param>
    /// <param name="massFlux">kg/(m2 s).</param>
    /// <param name="diameter">m.</param>
    /// <param name="superheat">Wall less saturation temperature, K.</param>
    /// <param name="pressureRise">Saturation pressure at the wall temperature less pressure, Pa.</param>
    public static double Coefficient(in StreamProperties p, double massFlux, double diameter, double superheat, double pressureRise)
    {
        double f = Enhancement(p);
        return (f * LiquidFilm.Alone(p, massFlux, diameter))
            + (Suppression((1 - p.Quality) * massFlux * diameter / p.Liquid.Viscosity, f) * ForsterZuber(p, superheat, pressureRise));
    }

    public static double Enhancement(in StreamProperties p)
    {
        double inverse = 1 / p.MartinelliParameter;
        return inverse > 0.1 ? 2.35 * Math.Pow(inverse + 0.213, 0.736) : 1;
    }

    public static double Suppression(double reynolds, double enhancement) =>
        1 / (1 + (2.53e-6 * Math.Pow(reynolds * Math.Pow(enhancement, 1.25), 1.17)));

    /// <summary>Nucleate boiling: H. K. Forster, N. Zuber, AIChE J. 1 (1955) 531 (from memory), W/(m2 K).</summary>
    public static double ForsterZuber(in StreamProperties p, double superheat, double pressureRise) =>
        0.00122 * Math.Pow(p.Liquid.Conductivity, 0.79) * Math.Pow(p.Liquid.HeatCapacity, 0.45) * Math.Pow(p.Liquid.Density, 0.49)
        / (Math.Sqrt(p.SurfaceTension) * Math.Pow(p.Liquid.Viscosity, 0.29) * Math.Pow(p.LatentHeat, 0.24) * Math.Pow(p.Vapor.Density, 0.24))
        * Math.Pow(superheat, 0.24) * Math.Pow(pressureRise, 0.75);
}
