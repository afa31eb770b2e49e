namespace CryoThermo.HeatTransfer;

/// <summary>
/// Counter-flow of two streams with constant heat capacities through a wall that conducts along its length and is insulated at its ends: the exact
/// solution of the three coupled energy equations. No allocation but the object itself; immutable and thread-safe.
/// </summary>
/// <remarks>
/// <para>
/// With s from 0 (hot inlet) to 1 (cold inlet), x = Th - Tw, y = Tc - Tw, g = Tw', a = hAh/Ch, b = hAc/Cc, and the wall's conductance from end to end G:
/// x' = -a x - g, y' = b y - g, g' = -(hAh x + hAc y)/G. The eigenvalues are the roots of mu = alpha/(mu + a) + beta/(mu - b), alpha = hAh/G,
/// beta = hAc/G: one below -a, one between, one above b, the fourth is zero (a common shift). Derived here; the closed form for equal capacity rates is
/// Kroeger, Adv. Cryog. Eng. 12 (1967) 363.
/// </para>
/// <para>
/// The outer two are found by their distances from -a and b, where Newton's rule climbs without overshoot; the middle one and its distances from -a and b
/// follow from the products of the roots, so that it is exactly zero for equal capacity rates and keeps all its digits beside them. Each mode is counted
/// from the end where it is greatest, so that nothing overflows, and the ineffectiveness is a sum of terms of one sign.
/// </para>
/// </remarks>
internal sealed class AxialConduction
{
    // Distances and the roots themselves.
    private readonly double a;
    private readonly double b;
    private readonly double root1;
    private readonly double root2;
    private readonly double root3;
    private readonly double root1FromA;
    private readonly double root2FromA;
    private readonly double root3FromA;
    private readonly double root1FromB;
    private readonly double root2FromB;
    private readonly double root3FromB;

    // Amplitudes of g, each counted from the end where its mode is greatest, over the difference of the inlet temperatures.
    private readonly double amplitude1;
    private readonly double amplitude2;
    private readonly double amplitude3;
    private readonly double wallAtColdInlet;

    /// <summary>Solves the equations; all figures W/K, above zero.</summary>
    /// <param name="hotFilm">Film conductance hA of the hot stream.</param>
    /// <param name="coldFilm">Film conductance hA of the cold stream.</param>
    /// <param name="hotRate">Capacity rate of the hot stream.</param>
    /// <param name="coldRate">Capacity rate of the cold stream.</param>
    /// <param name="wall">Conductance of the wall from end to end, k A/L.</param>
    public AxialConduction(double hotFilm, double coldFilm, double hotRate, double coldRate, double wall)
    {
        a = hotFilm / hotRate;
        b = coldFilm / coldRate;
        double alpha = hotFilm / wall;
        double beta = coldFilm / wall;
        double below = Distance(a, b, alpha, beta);
        double above = Distance(b, a, beta, alpha);
        double sum = a + b;
        root1 = -(a + below);
        root3 = b + above;
        root2 = -(a / (a + below)) * (b / (b + above)) * ((coldRate - hotRate) / wall);
        root1FromA = -below;
        root2FromA = alpha / below * (sum / (sum + above));
        root3FromA = sum + above;
        root1FromB = -(sum + below);
        root2FromB = -(beta / above * (sum / (sum + below)));
        root3FromB = above;

        // g vanishes at both ends.
        double middleAtHot = root2 > 0 ? Math.Exp(-root2) : 1;
        double middleAtCold = root2 > 0 ? 1 : Math.Exp(root2);
        double both = ExponentialLessOne(root1 - root3);
        double c1 = -middleAtHot * ExponentialLessOne(root2 - root3) / both;
        double c3 = -middleAtCold * ExponentialLessOne(root1 - root2) / both;
        double falling = Math.Exp(root1);
        double rising = Math.Exp(-root3);
        double wallRise = (c1 * ExponentialLessOne(root1) / root1)
            + MeanOfExponential(Math.Abs(root2))
            - (c3 * ExponentialLessOne(-root3) / root3);
        double hotAboveWall = -((c1 / root1FromA) + (middleAtHot / root2FromA) + (c3 * rising / root3FromA));
        double coldAboveWall = -((c1 * falling / root1FromB) + (middleAtCold / root2FromB) + (c3 / root3FromB));
        double whole = hotAboveWall - coldAboveWall - wallRise;
        amplitude1 = c1 / whole;
        amplitude2 = 1 / whole;
        amplitude3 = c3 / whole;
        wallAtColdInlet = -coldAboveWall / whole;
        HotIneffectiveness = Difference(amplitude1 * falling, amplitude2 * middleAtCold, amplitude3);
        ColdIneffectiveness = Difference(amplitude1, amplitude2 * middleAtHot, amplitude3 * rising);
    }

