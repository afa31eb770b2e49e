namespace CryoThermo.HeatTransfer;

/// <summary>The coefficient of a turbulent liquid in a tube on which the correlations of two phases stand: 0.023 Re^0.8 Pr^0.4 k/D, F. W. Dittus, L. M. K. Boelter 1930 (from memory).</summary>
internal static class LiquidFilm
{
    /// <summary>The liquid flowing alone, W/(m2 K).</summary>
    public static double Alone(in StreamProperties p, double massFlux, double diameter) => Of(p.Liquid, (1 - p.Quality) * massFlux, diameter);

    /// <summary>The whole flow as liquid, W/(m2 K).</summary>
    public static double Whole(in StreamProperties p, double massFlux, double diameter) => Of(p.Liquid, massFlux, diameter);

    private static double Of(in PhaseProperties liquid, double flux, double diameter) =>
        0.023 * Math.Pow(flux * diameter / liquid.Viscosity, 0.8) * Math.Pow(liquid.Prandtl, 0.4) * liquid.Conductivity / diameter;
}
