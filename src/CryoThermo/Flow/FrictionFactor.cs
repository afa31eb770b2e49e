using CryoThermo.Diagnostics;

namespace CryoThermo.Flow;

/// <summary>Friction factors of Darcy: the pressure gradient is f G^2/(2 rho D).</summary>
public static class FrictionFactor
{
    /// <summary>Least and greatest inner over outer diameter of an annulus.</summary>
    internal const double LeastDiameterRatio = 0.01;
    internal const double GreatestDiameterRatio = 0.99;

    /// <summary>Greatest tube over coil diameter.</summary>
    internal const double GreatestCoilRatio = 0.3;

    /// <summary>Laminar flow in a coil passes into turbulent flow between the critical Reynolds number and so many times it: chosen here, no source.</summary>
    private const double EndOfCoilTransition = 1.5;

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

    /// <summary>
    /// Between two concentric tubes, with the hydraulic diameter (outer less inner diameter): exact in laminar flow; in turbulent flow the formula of a tube
    /// (here Churchill) at the Reynolds number that gives the same laminar friction, as V. Gnielinski, Heat Transfer Eng. 30 (2009) 1059 takes it (from memory).
    /// A tube that lies out of centre has less.
    /// </summary>
    /// <param name="reynolds">Reynolds number with the hydraulic diameter, above zero.</param>
    /// <param name="diameterRatio">Outer diameter of the inner tube over inner diameter of the outer tube, 0.01 to 0.99.</param>
    /// <param name="relativeRoughness">Roughness over hydraulic diameter, 0 to 0.1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Annulus(double reynolds, double diameterRatio, double relativeRoughness = 0)
    {
        Guard.Positive(reynolds, string.Empty);
        Guard.InRange(diameterRatio, LeastDiameterRatio, GreatestDiameterRatio, "of the outer diameter");
        Guard.InRange(relativeRoughness, 0, 0.1, "of the hydraulic diameter");
        return ChurchillUnchecked(reynolds / LaminarAnnulusFactor(diameterRatio), relativeRoughness);
    }

    /// <summary>
    /// In a coiled tube: laminar up to <see cref="CoilCriticalReynolds"/> (R. L. Manlapaz, S. W. Churchill, Chem. Eng. Commun. 7 (1980) 57), turbulent from 1.5 times
    /// that on (H. Ito, J. Basic Eng. 81 (1959) 123, both from memory), never below a straight tube there; joined between and at the steps of the laminar formula, as chosen here.
    /// </summary>
    /// <param name="reynolds">Reynolds number, above zero.</param>
    /// <param name="diameterRatio">Bore over mean diameter of the coil, above 0 to 0.3.</param>
    /// <param name="relativeRoughness">Roughness over bore, 0 to 0.1; raises turbulent friction as in a straight tube.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Coil(double reynolds, double diameterRatio, double relativeRoughness = 0)
    {
        Guard.Positive(reynolds, string.Empty);
        Guard.Positive(diameterRatio, "of the coil diameter");
        Guard.InRange(diameterRatio, 0, GreatestCoilRatio, "of the coil diameter");
        Guard.InRange(relativeRoughness, 0, 0.1, "of the bore");
        return CoilUnchecked(reynolds, diameterRatio, relativeRoughness);
    }

    /// <summary>Reynolds number up to which the flow in a coil stays laminar: E. F. Schmidt, Chem.-Ing.-Tech. 39 (1967) 781 (from memory); 2300 in a straight tube.</summary>
    /// <param name="diameterRatio">Bore over mean diameter of the coil, 0 to 0.3.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is out of its range.</exception>
    public static double CoilCriticalReynolds(double diameterRatio)
    {
        Guard.InRange(diameterRatio, 0, GreatestCoilRatio, "of the coil diameter");
        return 2300 * (1 + (8.6 * Math.Pow(diameterRatio, 0.45)));
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

    /// <summary>f Re/64 of laminar flow between concentric tubes (R. E. Lundberg, W. C. Reynolds, W. M. Kays, NASA TN D-1972, 1963; exact): 1 without inner tube, 1.5 between plates.</summary>
    internal static double LaminarAnnulusFactor(double diameterRatio)
    {
        double a = diameterRatio;
        return (1 - a) * (1 - a) / (1 + (a * a) + ((1 - (a * a)) / Math.Log(a)));
    }

    internal static double CoilUnchecked(double reynolds, double diameterRatio, double relativeRoughness)
    {
        double critical = CoilCriticalReynolds(diameterRatio);
        double laminar = 64 / reynolds * ManlapazChurchill(reynolds * Math.Sqrt(diameterRatio), diameterRatio);
        if (reynolds <= critical)
        {
            return laminar;
        }

        double straight = ChurchillUnchecked(reynolds, relativeRoughness);
        double turbulent = Math.Max(straight, Ito(reynolds, diameterRatio) * straight / ChurchillUnchecked(reynolds, 0));
        double share = (reynolds - critical) / ((EndOfCoilTransition - 1) * critical);
        return share >= 1 ? turbulent : laminar + (share * (turbulent - laminar));
    }

    /// <summary>Laminar friction in a coil over that in a straight tube, all Dean numbers. The steps of its exponent at De = 20 and 40 are joined over 5 to either side (chosen here).</summary>
    /// <param name="dean">Re sqrt(d/D).</param>
    /// <param name="diameterRatio">Bore over mean diameter of the coil.</param>
    internal static double ManlapazChurchill(double dean, double diameterRatio)
    {
        double exponent = 2 - Math.Clamp((dean - 15) / 10, 0, 1) - Math.Clamp((dean - 35) / 10, 0, 1);
        double slow = 1 - (0.18 / Math.Sqrt(1 + (35 * 35 / (dean * dean))));
        double wide = 1 + (diameterRatio / 3);
        return Math.Sqrt(Math.Pow(slow, exponent) + (wide * wide * dean / 88.33));
    }

    /// <summary>Turbulent friction factor in a smooth coil, 0.034 &lt; Re (d/D)^2 &lt; 300.</summary>
    internal static double Ito(double reynolds, double diameterRatio) => (0.304 * Math.Pow(reynolds, -0.25)) + (0.029 * Math.Sqrt(diameterRatio));
}
