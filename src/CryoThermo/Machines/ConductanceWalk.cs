using CryoThermo.Equilibrium;

namespace CryoThermo.Machines;

/// <summary>
/// Adds up the conductance of a counter-flow exchanger, the integral of dx/(T_hot - T_cold), from the warm end towards
/// the cold end; x is the heat exchanged between the warm end and a point. Between two break points of either stream
/// the integrand is smooth and is integrated by Simpson's rule with end slopes (error of seventh order in the panel);
/// a panel is halved until value and slope in its middle agree with the cubic through its ends, which grades the panels towards
/// a nearly closed pinch. The integral with either end held is available with its derivative.
/// </summary>
internal ref struct ConductanceWalk
{
    /// <summary>
    /// Accepted relative gap between the middle of a panel and the cubic through its ends. For an integrand 1/(1 + b x) a gap e leaves an error of
    /// (30 e)^1.5/840 in the rule used: 1e-9.
    /// </summary>
    private const double AcceptedGap = 3e-6;
    private const int DeepestHalving = 52;
    private const double RoundingUnit = 2.3e-16;

    /// <summary>Ends the refining of a walk that has gone astray in rounding; ordinary walks take a few hundred panels.</summary>
    private const int MostPanels = 5000;

    private readonly IsobarTable hot;
    private readonly IsobarTable cold;
    private readonly double hotFlow;
    private readonly double coldFlow;
    private readonly double perHotFlow;
    private readonly double perColdFlow;
    private readonly double hotInlet;
    private readonly double coldOutlet;
    private readonly double hotMagnitude;
    private readonly double coldMagnitude;
    private readonly double added;
    private double conductanceLimit;
    private int hotIndex;
    private int coldIndex;
    private int panels;
    private bool stopped;
    private ReadOnlySpan<double> marks;
    private Span<double> places;
    private int marked;

    /// <summary>Prepares the walk; flows in mol/s, enthalpies at the warm end in J/mol, a temperature difference added everywhere in K.</summary>
    public ConductanceWalk(
        IsobarTable hot, double hotFlow, double hotInlet, IsobarTable cold, double coldFlow, double coldOutlet, double added = 0)
    {
        this.added = added;
        this.hot = hot;
        this.cold = cold;
        this.hotFlow = hotFlow;
        this.coldFlow = coldFlow;
        this.hotInlet = hotInlet;
        this.coldOutlet = coldOutlet;
        perHotFlow = 1 / hotFlow;
        perColdFlow = 1 / coldFlow;
        hotMagnitude = Math.Max(Math.Abs(hot.MinEnthalpy), Math.Abs(hot.MaxEnthalpy));
        coldMagnitude = Math.Max(Math.Abs(cold.MinEnthalpy), Math.Abs(cold.MaxEnthalpy));
        hotIndex = SegmentBelow(hot, hotInlet);
        coldIndex = SegmentBelow(cold, coldOutlet);
    }

    /// <summary>Conductance from the warm end to <see cref="Duty"/>, W/K; infinite once the temperatures cross.</summary>
    public double Conductance { get; private set; }

    /// <summary>
    /// Derivative of the conductance with respect to the duty at a held cold inlet, 1/K, to about a part in a thousand:
    /// 1/(T_hot - T_cold) at the cold end plus the integral of dT_cold/dDuty over (T_hot - T_cold)^2.
    /// </summary>
    public double Derivative { get; private set; }

    /// <summary>Heat exchanged from the warm end to where the walk ended, W.</summary>
    public double Duty { get; private set; }

    /// <summary>
    /// Walks until <paramref name="duty"/> is exchanged or <paramref name="limit"/> of conductance is used up; true when
    /// the limit ended the walk. With an infinite limit a crossing makes the conductance infinite; with a finite one
    /// the walk only ever approaches it.
    /// </summary>
    public bool Run(double duty, double limit = double.PositiveInfinity)
    {
        conductanceLimit = limit;
        Conductance = 0;
        Derivative = 0;
        Duty = 0;
        stopped = false;
        Point end = At(0);
        while (Duty < duty && !stopped)
        {
            double hotBreak = hotIndex > 0 ? hotFlow * (hotInlet - hot.NodeEnthalpies[hotIndex]) : double.PositiveInfinity;
            double coldBreak = coldIndex > 0 ? coldFlow * (coldOutlet - cold.NodeEnthalpies[coldIndex]) : double.PositiveInfinity;
            double next = Math.Min(Math.Min(hotBreak, coldBreak), duty);
            if (next > Duty)
            {
                Point start = At(Duty);
                end = At(next);
                Panel(in start, in end, 0);
                if (stopped)
                {
                    break;
                }

                Duty = next;
            }

            if (hotBreak <= next)
            {
                hotIndex--;
            }

            if (coldBreak <= next)
            {
                coldIndex--;
            }
        }

        Derivative += end.Delta > 0 ? 1 / end.Delta : double.PositiveInfinity;
        return stopped && double.IsFinite(Conductance);
    }

    /// <summary>Walks a whole duty and tells the heat exchanged, W, where given conductances are used up.</summary>
    /// <param name="duty">Duty, W.</param>
    /// <param name="at">Conductances, W/K, rising.</param>
    /// <param name="heats">Takes the heats.</param>
    public void Mark(double duty, ReadOnlySpan<double> at, Span<double> heats)
    {
        marks = at;
        places = heats;
        marked = 0;
        _ = Run(duty);
        while (marked < marks.Length)
        {
            places[marked++] = duty;
        }
    }

    private static int SegmentBelow(IsobarTable table, double enthalpy)
    {
        int index = table.SegmentAtEnthalpy(enthalpy);
        return index > 0 && table.NodeEnthalpies[index] >= enthalpy ? index - 1 : index;
    }

    private readonly Point At(double x)
    {
        double hotTemperature = hot.SegmentAt(hotIndex).Temperature(hotInlet - (x * perHotFlow), out double hotRate);
        double coldTemperature = cold.SegmentAt(coldIndex).Temperature(coldOutlet - (x * perColdFlow), out double coldRate);
        double rounding = RoundingUnit * ((2 * hotTemperature) + (hotMagnitude * hotRate) + (coldMagnitude * coldRate));
        coldRate *= perColdFlow;
        return new Point(x, hotTemperature - coldTemperature + added, coldRate - (hotRate * perHotFlow), coldRate, rounding);
    }

    private void Panel(in Point a, in Point b, int depth)
    {
        double width = b.X - a.X;
        Point middle = At(a.X + (0.5 * width));
        if (!(a.Delta > 0 && b.Delta > 0 && middle.Delta > 0))
        {
            if (double.IsPositiveInfinity(conductanceLimit))
            {
                Conductance = double.PositiveInfinity;
                stopped = true;
                return;
            }

            if (!(a.Delta > 0) || depth >= DeepestHalving)
            {
                // The crossing itself: no conductance reaches further.
                Duty = a.X;
                stopped = true;
                return;
            }

            Panel(in a, in middle, depth + 1);
            if (!stopped)
            {
                Panel(in middle, in b, depth + 1);
            }

            return;
        }

        double ga = 1 / a.Delta;
        double gm = 1 / middle.Delta;
        double gb = 1 / b.Delta;
        double slopeA = -width * a.Slope * ga * ga;
        double slopeB = -width * b.Slope * gb * gb;
        double slopeM = -width * middle.Slope * gm * gm;
        double mean = ((7.0 / 30.0) * (ga + gb)) + ((16.0 / 30.0) * gm) + ((slopeA - slopeB) / 60.0);

        // Value and slope in the middle against the cubic through the ends: an even and an odd deviation.
        double even = gm - (0.5 * (ga + gb)) - ((slopeA - slopeB) / 8.0);
        double odd = slopeM - (1.5 * (gb - ga)) + (0.25 * (slopeA + slopeB));
        double gap = Math.Max((16.0 / 30.0) * Math.Abs(even), Math.Abs(odd));

        // A gap that rounding of the temperatures can make means nothing.
        double noise = 8 * Math.Max(middle.Rounding * gm, Math.Max(a.Rounding * ga, b.Rounding * gb));
        panels++;
        if (gap > Math.Max(AcceptedGap, noise) * mean && depth < DeepestHalving && panels < MostPanels)
        {
            Panel(in a, in middle, depth + 1);
            if (!stopped)
            {
                Panel(in middle, in b, depth + 1);
            }

            return;
        }

        double share = mean * width;
        while (marked < marks.Length && Conductance + share >= marks[marked])
        {
            places[marked] = a.X + Length(in a, width, mean, marks[marked] - Conductance);
            marked++;
        }

        if (Conductance + share >= conductanceLimit)
        {
            Duty = a.X + Length(in a, width, mean, conductanceLimit - Conductance);
            Conductance = conductanceLimit;
            stopped = true;
            return;
        }

        Conductance += share;
        Derivative += width / 6.0 * ((a.ColdRate * ga * ga) + (4 * middle.ColdRate * gm * gm) + (b.ColdRate * gb * gb));
    }

    /// <summary>The part of an accepted panel that uses up a conductance, W.</summary>
    private readonly double Length(in Point a, double width, double mean, double wanted)
    {
        const double lastStep = 1e-10;
        double length = Math.Clamp(wanted / mean, 0, width);
        double ga = 1 / a.Delta;
        for (int iteration = 0; iteration < 20; iteration++)
        {
            Point end = At(a.X + length);
            Point middle = At(a.X + (0.5 * length));
            double gb = 1 / end.Delta;
            double slopeDifference = length * ((end.Slope * gb * gb) - (a.Slope * ga * ga));
            double integral = length
                * (((7.0 / 30.0) * (ga + gb)) + ((16.0 / 30.0) / middle.Delta) + (slopeDifference / 60.0));
            double step = (wanted - integral) * end.Delta;
            length = Math.Clamp(length + step, 0, width);
            if (Math.Abs(step) <= lastStep * width)
            {
                break;
            }
        }

        return length;
    }

    /// <summary>State at one place: heat from the warm end, temperature difference, its slope, dT_cold/dDuty, rounding of the difference.</summary>
    private readonly record struct Point(double X, double Delta, double Slope, double ColdRate, double Rounding);
}
