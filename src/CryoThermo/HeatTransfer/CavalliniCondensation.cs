using CryoThermo.Flow;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Condensation in horizontal tubes: A. Cavallini et al., HVAC&amp;R Res. 12 (2006) 1175 (from memory), bores above 3 mm, 15 to 20 %. It joins the film driven by the vapour to the
/// film that runs down the wall without a step, and needs no reduced pressure, which a blend does not have.
/// </summary>
internal static class CavalliniCondensation
{
    /// <summary>Constant of the limit between both films: hydrocarbons.</summary>
    public const double Hydrocarbons = 1.6;

    /// <summary>Constant of the limit between both films: other refrigerants.</summary>
    public const double Others = 2.6;

    /// <summary>W/(m2 K).</summary>
    /// <param name="p">Both phases.</param>
    /// <param name="massFlux">kg/(m2 s).</param>
    /// <param name="diameter">m.</param>
    /// <param name="subcooling">Saturation less wall temperature, K; read where the film runs down the wall, to the power -1/4.</param>
    /// <param name="limit"><see cref="Hydrocarbons"/> or <see cref="Others"/>.</param>
    public static double Coefficient(in StreamProperties p, double massFlux, double diameter, double subcooling, double limit = Hydrocarbons)
    {
        double whole = LiquidFilm.Whole(p, massFlux, diameter);
        double annular = whole * Annular(p);

        // A vapour as dense as the liquid is not stratified.
        double lighter = p.Liquid.Density - p.Vapor.Density;
        double velocity = lighter > 0 ? VaporVelocity(p, massFlux, diameter) : double.PositiveInfinity;
        double least = LeastVelocity(p, limit);
        if (velocity >= least)
        {
            return annular;
        }

        double x = p.Quality;
        double k = p.Liquid.Conductivity;
        double running = (0.725 / (1 + (0.741 * Math.Pow((1 - x) / x, 0.3321)))
                * Math.Pow(k * k * k * p.Liquid.Density * lighter * TwoPhaseStream.Gravity * p.LatentHeat / (p.Liquid.Viscosity * diameter * subcooling), 0.25))
            + ((1 - Math.Pow(x, 0.087)) * whole);
        double ratio = velocity / least;
        return (((annular * Math.Pow(ratio, -0.8)) - running) * ratio) + running;
    }

    /// <summary>The film driven by the vapour, over the whole flow as liquid.</summary>
    public static double Annular(in StreamProperties p) => 1 + (1.128
        * Math.Pow(p.Quality, 0.8170)
        * Math.Pow(p.Liquid.Density / p.Vapor.Density, 0.3685)
        * Math.Pow(p.Liquid.Viscosity / p.Vapor.Viscosity, 0.2363)
        * Math.Pow(Math.Max(0, 1 - (p.Vapor.Viscosity / p.Liquid.Viscosity)), 2.144)
        * Math.Pow(p.Liquid.Prandtl, -0.1));

    /// <summary>Dimensionless velocity of the vapour, x G/sqrt(g D rhoG (rhoL - rhoG)).</summary>
    public static double VaporVelocity(in StreamProperties p, double massFlux, double diameter) =>
        p.Quality * massFlux / Math.Sqrt(TwoPhaseStream.Gravity * diameter * p.Vapor.Density * (p.Liquid.Density - p.Vapor.Density));

    /// <summary>The dimensionless velocity of the vapour from which the film is driven by it alone.</summary>
    public static double LeastVelocity(in StreamProperties p, double limit)
    {
        double slow = 7.5 / ((4.3 * Math.Pow(p.MartinelliParameter, 1.111)) + 1);
        return Math.Pow(Math.Pow(slow, -3) + Math.Pow(limit, -3), -1.0 / 3);
    }
}
