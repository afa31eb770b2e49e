using CryoThermo.Diagnostics;

namespace CryoThermo.Flow;

/// <summary>Friction factors of Darcy: the pressure gradient is f G^2/(2 rho D).</summary>
public static class FrictionFactor
{
    /// <summary>
    /// All regimes, any roughness, after S. W. Churchill, Chem. Eng. 84 (1977) 91: 64/Re in laminar flow, close to Colebrook in turbulent flow,
    /// joined between. In the transition (Re about 2000 to 4000) no figure is sure.
    /// </summary>
    /// <param name="reynolds">Reynolds number, above zero.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Churchill(double reynolds, double relativeRoughness = 0)
    {
        Guard.Positive(reynolds, string.Empty);
        Guard.InRange(relativeRoughness, 0, 0.1, "of the bore");
        return ChurchillUnchecked(reynolds, relativeRoughness);
    }

    internal static double ChurchillUnchecked(double reynolds, double relativeRoughness)
    {
        // Far into laminar flow the other terms vanish, and their powers would overflow.
        if (reynolds < 100)
        {
            return 64 / reynolds;
        }

        double a = Math.Pow(2.457 * Math.Log(1 / (Math.Pow(7 / reynolds, 0.9) + (0.27 * relativeRoughness))), 16);
        double b = Math.Pow(37530 / reynolds, 16);
        return 8 * Math.Pow(Math.Pow(8 / reynolds, 12) + Math.Pow(a + b, -1.5), 1 / 12.0);
    }
}
