using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;

namespace CryoThermo.Coolers;

/// <summary>
/// The limit of a recuperative throttle cycle between two isobars of one circulating fluid, with the high-pressure
/// stream entering the recuperator at a given warm-end temperature. With D(T) = h_low(T) - h_high(T) (the isothermal
/// enthalpy difference) the greatest cooling at a cold temperature Tc is the least D over [Tc, Tw], per mole.
/// The cold temperature is that at which the low-pressure stream enters the recuperator, the warmest of the cold head.
/// </summary>
/// <remarks>
/// The stretch [Tc, Tw] shrinks as Tc rises, so the greatest cooling never falls with Tc; the lowest Tc for a given
/// leak is the highest temperature at which D crosses the leak, found by one walk down from the warm end. Where an
/// enthalpy jumps, D is taken at its least (low-pressure stream before its jump, high-pressure stream after its own),
/// but at Tc itself, and for the inlet at Tw, both streams count as vapour. Immutable and thread-safe.
/// </remarks>
internal sealed class CycleLimitKernel
{
    private readonly IsobarTable low;
    private readonly IsobarTable high;
    private readonly double highInletEnthalpy;
    private readonly double warmEndDifference;
    private readonly Piece[] pieces;

    /// <summary>Creates the limit and walks both isobars once.</summary>
    /// <param name="low">Isobar of the low-pressure stream.</param>
    /// <param name="high">Isobar of the high-pressure stream, same fluid.</param>
    /// <param name="warmEndTemperature">Temperature of the high-pressure stream at the warm end, K, within both isobars.</param>
    public CycleLimitKernel(IsobarTable low, IsobarTable high, double warmEndTemperature)
    {
        this.low = low;
        this.high = high;
        LowestTemperatureCovered = Math.Max(low.MinTemperature, high.MinTemperature);
        WarmEndTemperature = Guard.InRange(
            warmEndTemperature, LowestTemperatureCovered, Math.Min(low.MaxTemperature, high.MaxTemperature), "K");
        highInletEnthalpy = Math.Min(high.Enthalpy(warmEndTemperature), high.MaxEnthalpy);
        warmEndDifference = low.EnthalpyBelow(warmEndTemperature) - highInletEnthalpy;

        List<Piece> found = new(low.NodeTemperatures.Length + high.NodeTemperatures.Length);
        double least = warmEndDifference;
        double at = warmEndTemperature;
        IsobarPairWalk walk = new(low, 1, high, 1, 0, LowestTemperatureCovered, warmEndTemperature);
        while (walk.MoveNext())
        {
            DifferencePiece piece = walk.Current;
            found.Add(new Piece(piece, least, at));
            if (piece.TryInnerMinimum(out double t, out double value) && value < least)
            {
                least = value;
                at = t;
            }

            if (piece.LeastAtStart < least)
            {
                least = piece.LeastAtStart;
                at = piece.Start;
            }
        }

        pieces = [.. found];
    }

    /// <summary>Temperature of the high-pressure stream at the warm end, K.</summary>
    public double WarmEndTemperature { get; }

    /// <summary>Lowest temperature both isobars cover, K.</summary>
    public double LowestTemperatureCovered { get; }

    /// <summary>Enthalpy of the high-pressure stream at the warm end, J/mol.</summary>
    public double HighInletEnthalpy => highInletEnthalpy;

    /// <summary>Isothermal enthalpy difference h_low - h_high at a temperature, both above their jumps, J/mol.</summary>
    public double EnthalpyDifference(double temperature) => low.Enthalpy(temperature) - high.Enthalpy(temperature);

