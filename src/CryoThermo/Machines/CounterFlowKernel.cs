using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;

namespace CryoThermo.Machines;

/// <summary>
/// A counter-flow recuperator between two isobars: pressure drop, leak and axial conduction left out. The hot stream
/// enters at the warm end, the cold stream at the cold end, both with given enthalpies. Duty in W, conductance in W/K.
/// </summary>
/// <remarks>
/// Let G(T) be the heat the hot stream gives on cooling to T plus the heat the cold stream takes on warming to T. The
/// cold stream is nowhere warmer than the hot one exactly when the duty is at most G(T) at every T between the inlets:
/// the greatest duty is the least G. Between break points G is a cubic, so its minima are exact. A least approach d
/// is the same statement with the hot isobar moved down by d. Immutable and thread-safe.
/// </remarks>
internal sealed class CounterFlowKernel
{
    private readonly IsobarTable hot;
    private readonly IsobarTable cold;
    private readonly double hotFlow;
    private readonly double coldFlow;
    private readonly double hotInletEnthalpy;
    private readonly double coldInletEnthalpy;

    /// <summary>Creates the recuperator and finds its greatest duty.</summary>
    /// <param name="hot">Isobar of the stream that is cooled; it must reach down to the cold inlet temperature.</param>
    /// <param name="hotFlow">Its flow, mol/s.</param>
    /// <param name="hotInletEnthalpy">Its enthalpy at the warm end, J/mol.</param>
    /// <param name="cold">Isobar of the stream that is warmed; it must reach up to the hot inlet temperature.</param>
    /// <param name="coldFlow">Its flow, mol/s.</param>
    /// <param name="coldInletEnthalpy">Its enthalpy at the cold end, J/mol.</param>
    /// <exception cref="ArgumentException">A flow is not positive, the hot inlet is colder than the cold inlet, or an isobar is too short.</exception>
    public CounterFlowKernel(
        IsobarTable hot, double hotFlow, double hotInletEnthalpy, IsobarTable cold, double coldFlow, double coldInletEnthalpy)
        : this(
            hot,
            hotFlow,
            Guard.InRange(hotInletEnthalpy, hot.MinEnthalpy, hot.MaxEnthalpy, "J/mol"),
            hot.TemperatureAtEnthalpy(hotInletEnthalpy),
            cold,
            coldFlow,
            Guard.InRange(coldInletEnthalpy, cold.MinEnthalpy, cold.MaxEnthalpy, "J/mol"),
            cold.TemperatureAtEnthalpy(coldInletEnthalpy))
    {
    }

    private CounterFlowKernel(
        IsobarTable hot,
        double hotFlow,
        double hotInletEnthalpy,
        double hotInletTemperature,
        IsobarTable cold,
        double coldFlow,
        double coldInletEnthalpy,
        double coldInletTemperature)
    {
        this.hot = hot;
        this.cold = cold;
        this.hotFlow = Guard.Positive(hotFlow, "mol/s");
        this.coldFlow = Guard.Positive(coldFlow, "mol/s");
        this.hotInletEnthalpy = hotInletEnthalpy;
        this.coldInletEnthalpy = coldInletEnthalpy;
        HotInletTemperature = hotInletTemperature;
        ColdInletTemperature = coldInletTemperature;
        if (HotInletTemperature < ColdInletTemperature)
        {
            throw new ArgumentException(
                $"The hot stream enters at {HotInletTemperature:G9} K, colder than the cold stream at {ColdInletTemperature:G9} K.",
                nameof(hotInletEnthalpy));
        }

        // Temperatures found from enthalpies carry rounding.
        double rounding = 1e-12 * HotInletTemperature;
        if (hot.MinTemperature > ColdInletTemperature + rounding || cold.MaxTemperature < HotInletTemperature - rounding)
        {
            throw new ArgumentException(
                $"The isobars must cover {ColdInletTemperature:G9} to {HotInletTemperature:G9} K; the hot one begins at {hot.MinTemperature:G9} K, the cold one ends at {cold.MaxTemperature:G9} K.",
                nameof(hot));
        }

        GreatestDuty = LeastSum(0, out double pinch);
        LimitingTemperature = pinch;
    }

