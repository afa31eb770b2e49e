using CryoThermo.Flow;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Nusselt numbers of one phase between concentric tubes, with the hydraulic diameter, one wall at one temperature, the other insulated. Turbulent: V. Gnielinski, Heat Transfer
/// Eng. 30 (2009) 1059 (from memory), Re &gt; 4000, 0.1 &lt; Pr &lt; 1000; laminar far from the inlet: solved here (the problem of R. E. Lundberg, P. A. McCuen, W. C. Reynolds, Int. J.
/// Heat Mass Transfer 6 (1963) 495); laminar near the inlet: V. Gnielinski, VDI Heat Atlas, chapter G2 (from memory). The transition is taken as in a tube.
/// </summary>
internal sealed class AnnulusNusselt
{
    /// <summary>Below this Prandtl number the denominator of the turbulent formula is held, since it would come to zero.</summary>
    private const double LeastPrandtl = 0.1;

    private const int Steps = 400;
    private const int Iterations = 60;
    private const double EigenvalueTolerance = 1e-13;

    private readonly double ratio;
    private readonly double laminarFactor;
    private readonly double entryFactor;
    private readonly double turbulentFactor;

    /// <summary>Prepares the formulae.</summary>
    /// <param name="diameterRatio">Inner over outer diameter.</param>
    /// <param name="wall">The wall through which the heat goes.</param>
    public AnnulusNusselt(double diameterRatio, PassageWall wall)
    {
        ratio = diameterRatio;
        laminarFactor = FrictionFactor.LaminarAnnulusFactor(diameterRatio);
        LongLaminar = SolveLaminar(diameterRatio, wall);
        (entryFactor, turbulentFactor) = wall == PassageWall.Inner
            ? (1.615 * (1 + (0.14 / Math.Sqrt(ratio))), 0.75 * Math.Pow(ratio, -0.17))
            : (1.615 * (1 + (0.14 * Math.Cbrt(ratio))), 0.9 - (0.15 * Math.Pow(ratio, 0.6)));
    }

    /// <summary>Laminar, far from the inlet.</summary>
    public double LongLaminar { get; }

    /// <summary>All regimes.</summary>
    public double Joined(double reynolds, double prandtl, double diameterOverLength)
    {
        if (reynolds <= TubeNusselt.LaminarUpTo)
        {
            return Laminar(reynolds, prandtl, diameterOverLength);
        }

        if (reynolds >= TubeNusselt.TurbulentFrom)
        {
            return Turbulent(reynolds, prandtl, diameterOverLength);
        }

        double share = (reynolds - TubeNusselt.LaminarUpTo) / (TubeNusselt.TurbulentFrom - TubeNusselt.LaminarUpTo);
        return ((1 - share) * Laminar(TubeNusselt.LaminarUpTo, prandtl, diameterOverLength))
            + (share * Turbulent(TubeNusselt.TurbulentFrom, prandtl, diameterOverLength));
    }

    public double Laminar(double reynolds, double prandtl, double diameterOverLength)
    {
        double graetz = reynolds * prandtl * diameterOverLength;
        return Math.Cbrt(
            (LongLaminar * LongLaminar * LongLaminar) + (entryFactor * entryFactor * entryFactor * graetz) + TubeNusselt.Entrance(graetz, prandtl));
    }

    public double Turbulent(double reynolds, double prandtl, double diameterOverLength)
    {
        double root = (1.8 * Math.Log10(reynolds / laminarFactor)) - 1.5;
        double eighth = 1 / (8 * root * root);
        double held = Math.Max(prandtl, LeastPrandtl);
        double k = 1.07 + (900 / reynolds) - (0.63 / (1 + (10 * held)));
        return eighth * reynolds * prandtl / (k + (12.7 * Math.Sqrt(eighth) * (TubeNusselt.TwoThirds(held) - 1)))
            * TubeNusselt.DevelopingTurbulent(diameterOverLength) * turbulentFactor;
    }

    /// <summary>Factor on the turbulent Nusselt number of a tube: B. S. Petukhov, L. I. Roizen 1964 (from memory), a second opinion.</summary>
    public static double PetukhovRoizen(double diameterRatio, PassageWall wall) => wall == PassageWall.Inner
        ? 0.86 * Math.Pow(diameterRatio, -0.16)
        : 1 - (0.14 * Math.Pow(diameterRatio, 0.6));

    /// <summary>The least eigenvalue of the developed temperature profile, taken to no step width from two grids.</summary>
    private static double SolveLaminar(double diameterRatio, PassageWall wall)
    {
        double coarse = SolveLaminar(diameterRatio, wall, Steps / 2);
        double fine = SolveLaminar(diameterRatio, wall, Steps);
        return fine + ((fine - coarse) / 3);
    }

    /// <summary>
    /// With s = ln r the profile obeys T'' = -L g r^2 T, g being velocity over its mean: T vanishes at the heated wall and is flat at the other. On an even grid of s inverse
    /// iteration finds L by the tridiagonal system. Nu = L (1 - a^2)(1 - a)/(r of the heated wall), by the heat balance.
    /// </summary>
    private static double SolveLaminar(double a, PassageWall wall, int steps)
    {
        double width = -Math.Log(a) / steps;
        double atMost = (1 - (a * a)) / Math.Log(1 / a);
        double mean = 0.5 * (1 + (a * a) - atMost);
        double[] weight = new double[steps + 1];
        for (int i = 0; i <= steps; i++)
        {
            // From the insulated wall (0) to the heated one (the last).
            double s = wall == PassageWall.Inner ? -i * width : -(steps - i) * width;
            double r2 = Math.Exp(2 * s);
            weight[i] = (1 - r2 + (atMost * s)) / mean * r2 * width * width;
        }

        // The velocity vanishes at the walls, so T0 = T1; and -T(i-1) + 2 T(i) - T(i+1) = L w(i) T(i): the matrix on the left is undone by summing up twice.
        double[] t = new double[steps + 1];
        double[] next = new double[steps + 1];
        Array.Fill(t, 1.0, 0, steps);
        double eigenvalue = 0;
        for (int k = 0; k < Iterations; k++)
        {
            double sum = 0;
            for (int i = 0; i < steps; i++)
            {
                sum += weight[i] * t[i];
                next[i] = sum;
            }

            double above = 0;
            double below = 0;
            for (int i = steps - 1; i >= 0; i--)
            {
                next[i] += next[i + 1];
                above += weight[i] * next[i] * t[i];
                below += weight[i] * next[i] * next[i];
            }

            double last = eigenvalue;
            eigenvalue = above / below;
            double scale = 1 / next[0];
            for (int i = 0; i < steps; i++)
            {
                t[i] = next[i] * scale;
            }

            if (Math.Abs(eigenvalue - last) < EigenvalueTolerance * eigenvalue)
            {
                break;
            }
        }

        return eigenvalue * (1 - (a * a)) * (1 - a) / (wall == PassageWall.Inner ? a : 1);
    }
}
