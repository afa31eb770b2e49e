using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Builds an <see cref="IsobarTable"/>: a coarse scan finds the phase regions, a node is put at every phase boundary by following the phase
/// that vanishes there, and each smooth stretch is halved until the cubic between exact values and exact slopes agrees with value and slope in
/// its middle. Inside a region answers are followed from their neighbours. Each of the scan is tested for stability from every start of a
/// flash, those between from the stationary trials of both neighbours; where a further phase shows, a flash afresh finds it. Where a fourth
/// phase exists the answer may jump, and the table follows it only to within such a jump.
/// </summary>
internal static class IsobarBuilder
{
    /// <summary>Largest accepted error of enthalpy at the checked points, J/mol; the stated bound is 1 J/mol.</summary>
    public const double EnthalpyTolerance = 0.2;

    /// <summary>Largest accepted error of enthalpy at the checked points over the whole span; the stated bound is 1e-4.</summary>
    public const double RelativeTolerance = 2e-5;

    /// <summary>How much looser a coarse table is: enthalpy within 5 J/mol and 5e-4 of the span at the checked points, for searches.</summary>
    public const double Coarseness = 25;

    private const double ScanStep = 4;
    private const double CoarseScanStep = 12;
    private const double BoundaryTolerance = 1e-9;
    private const double CoarseBoundary = 1e-4;

    /// <summary>How closely the end of a vanishing phase is enclosed, K: closer to it the amount drowns in rounding.</summary>
    private const double VanishingTolerance = 1e-7;

    /// <summary>How closely the end of a part with unresolved phases is enclosed, K: figures jump there.</summary>
    private const double UnresolvedTolerance = 1e-4;

    /// <summary>Narrower stretches are not halved further: they stand where three phases are unresolved and figures jump.</summary>
    private const double NarrowestStretch = 1e-3;

    /// <summary>A pure fluid has no such figures, but next to its critical point a peak of the heat capacity narrower than that.</summary>
    private const double NarrowestPureStretch = 2e-6;

    /// <summary>Closer nodes would differ by rounding only, K.</summary>
    private const double NarrowestNode = 1e-6;

    /// <summary>Builds the table.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="minTemperature">K.</param>
    /// <param name="maxTemperature">K.</param>
    /// <param name="isCoarse">Whether a table for searches is enough: a third of the scan, errors larger by <see cref="Coarseness"/>.</param>
    /// <param name="memory">Scan of a table hardly different, from which this one's begins: only its stationary trials are looked at for a further phase. Then holds this one's. Null for none.</param>
    public static IsobarTable Build(
        FluidKernel fluid, ReadOnlySpan<double> z, double pressure, double minTemperature, double maxTemperature, bool isCoarse = false, IsobarMemory? memory = null)
    {
        Builder builder = new(fluid, z.ToArray(), pressure) { Narrowest = isCoarse ? CoarseBoundary : BoundaryTolerance, Vanished = isCoarse ? CoarseBoundary : VanishingTolerance };
        int steps = Math.Max(2, (int)Math.Ceiling((maxTemperature - minTemperature) / (isCoarse ? CoarseScanStep : ScanStep)));
        Point? Remembered(double t) => memory?.Near(t) is { } near ? builder.Again(near, t) : null;
        Point previous = Remembered(minTemperature) ?? builder.Evaluate(minTemperature);
        Point last = Remembered(maxTemperature) ?? builder.Evaluate(maxTemperature);
        List<Point> scanned = [previous];
        double tolerance = Math.Min(EnthalpyTolerance, RelativeTolerance * Math.Abs(last.Enthalpy - previous.Enthalpy));
        builder.Tolerance = Math.Max(tolerance, 1e-6) * (isCoarse ? Coarseness : 1);
        builder.Start(previous);
        for (int i = 1; i <= steps; i++)
        {
            double t = minTemperature + ((maxTemperature - minTemperature) * i / steps);
            Point next = i == steps ? last : Remembered(t) ?? builder.Scan(previous, t);
            builder.Connect(previous, next, 0);
            previous = next;
            scanned.Add(next);
        }

        memory?.Take(scanned);

        return builder.ToTable();
    }

