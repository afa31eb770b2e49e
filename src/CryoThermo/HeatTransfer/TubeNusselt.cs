namespace CryoThermo.HeatTransfer;

/// <summary>
/// Nusselt numbers of one phase in a straight round tube. Turbulent: V. Gnielinski, Int. Chem. Eng. 16 (1976) 359 (from memory, 2300 to 5e6, 0.5 &lt; Pr &lt; 2000, 10 %),
/// the transition V. Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134 (from memory); laminar with both profiles developing: V. Gnielinski, VDI Heat Atlas, chapter G1
/// (from memory), wall at one temperature. Mean over the length. The factor for properties that vary towards the wall is left out.
/// </summary>
internal static class TubeNusselt
{
    public const double LaminarUpTo = 2300;
    public const double TurbulentFrom = 4000;

    /// <summary>All regimes.</summary>
    /// <param name="reynolds">Re.</param>
    /// <param name="prandtl">Pr.</param>
    /// <param name="diameterOverLength">Bore over length; 0 for a long tube.</param>
    public static double Joined(double reynolds, double prandtl, double diameterOverLength)
    {
        if (reynolds <= LaminarUpTo)
        {
            return Laminar(reynolds, prandtl, diameterOverLength);
        }

        if (reynolds >= TurbulentFrom)
        {
            return Gnielinski(reynolds, prandtl, diameterOverLength);
        }

        double share = (reynolds - LaminarUpTo) / (TurbulentFrom - LaminarUpTo);
        return ((1 - share) * Laminar(LaminarUpTo, prandtl, diameterOverLength)) + (share * Gnielinski(TurbulentFrom, prandtl, diameterOverLength));
    }

    /// <summary>Laminar, both profiles developing; 3.66 far from the inlet.</summary>
    public static double Laminar(double reynolds, double prandtl, double diameterOverLength)
    {
        double graetz = reynolds * prandtl * diameterOverLength;
        double thermal = (1.615 * Math.Cbrt(graetz)) - 0.7;
        return Math.Cbrt((3.66 * 3.66 * 3.66) + (0.7 * 0.7 * 0.7) + (thermal * thermal * thermal) + Entrance(graetz, prandtl));
    }

    /// <summary>The cube of the term for the velocity profile that develops.</summary>
    public static double Entrance(double graetz, double prandtl) => Math.Sqrt(2 / (1 + (22 * prandtl))) * Math.Pow(graetz, 1.5);

    /// <summary>Laminar with the velocity profile already there: H. Hausen 1943 (from memory), a second opinion.</summary>
    public static double Hausen(double graetz) => 3.657 + (0.0668 * graetz / (1 + (0.04 * Math.Pow(graetz, 2.0 / 3))));

    public static double Gnielinski(double reynolds, double prandtl, double diameterOverLength)
    {
        double eighth = Filonenko(reynolds) / 8;
        return eighth * (reynolds - 1000) * prandtl / (1 + (12.7 * Math.Sqrt(eighth) * (TwoThirds(prandtl) - 1))) * DevelopingTurbulent(diameterOverLength);
    }

    /// <summary>B. S. Petukhov, Adv. Heat Transfer 6 (1970) 503 (from memory), 1e4 to 5e6, 6 %: a second opinion.</summary>
    public static double Petukhov(double reynolds, double prandtl)
    {
        double eighth = Filonenko(reynolds) / 8;
        return eighth * reynolds * prandtl / (1.07 + (12.7 * Math.Sqrt(eighth) * (TwoThirds(prandtl) - 1)));
    }

    /// <summary>1 + (D/L)^(2/3); a tube shorter than its bore is taken as one that is as long.</summary>
    public static double DevelopingTurbulent(double diameterOverLength) => 1 + TwoThirds(Math.Min(1, diameterOverLength));

    public static double TwoThirds(double value)
    {
        double root = Math.Cbrt(value);
        return root * root;
    }

    private static double Filonenko(double reynolds)
    {
        double root = (0.79 * Math.Log(reynolds)) - 1.64;
        return 1 / (root * root);
    }
}
