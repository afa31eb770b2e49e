using CryoThermo.Equilibrium;

namespace CryoThermo.Flow;

/// <summary>
/// States of a fluid from an inlet pressure down to a low one along a given course of enthalpy: nodes so close that cubic pieces through values
/// and slopes hold between them, with a pair of nodes at every phase boundary.
/// </summary>
internal sealed class ExpansionLine
{
    private const double LogStep = 0.08;
    private const double LeastLogStep = 1e-3;
    private const double LeastHeatedStep = 1e-5;

    // How far the volume may leave the trapezium of its slopes within a step; the cubic piece is then better by two orders.
    private const double TrapeziumTolerance = 1e-3;

    // A state moved by less than this, K, from one of the last line has hardly moved.
    private const double SmallShift = 0.3;
    private const double BoundaryWidth = 1e-6;
    private const int BoundarySteps = 60;

    public ExpansionLine(IReadOnlyList<ExpansionNode> nodes, string? obstacle = null)
    {
        Nodes = nodes;
        Obstacle = obstacle;
    }

    /// <summary>The nodes, pressure falling.</summary>
    public IReadOnlyList<ExpansionNode> Nodes { get; }

    /// <summary>Why the line ends above the pressure asked for; null where it does not.</summary>
    public string? Obstacle { get; }

    /// <summary>Builds the line.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="viscosity">Viscosity of a phase, Pa s.</param>
    /// <param name="rule">For two phases.</param>
    /// <param name="inlet">The state at the upper end.</param>
    /// <param name="lowest">Lower end, Pa.</param>
    /// <param name="enthalpyAt">Course of the enthalpy, J/kg over Pa; null for that of the inlet throughout.</param>
    /// <param name="last">A line near to this one, whose states are starts; null for none.</param>
    /// <param name="mostEnthalpyStep">Most change of enthalpy from node to node, J/kg: heat changes a stream whose pressure hardly falls.</param>
    public static ExpansionLine Build(
        WorkingFluid fluid,
        Func<PhaseResult, double, double> viscosity,
        TwoPhaseViscosity rule,
        EquilibriumResult inlet,
        double lowest,
        Func<double, double>? enthalpyAt = null,
        ExpansionLine? last = null,
        double mostEnthalpyStep = double.PositiveInfinity)
    {
        Builder builder = new(fluid, viscosity, rule, inlet, enthalpyAt, last);
        return builder.Build(inlet, lowest, mostEnthalpyStep);
    }