    /// <summary>A state on the isobar, with its phases as a start for its neighbours.</summary>
    internal sealed record Point(double Temperature, CaloricFigures Figures, PhaseRegion Region, SavedSplit Phases)
    {
        /// <summary>Where its tangent-plane distance is stationary; null as long as nobody has asked.</summary>
        public StationaryTrials? Trials { get; init; }

        public double Enthalpy => Figures.Enthalpy;

        public double Entropy => Figures.Entropy;

        public double Slope => Figures.EquilibriumHeatCapacity;

        public int PhaseCount => Phases.PhaseCount;

        public double LeastAmount => Phases.LeastAmount;
    }

    /// <summary>Phases kept for later.</summary>
    internal sealed class SavedSplit
    {
        private readonly double[] light;
        private readonly double[] middle;
        private readonly double[] heavy;
        private readonly double middleFraction;
        private readonly DensityRoot lightRoot;
        private readonly DensityRoot middleRoot;
        private readonly DensityRoot heavyRoot;

        public SavedSplit(scoped in PhaseSplit split)
        {
            PhaseCount = split.PhaseCount;
            light = split.Light.ToArray();
            heavy = split.Heavy.ToArray();
            middle = PhaseCount == 3 ? split.Middle.ToArray() : [];
            LightFraction = split.LightFraction;
            middleFraction = split.MiddleFraction;
            HeavyFraction = split.HeavyFraction;
            lightRoot = split.LightRoot;
            middleRoot = split.MiddleRoot;
            heavyRoot = split.HeavyRoot;
        }

        public int PhaseCount { get; }

        public double LightFraction { get; }

        public double HeavyFraction { get; }

        /// <summary>Amount of a phase, 0 the lightest.</summary>
        public double AmountOf(int phase) => phase == 0 ? LightFraction : phase == PhaseCount - 1 ? HeavyFraction : middleFraction;

        public double LeastAmount
        {
            get
            {
                double least = PhaseCount == 1 ? 1 : Math.Min(LightFraction, HeavyFraction);
                return PhaseCount == 3 ? Math.Min(least, middleFraction) : least;
            }
        }

        /// <summary>Compositions and amounts in the middle between these and those of a neighbour with as many phases.</summary>
        public void CopyTo(ref PhaseSplit split, SavedSplit other)
        {
            CopyTo(ref split);
            if (PhaseCount > 1)
            {
                Middle(split.Light, other.light);
                Middle(split.Heavy, other.heavy);
                split.LightFraction = 0.5 * (LightFraction + other.LightFraction);
                split.HeavyFraction = 0.5 * (HeavyFraction + other.HeavyFraction);
            }

            if (PhaseCount == 3)
            {
                Middle(split.Middle, other.middle);
                split.MiddleFraction = 0.5 * (middleFraction + other.middleFraction);
            }
        }

        // Geometric: ln K runs nearly straight over temperature.
        private static void Middle(Span<double> x, ReadOnlySpan<double> other)
        {
            for (int i = 0; i < x.Length; i++)
            {
                x[i] = Math.Sqrt(x[i] * other[i]);
            }
        }

        public void CopyTo(ref PhaseSplit split)
        {
            light.CopyTo(split.Light);
            middle.CopyTo(split.Middle);
            heavy.CopyTo(split.Heavy);
            split.PhaseCount = PhaseCount;
            split.LightFraction = LightFraction;
            split.MiddleFraction = middleFraction;
            split.HeavyFraction = HeavyFraction;
            split.LightRoot = lightRoot;
            split.MiddleRoot = middleRoot;
            split.HeavyRoot = heavyRoot;
        }
    }

    private sealed class Builder(FluidKernel fluid, double[] z, double pressure)
    {
        private const int VanishingSteps = 40;

        // How far from a boundary, in kelvins, flashes afresh may still miss a phase that is about to vanish.
        private const double Blur = 1e-7;
        private const double LongestBlur = 1e-3;