    /// <summary>Greatest cooling at a cold temperature, per mole circulated, with its pinch.</summary>
    /// <param name="coldTemperature">K, from <see cref="LowestTemperatureCovered"/> to <see cref="WarmEndTemperature"/>.</param>
    public CycleCapacity GreatestCooling(double coldTemperature)
    {
        Guard.InRange(coldTemperature, LowestTemperatureCovered, WarmEndTemperature, "K");
        if (pieces.Length == 0 || coldTemperature >= WarmEndTemperature)
        {
            return new CycleCapacity(EnthalpyDifference(coldTemperature), coldTemperature, PinchLocation.WarmEnd);
        }

        ref readonly Piece piece = ref pieces[PieceAt(coldTemperature)];
        double least = piece.LeastAbove;
        double at = piece.LeastAboveTemperature;
        if (piece.Difference.TryInnerMinimum(out double t, out double value) && t > coldTemperature && value < least)
        {
            least = value;
            at = t;
        }

        double here = EnthalpyDifference(coldTemperature);
        if (here < least)
        {
            least = here;
            at = coldTemperature;
        }

        PinchLocation location = at >= WarmEndTemperature ? PinchLocation.WarmEnd
            : at <= coldTemperature ? PinchLocation.ColdEnd
            : PinchLocation.Inside;
        return new CycleCapacity(least, at, location);
    }

    /// <summary>The greatest cooling at each of several cold temperatures.</summary>
    public CycleCapacity[] GreatestCooling(ReadOnlySpan<double> coldTemperatures)
    {
        CycleCapacity[] result = new CycleCapacity[coldTemperatures.Length];
        for (int i = 0; i < result.Length; i++)
        {
            result[i] = GreatestCooling(coldTemperatures[i]);
        }

        return result;
    }

    /// <summary>
    /// Lowest cold temperature at which the greatest cooling still covers a leak; null when it does not even at the warm end.
    /// </summary>
    /// <param name="leakPerMole">Heat leak into the cold part, J a mole circulated; 0 for the ideal no-load temperature.</param>
    public ColdLimit? LowestTemperature(double leakPerMole)
    {
        if (!double.IsFinite(leakPerMole))
        {
            throw new ArgumentOutOfRangeException(nameof(leakPerMole), leakPerMole, $"leakPerMole is {leakPerMole} J/mol; it must be finite.");
        }

        if (!(EnthalpyDifference(WarmEndTemperature) >= leakPerMole))
        {
            return null;
        }

        if (!(warmEndDifference >= leakPerMole))
        {
            return new ColdLimit(WarmEndTemperature, false);
        }

        for (int i = 0; i < pieces.Length; i++)
        {
            ref readonly Piece piece = ref pieces[i];
            if (TryCrossing(in piece, leakPerMole, out double crossing))
            {
                return new ColdLimit(crossing, false);
            }

            bool last = i + 1 == pieces.Length;
            if (!last && piece.Difference.LeastAtStart < leakPerMole)
            {
                return new ColdLimit(piece.Difference.Start, false);
            }
        }

        return new ColdLimit(LowestTemperatureCovered, true);
    }

    /// <summary>
    /// Cooling at a cold temperature with a recuperator of finite conductance, W. Negative when the recuperator is too
    /// small to bring the high-pressure stream down to where expansion cools below the cold temperature.
    /// </summary>
    /// <param name="coldTemperature">K.</param>
    /// <param name="flow">Circulated flow, mol/s.</param>
    /// <param name="conductance">Conductance, W/K; may be infinite.</param>
    public double Cooling(double coldTemperature, double flow, double conductance)
    {
        CounterFlowKernel recuperator = Recuperator(coldTemperature, flow);
        return (flow * (low.Enthalpy(coldTemperature) - highInletEnthalpy)) + recuperator.Duty(conductance);
    }

    /// <summary>The recuperator of the cycle at a cold temperature (K) and a flow (mol/s).</summary>
    public CounterFlowKernel Recuperator(double coldTemperature, double flow)
    {
        Guard.InRange(coldTemperature, LowestTemperatureCovered, WarmEndTemperature, "K");
        return CounterFlowKernel.FromInletTemperatures(high, flow, WarmEndTemperature, low, flow, coldTemperature);
    }

