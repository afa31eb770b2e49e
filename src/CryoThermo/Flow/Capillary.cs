using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// A capillary of one or several bores in series, adiabatic or with a stream alongside: gas, subcooled liquid or two phases at the inlet, any blend. Homogeneous equilibrium
/// flow, choked where the velocity reaches the equilibrium speed of sound. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// No measured points of blends like those of a throttle cooler are at hand: see docs/concepts/capillary.md for what it was compared with. Bore
/// tolerance counts most: the flow goes about with the 2.5th power of the bore. The numerics are exact within 1e-5 of the flow, with a
/// stream alongside within 0.1 % of the heat.
/// </remarks>
public sealed class Capillary : IThrottlePart
{
    private const double LeastPressure = 1e3;
    private const double LeastRatio = 1.0001;
    private const double LowestShare = 0.02;
    private const double FlowTolerance = 1e-9;
    private const double LeastLength = 1e-3;
    private const double MostLength = 100;
    private const double LeastBore = 5e-5;
    private const double MostBore = 0.02;

    // How far the line of a stretch reaches beyond its course, as shares of the pressures there, and how far below the outlet pressure before a widening.
    private const double BelowEnd = 0.75;
    private const double AboveStart = 1.5;
    private const double Recovery = 0.4;
    private const double LeastRecovering = 100;

    // Largest jump at a phase boundary that an answer may have, relative, for as many rounds; then it is taken as it is.
    private const double MostJump = 1e-3;
    private const int RoundsForJump = 10;

    // Rounds in a row that end where the model does, until that is the answer.
    private const int MostStopped = 4;
    private const int MostRounds = 60;

    // Heat alongside: nodes of the line (J/kg), share of the heat within which it is settled, most change in a round (J/kg).
    private const double LeastEnthalpyStep = 100;
    private const double HeatedPieces = 40;
    private const double HeatTolerance = 1e-3;
    private const double MostHeatOfRound = 2e4;
    private const double RoundTolerance = 5e-4;
    private const double EndTolerance = 1e-6;

    // Near a choke the flow hardly feels where it is.
    private const double EndWeight = 0.1;

    /// <summary>Describes a capillary of one bore.</summary>
    /// <param name="bore">Inner diameter, 0.05 to 20 mm.</param>
    /// <param name="length">Length, 1 mm to 100 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public Capillary(Length bore, Length length)
        : this([new(bore, length)])
    {
    }

    /// <summary>Describes a capillary.</summary>
    /// <param name="sections">Its stretches in the order of flow, 1 to 10.</param>
    /// <param name="entranceLoss">Velocity heads lost at the inlet, 0 to 5; 0.5 for a square edge (from memory).</param>
    /// <param name="twoPhaseViscosity">Rule for the viscosity of two phases.</param>
    /// <param name="exchange">A stream alongside; null for an adiabatic capillary.</param>
    /// <exception cref="ArgumentException">There is no stretch, or more than 10.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The entrance loss is out of its range, or the rule is none of the three.</exception>
    public Capillary(IReadOnlyList<CapillarySection> sections, double entranceLoss = 0.5, TwoPhaseViscosity twoPhaseViscosity = TwoPhaseViscosity.McAdams, CapillaryExchange? exchange = null)
    {
        ArgumentNullException.ThrowIfNull(sections);
        if (sections.Count is < 1 or > 10 || sections.Any(s => s is null))
        {
            throw new ArgumentException($"sections holds {sections.Count} stretches; allowed is 1 to 10, none of them null.", nameof(sections));
        }

        Sections = [.. sections];
        EntranceLoss = Guard.InRange(entranceLoss, 0, 5, "velocity heads");
        TwoPhaseViscosity = Enum.IsDefined(twoPhaseViscosity)
            ? twoPhaseViscosity
            : throw new ArgumentOutOfRangeException(nameof(twoPhaseViscosity), twoPhaseViscosity, $"twoPhaseViscosity is {(int)twoPhaseViscosity}; allowed are {string.Join(", ", Enum.GetNames<TwoPhaseViscosity>())}.");
        Exchange = exchange;
    }

