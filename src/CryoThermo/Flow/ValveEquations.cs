using CryoThermo.Numerics;

namespace CryoThermo.Flow;

/// <summary>
/// Sizing equations of IEC 60534-2-1 in SI (from memory), per effective area: Kv of 1 m3/h at 1 bar with rho = 999.1 kg/m3 is the area A of
/// m = A sqrt(2 rho dp), 1.9633e-5 m2. The standard's own numerical constants N1, N6 and N4 follow from it to the digits it prints.
/// </summary>
internal static class ValveEquations
{
    /// <summary>Density of the water that Kv is measured with, kg/m3.</summary>
    public const double WaterDensity = 999.1;

    /// <summary>Ratio of heat capacities that x_T is measured with.</summary>
    public const double AirRatio = 1.4;

    /// <summary>Choked flux of a perfect gas with that ratio over sqrt(p rho): sqrt(1.4 (2/2.4)^6).</summary>
    public const double AirChokedFlux = 0.684731;

    // Reynolds numbers of the standard: turbulent above, and the laminar factor alone below.
    private const double TurbulentReynolds = 10000;
    private const double LaminarReynolds = 100;

    /// <summary>Effective area of Kv = 1 m3/h, m2: sqrt(999.1/(2 x 1 bar))/3600.</summary>
    public static readonly double AreaPerKv = Math.Sqrt(WaterDensity / 2e5) / 3600;

    /// <summary>F_F = 0.96 - 0.28 sqrt(pv/pc): pressure in the narrowest place of a flashing liquid over its vapour pressure.</summary>
    public static double CriticalPressureRatioFactor(double vaporPressure, double criticalPressure) =>
        0.96 - (0.28 * Math.Sqrt(Math.Min(1, vaporPressure / criticalPressure)));

    /// <summary>Flux of a liquid per effective area, kg/(s m2).</summary>
    public static double LiquidFlux(double density, double drop) => Math.Sqrt(2 * density * drop);

    /// <summary>The pressure drop above which a liquid chokes, Pa.</summary>
    public static double LiquidChokedDrop(double inlet, double recovery, double vaporPressure, double criticalPressure) =>
        recovery * recovery * (inlet - (CriticalPressureRatioFactor(vaporPressure, criticalPressure) * vaporPressure));

    /// <summary>Flux of a gas per effective area, kg/(s m2), with the expansion factor Y = 1 - x/(3 F_gamma x_T), x at most F_gamma x_T.</summary>
    public static double GasFlux(double density, double inlet, double outlet, double exponent, double ratioFactor)
    {
        double choked = exponent / AirRatio * ratioFactor;
        double x = Math.Min((inlet - outlet) / inlet, choked);
        return (1 - (x / (3 * choked))) * Math.Sqrt(2 * x * inlet * density);
    }

    /// <summary>Reynolds number of the standard: 4 F_d Q/(pi d nu) with pi d2/4 = F_L A; its N4 = 0.0707 for Kv.</summary>
    public static double Reynolds(double massFlow, double area, double recovery, double styleModifier, double viscosity) =>
        4 * styleModifier * massFlow / (Math.PI * Math.Sqrt(4 * area * recovery / Math.PI) * viscosity);

    /// <summary>
    /// F_R of a reduced trim (n2 = 1 in the limit of a trim small against its body): 0.026/F_L sqrt(Re), and above Re = 100 the lesser of that and
    /// 1 + 0.33 sqrt(F_L) lg(Re/10 000); at most 1. The standard takes the lesser from Re = 10 on, where the second is no longer the greater
    /// of the two and F_R would jump.
    /// </summary>
    public static double ReynoldsFactor(double reynolds, double recovery)
    {
        double laminar = 0.026 / recovery * Math.Sqrt(reynolds);
        double factor = reynolds < LaminarReynolds
            ? laminar
            : Math.Min(laminar, 1 + (0.33 * Math.Sqrt(recovery) * Math.Log10(reynolds / TurbulentReynolds)));
        return Math.Min(1, factor);
    }

    /// <summary>The flow of which Reynolds number and factor agree, from that without friction of viscosity; kg/s.</summary>
    public static double WithViscosity(double turbulent, double area, double recovery, double styleModifier, double viscosity)
    {
        double Factor(double flow) => ReynoldsFactor(Reynolds(flow, area, recovery, styleModifier, viscosity), recovery);
        if (!(turbulent > 0) || Factor(turbulent) >= 1)
        {
            return turbulent;
        }

        // The factor rises more slowly than the flow: one crossing. A laminar one is known: F_R = a sqrt(m) gives m = (a m0)^2.
        double slope = Factor(1e-12 * turbulent) / Math.Sqrt(1e-12);
        double laminar = turbulent * Math.Min(1, slope * slope);
        double low = Math.Log(laminar / turbulent) - 5;
        return turbulent * Math.Exp(BracketedRoot.Solve(y => Math.Log(Factor(turbulent * Math.Exp(y))) - y, low, 0, 1e-15));
    }
}
