using CryoThermo.Flow;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Nusselt numbers of one phase in a coiled tube. Laminar: R. L. Manlapaz, S. W. Churchill, Chem. Eng. Commun. 9 (1981) 185 (from memory), wall at one temperature, all Dean numbers;
/// turbulent from Re = 22000 and linear in Re between the critical Reynolds number and that: V. Gnielinski, VDI Heat Atlas, chapter G3 (from memory).
/// The two laminar forms differ by 14 % at Re = 3000.
/// </summary>
internal static class CoilNusselt
{
    public const double TurbulentFrom = 2.2e4;

    /// <summary>All regimes. The inlet counts in laminar flow only, where a straight tube of the same length would have more.</summary>
    public static double Joined(double reynolds, double prandtl, double coilRatio, double diameterOverLength)
    {
        double critical = FrictionFactor.CoilCriticalReynolds(coilRatio);
        if (reynolds <= critical)
        {
            return LaminarAt(reynolds);
        }

        double turbulent = Turbulent(Math.Max(reynolds, TurbulentFrom), prandtl, coilRatio);
        double share = (reynolds - critical) / (TurbulentFrom - critical);
        return share >= 1 ? turbulent : ((1 - share) * LaminarAt(critical)) + (share * turbulent);

        double LaminarAt(double re) => Math.Max(Laminar(re * Math.Sqrt(coilRatio), prandtl), TubeNusselt.Laminar(re, prandtl, diameterOverLength));
    }

    /// <summary>Laminar, wall at one temperature; 3.657 in a straight tube.</summary>
    public static double Laminar(double dean, double prandtl)
    {
        double x1 = 1 + (957 / (dean * dean * prandtl));
        double straight = 3.657 + (4.343 / (x1 * x1));
        return Math.Cbrt((straight * straight * straight) + (1.158 * Math.Pow(dean / (1 + (0.477 / prandtl)), 1.5)));
    }

    /// <summary>Laminar with an even heat flux; 48/11 in a straight tube.</summary>
    public static double LaminarEvenFlux(double dean, double prandtl)
    {
        double x1 = 1 + (1342 / (prandtl * dean * dean));
        double straight = (48 + (51 / (x1 * x1))) / 11;
        return Math.Cbrt((straight * straight * straight) + (1.816 * Math.Pow(dean / (1 + (1.15 / prandtl)), 1.5)));
    }

    /// <summary>Laminar after the VDI Heat Atlas, chapter G3 (from memory): a second opinion, which does not pass into the straight tube.</summary>
    public static double LaminarSecondOpinion(double reynolds, double prandtl, double coilRatio)
    {
        double power = 0.5 + (0.2903 * Math.Pow(coilRatio, 0.194));
        return 3.66 + (0.08 * (1 + (0.8 * Math.Pow(coilRatio, 0.9))) * Math.Pow(reynolds, power) * Math.Cbrt(prandtl));
    }

    public static double Turbulent(double reynolds, double prandtl, double coilRatio)
    {
        double eighth = ((0.3164 * Math.Pow(reynolds, -0.25)) + (0.03 * Math.Sqrt(coilRatio))) / 8;
        return eighth * reynolds * prandtl / (1 + (12.7 * Math.Sqrt(eighth) * (TubeNusselt.TwoThirds(prandtl) - 1)));
    }
}