        // An amount this small is at its end.
        private const double Sliver = 1e-9;
        private readonly double[] scratch = new double[fluid.Equation.ScratchLength];
        private readonly double narrowestStretch = fluid.Equation.IsPureEquation ? NarrowestPureStretch : NarrowestStretch;
        private readonly double[] light = new double[z.Length];
        private readonly double[] third = new double[z.Length];
        private readonly double[] heavy = new double[z.Length];
        private readonly List<double> temperature = [];
        private readonly List<double> enthalpy = [];
        private readonly List<double> entropy = [];
        private readonly List<double> slopeAtStart = [];
        private readonly List<double> slopeAtEnd = [];
        private readonly List<PhaseRegion> region = [];

        public double Tolerance { get; set; }

        /// <summary>How closely a boundary is enclosed by halving, K.</summary>
        public double Narrowest { get; init; } = BoundaryTolerance;

        /// <summary>How closely the end of a vanishing phase is enclosed, K.</summary>
        public double Vanished { get; init; } = VanishingTolerance;

        /// <summary>A flash that knows nothing of its neighbours.</summary>
        public Point Evaluate(double t)
        {
            PhaseSplit split = new(light, third, heavy);
            CaloricFigures totals = fluid.Flash(t, pressure, z, scratch, ref split);
            return new(t, totals, RegionOf(split), new SavedSplit(split));
        }

        /// <summary>
        /// The next point of the scan: the phases of the last one, or all but the smallest of them, if no start of a stability test finds
        /// another; a flash afresh otherwise.
        /// </summary>
        public Point Scan(Point from, double t) => Follow(from, t, isTested: true) ?? Beyond(from, t);

        /// <summary>A point of a scan from that of a table hardly different; null where it has not the same phases, or a trial of these has come below the tangent plane.</summary>
        public Point? Again(Point remembered, double t)
        {
            if (remembered.Region == PhaseRegion.UnresolvedPhases)
            {
                return null;
            }

            PhaseSplit split = new(light, third, heavy);
            remembered.Phases.CopyTo(ref split);
            return Solve(ref split, remembered, t, remembered.Trials, isTested: true);
        }

        /// <summary>
        /// A point between two of a region: the phases of both in the middle, if none of their stationary trials has come below the tangent
        /// plane; a flash afresh otherwise.
        /// </summary>
        private Point Between(Point a, Point b, double t)
        {
            if (a.Region == PhaseRegion.UnresolvedPhases)
            {
                return Evaluate(t);
            }

            StationaryTrials? near = a.Trials is null || b.Trials is null ? null : new(a.Trials, b.Trials);
            PhaseSplit split = new(light, third, heavy);
            a.Phases.CopyTo(ref split, b.Phases);
            return Solve(ref split, a, t, near, isTested: true) ?? Evaluate(t);
        }

        /// <summary>
        /// The state at a temperature with the phases of a neighbour, tested from every start or not at all; null where it has not as many, or
        /// not these alone.
        /// </summary>
        private Point? Follow(Point from, double t, bool isTested)
        {
            if (from.Region == PhaseRegion.UnresolvedPhases)
            {
                Point afresh = Evaluate(t);
                return afresh.Region == from.Region ? afresh : null;
            }

            PhaseSplit split = new(light, third, heavy);
            from.Phases.CopyTo(ref split);
            return Solve(ref split, from, t, null, isTested);
        }

        private Point? Solve(ref PhaseSplit split, Point from, double t, StationaryTrials? near, bool isTested)
        {
            if (!IsothermalFlash.SolveFrom(fluid.Equation, t, pressure, z, scratch, ref split) || split.PhaseCount != from.PhaseCount || RegionOf(split) != from.Region)
            {
                return null;
            }

            StationaryTrials? trials = isTested ? new(z.Length) : null;
            return trials is null || IsothermalFlash.IsStable(fluid.Equation, t, pressure, z, scratch, split, near, trials)
                ? new(t, fluid.Totals(t, pressure, z, split, scratch), from.Region, new SavedSplit(split)) { Trials = trials }
                : null;
        }

        private static PhaseRegion RegionOf(scoped in PhaseSplit split) => split switch
        {
            { StillUnstable: true } => PhaseRegion.UnresolvedPhases,
            { PhaseCount: 3 } => split.LightIsVapor ? PhaseRegion.TwoLiquidsVapor : PhaseRegion.ThreeLiquids,
            { PhaseCount: 2 } => split.LightIsVapor ? PhaseRegion.LiquidVapor : PhaseRegion.TwoLiquids,
            _ => split.LightIsVapor ? PhaseRegion.Vapor : PhaseRegion.Liquid,
        };

