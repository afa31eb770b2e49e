using CryoThermo.Equilibrium;

namespace CryoThermo.Flow;

/// <summary>
/// States of a fluid along a given course of pressure and enthalpy: nodes so close that cubic pieces through values and slopes hold between them,
/// with a pair of nodes at every phase boundary. The places along the course rise from its start, for example by the fall of ln p.
/// </summary>
internal sealed class StateLine
{
    private const double MostStep = 0.08;
    private const double LeastStep = 1e-3;
    private const double LeastHeatedStep = 1e-5;

    // How far the volume may leave the trapezium of its slopes within a step; the cubic piece is then better by two orders.
    private const double TrapeziumTolerance = 1e-3;

    // A state moved by less than this, K, from one of the last line has hardly moved.
    private const double SmallShift = 0.3;
    private const double BoundaryWidth = 1e-6;
    private const int BoundarySteps = 60;

    public StateLine(IReadOnlyList<StateNode> nodes, string? obstacle = null)
    {
        Nodes = nodes;
        Obstacle = obstacle;
    }

    /// <summary>The nodes in the order of their places.</summary>
    public IReadOnlyList<StateNode> Nodes { get; }

    /// <summary>Why the line ends before the place asked for; null where it does not.</summary>
    public string? Obstacle { get; }

    /// <summary>Builds a line on which the pressure falls; places are -ln p.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="viscosity">Viscosity of a phase, Pa s.</param>
    /// <param name="rule">For two phases.</param>
    /// <param name="inlet">The state at the upper end.</param>
    /// <param name="lowest">Lower end, Pa.</param>
    /// <param name="enthalpyAt">Course of the enthalpy, J/kg over Pa; null for that of the inlet throughout.</param>
    /// <param name="last">A line near to this one, whose states are starts; null for none.</param>
    /// <param name="mostEnthalpyStep">Most change of enthalpy from node to node, J/kg: heat changes a stream whose pressure hardly falls.</param>
    public static StateLine Falling(
        WorkingFluid fluid,
        Func<PhaseResult, double, double> viscosity,
        TwoPhaseViscosity rule,
        EquilibriumResult inlet,
        double lowest,
        Func<double, double>? enthalpyAt = null,
        StateLine? last = null,
        double mostEnthalpyStep = double.PositiveInfinity)
    {
        double resting = inlet.Totals.Enthalpy / fluid.Composition.MolarMass.KilogramsPerMole;
        double end = -Math.Log(lowest);
        return new Builder(fluid, viscosity, rule, Course, last, double.PositiveInfinity).Build(inlet, -Math.Log(inlet.Pressure), end, mostEnthalpyStep);

        (double Pressure, double Enthalpy) Course(double place)
        {
            double p = place >= end ? lowest : Math.Exp(-place);
            return (p, enthalpyAt?.Invoke(p) ?? resting);
        }
    }

    /// <summary>Builds a line along any course.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="viscosity">Viscosity of a phase, Pa s.</param>
    /// <param name="inlet">The state at place 0.</param>
    /// <param name="course">Pa and J/kg over the place; a stretch of 2 takes 25 nodes at least and 2 000 at most.</param>
    /// <param name="end">Last place.</param>
    /// <param name="temperatureTolerance">How far the temperature may leave the trapezium of its slopes within a step, K.</param>
    /// <param name="last">A line near to this one, whose states are starts; null for none.</param>
    public static StateLine Along(
        WorkingFluid fluid,
        Func<PhaseResult, double, double> viscosity,
        EquilibriumResult inlet,
        Func<double, (double Pressure, double Enthalpy)> course,
        double end,
        double temperatureTolerance,
        StateLine? last = null) =>
        new Builder(fluid, viscosity, TwoPhaseViscosity.McAdams, course, last, temperatureTolerance).Build(inlet, 0, end, double.PositiveInfinity);

    /// <summary>Index of the piece that holds a pressure, where it falls along the line.</summary>
    public int PieceOf(double pressure) => FirstPiece(middle => Nodes[middle + 1].Pressure <= pressure);

    /// <summary>Index of the piece that holds a place.</summary>
    public int PieceAt(double place) => FirstPiece(middle => Nodes[middle + 1].Place >= place);

    private int FirstPiece(Func<int, bool> reaches)
    {
        int low = 0;
        int high = Nodes.Count - 2;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (reaches(middle))
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }

    private sealed class Builder
    {
        private readonly WorkingFluid fluid;
        private readonly double[] z;
        private readonly double molarMass;
        private readonly Func<PhaseResult, double, double> viscosity;
        private readonly TwoPhaseViscosity rule;
        private readonly Func<double, (double Pressure, double Enthalpy)> course;
        private readonly double temperatureTolerance;
        private readonly StateLine? last;
        private readonly CaloricWalk walk;
        private readonly List<StateNode> nodes = [];

