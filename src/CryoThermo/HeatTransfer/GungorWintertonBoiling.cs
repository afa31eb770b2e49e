using CryoThermo.Flow;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Saturated flow boiling: K. E. Gungor, R. H. S. Winterton, Int. J. Heat Mass Transfer 29 (1986) 351 (from memory), 20 to 25 %;
/// pool boiling by M. G. Cooper, Int. Chem. Eng. Symp. Ser. 86 (1984) 785 (from memory).
/// </summary>
internal static class GungorWintertonBoiling
{
    private const double SlowFroude = 0.05;

    /// <summary>The form of 1986, W/(m2 K).</summary>
    /// <param name="p">Both phases.</param>
    /// <param name="massFlux">kg/(m2 s).</param>
    /// <param name="diameter">m.</param>
    /// <param name="heatFlux">W/m2; 0 for the part by convection alone.</param>
    /// <param name="isHorizontal">Whether a slow flow in a horizontal tube leaves part of the wall dry: below a Froude number of 0.05, where the published form steps.</param>
    /// <param name="nucleateShare">Share of the nucleate part taken: 1 as published.</param>
    public static double Coefficient(in StreamProperties p, double massFlux, double diameter, double heatFlux, bool isHorizontal = false, double nucleateShare = 1)
    {
        double reynolds = (1 - p.Quality) * massFlux * diameter / p.Liquid.Viscosity;
        double e = Enhancement(p, massFlux, nucleateShare * heatFlux);
        double nucleate = nucleateShare > 0 && heatFlux > 0
            ? nucleateShare * Suppression(reynolds, e) * Cooper(p.ReducedPressure, p.MolarMass, heatFlux)
            : 0;
        double speed = massFlux / p.Liquid.Density;
        double froude = speed * speed / (TwoPhaseStream.Gravity * diameter);
        return isHorizontal && froude < SlowFroude
            ? (e * Math.Pow(froude, 0.1 - (2 * froude)) * LiquidFilm.Alone(p, massFlux, diameter)) + (Math.Sqrt(froude) * nucleate)
            : (e * LiquidFilm.Alone(p, massFlux, diameter)) + nucleate;
    }

    public static double Enhancement(in StreamProperties p, double massFlux, double heatFlux) =>
        1 + (24000 * Math.Pow(heatFlux / (massFlux * p.LatentHeat), 1.16)) + (1.37 * Math.Pow(p.MartinelliParameter, -0.86));

    public static double Suppression(double reynolds, double enhancement) =>
        1 / (1 + (1.15e-6 * enhancement * enhancement * Math.Pow(reynolds, 1.17)));

    /// <summary>Pool boiling on a smooth surface, W/(m2 K); molar mass in kg/mol.</summary>
    public static double Cooper(double reducedPressure, double molarMass, double heatFlux) =>
        55 * Math.Pow(reducedPressure, 0.12) * Math.Pow(-Math.Log10(reducedPressure), -0.55) / Math.Sqrt(1000 * molarMass) * Math.Pow(heatFlux, 0.67);
}