        public void Start(Point point)
        {
            temperature.Add(point.Temperature);
            enthalpy.Add(point.Enthalpy);
            entropy.Add(point.Entropy);
        }

        /// <summary>Adds the stretch between two points, which may lie in different regions.</summary>
        public void Connect(Point a, Point b, int depth)
        {
            if (a.Region == b.Region)
            {
                Smooth(a, b);
                return;
            }

            // Between two liquids and liquid beside vapour there mostly are all three.
            bool isResolved = a.Region != PhaseRegion.UnresolvedPhases && b.Region != PhaseRegion.UnresolvedPhases;
            if (isResolved && a.PhaseCount > 1 && a.PhaseCount == b.PhaseCount && depth < 40 && Find(a, b) is { } third)
            {
                Connect(a, third, depth + 1);
                Connect(third, b, depth + 1);
                return;
            }

            (Point low, Point high) = (a.PhaseCount > b.PhaseCount ? Vanishing(a, b) : b.PhaseCount > a.PhaseCount ? Vanishing(b, a) : null) ?? Halve(a, b);
            if (depth >= 40)
            {
                Smooth(a, low);
                Boundary(low, high);
                Smooth(high, b);
                return;
            }

            Connect(a, low, depth + 1);
            Boundary(low, high);
            Connect(high, b, depth + 1);
        }

        // A state of a third region between two that have as many phases; null where halving does not meet one.
        private Point? Find(Point a, Point b)
        {
            Point low = a;
            Point high = b;
            while (high.Temperature - low.Temperature > narrowestStretch)
            {
                Point middle = Evaluate(0.5 * (low.Temperature + high.Temperature));
                if (middle.Region != a.Region && middle.Region != b.Region)
                {
                    return middle;
                }

                (low, high) = middle.Region == a.Region ? (middle, high) : (low, middle);
            }

            return null;
        }

        // Halve towards the first change of region above a.
        private (Point Low, Point High) Halve(Point a, Point b)
        {
            Point low = a;
            Point high = b;
            double tolerance = a.Region == PhaseRegion.UnresolvedPhases || b.Region == PhaseRegion.UnresolvedPhases ? UnresolvedTolerance : Narrowest;
            while (high.Temperature - low.Temperature > tolerance)
            {
                Point middle = Evaluate(0.5 * (low.Temperature + high.Temperature));
                if (middle.Temperature <= low.Temperature || middle.Temperature >= high.Temperature)
                {
                    break;
                }

                if (middle.Region == a.Region)
                {
                    low = middle;
                }
                else
                {
                    high = middle;
                }
            }

            return (low, high);
        }