    /// <summary>Temperature of the hot stream at the warm end, K.</summary>
    public double HotInletTemperature { get; }

    /// <summary>Temperature of the cold stream at the cold end, K.</summary>
    public double ColdInletTemperature { get; }

    /// <summary>Greatest duty without a temperature crossing, W: the duty of an infinite conductance.</summary>
    public double GreatestDuty { get; }

    /// <summary>Temperature at which the streams meet at the greatest duty, K.</summary>
    public double LimitingTemperature { get; }

    /// <summary>As the constructor, with inlet temperatures in K; at a jump the upper (vapour) enthalpy is meant. Clamped: a cubic rounds at its end.</summary>
    public static CounterFlowKernel FromInletTemperatures(
        IsobarTable hot, double hotFlow, double hotInletTemperature, IsobarTable cold, double coldFlow, double coldInletTemperature)
        => new(
            hot,
            hotFlow,
            Math.Min(hot.Enthalpy(hotInletTemperature), hot.MaxEnthalpy),
            hotInletTemperature,
            cold,
            coldFlow,
            Math.Min(cold.Enthalpy(coldInletTemperature), cold.MaxEnthalpy),
            coldInletTemperature);

    /// <summary>Enthalpy of the hot stream at the cold end for a duty, J/mol.</summary>
    public double HotOutletEnthalpy(double duty)
        => Math.Clamp(hotInletEnthalpy - (GuardDuty(duty) / hotFlow), hot.MinEnthalpy, hot.MaxEnthalpy);

    /// <summary>Enthalpy of the cold stream at the warm end for a duty, J/mol.</summary>
    public double ColdOutletEnthalpy(double duty)
        => Math.Clamp(coldInletEnthalpy + (GuardDuty(duty) / coldFlow), cold.MinEnthalpy, cold.MaxEnthalpy);

    /// <summary>
    /// Conductance needed for a duty, W/K, relative error below 1e-7 in the tests; infinite from the greatest duty on.
    /// </summary>
    public double Conductance(double duty)
    {
        if (!(duty >= 0))
        {
            throw new ArgumentOutOfRangeException(nameof(duty), duty, $"duty is {duty:G9} W; it must not be negative.");
        }

        if (duty == 0)
        {
            return 0;
        }

        return duty >= GreatestDuty ? double.PositiveInfinity : Walk(duty, out _);
    }