    /// <summary>Index of the piece that holds a pressure.</summary>
    public int PieceOf(double pressure)
    {
        int low = 0;
        int high = Nodes.Count - 2;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (Nodes[middle + 1].Pressure <= pressure)
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
        private readonly Func<double, double> enthalpyAt;
        private readonly ExpansionLine? last;
        private readonly CaloricWalk walk;
        private readonly List<ExpansionNode> nodes = [];

        public Builder(
            WorkingFluid fluid, Func<PhaseResult, double, double> viscosity, TwoPhaseViscosity rule, EquilibriumResult inlet, Func<double, double>? enthalpyAt, ExpansionLine? last)
        {
            this.fluid = fluid;
            this.viscosity = viscosity;
            this.rule = rule;
            this.last = last;
            z = [.. fluid.Composition.Fractions];
            molarMass = fluid.Composition.MolarMass.KilogramsPerMole;
            this.enthalpyAt = enthalpyAt ?? (_ => inlet.Totals.Enthalpy / molarMass);
            walk = new(fluid.Kernel, z);
        }

        public ExpansionLine Build(EquilibriumResult inlet, double lowest, double mostEnthalpyStep)
        {
            if (inlet.StillUnstable)
            {
                throw new ArgumentOutOfRangeException(
                    nameof(inlet), FormattableString.Invariant($"The phases at {inlet.Temperature:G6} K and {inlet.Pressure / 1e5:G6} bar are not resolved; no flow is computed from there."));
            }

            nodes.Add(Node(inlet));
            double step = LogStep;
            double? lastBoundary = null;
            while (nodes[^1].Pressure > lowest)
            {
                ExpansionNode from = nodes[^1];
                while (step > LeastHeatedStep && Math.Abs(enthalpyAt(Math.Max(lowest, from.Pressure * Math.Exp(-step))) - from.Enthalpy) > mostEnthalpyStep)
                {
                    step *= 0.5;
                }

                double p = Math.Max(lowest, from.Pressure * Math.Exp(-step));
                p = p < lowest * (1 + (0.1 * step)) ? lowest : p;
                ExpansionNode to;
                try
                {
                    to = At(p, from);
                }
                catch (ArgumentOutOfRangeException outside)
                {
                    // Below what the model reaches; what flows may choke before.
                    if (step > LeastLogStep)
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
                if (PhasesOf(to) != PhasesOf(from) && (lastBoundary is null || from.Pressure < lastBoundary * Math.Exp(-LeastLogStep)))
                {
                    (ExpansionNode above, ExpansionNode below) = Boundary(from, to);
                    if (above.Pressure < from.Pressure)
                    {
                        nodes.Add(above);
                    }

                    nodes.Add(below);
                    lastBoundary = below.Pressure;
                    continue;
                }

                double change = (0.5 * (to.Pressure - from.Pressure) * (from.VolumeByPressure + to.VolumeByPressure))
                    + (0.5 * (to.Enthalpy - from.Enthalpy) * (from.VolumeByEnthalpy + to.VolumeByEnthalpy));
                if (Math.Abs(to.Volume - from.Volume - change) > TrapeziumTolerance * to.Volume && step > LeastLogStep)
                {
                    step *= 0.5;
                    continue;
                }

                nodes.Add(to);
                step = Math.Min(LogStep, 1.5 * step);
            }

            return new(nodes);
        }

        private ExpansionLine Ended(EquilibriumResult inlet, string obstacle) => nodes.Count > 1
            ? new(nodes, obstacle)
            : throw new ArgumentOutOfRangeException(nameof(inlet), $"No state follows below {inlet.Pressure / 1e5:G6} bar: {obstacle}");

        // Where the number of phases changes: the last node with those above, the first with those below.
        private (ExpansionNode Above, ExpansionNode Below) Boundary(ExpansionNode above, ExpansionNode below)
        {
            int upper = PhasesOf(above);
            bool hasMoreBelow = PhasesOf(below) > upper;
            ExpansionNode? earlier = null;
            for (int i = 0; i < BoundarySteps && above.Pressure - below.Pressure > BoundaryWidth * above.Pressure; i++)
            {
                double p = Math.Sqrt(above.Pressure * below.Pressure);
                ExpansionNode more = hasMoreBelow ? below : above;
                if (earlier is not null && Least(earlier) != Least(more))
                {
                    // Where the least amount would vanish, and a little beyond by turns, so that both sides close in.
                    double vanishing = more.Pressure - (Least(more) * (earlier.Pressure - more.Pressure) / (Least(earlier) - Least(more)));
                    vanishing *= 1 + (0.4 * BoundaryWidth * (i % 2 == 0 ? 1 : -1));
                    p = vanishing > below.Pressure && vanishing < above.Pressure ? vanishing : p;
                }

                ExpansionNode middle = hasMoreBelow ? At(p, below, above) : At(p, above, below);
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

            static double Least(ExpansionNode node) => node.State!.Phases.Min(p => p.Fraction);
        }

        private static int PhasesOf(ExpansionNode node) => node.State!.Phases.Length;

        private ExpansionNode At(double pressure, ExpansionNode from, ExpansionNode? beyond = null)
        {
            double h = enthalpyAt(pressure);
            ExpansionNode near = from;
            StationaryTrials? trials = null;
            if (last is not null)
            {
                int piece = last.PieceOf(pressure);
                ExpansionNode a = last.Nodes[piece];
                ExpansionNode b = last.Nodes[piece + 1];
                ExpansionNode other = a.Pressure - pressure < pressure - b.Pressure ? a : b;
                near = PhasesOf(other) == PhasesOf(from) ? other : from;
                double before = a.Enthalpy + ((pressure - a.Pressure) / (b.Pressure - a.Pressure) * (b.Enthalpy - a.Enthalpy));
                bool isWithin = pressure <= a.Pressure && pressure >= b.Pressure && PhasesOf(a) == PhasesOf(b) && PhasesOf(a) == PhasesOf(from);
                trials = isWithin && beyond is null && Math.Abs(other.TemperatureByEnthalpy * (h - before)) < SmallShift ? other.Trials : null;
            }

            double guess = near.Temperature + (near.TemperatureByPressure * (pressure - near.Pressure)) + (near.TemperatureByEnthalpy * (h - near.Enthalpy));
            if (ReferenceEquals(near, from) && nodes.Count > 1 && ReferenceEquals(nodes[^1], from) && PhasesOf(nodes[^2]) == PhasesOf(from) && nodes[^2].Pressure > 1.001 * from.Pressure)
            {
                // The slope goes on changing as it did.
                double bend = (from.TemperatureByPressure - nodes[^2].TemperatureByPressure) / (from.Pressure - nodes[^2].Pressure);
                guess += 0.5 * bend * (pressure - from.Pressure) * (pressure - from.Pressure);
            }

            // Between two states of the last line with the same phases, and hardly moved from there, a further phase would show among its
            // stationary trials; elsewhere every start is tried.
            EquilibriumResult state = walk.At(
                pressure, h * molarMass, near.State!, Math.Max(guess, 0.5 * near.Temperature), beyond?.State, trials, out StationaryTrials? seen);
            return Node(state) with { Trials = seen };
        }

        private ExpansionNode Node(EquilibriumResult state)
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