    /// <summary>
    /// Conductance needed for a cooling at a cold temperature, W/K. False when no conductance suffices: the cooling is
    /// at or above the limit (<paramref name="conductance"/> is then infinite). Zero when no recuperator is needed.
    /// </summary>
    public bool TryConductance(double coldTemperature, double flow, double cooling, out double conductance)
    {
        if (!double.IsFinite(cooling))
        {
            throw new ArgumentOutOfRangeException(nameof(cooling), cooling, $"cooling is {cooling} W; it must be finite.");
        }

        CounterFlowKernel recuperator = Recuperator(coldTemperature, flow);
        double duty = cooling + (flow * (highInletEnthalpy - low.Enthalpy(coldTemperature)));
        if (duty <= 0)
        {
            conductance = 0;
            return true;
        }

        conductance = recuperator.Conductance(duty);
        return double.IsFinite(conductance);
    }

    /// <summary>
    /// Lowest cold temperature at which a recuperator of finite conductance still covers a leak; null when it does not
    /// even at the warm end.
    /// </summary>
    /// <remarks>
    /// Leak and flow fix the outlet enthalpy of the low-pressure stream, h_high(Tw) + leak/flow; walking down from this
    /// known warm end until the conductance is used up gives the cold inlet without iteration. The result is unique:
    /// with a colder cold inlet and the same conductance the outlet would be colder too (were it not, the difference of
    /// the streams would be larger at the warm end and so everywhere, the hot stream would leave colder and the cold one
    /// would have entered warmer: a contradiction).
    /// </remarks>
    /// <param name="flow">Circulated flow, mol/s.</param>
    /// <param name="conductance">Conductance, W/K; may be infinite.</param>
    /// <param name="leak">Heat leak into the cold part, W.</param>
    public ColdLimit? LowestTemperature(double flow, double conductance, double leak)
    {
        Guard.Positive(flow, "mol/s");
        if (!(conductance >= 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(conductance), conductance, $"conductance is {conductance:G9} W/K; it must not be negative.");
        }

        ColdLimit? ideal = LowestTemperature(leak / flow);
        if (ideal is not { } limit || double.IsPositiveInfinity(conductance))
        {
            return ideal;
        }

        double lowOutlet = Math.Min(highInletEnthalpy + (leak / flow), low.MaxEnthalpy);
        if (lowOutlet <= low.MinEnthalpy)
        {
            return new ColdLimit(LowestTemperatureCovered, true);
        }

        double room = Math.Min(highInletEnthalpy - high.Enthalpy(limit.Temperature), lowOutlet - low.MinEnthalpy);
        if (conductance == 0 || room <= 0)
        {
            return new ColdLimit(Math.Max(low.TemperatureAtEnthalpy(lowOutlet), limit.Temperature), false);
        }

        ConductanceWalk walk = new(high, flow, highInletEnthalpy, low, flow, lowOutlet);
        if (!walk.Run(flow * room, conductance))
        {
            return limit;
        }

        double coldInlet = Math.Max(lowOutlet - (walk.Duty / flow), low.MinEnthalpy);
        return new ColdLimit(Math.Max(low.TemperatureAtEnthalpy(coldInlet), limit.Temperature), false);
    }