    /// <summary>Duty of a conductance, W. Rises with the conductance and tends to <see cref="GreatestDuty"/>.</summary>
    /// <param name="conductance">Conductance, W/K, not negative; may be infinite.</param>
    /// <param name="guess">A duty near the answer, W, which saves steps; anything outside 0 to the greatest duty is not used.</param>
    public double Duty(double conductance, double guess = 0)
    {
        if (!(conductance >= 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(conductance), conductance, $"conductance is {conductance:G9} W/K; it must not be negative.");
        }

        double span = HotInletTemperature - ColdInletTemperature;
        if (conductance == 0 || GreatestDuty <= 0 || span <= 0)
        {
            return 0;
        }

        if (double.IsPositiveInfinity(conductance))
        {
            return GreatestDuty;
        }

        // In x = ln(e/(1 - e)), e = duty/greatest duty, ln(conductance) is a straight line of slope 1 for small e and
        // for equal constant heat capacities, of slope 1/2 at a smooth inner pinch; at a break point the conductance
        // itself is straight in x. Newton inside a bracket therefore needs few steps everywhere.
        // Beyond x = 32 the duty misses its greatest value by less than 2e-14 of itself and is not told from it.
        const double largest = 32;
        const double probe = 30;
        const double smallest = -700;
        double target = Math.Log(conductance);
        double low = smallest;
        double high = largest;
        double ratio = conductance * span / GreatestDuty;
        double x = guess > 0 && guess < GreatestDuty
            ? Math.Clamp(Math.Log(guess / (GreatestDuty - guess)), smallest, probe)
            : Math.Clamp(Math.Log(ratio), smallest, Math.Min(6, largest));
        for (int iteration = 0; iteration < 200; iteration++)
        {
            double left = 1 / (1 + Math.Exp(x));
            double duty = GreatestDuty * (x < 0 ? Math.Exp(x) * left : 1 - left);
            double found = Walk(duty, out double derivative);
            double next;
            if (double.IsFinite(found) && double.IsFinite(derivative) && found > 0)
            {
                double excess = Math.Log(found) - target;
                double slope = derivative * duty * left / found;
                double step = x > 3 && slope < 0.4 ? (found - conductance) / (slope * found) : excess / slope;
                if (excess > 0)
                {
                    high = Math.Min(high, x);
                }
                else
                {
                    low = Math.Max(low, x);
                }

                next = x - step;

                // The derivative is good to a part in a thousand: after a step of 1e-6 the error left in x, which is that
                // of the part missing to the greatest duty, is about 1e-9. Smaller steps would chase the quadrature's own error.
                if (Math.Abs(step) <= 1e-6 || (left < 1e-10 && Math.Abs(step) * left <= 1e-15))
                {
                    return DutyAt(Math.Clamp(next, low, high));
                }
            }
            else
            {
                high = Math.Min(high, x);
                next = double.NaN;
            }

            if (high - low <= 1e-12 * Math.Max(1, Math.Abs(x)))
            {
                return high >= largest ? GreatestDuty : DutyAt(0.5 * (low + high));
            }

            if (next > low && next < high && iteration % 8 != 7)
            {
                x = next;
            }
            else if (next >= largest && high >= largest)
            {
                if (x >= probe)
                {
                    return GreatestDuty;
                }

                x = probe;
            }
            else
            {
                // Also every eighth step: where a stream's isobar has a step, Newton can swing about it for ever.
                x = 0.5 * (Math.Max(low, Math.Min(high, x) - 8) + high);
            }
        }

        throw new ConvergenceException(
            "duty of a recuperator from its conductance",
            $"conductance {conductance:G9} W/K, inlets {HotInletTemperature:G9} and {ColdInletTemperature:G9} K",
            double.PositiveInfinity,
            "Check the isobars for segments that are almost flat.");
    }

    /// <summary>Greatest duty at which the streams stay at least <paramref name="approach"/> apart everywhere, W.</summary>
    /// <param name="approach">Least temperature difference, K, from 0 to the difference of the inlet temperatures.</param>
    public double DutyAtLeastApproach(double approach)
    {
        Guard.InRange(approach, 0, HotInletTemperature - ColdInletTemperature, "K");
        return LeastSum(approach, out _);
    }

    /// <summary>
    /// The point of least temperature difference at a duty; where the difference is equally small over a stretch, one
    /// point of it.
    /// </summary>
    /// <param name="duty">Duty, W, from 0 to <see cref="GreatestDuty"/>.</param>
    public RecuperatorPinch Pinch(double duty)
    {
        GuardDuty(duty);
        double approach = LeastApproach(duty);
        _ = LeastSum(approach, out double coldTemperature);
        double hotTemperature = Math.Min(coldTemperature + approach, HotInletTemperature);

        // The point lies where the cold stream reaches, and the hot stream leaves, these temperatures; on a plateau
        // of either stream the other stream tells the place.
        double fromCold = coldFlow * (Math.Max(cold.EnthalpyBelow(coldTemperature), coldInletEnthalpy) - coldInletEnthalpy);
        double fromWarm = hotFlow * (hotInletEnthalpy - Math.Min(hot.Enthalpy(hotTemperature), hotInletEnthalpy));
        double below = Math.Clamp(fromCold, 0, Math.Max(0, duty - fromWarm));
        PinchLocation location = coldTemperature <= ColdInletTemperature || below <= 1e-12 * duty
            ? PinchLocation.ColdEnd
            : hotTemperature >= HotInletTemperature || duty - below <= 1e-12 * duty
                ? PinchLocation.WarmEnd
                : PinchLocation.Inside;
        return new RecuperatorPinch(hotTemperature, hotTemperature - approach, below, location);
    }

