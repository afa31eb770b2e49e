namespace CryoThermo.HeatTransfer;

/// <summary>
/// A blend that evaporates or condenses also warms or cools its vapour, whose heat must pass the film of the vapour: L. Silver, Trans. Inst. Chem. Eng. 25 (1947) 30;
/// K. J. Bell, M. A. Ghaly, AIChE Symp. Ser. 69 (1973) 72 (both from memory; the form follows from both resistances in series).
/// </summary>
internal static class MixtureFilm
{
    /// <summary>1/h = 1/h_film + Z/h_vapor, W/(m2 K).</summary>
    /// <param name="film">Of the liquid film, W/(m2 K).</param>
    /// <param name="vapor">Of the vapour flowing alone, W/(m2 K).</param>
    /// <param name="sensibleShare">Share of the heat that warms the vapour, Z.</param>
    public static double Coefficient(double film, double vapor, double sensibleShare) => 1 / ((1 / film) + (sensibleShare / vapor));
}