        // From the side with more phases, by secants on their amounts, to where one of them vanishes; both sides are then tested for stability.
        // Null where that leads to nothing.
        private (Point Low, Point High)? Vanishing(Point from, Point towards)
        {
            if (from.Region == PhaseRegion.UnresolvedPhases)
            {
                return null;
            }

            double direction = Math.Sign(towards.Temperature - from.Temperature);
            Point? previous = null;
            Point inside = from;
            double outside = towards.Temperature;
            double lastPrediction = double.NaN;
            int misses = 0;
            for (int step = 0; step < VanishingSteps && Math.Abs(outside - inside.Temperature) > Vanished; step++)
            {
                double width = Math.Abs(outside - inside.Temperature);
                bool isEnclosed = outside != towards.Temperature;
                double ahead = (previous is null ? 0.2 : 0.5) * width;
                if (inside.LeastAmount < Sliver)
                {
                    ahead = 0.9 * Vanished;
                }
                else if (misses < 2 && previous is not null && Predict(previous, inside, direction) is { } near && (near < width || isEnclosed))
                {
                    // The amounts fall smoothly: as long as predictions still move, stop short of the end, since a step beyond it costs most.
                    double predicted = inside.Temperature + (near * direction);
                    double uncertain = double.IsNaN(lastPrediction) ? 0.1 * near : 2 * Math.Abs(predicted - lastPrediction);
                    lastPrediction = predicted;
                    ahead = uncertain > 0.4 * Vanished && near > Vanished
                        ? near - Math.Min(uncertain, 0.5 * near)
                        : near + ((isEnclosed && near > 0.5 * Vanished ? -0.4 : 0.4) * Vanished);
                    ahead = Math.Min(ahead, width - (0.4 * Vanished));
                }

                double next = inside.Temperature + (Math.Clamp(ahead, 0.1 * Vanished, width - (0.1 * Vanished)) * direction);
                if (Follow(inside, next, isTested: false) is { } found)
                {
                    (previous, inside) = (inside, found);
                    misses = 0;
                }
                else
                {
                    outside = next;
                    misses++;
                }
            }

            if (Math.Abs(outside - inside.Temperature) > Vanished)
            {
                return null;
            }

            // A start from afar sees a phase only when it lies 1e-10 below the tangent plane: next to the end it may not.
            Point? own = Follow(inside, inside.Temperature, isTested: true);
            if (own is null)
            {
                if (Evaluate(inside.Temperature - (direction * Blur)).Region != from.Region)
                {
                    return null;
                }

                own = inside;
            }

            Point other = outside == towards.Temperature ? towards : Beyond(inside, outside);
            if (other.Region == from.Region || other.Region == PhaseRegion.UnresolvedPhases)
            {
                double beyond = outside + (direction * Blur);
                other = (towards.Temperature - beyond) * direction > 0 ? Evaluate(beyond) : towards;
            }

            // Solved on from its neighbours, a phase is lost a little before flashes afresh lose it.
            Point same = own;
            for (double reach = 10 * Blur; other.Region == from.Region && reach <= LongestBlur && (towards.Temperature - outside) * direction > reach; reach *= 10)
            {
                same = other;
                other = Evaluate(outside + (direction * reach));
            }

            return other.Region == from.Region ? null
                : same == own ? direction > 0 ? (own, other) : (other, own)
                : direction > 0 ? Halve(same, other) : Halve(other, same);
        }

        // Without the phase of the smallest amount, if no start of a stability test finds another; a flash afresh otherwise.
        private Point Beyond(Point inside, double t)
        {
            if (inside.PhaseCount == 1)
            {
                return Evaluate(t);
            }

            PhaseSplit split = new(light, third, heavy);
            inside.Phases.CopyTo(ref split);
            split.RemoveSmallest();
            StationaryTrials trials = new(z.Length);
            return IsothermalFlash.SolveFrom(fluid.Equation, t, pressure, z, scratch, ref split)
                && IsothermalFlash.IsStable(fluid.Equation, t, pressure, z, scratch, split, null, trials)
                ? new(t, fluid.Totals(t, pressure, z, split, scratch), RegionOf(split), new SavedSplit(split)) { Trials = trials }
                : Evaluate(t);
        }

        // How far ahead the first of the amounts would vanish if it went on as between two states, K; null when none falls.
        private static double? Predict(Point previous, Point inside, double direction)
        {
            double? first = null;
            for (int phase = 0; phase < inside.PhaseCount; phase++)
            {
                double amount = inside.Phases.AmountOf(phase);
                double slope = direction * (amount - previous.Phases.AmountOf(phase)) / (inside.Temperature - previous.Temperature);
                if (slope < 0)
                {
                    first = Math.Min(first ?? double.PositiveInfinity, -amount / slope);
                }
            }

            return first;
        }

        public IsobarTable ToTable() => new(
            pressure, [.. temperature], [.. enthalpy], [.. entropy], [.. slopeAtStart], [.. slopeAtEnd], [.. region]);

        // Low and high stand 0.1 microkelvin apart or less on both sides of a boundary: one node, or two where enthalpy jumps.
        private void Boundary(Point low, Point high)
        {
            double expected = Math.Max(low.Slope, high.Slope) * (high.Temperature - low.Temperature);
            double jump = high.Enthalpy - low.Enthalpy;

            // A blend with a trace boils within rounding of one temperature: its latent heat stands between the last node and here.
            bool isPlateau = jump > Math.Max(10 * expected, 0.01) || (high.Temperature - temperature[^1] < NarrowestNode && high.Enthalpy - enthalpy[^1] > Tolerance);
            if (!isPlateau || high.Entropy < entropy[^1] || high.Enthalpy <= enthalpy[^1])
            {
                // No jump: the next stretch starts at the same node with the slope of its own side.
                return;
            }

            AddPlateau(
                high,
                low.Region is PhaseRegion.Liquid or PhaseRegion.LiquidVapor && high.Region is PhaseRegion.Vapor or PhaseRegion.LiquidVapor
                    ? PhaseRegion.ConstantTemperatureBoiling
                    : PhaseRegion.ConstantTemperatureThreePhases);
        }

