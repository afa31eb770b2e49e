using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// Share of the cross-section that the vapour of a two-phase flow takes. Vapour runs ahead of the liquid, so more liquid stays in the tube than its share of the flow says.
/// The models differ by a few percent in the vapour and by a factor of two in the liquid that is left.
/// </summary>
public static class VoidFraction
{
    /// <summary>Both phases at one velocity: the upper bound of the vapour, the lower bound of the liquid.</summary>
    /// <param name="quality">Vapour mass fraction of the flow, 0 to 1.</param>
    /// <param name="densityRatio">Density of the vapour over that of the liquid, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Homogeneous(double quality, double densityRatio) => Slipping(quality, densityRatio, 1);

    /// <summary>Least production of entropy: S. M. Zivi, J. Heat Transfer 86 (1964) 247 (from memory); the vapour is faster by (densityRatio)^(-1/3).</summary>
    /// <param name="quality">Vapour mass fraction of the flow, 0 to 1.</param>
    /// <param name="densityRatio">Density of the vapour over that of the liquid, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Zivi(double quality, double densityRatio) => Slipping(quality, densityRatio, 2.0 / 3);

    /// <summary>Drift of the vapour: S. Z. Rouhani, E. Axelsson, Int. J. Heat Mass Transfer 13 (1970) 383 (from memory), in the form for horizontal tubes. It knows the mass flux: a slow flow holds more liquid.</summary>
    /// <param name="quality">Vapour mass fraction of the flow, 0 to 1.</param>
    /// <param name="liquidDensity">Above zero.</param>
    /// <param name="vaporDensity">Above zero, up to that of the liquid.</param>
    /// <param name="surfaceTension">Zero or more.</param>
    /// <param name="flux">Mass flow over cross-section, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double RouhaniAxelsson(double quality, Density liquidDensity, Density vaporDensity, ForcePerLength surfaceTension, MassFlux flux)
    {
        Guard.InRange(quality, 0, 1, "of the mass");
        double liquid = Guard.Positive(liquidDensity.KilogramsPerCubicMeter, "kg/m3", nameof(liquidDensity));
        double vapor = Guard.Positive(vaporDensity.KilogramsPerCubicMeter, "kg/m3", nameof(vaporDensity));
        Guard.InRange(vapor, 0, liquid, "kg/m3", nameof(vaporDensity));
        double tension = Guard.InRange(surfaceTension.NewtonsPerMeter, 0, double.MaxValue, "N/m", nameof(surfaceTension));
        return RouhaniAxelssonUnchecked(quality, liquid, vapor, tension, Guard.Positive(flux.KilogramsPerSecondPerSquareMeter, "kg/(s m2)", nameof(flux)));
    }

    internal static double RouhaniAxelssonUnchecked(double quality, double liquidDensity, double vaporDensity, double surfaceTension, double flux)
    {
        if (quality is 0 or 1)
        {
            return quality;
        }

        double volume = quality / vaporDensity;
        double liquid = 1 - quality;
        double drift = 1.18 * liquid * Math.Sqrt(Math.Sqrt(TwoPhaseStream.Gravity * surfaceTension * Math.Max(0, liquidDensity - vaporDensity))) / (flux * Math.Sqrt(liquidDensity));
        return volume / (((1 + (0.12 * liquid)) * (volume + (liquid / liquidDensity))) + drift);
    }

    private static double Slipping(double quality, double densityRatio, double power)
    {
        Guard.InRange(quality, 0, 1, "of the mass");
        Guard.Positive(densityRatio, "of the liquid");
        Guard.InRange(densityRatio, 0, 1, "of the liquid");
        return quality / (quality + ((1 - quality) * Math.Pow(densityRatio, power)));
    }
}