    /// <summary>Temperature difference of the streams where a heat has been exchanged from the warm end on, K.</summary>
    /// <param name="duty">Duty, W, from 0 to <see cref="GreatestDuty"/>.</param>
    /// <param name="fromWarmEnd">W, 0 to the duty.</param>
    public double Difference(double duty, double fromWarmEnd) =>
        hot.TemperatureAtEnthalpy(Math.Clamp(hotInletEnthalpy - (fromWarmEnd / hotFlow), hot.MinEnthalpy, hot.MaxEnthalpy))
        - cold.TemperatureAtEnthalpy(Math.Clamp(coldInletEnthalpy + ((duty - fromWarmEnd) / coldFlow), cold.MinEnthalpy, cold.MaxEnthalpy));

    /// <summary>Heat exchanged from the warm end to the middle of every one of parts that take equal shares of the surface, W.</summary>
    /// <param name="duty">Duty, W, 0 to the greatest.</param>
    /// <param name="parts">Their number.</param>
    /// <param name="added">Temperature difference added everywhere, K, above zero: surface heaps up at a pinch no more than that allows.</param>
    public double[] HeatInMiddleOfParts(double duty, int parts, double added)
    {
        double coldOutlet = Math.Min(coldInletEnthalpy + (duty / coldFlow), cold.MaxEnthalpy);
        ConductanceWalk walk = new(hot, hotFlow, hotInletEnthalpy, cold, coldFlow, coldOutlet, added);
        _ = walk.Run(duty);
        double whole = walk.Conductance;
        double[] conductances = [.. Enumerable.Range(0, parts).Select(i => whole * (i + 0.5) / parts)];
        double[] heats = new double[parts];
        new ConductanceWalk(hot, hotFlow, hotInletEnthalpy, cold, coldFlow, coldOutlet, added).Mark(duty, conductances, heats);
        return heats;
    }

    /// <summary>Temperatures along the exchanger at a duty, for charts.</summary>
    /// <param name="duty">Duty, W, from 0 to <see cref="GreatestDuty"/>.</param>
    /// <param name="pointsBetween">Points put between neighbouring break points, at equal steps of duty.</param>
    public RecuperatorProfile Profile(double duty, int pointsBetween = 3)
    {
        GuardDuty(duty);
        Guard.InRange(pointsBetween, 0, 1000, "points");
        List<double> breaks = [0, duty];
        foreach (double h in hot.NodeEnthalpies)
        {
            breaks.Add(duty - (hotFlow * (hotInletEnthalpy - h)));
        }

        foreach (double h in cold.NodeEnthalpies)
        {
            breaks.Add(coldFlow * (h - coldInletEnthalpy));
        }

        breaks.RemoveAll(q => !(q >= 0 && q <= duty));
        breaks.Sort();
        List<double> points = [breaks[0]];
        for (int i = 1; i < breaks.Count; i++)
        {
            double from = breaks[i - 1];
            double to = breaks[i];
            if (to <= from)
            {
                continue;
            }

            for (int k = 1; k <= pointsBetween; k++)
            {
                points.Add(from + ((to - from) * k / (pointsBetween + 1)));
            }

            points.Add(to);
        }

        double[] hotTemperature = new double[points.Count];
        double[] coldTemperature = new double[points.Count];
        for (int i = 0; i < points.Count; i++)
        {
            double hotEnthalpy = hotInletEnthalpy - ((duty - points[i]) / hotFlow);
            double coldEnthalpy = coldInletEnthalpy + (points[i] / coldFlow);
            hotTemperature[i] = hot.TemperatureAtEnthalpy(Math.Clamp(hotEnthalpy, hot.MinEnthalpy, hot.MaxEnthalpy));
            coldTemperature[i] = cold.TemperatureAtEnthalpy(Math.Clamp(coldEnthalpy, cold.MinEnthalpy, cold.MaxEnthalpy));
        }

        return new RecuperatorProfile([.. points], hotTemperature, coldTemperature);
    }

    /// <summary>Entropy produced by heat exchange at a duty, W/K.</summary>
    public double EntropyProduction(double duty)
    {
        double coldRise = cold.EntropyAtEnthalpy(ColdOutletEnthalpy(duty)) - cold.EntropyAtEnthalpy(coldInletEnthalpy);
        double hotFall = hot.EntropyAtEnthalpy(hotInletEnthalpy) - hot.EntropyAtEnthalpy(HotOutletEnthalpy(duty));
        return (coldFlow * coldRise) - (hotFlow * hotFall);
    }

