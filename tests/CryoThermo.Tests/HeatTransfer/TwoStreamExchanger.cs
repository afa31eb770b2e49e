namespace CryoThermo.Tests.HeatTransfer;

/// <summary>
/// Counter-flow of two streams with constant heat capacities, one conductance between them, and heat from the surroundings along it: through a conductance
/// from a temperature, evenly given, or both, into either stream. Conductances and heats are spread evenly. Solved by doubling a thin slab whose answer is
/// a power series; every step adds and multiplies, so that any number of transfer units keeps its digits (1e-12 of the difference of the inlets at a thousand). A reference for solvers with
/// real streams. Immutable and thread-safe.
/// </summary>
internal sealed class TwoStreamExchanger
{
    /// <summary>Transfer units of the thin slab, at most.</summary>
    private const double Thin = 0.25;

    private readonly double conductance;
    private readonly double hotRate;
    private readonly double coldRate;
    private readonly double hotLeak;
    private readonly double coldLeak;
    private readonly double surroundings;
    private readonly double hotHeat;
    private readonly double coldHeat;
    private readonly double hotInlet;
    private readonly double coldInlet;

    /// <summary>Describes the exchanger.</summary>
    /// <param name="conductance">UA between the streams, W/K.</param>
    /// <param name="hotRate">Capacity rate of the hot stream, W/K, above zero.</param>
    /// <param name="coldRate">Capacity rate of the cold stream, W/K, above zero.</param>
    /// <param name="hotInlet">K, at place 0.</param>
    /// <param name="coldInlet">K, at place 1.</param>
    /// <param name="hotLeak">Conductance from the surroundings to the hot stream, W/K.</param>
    /// <param name="coldLeak">Conductance from the surroundings to the cold stream, W/K.</param>
    /// <param name="surroundings">Temperature of the surroundings, K.</param>
    /// <param name="hotHeat">Heat given to the hot stream, W.</param>
    /// <param name="coldHeat">Heat given to the cold stream, W.</param>
    public TwoStreamExchanger(
        double conductance,
        double hotRate,
        double coldRate,
        double hotInlet,
        double coldInlet,
        double hotLeak = 0,
        double coldLeak = 0,
        double surroundings = 300,
        double hotHeat = 0,
        double coldHeat = 0)
    {
        this.conductance = conductance;
        this.hotRate = hotRate;
        this.coldRate = coldRate;
        this.hotLeak = hotLeak;
        this.coldLeak = coldLeak;
        this.surroundings = surroundings;
        this.hotHeat = hotHeat;
        this.coldHeat = coldHeat;
        this.hotInlet = hotInlet;
        this.coldInlet = coldInlet;
        Slab whole = Part(1);
        HotOutlet = (whole.HotPassed * hotInlet) + (whole.HotFromCold * coldInlet) + whole.HotGained;
        ColdOutlet = (whole.ColdPassed * coldInlet) + (whole.ColdFromHot * hotInlet) + whole.ColdGained;
    }

    /// <summary>Outlet temperature of the hot stream, K.</summary>
    public double HotOutlet { get; }

    /// <summary>Outlet temperature of the cold stream, K.</summary>
    public double ColdOutlet { get; }

    /// <summary>Heat taken in from the surroundings, W.</summary>
    public double HeatFromSurroundings => (coldRate * (ColdOutlet - coldInlet)) - (hotRate * (hotInlet - HotOutlet));

    /// <summary>Temperatures of both streams at a place, K.</summary>
    /// <param name="place">0 at the hot inlet to 1 at the cold inlet.</param>
    public (double Hot, double Cold) At(double place)
    {
        Slab first = Part(place);
        Slab second = Part(1 - place);
        double hot = ((first.HotPassed * hotInlet) + (first.HotFromCold * ((second.ColdPassed * coldInlet) + second.ColdGained)) + first.HotGained)
            / (1 - (first.HotFromCold * second.ColdFromHot));
        return (hot, (second.ColdFromHot * hot) + (second.ColdPassed * coldInlet) + second.ColdGained);
    }

    private Slab Part(double share)
    {
        double greatest = share * Math.Max((conductance + hotLeak) / hotRate, (conductance + coldLeak) / coldRate);
        int doublings = greatest > Thin ? (int)Math.Ceiling(Math.Log2(greatest / Thin)) : 0;
        Slab slab = ThinSlab(share * Math.Pow(2, -doublings));
        for (int i = 0; i < doublings; i++)
        {
            slab = slab.Before(slab);
        }

        return slab;
    }

    // T' = M T + r over a thin slab by the series of the exponential, and then what leaves from what enters.
    private Slab ThinSlab(double h)
    {
        double m11 = -h * (conductance + hotLeak) / hotRate;
        double m12 = h * conductance / hotRate;
        double m21 = -h * conductance / coldRate;
        double m22 = h * (conductance + coldLeak) / coldRate;
        double r1 = h * ((hotLeak * surroundings) + hotHeat) / hotRate;
        double r2 = -h * ((coldLeak * surroundings) + coldHeat) / coldRate;
        (double p11, double p12, double p21, double p22) = (1, 0, 0, 1);
        (double t11, double t12, double t21, double t22) = (1, 0, 0, 1);
        (double f1, double f2, double g1, double g2) = (r1, r2, r1, r2);
        for (int k = 1; k <= 18; k++)
        {
            (t11, t12, t21, t22) = (
                ((m11 * t11) + (m12 * t21)) / k, ((m11 * t12) + (m12 * t22)) / k, ((m21 * t11) + (m22 * t21)) / k, ((m21 * t12) + (m22 * t22)) / k);
            (p11, p12, p21, p22) = (p11 + t11, p12 + t12, p21 + t21, p22 + t22);
            (g1, g2) = (((m11 * g1) + (m12 * g2)) / (k + 1), ((m21 * g1) + (m22 * g2)) / (k + 1));
            (f1, f2) = (f1 + g1, f2 + g2);
        }

        return new(
            p11 - (p12 * p21 / p22), p12 / p22, f1 - (p12 * f2 / p22), 1 / p22, -p21 / p22, -f2 / p22);
    }

    /// <summary>What leaves a slab from what enters it, the hot stream on one side and the cold stream on the other.</summary>
    private readonly record struct Slab(
        double HotPassed, double HotFromCold, double HotGained, double ColdPassed, double ColdFromHot, double ColdGained)
    {
        public Slab Before(Slab next)
        {
            double repeat = 1 / (1 - (HotFromCold * next.ColdFromHot));
            double coldBetween = next.ColdPassed * repeat;
            double coldGained = (next.ColdGained + (next.ColdFromHot * HotGained)) * repeat;
            double hotBetween = HotPassed * repeat;
            double hotGained = (HotGained + (HotFromCold * next.ColdGained)) * repeat;
            return new(
                next.HotPassed * hotBetween,
                next.HotFromCold + (next.HotPassed * HotFromCold * coldBetween),
                next.HotGained + (next.HotPassed * hotGained),
                ColdPassed * coldBetween,
                ColdFromHot + (ColdPassed * next.ColdFromHot * hotBetween),
                ColdGained + (ColdPassed * coldGained));
        }
    }
}