    /// <summary>The stretches in the order of flow.</summary>
    public IReadOnlyList<CapillarySection> Sections { get; }

    /// <summary>Velocity heads lost at the inlet.</summary>
    public double EntranceLoss { get; }

    /// <summary>Rule for the viscosity of two phases.</summary>
    public TwoPhaseViscosity TwoPhaseViscosity { get; }

    /// <summary>A stream alongside; null for an adiabatic capillary.</summary>
    public CapillaryExchange? Exchange { get; }

    /// <summary>Length of all stretches.</summary>
    public Length Length => Length.FromMeters(Sections.Sum(s => s.Length.Meters));

    /// <summary>The flow between two pressures.</summary>
    /// <param name="inlet">The fluid at rest before the capillary.</param>
    /// <param name="outletPressure">Absolute pressure behind it, 0.01 bar at least, below that of the inlet.</param>
    /// <exception cref="ArgumentOutOfRangeException">The outlet pressure is out of its range, or states on the way are out of the range of the model.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public CapillaryFlow FlowTo(State inlet, Pressure outletPressure)
    {
        double back = OutletOf(inlet, outletPressure);
        return Solve(inlet, back, (lines, heat, last) =>
        {
            CapillaryLine stream = StreamOf(inlet, back, lines, Sections, heat);
            double flow = stream.Solve(last ?? Guess(inlet, back), out CapillaryLine.Reach reach) ?? throw Refused(inlet, back, "no flow passes", reach);
            return new(this, flow, stream, reach, back, flow);
        });
    }

    IThrottleFlow IThrottlePart.FlowTo(State inlet, Pressure outletPressure) => FlowTo(inlet, outletPressure);