    /// <summary>(hot outlet - cold inlet)/(hot inlet - cold inlet): one less the effectiveness where the hot stream has the lesser capacity rate.</summary>
    public double HotIneffectiveness { get; }

    /// <summary>(hot inlet - cold outlet)/(hot inlet - cold inlet): one less the effectiveness where the cold stream has the lesser capacity rate.</summary>
    public double ColdIneffectiveness { get; }

    /// <summary>One less the effectiveness of counter-flow without conduction along the wall (textbook form, written so that equal capacity rates are no special case).</summary>
    /// <param name="transferUnits">UA over the lesser capacity rate, zero or more.</param>
    /// <param name="ratio">Lesser over greater capacity rate, 0 to 1.</param>
    public static double WithoutConduction(double transferUnits, double ratio)
    {
        double exponent = transferUnits * (1 - ratio);
        return Math.Exp(-exponent) / (1 + (ratio * transferUnits * MeanOfExponential(exponent)));
    }

    /// <summary>Temperatures at a place, 0 at the cold inlet's temperature and 1 at the hot inlet's.</summary>
    /// <param name="place">0 at the hot inlet to 1 at the cold inlet.</param>
    public (double Hot, double Wall, double Cold) At(double place)
    {
        double left = 1 - place;
        double g1 = amplitude1 * Math.Exp(root1 * place);
        double g2 = amplitude2 * Math.Exp(root2 > 0 ? -root2 * left : root2 * place);
        double g3 = amplitude3 * Math.Exp(-root3 * left);
        double ahead = (g1 * left * MeanOfExponential(-root1 * left))
            + (root2 > 0
                ? amplitude2 * left * MeanOfExponential(root2 * left)
                : g2 * left * MeanOfExponential(-root2 * left))
            + (amplitude3 * left * MeanOfExponential(root3 * left));
        double wall = wallAtColdInlet - ahead;
        double hot = -((g1 / root1FromA) + (g2 / root2FromA) + (g3 / root3FromA));
        double cold = -((g1 / root1FromB) + (g2 / root2FromB) + (g3 / root3FromB));
        return (wall + hot, wall, wall + cold);
    }

    // x - y of the three modes; with g = 0 at the ends all terms have one sign there.
    private double Difference(double g1, double g2, double g3) =>
        (a + b) * ((g1 / (root1FromA * root1FromB)) + (g2 / (root2FromA * root2FromB)) + (g3 / (root3FromA * root3FromB)));

    // Root of d + p - own/d - other/(p + q + d): rising and hollow downwards, so that Newton's rule from below comes up to it from one side.
    private static double Distance(double p, double q, double own, double other)
    {
        double d = own / (p + Math.Sqrt(own));
        for (int i = 0; i < 200; i++)
        {
            double sum = p + q + d;
            double value = d + p - (own / d) - (other / sum);
            double next = d - (value / (1 + (own / (d * d)) + (other / (sum * sum))));
            if (!(next > d))
            {
                break;
            }

            d = next;
        }

        return d;
    }

    // exp(x) - 1 without loss of digits at small x, for x that is not large.
    private static double ExponentialLessOne(double x) => x < -40 ? -1 : 2 * Math.Exp(0.5 * x) * Math.Sinh(0.5 * x);

    // (1 - exp(-x))/x, x zero or more.
    private static double MeanOfExponential(double x) => x == 0 ? 1 : -ExponentialLessOne(-x) / x;
}