        private void AddPlateau(Point high, PhaseRegion kind)
        {
            if (region.Count > 0 && region[^1] == kind)
            {
                enthalpy[^1] = high.Enthalpy;
                entropy[^1] = high.Entropy;
                return;
            }

            temperature.Add(temperature[^1]);
            enthalpy.Add(high.Enthalpy);
            entropy.Add(high.Entropy);
            slopeAtStart.Add(0);
            slopeAtEnd.Add(0);
            region.Add(kind);
        }

        private void Smooth(Point a, Point b)
        {
            double width = b.Temperature - a.Temperature;
            if (width <= 0 || b.Enthalpy <= a.Enthalpy)
            {
                return;
            }

            if (width > narrowestStretch)
            {
                double t = 0.5 * (a.Temperature + b.Temperature);
                Point middle = Between(a, b, t);
                bool accepted = middle.Region == a.Region && IsGood(a, b, middle) && IsMonotone(a, b);
                if (!accepted)
                {
                    Connect(a, middle, 0);
                    Connect(middle, b, 0);
                    return;
                }
            }

            Add(a, b);
        }

        // The stretch starts at the node already there, which may stand a little below a.
        private void Add(Point a, Point b)
        {
            double width = b.Temperature - temperature[^1];
            double rise = b.Enthalpy - enthalpy[^1];
            if (rise <= 0 || b.Entropy < entropy[^1])
            {
                // Falling figures are met only where three phases are unresolved; the node is left out.
                return;
            }

            if (width < NarrowestNode)
            {
                if (rise > Tolerance)
                {
                    AddPlateau(b, a.Region == PhaseRegion.LiquidVapor ? PhaseRegion.ConstantTemperatureBoiling : PhaseRegion.ConstantTemperatureThreePhases);
                }

                return;
            }

            double chord = rise / width;
            bool monotone = a.Slope > 0 && b.Slope > 0 && a.Slope < 3 * chord && b.Slope < 3 * chord;
            temperature.Add(b.Temperature);
            enthalpy.Add(b.Enthalpy);
            entropy.Add(b.Entropy);
            slopeAtStart.Add(monotone ? a.Slope : chord);
            slopeAtEnd.Add(monotone ? b.Slope : chord);
            region.Add(a.Region);
        }

        private bool IsGood(Point a, Point b, Point middle)
        {
            double width = b.Temperature - a.Temperature;
            double h = (0.5 * (a.Enthalpy + b.Enthalpy)) + (0.125 * width * (a.Slope - b.Slope));
            double slope = (1.5 * (b.Enthalpy - a.Enthalpy) / width) - (0.25 * (a.Slope + b.Slope));

            // The error of the cubic between exact ends is u^2 (1-u)^2 (c0 + c1 (u - 1/2) + ...): c0 shows in the value at the middle, c1 in
            // the slope there as c1/16; its part of the error is at most (1/5)^2 (1/4 - 1/5)^(1/2) c1 = 0.00894 c1.
            // Entropy follows from dh/T between exact nodal values, with an error of at most this one over T.
            return Math.Abs(h - middle.Enthalpy) + (0.143 * width * Math.Abs(slope - middle.Slope)) <= Tolerance;
        }

        // A cubic with end slopes between zero and three chords is monotone (Fritsch, Carlson, SIAM J. Numer. Anal. 17 (1980) 238).
        private static bool IsMonotone(Point a, Point b)
        {
            double chord = (b.Enthalpy - a.Enthalpy) / (b.Temperature - a.Temperature);
            return a.Slope > 0 && b.Slope > 0 && a.Slope < 3 * chord && b.Slope < 3 * chord;
        }
    }
}