    /// <summary>The facts behind the pinch at a cold temperature.</summary>
    public PinchFacts Explain(double coldTemperature)
    {
        CycleCapacity capacity = GreatestCooling(coldTemperature);
        double pinch = capacity.PinchTemperature;
        bool hasBelow = pinch > LowestTemperatureCovered && pinch > coldTemperature;
        bool hasAbove = pinch < WarmEndTemperature;
        double colderWarmEnd = WarmEndTemperature - PinchFacts.WarmEndStep;
        double? gain = null;
        if (colderWarmEnd >= coldTemperature)
        {
            gain = new CycleLimitKernel(low, high, colderWarmEnd).GreatestCooling(coldTemperature).Cooling - capacity.Cooling;
        }

        double? highDew = PhaseBoundary.Dew(high);
        PhaseRegion? lowBelow = hasBelow ? low.RegionBelow(pinch) : null;
        PhaseRegion? highBelow = hasBelow ? high.RegionBelow(pinch) : null;
        return new PinchFacts
        {
            Location = capacity.Location,
            Temperature = pinch,
            Cooling = capacity.Cooling,
            ColdTemperature = coldTemperature,
            WarmEndTemperature = WarmEndTemperature,
            LowRegionBelow = lowBelow,
            LowRegionAbove = hasAbove ? low.Region(pinch) : null,
            HighRegionBelow = highBelow,
            HighRegionAbove = hasAbove ? high.Region(pinch) : null,
            CapacityRatioBelow = hasBelow ? Ratio(low.HeatCapacityBelow(pinch), high.HeatCapacityBelow(pinch)) : null,
            CapacityRatioAbove = hasAbove ? Ratio(low.HeatCapacity(pinch), high.HeatCapacity(pinch)) : null,
            NearestLowBoundary = PhaseBoundary.Nearest(low, pinch),
            NearestHighBoundary = PhaseBoundary.Nearest(high, pinch),
            HighDewPoint = highDew,
            LowBubblePoint = PhaseBoundary.Bubble(low),
            HighGasAtWarmEnd = high.RegionBelow(WarmEndTemperature) is PhaseRegion.Vapor,
            GainFromColderWarmEnd = gain,
        };
    }

    private static double? Ratio(double lowCapacity, double highCapacity)
        => double.IsFinite(lowCapacity) && double.IsFinite(highCapacity) ? lowCapacity / highCapacity : null;

    /// <summary>The highest temperature in a piece at which the difference falls below the leak.</summary>
    private static bool TryCrossing(in Piece piece, double leak, out double crossing)
    {
        DifferencePiece difference = piece.Difference;
        difference.StationaryPoints(out double first, out double last);

        // Downwards over the monotone stretches of the cubic; its upper end is at or above the leak.
        double upper = difference.End;
        for (int k = 0; k < 3; k++)
        {
            double lower = k == 0 ? last : k == 1 ? first : difference.Start;
            if (double.IsNaN(lower) || lower >= upper)
            {
                continue;
            }

            if (difference.Value(lower) < leak)
            {
                crossing = Root(in difference, leak, lower, upper);
                return true;
            }

            upper = lower;
        }

        crossing = double.NaN;
        return false;
    }

    /// <summary>Newton within a bracket; the value is below the leak at the lower end and not below it at the upper.</summary>
    private static double Root(in DifferencePiece difference, double leak, double lower, double upper)
    {
        double t = 0.5 * (lower + upper);
        for (int iteration = 0; iteration < 100; iteration++)
        {
            double f = difference.Value(t) - leak;
            if (f >= 0)
            {
                upper = t;
            }
            else
            {
                lower = t;
            }

            double next = t - (f / difference.Slope(t));
            next = next > lower && next < upper ? next : 0.5 * (lower + upper);
            if (Math.Abs(next - t) <= 1e-15 * t || upper - lower <= 1e-15 * t)
            {
                return next;
            }

            t = next;
        }

        return upper;
    }

    /// <summary>Index of the piece with Start &lt;= t &lt; End; pieces run downwards.</summary>
    private int PieceAt(double t)
    {
        int first = 0;
        int last = pieces.Length - 1;
        while (first < last)
        {
            int middle = (first + last) / 2;
            if (pieces[middle].Difference.Start <= t)
            {
                last = middle;
            }
            else
            {
                first = middle + 1;
            }
        }

        return first;
    }

    /// <summary>One cubic piece of the difference, with the least difference found above it.</summary>
    private readonly record struct Piece(DifferencePiece Difference, double LeastAbove, double LeastAboveTemperature);
}