    /// <summary>The pressure at the end of the capillary when a given flow passes it.</summary>
    /// <param name="inlet">The fluid at rest before the capillary.</param>
    /// <param name="flow">Mass flow.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is not above zero, or more than passes with any outlet pressure.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public CapillaryFlow OutletPressureFor(State inlet, MassFlow flow)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        double wanted = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        double lowest = Math.Max(LeastPressure, LowestShare * inlet.Pressure.Pascals);
        return Solve(inlet, lowest, (lines, heat, _) =>
        {
            CapillaryLine stream = StreamOf(inlet, lowest, lines, Sections, heat);
            CapillaryLine.Reach reach = stream.Try(wanted);
            if (reach.Excess < 0)
            {
                double most = stream.Solve(wanted, out CapillaryLine.Reach _) ?? 0;
                throw new ArgumentOutOfRangeException(
                    nameof(flow),
                    wanted,
                    $"flow is {wanted * 1e3:G6} g/s; at most {most * 1e3:G6} g/s pass from {inlet.Pressure.Bars:G6} bar and {inlet.Temperature.Kelvins:G6} K down to {lowest / 1e5:G4} bar.");
            }

            double end = stream.Course(wanted, reach)[^1][^1].Pressure;
            return new(this, wanted, stream, reach with { End = TubeEnd.Length }, end, end);
        });
    }

    /// <summary>The inlet pressure at which a given flow passes.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="inletTemperature">Temperature of the fluid at rest before the capillary.</param>
    /// <param name="outletPressure">Absolute pressure behind it, 0.01 bar at least.</param>
    /// <param name="flow">Mass flow.</param>
    /// <param name="greatest">Highest inlet pressure looked at, absolute.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the greatest pressure passes less.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public CapillaryFlow InletPressureFor(WorkingFluid fluid, Temperature inletTemperature, Pressure outletPressure, MassFlow flow, Pressure greatest)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        double wanted = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        double back = Guard.InRange(outletPressure.Pascals, LeastPressure, 1e8, "Pa", nameof(outletPressure));
        double top = Guard.InRange(greatest.Pascals, back * 1.01, 1e8, "Pa", nameof(greatest));
        CapillaryFlow found = At(top);
        double most = found.MassFlow.KilogramsPerSecond;
        if (most < wanted)
        {
            throw new ArgumentOutOfRangeException(
                nameof(flow), wanted, $"flow is {wanted * 1e3:G6} g/s; from {top / 1e5:G6} bar, the greatest pressure allowed, {most * 1e3:G6} g/s pass.");
        }

        // The flow rises with the inlet pressure, from nothing at the outlet pressure; its square is straighter.
        BracketedRoot.Narrow(Miss, back, -1, top, Square(most / wanted) - 1, (low, high) => high - low <= 1e-10 * high);
        return found;

        double Miss(double p)
        {
            found = At(p);
            double miss = Square(found.MassFlow.KilogramsPerSecond / wanted) - 1;
            return Math.Abs(miss) < FlowTolerance ? 0 : miss;
        }

        CapillaryFlow At(double p) => FlowTo(fluid.At(inletTemperature, Pressure.FromPascals(p)), outletPressure);
    }

    /// <summary>The capillary whose last stretch has the length at which a given flow passes; the earlier stretches stay.</summary>
    /// <param name="inlet">The fluid at rest before the capillary.</param>
    /// <param name="outletPressure">Absolute pressure behind it, 0.01 bar at least, below that of the inlet.</param>
    /// <param name="flow">Mass flow.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the length would be outside 1 mm to 100 m.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public CapillaryFlow LengthFor(State inlet, Pressure outletPressure, MassFlow flow)
    {
        double back = OutletOf(inlet, outletPressure);
        double wanted = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        CapillarySection last = Sections[^1];
        double others = Length.Meters - last.Length.Meters;
        return Solve(inlet, back, (lines, heat, _) =>
        {
            CapillaryLine.Reach reach = StreamOf(inlet, back, lines, Sections, heat).Try(wanted);
            double length = (Math.Exp(reach.Excess) * Length.Meters) - others;
            if (reach.Section < Sections.Count - 1 || !(length >= LeastLength && length <= MostLength))
            {
                throw new ArgumentOutOfRangeException(
                    nameof(flow),
                    wanted,
                    $"flow is {wanted * 1e3:G6} g/s; with a bore of {last.Bore.Millimeters:G4} mm it needs a length outside {LeastLength * 1e3} mm to {MostLength} m: take {(reach.Section < Sections.Count - 1 || length < LeastLength ? "a wider" : "a narrower")} bore.");
            }

            Capillary sized = new([.. Sections.SkipLast(1), new(last.Bore, Length.FromMeters(length), last.Roughness)], EntranceLoss, TwoPhaseViscosity, Exchange);
            return new(sized, wanted, StreamOf(inlet, back, lines, sized.Sections, heat), reach, back, length);
        });
    }

    /// <summary>The capillary whose stretches all have the bore at which a given flow passes; lengths and roughness stay.</summary>
    /// <param name="inlet">The fluid at rest before the capillary.</param>
    /// <param name="outletPressure">Absolute pressure behind it, 0.01 bar at least, below that of the inlet.</param>
    /// <param name="flow">Mass flow.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the bore would be outside 0.05 to 20 mm.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public CapillaryFlow BoreFor(State inlet, Pressure outletPressure, MassFlow flow)
    {
        double back = OutletOf(inlet, outletPressure);
        double wanted = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        return Solve(inlet, back, (lines, heat, last) =>
        {
            double low = last * 0.98 ?? LeastBore;
            double high = last * 1.02 ?? MostBore;
            low = Passes(low) ? LeastBore : low;
            high = Passes(high) ? high : MostBore;
            if (Passes(low) || !Passes(high))
            {
                throw new ArgumentOutOfRangeException(
                    nameof(flow), wanted, $"flow is {wanted * 1e3:G6} g/s; {Length.Meters:G4} m would need a bore outside {LeastBore * 1e3} to {MostBore * 1e3} mm.");
            }

            while (high - low > 1e-13 * high)
            {
                double middle = Math.Sqrt(low * high);
                if (middle <= low || middle >= high)
                {
                    break;
                }

                (low, high) = Passes(middle) ? (low, middle) : (middle, high);
            }

            Capillary sized = WithBore(high);
            CapillaryLine stream = StreamOf(inlet, back, lines, sized.Sections, heat);
            return new(sized, wanted, stream, StreamOf(inlet, back, lines, WithBore(low).Sections, heat).Try(wanted), back, high);

            bool Passes(double bore) => StreamOf(inlet, back, lines, WithBore(bore).Sections, heat).Try(wanted).Excess >= 0;
        });
    }

    internal Capillary WithBore(double bore) =>
        new([.. Sections.Select(s => new CapillarySection(Length.FromMeters(bore), s.Length, Length.FromMeters(Math.Min(s.Roughness.Meters, bore / 20))))], EntranceLoss, TwoPhaseViscosity, Exchange);

    /// <summary>An answer on one line of states.</summary>
    private sealed record Round(Capillary Capillary, double Flow, CapillaryLine Stream, CapillaryLine.Reach Reach, double Back, double Key);

    // The states are taken at the enthalpy the stream had in the last round, so that what a round corrects to first order shrinks: what is left
    // after a round is about a thousandth of what it changed. The heat from a stream alongside settles more slowly.
    private CapillaryFlow Solve(State inlet, double lowest, Func<StateLine[], TubeHeat[]?, double?, Round> solve)
    {
        if (Exchange is null)
        {
            return SolveRounds(inlet, lowest, solve);
        }

        try
        {
            return SolveRounds(inlet, lowest, solve);
        }
        catch (Exception e) when (e is ConvergenceException || (e is ArgumentOutOfRangeException { ParamName: not "flow" }))
        {
            throw new ConvergenceException(
                "Flow through a capillary with a stream alongside",
                $"{inlet}, lowest {lowest:G9} Pa, {Exchange.ConductanceWattsPerMeterKelvin:G6} W/(m K): {e.Message}",
                double.NaN,
                "Where a stream condenses wholly or turns much colder alongside, take the stretch in contact as a recuperator and the rest as an adiabatic capillary.");
        }
    }

    private CapillaryFlow SolveRounds(State inlet, double back, Func<StateLine[], TubeHeat[]?, double?, Round> solve)
    {
        int count = Sections.Count;
        Func<PhaseResult, double, double> viscosity = PhaseViscosity.Of(inlet.Fluid);

        // Behind a widening the pressure recovers: before it, it may be below that at the end.
        double lowest = Sections.Zip(Sections.Skip(1)).Any(x => x.Second.Diameter > x.First.Diameter) ? Recovery * back : back;
        StateLine first = StateLine.Falling(inlet.Fluid, viscosity, TwoPhaseViscosity, inlet.Result, lowest);
        StateLine[] lines = [.. Enumerable.Repeat(first, count)];
        Round round = solve(lines, null, null);
        List<TubePoint>[] courses = round.Stream.Course(round.Flow, round.Reach);
        ExchangeWalk? walk = Exchange is null ? null : new(Exchange, courses[^1][^1].Temperature, inlet.Temperature.Kelvins);
        double[]? takenUp = null;
        TubeHeat[]? heat = null;
        double change = double.PositiveInfinity;
        double further = BelowEnd;
        int stopped = 0;
        for (int i = 1; ; i++)
        {
            if (i == MostRounds)
            {
                throw new ConvergenceException("Flow through a capillary", $"{inlet}, outlet {back:G9} Pa", change, "Report this case; a neighbouring pressure will work.");
            }

            double settled = RoundTolerance;
            if (walk is not null)
            {
                double[] wanted = walk.TakenUp(courses, round.Capillary.Sections, heat, round.Flow);
                takenUp ??= new double[wanted.Length];
                double most = wanted.Max(Math.Abs);
                double miss = wanted.Zip(takenUp).Max(x => Math.Abs(x.First - x.Second));
                settled = miss <= HeatTolerance * most ? RoundTolerance : 0;

                // What a round corrects to first order must stay small.
                double share = Math.Min(1, MostHeatOfRound / miss);
                takenUp = [.. wanted.Zip(takenUp, (x, old) => miss > 0 ? old + (share * (x - old)) : x)];
                heat = Shares(takenUp, round.Capillary.Sections);
            }

            double mostStep = takenUp is null ? double.PositiveInfinity : Math.Max(LeastEnthalpyStep, takenUp.Max(Math.Abs) / HeatedPieces);

            // Each stretch has its own line, longer than its course: behind a widening a pressure comes again at another enthalpy.
            StateLine[] last = lines;
            lines = [.. courses.Select((course, k) => LineOf(inlet, viscosity, courses, k, last[k], Math.Max(lowest, further * course[^1].Pressure), mostStep))];
            double before = round.Key;
            double end = courses[^1][^1].Pressure;
            round = solve(lines, heat, before);
            courses = round.Stream.Course(round.Flow, round.Reach);
            change = Math.Max(Math.Abs(round.Key - before) / round.Key, EndWeight * Math.Abs((courses[^1][^1].Pressure / end) - 1));
            bool isInside = round.Reach.Section < count - 1;
            bool isCutShort = round.Reach.End == TubeEnd.Pressure && lines[round.Reach.Section] is { Obstacle: null } line
                && (isInside || line.Nodes[^1].Pressure > back * LeastRatio);
            if (isCutShort)
            {
                further *= further;
                lowest = isInside ? lowest * Recovery : lowest;
                if (lowest < LeastRecovering)
                {
                    throw new ArgumentOutOfRangeException(
                        nameof(inlet), $"From {inlet} the pressure falls below {LeastRecovering / 1e5:G3} bar in stretch {round.Reach.Section + 1} and recovers behind: the states are out of the range.");
                }
            }

            stopped = round.Reach.End == TubeEnd.Pressure && lines[round.Reach.Section].Obstacle is not null ? stopped + 1 : 0;
            bool isJoined = round.Stream.BoundaryJump < MostJump || i > RoundsForJump;
            if ((change <= settled && !isCutShort && isJoined) || stopped == MostStopped)
            {
                break;
            }
        }

        if (round.Reach.End == TubeEnd.Pressure && lines[round.Reach.Section].Obstacle is { } obstacle)
        {
            throw new ArgumentOutOfRangeException(nameof(inlet), $"From {inlet} the stream leaves the range of the model before it chokes or comes to the outlet pressure: {obstacle}");
        }

        // A flow a trifle larger comes to the outlet pressure well before the end: its pressure rises again where a stream alongside condenses it.
        if (round.Reach.End == TubeEnd.Pressure && Math.Abs((courses[^1][^1].Pressure / round.Back) - 1) > EndTolerance)
        {
            throw new ConvergenceException(
                "Flow through a capillary",
                $"{inlet}, outlet {back:G9} Pa: the pressure falls below that and rises again",
                (courses[^1][^1].Pressure / round.Back) - 1,
                "Report this case; a neighbouring pressure will work.");
        }

        return new(round.Capillary, inlet, round.Back, round.Flow, courses, round.Reach.End == TubeEnd.Choked ? round.Reach.Section : null, walk?.StreamOutlet());
    }

    private StateLine LineOf(State inlet, Func<PhaseResult, double, double> viscosity, List<TubePoint>[] courses, int section, StateLine last, double lowest, double mostStep)
    {
        List<TubePoint> course = courses[section];
        double[] pressures = [.. course.Select(p => p.Pressure)];
        double[] enthalpies = [.. course.Select(p => p.Enthalpy)];
        if (section == 0)
        {
            pressures = [inlet.Pressure.Pascals, .. pressures];
            enthalpies = [inlet.SpecificEnthalpy.JoulesPerKilogram, .. enthalpies];
        }

        EquilibriumResult top = inlet.Result;
        if (section > 0)
        {
            // Less flow begins it higher, and where the stretch before chokes much less does.
            double p = Math.Min(AboveStart * Math.Max(pressures[0], courses[section - 1][^1].Pressure), inlet.Pressure.Pascals);
            double molarMass = inlet.Fluid.Composition.MolarMass.KilogramsPerMole;
            top = CaloricFlash.Solve(
                inlet.Fluid.Kernel, CaloricVariable.Enthalpy, p, enthalpies[0] * molarMass, inlet.Fluid.Composition.Fractions, last.Nodes[last.PieceOf(p)].Temperature);
        }

        return StateLine.Falling(inlet.Fluid, viscosity, TwoPhaseViscosity, top, Math.Min(lowest, 0.99 * top.Pressure), p => Between(pressures, enthalpies, p), last, mostStep);
    }

    private static TubeHeat[] Shares(double[] takenUp, IReadOnlyList<CapillarySection> sections)
    {
        TubeHeat whole = new(takenUp, sections.Sum(s => s.Length.Meters));
        TubeHeat[] shares = new TubeHeat[sections.Count];
        double before = 0;
        for (int i = 0; i < shares.Length; i++)
        {
            double length = sections[i].Length.Meters;
            double start = before;
            shares[i] = new([.. Enumerable.Range(0, takenUp.Length).Select(k => whole.At(start + (length * k / (takenUp.Length - 1))) - whole.At(start))], length);
            before += length;
        }

        return shares;
    }

    // Pressures fall; beyond the last the enthalpy goes on as it went.
    private static double Between(double[] pressures, double[] values, double p)
    {
        int i = Array.BinarySearch(pressures, p, Comparer<double>.Create((a, b) => b.CompareTo(a)));
        i = i >= 0 ? i : ~i;
        if (i == 0)
        {
            return values[0];
        }

        int k = i - 1;
        if (i == pressures.Length)
        {
            i--;
            k = i - 1;
            while (k > 0 && pressures[k] < 1.005 * pressures[i])
            {
                k--;
            }
        }

        return k < 0 || pressures[k] == pressures[i] ? values[i] : values[i] + ((values[i] - values[k]) * (p - pressures[i]) / (pressures[i] - pressures[k]));
    }

    private CapillaryLine StreamOf(State inlet, double back, StateLine[] lines, IReadOnlyList<CapillarySection> sections, TubeHeat[]? heat) =>
        new(lines, inlet.Pressure.Pascals, inlet.SpecificEnthalpy.JoulesPerKilogram, back, sections, EntranceLoss, heat);

    private double Guess(State inlet, double back)
    {
        // Turbulent flow of constant density.
        CapillarySection narrow = Sections.MinBy(s => s.Diameter)!;
        double density = inlet.Density.KilogramsPerCubicMeter;
        const double Friction = 0.03;
        return 0.5 * narrow.Area * Math.Sqrt(2 * density * (inlet.Pressure.Pascals - back) / (1.5 + (Friction * narrow.Length.Meters / narrow.Diameter)));
    }

    private static double OutletOf(State inlet, Pressure outletPressure)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        double inletPascals = inlet.Pressure.Pascals;
        if (inletPascals < LeastPressure * LeastRatio * LeastRatio)
        {
            throw new ArgumentOutOfRangeException(nameof(inlet), $"inlet is at {inletPascals / 1e5:G6} bar; above 0.01 bar is needed.");
        }

        return Guard.InRange(outletPressure.Pascals, LeastPressure, inletPascals / LeastRatio, "Pa", nameof(outletPressure));
    }

    private static ConvergenceException Refused(State inlet, double back, string what, CapillaryLine.Reach reach) => new(
        "Flow through a capillary", $"{inlet}, outlet {back:G9} Pa: {what}", reach.Excess, "Report this case; a neighbouring pressure will work.");

    private static double Square(double x) => x * x;
}