        public Builder(
            WorkingFluid fluid,
            Func<PhaseResult, double, double> viscosity,
            TwoPhaseViscosity rule,
            Func<double, (double Pressure, double Enthalpy)> course,
            StateLine? last,
            double temperatureTolerance)
        {
            this.fluid = fluid;
            this.viscosity = viscosity;
            this.rule = rule;
            this.course = course;
            this.last = last;
            this.temperatureTolerance = temperatureTolerance;
            z = [.. fluid.Composition.Fractions];
            molarMass = fluid.Composition.MolarMass.KilogramsPerMole;
            walk = new(fluid.Kernel, z);
        }

        public StateLine Build(EquilibriumResult inlet, double start, double end, double mostEnthalpyStep)
        {
            if (inlet.StillUnstable)
            {
                throw new ArgumentOutOfRangeException(
                    nameof(inlet), FormattableString.Invariant($"The phases at {inlet.Temperature:G6} K and {inlet.Pressure / 1e5:G6} bar are not resolved; no flow is computed from there."));
            }

            nodes.Add(Node(start, inlet));
            double step = MostStep;
            double? lastBoundary = null;
            while (nodes[^1].Place < end)
            {
                StateNode from = nodes[^1];
                while (step > LeastHeatedStep && Math.Abs(course(Math.Min(end, from.Place + step)).Enthalpy - from.Enthalpy) > mostEnthalpyStep)
                {
                    step *= 0.5;
                }

                double place = from.Place + step;
                place = place > end - (0.1 * step) ? end : place;
                StateNode to;
                try
                {
                    to = At(place, from);
                }
                catch (ArgumentOutOfRangeException outside)
                {
                    // Below what the model reaches; what flows may choke before.
                    if (step > LeastStep)
                    {
                        step *= 0.5;
                        continue;
                    }

                    return Ended(inlet, outside.Message);
                }

                if (to.State!.StillUnstable)
                {
                    return Ended(inlet, FormattableString.Invariant($"at {to.Pressure / 1e5:G6} bar and {to.Temperature:G6} K there are more phases than are resolved"));
                }

                // Boundary upon boundary: the states flicker between two answers, and no place is to be found.
                if (PhasesOf(to) != PhasesOf(from) && (lastBoundary is null || from.Place > lastBoundary + LeastStep))
                {
                    (StateNode above, StateNode below) = Boundary(from, to);
                    if (above.Place > from.Place)
                    {
                        nodes.Add(above);
                    }

                    nodes.Add(below);
                    lastBoundary = below.Place;
                    continue;
                }

                double pressureStep = 0.5 * (to.Pressure - from.Pressure);
                double enthalpyStep = 0.5 * (to.Enthalpy - from.Enthalpy);
                double change = (pressureStep * (from.VolumeByPressure + to.VolumeByPressure)) + (enthalpyStep * (from.VolumeByEnthalpy + to.VolumeByEnthalpy));
                double warming = (pressureStep * (from.TemperatureByPressure + to.TemperatureByPressure)) + (enthalpyStep * (from.TemperatureByEnthalpy + to.TemperatureByEnthalpy));
                bool isCoarse = Math.Abs(to.Volume - from.Volume - change) > TrapeziumTolerance * to.Volume || Math.Abs(to.Temperature - from.Temperature - warming) > temperatureTolerance;
                if (isCoarse && step > LeastStep)
                {
                    step *= 0.5;
                    continue;
                }

                nodes.Add(to);
                step = Math.Min(MostStep, 1.5 * step);
            }

            return new(nodes);
        }

        private StateLine Ended(EquilibriumResult inlet, string obstacle) => nodes.Count > 1
            ? new(nodes, obstacle)
            : throw new ArgumentOutOfRangeException(nameof(inlet), $"No state follows that at {inlet.Temperature:G6} K and {inlet.Pressure / 1e5:G6} bar: {obstacle}");

        // Where the number of phases changes: the last node with those above, the first with those below.
        private (StateNode Above, StateNode Below) Boundary(StateNode above, StateNode below)
        {
            int upper = PhasesOf(above);
            bool hasMoreBelow = PhasesOf(below) > upper;
            StateNode? earlier = null;
            for (int i = 0; i < BoundarySteps && below.Place - above.Place > BoundaryWidth; i++)
            {
                double place = 0.5 * (above.Place + below.Place);
                StateNode more = hasMoreBelow ? below : above;
                if (earlier is not null && Least(earlier) != Least(more))
                {
                    // Where the least amount would vanish, and a little beyond by turns, so that both sides close in.
                    double vanishing = more.Place - (Least(more) * (earlier.Place - more.Place) / (Least(earlier) - Least(more)));
                    vanishing += 0.4 * BoundaryWidth * (i % 2 == 0 ? 1 : -1);
                    place = vanishing < below.Place && vanishing > above.Place ? vanishing : place;
                }

                StateNode middle = hasMoreBelow ? At(place, below, above) : At(place, above, below);
                bool isAbove = PhasesOf(middle) == upper;
                if (!isAbove && PhasesOf(middle) != PhasesOf(below))
                {
                    // A third region between: its own boundary with the upper one comes first.
                    hasMoreBelow = PhasesOf(middle) > upper;
                    earlier = null;
                    below = middle;
                    continue;
                }

                earlier = isAbove == hasMoreBelow ? earlier : more;
                (above, below) = isAbove ? (middle, below) : (above, middle);
            }

            return (above, below);

            static double Least(StateNode node) => node.State!.Phases.Min(p => p.Fraction);
        }