    private double GuardDuty(double duty) => Guard.InRange(duty, 0, GreatestDuty, "W");

    private double DutyAt(double x)
    {
        double power = Math.Exp(-Math.Abs(x));
        return GreatestDuty * (x < 0 ? power / (1 + power) : 1 / (1 + power));
    }

    private double Walk(double duty, out double derivative)
    {
        double coldOutlet = Math.Min(coldInletEnthalpy + (duty / coldFlow), cold.MaxEnthalpy);
        ConductanceWalk walk = new(hot, hotFlow, hotInletEnthalpy, cold, coldFlow, coldOutlet);
        walk.Run(duty);
        derivative = walk.Derivative;
        return walk.Conductance;
    }

    /// <summary>
    /// Least over T of the heat given by the hot stream down to T + approach plus that taken by the cold stream up to T.
    /// </summary>
    private double LeastSum(double approach, out double coldTemperature)
    {
        double bottom = Math.Max(ColdInletTemperature, hot.MinTemperature - approach);
        double top = Math.Min(HotInletTemperature - approach, cold.MaxTemperature);
        if (top <= bottom)
        {
            coldTemperature = bottom;
            return 0;
        }

        double constant = (hotFlow * hotInletEnthalpy) - (coldFlow * coldInletEnthalpy);
        coldTemperature = top;
        double least = coldFlow * (cold.EnthalpyBelow(top) - coldInletEnthalpy);
        IsobarPairWalk walk = new(cold, coldFlow, hot, hotFlow, approach, bottom, top);
        while (walk.MoveNext())
        {
            DifferencePiece piece = walk.Current;
            if (piece.TryInnerMinimum(out double t, out double value) && value + constant < least)
            {
                least = value + constant;
                coldTemperature = t;
            }

            double atStart = piece.LeastAtStart + constant;
            if (piece.Start > bottom && atStart < least)
            {
                least = atStart;
                coldTemperature = piece.Start;
            }
        }

        double hotBottom = Math.Clamp(bottom + approach, hot.MinTemperature, HotInletTemperature);
        double atBottom = hotFlow * (hotInletEnthalpy - Math.Min(hot.Enthalpy(hotBottom), hotInletEnthalpy));
        if (atBottom < least)
        {
            least = atBottom;
            coldTemperature = bottom;
        }

        return Math.Max(least, 0);
    }

    /// <summary>
    /// The approach whose greatest duty is the given one: bracketed inverse quadratic interpolation and bisection
    /// (T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149; from memory).
    /// </summary>
    private double LeastApproach(double duty)
    {
        double a = HotInletTemperature - ColdInletTemperature;
        double b = 0;
        double fa = LeastSum(a, out _) - duty;
        double fb = GreatestDuty - duty;
        if (fb <= 0 || a <= 0)
        {
            return 0;
        }

        if (fa >= 0)
        {
            return a;
        }

        double c = a;
        double fc = fa;
        double fraction = 0.5;
        for (int iteration = 0; iteration < 200; iteration++)
        {
            double t = a + (fraction * (b - a));
            double ft = LeastSum(t, out _) - duty;
            if (Math.Sign(ft) == Math.Sign(fa))
            {
                c = a;
                fc = fa;
            }
            else
            {
                c = b;
                b = a;
                fc = fb;
                fb = fa;
            }

            a = t;
            fa = ft;
            double best = Math.Abs(fa) < Math.Abs(fb) ? a : b;
            double width = Math.Abs(b - a);
            double tolerance = 1e-15 * HotInletTemperature;
            if (fa == 0 || width <= 2 * tolerance)
            {
                return best;
            }

            double xi = (a - b) / (c - b);
            double phi = (fa - fb) / (fc - fb);
            bool interpolate = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
            fraction = interpolate
                ? (fa / (fb - fa) * (fc / (fb - fc))) + ((c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb)))
                : 0.5;
            double margin = tolerance / width;
            fraction = Math.Clamp(fraction, margin, 1 - margin);
        }

        return a;
    }
}