        private static int PhasesOf(StateNode node) => node.State!.Phases.Length;

        private StateNode At(double place, StateNode from, StateNode? beyond = null)
        {
            (double p, double h) = course(place);
            StateNode near = from;
            StationaryTrials? trials = null;
            if (last is not null)
            {
                int piece = last.PieceAt(place);
                StateNode a = last.Nodes[piece];
                StateNode b = last.Nodes[piece + 1];
                StateNode other = place - a.Place < b.Place - place ? a : b;
                near = PhasesOf(other) == PhasesOf(from) ? other : from;
                double share = (place - a.Place) / (b.Place - a.Place);
                double moved = (other.TemperatureByEnthalpy * (h - a.Enthalpy - (share * (b.Enthalpy - a.Enthalpy))))
                    + (other.TemperatureByPressure * (p - a.Pressure - (share * (b.Pressure - a.Pressure))));
                bool isWithin = place >= a.Place && place <= b.Place && PhasesOf(a) == PhasesOf(b) && PhasesOf(a) == PhasesOf(from);
                trials = isWithin && beyond is null && Math.Abs(moved) < SmallShift ? other.Trials : null;
            }

            double guess = near.Temperature + (near.TemperatureByPressure * (p - near.Pressure)) + (near.TemperatureByEnthalpy * (h - near.Enthalpy));
            if (ReferenceEquals(near, from) && nodes.Count > 1 && ReferenceEquals(nodes[^1], from) && PhasesOf(nodes[^2]) == PhasesOf(from) && from.Place > nodes[^2].Place + LeastStep)
            {
                // The slopes go on changing as they did.
                StateNode before = nodes[^2];
                double bend = ((from.TemperatureByPressure - before.TemperatureByPressure) * (p - from.Pressure))
                    + ((from.TemperatureByEnthalpy - before.TemperatureByEnthalpy) * (h - from.Enthalpy));
                guess += 0.5 * bend * (place - from.Place) / (from.Place - before.Place);
            }

            // Between two states of the last line with the same phases, and hardly moved from there, a further phase would show among its
            // stationary trials; elsewhere every start is tried.
            EquilibriumResult state = walk.At(
                p, h * molarMass, near.State!, Math.Max(guess, 0.5 * near.Temperature), beyond?.State, trials, out StationaryTrials? seen);
            return Node(place, state) with { Trials = seen };
        }

        private StateNode Node(double place, EquilibriumResult state)
        {
            EnthalpySlopes slopes = EnthalpySlopes.Of(fluid.Kernel, state, z);
            double vapor = 0;
            double viscosityOfVapor = 0;
            double viscosityOfLiquid = 0;
            double vaporVolume = 0;
            double liquid = 0;
            double liquidVolume = 0;
            foreach (PhaseResult phase in state.Phases)
            {
                double mass = phase.Fraction * fluid.Kernel.MolarMass(phase.MoleFractions) / molarMass;
                double mu = viscosity(phase, state.Temperature);
                double volume = phase.Fraction / (phase.Figures.MolarDensity * molarMass);
                if (phase.IsVapor)
                {
                    vapor += mass;
                    vaporVolume += volume;
                    viscosityOfVapor += mass * mu;
                }
                else
                {
                    // Two liquids: weighted by mass.
                    liquid += mass;
                    liquidVolume += volume;
                    viscosityOfLiquid += mass * mu;
                }
            }

            double muV = vapor > 0 ? viscosityOfVapor / vapor : 0;
            double muL = liquid > 0 ? viscosityOfLiquid / liquid : 0;
            double whole = liquid <= 0 ? muV
                : vapor <= 0 ? muL
                : TwoPhaseStream.Mixed(rule, vapor, liquid, vaporVolume, liquidVolume, muV, muL);
            return new(
                place,
                state.Pressure,
                state.Totals.Enthalpy / molarMass,
                state.Temperature,
                state.Totals.Volume / molarMass,
                slopes.VolumeByPressure / molarMass,
                slopes.VolumeByEnthalpy,
                slopes.TemperatureByPressure,
                slopes.TemperatureByEnthalpy * molarMass,
                whole,
                vapor,
                state);
        }
    }
}
