using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Every change of the phases along an isobar or isotherm. A scan of flashes, halved wherever two neighbours have other phases, brackets each
/// change. There the phases on the side with fewer of them are followed, and with them the trial phase that the other side holds in addition
/// (Newton in ln W, Michelsen, Fluid Phase Equilib. 9 (1982) 1): the change is where its tangent-plane distance vanishes, which that function
/// crosses with a slope, so that it is found to rounding. Holds working memory: one thread.
/// </summary>
internal sealed class PhaseChangeFinder
{
    private const double TemperatureStep = 4;
    private const double LnPressureStep = 0.25;

    // Relative to temperature or pressure: the bracket from which a change is solved for; how far from it a flash afresh may miss a phase about to
    // vanish, as it sees only what lies 1e-10 below the tangent plane; the narrowest bracket.
    private const double Coarse = 2e-4;
    private const double Blur = 1e-5;
    private const double Narrowest = 1e-13;

    // Where one phase takes the place of another within this, all three meet there.
    private const double Touching = 1e-6;

    // Phases closer than this, in mole fractions and relative density, are the same.
    private const double Same = 1e-5;

    private readonly FluidKernel fluid;
    private readonly MixtureKernel kernel;
    private readonly double[] z;
    private readonly int n;
    private readonly bool seeksPressure;
    private readonly double given;
    private readonly double[] scratch;
    private readonly double[] light;
    private readonly double[] middle;
    private readonly double[] heavy;
    private readonly double[] d;
    private readonly double[] lnW;
    private readonly double[] w;
    private readonly double[] lnPhi;
    private readonly double[] square;
    private readonly double[] jacobian;
    private readonly double[] step;

    /// <summary>Prepares the search.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="unknown">What varies.</param>
    /// <param name="given">The other: K or Pa.</param>
    public PhaseChangeFinder(FluidKernel fluid, ReadOnlySpan<double> z, IncipientPoint.Unknown unknown, double given)
    {
        this.fluid = fluid;
        kernel = fluid.Equation;
        this.z = z.ToArray();
        n = z.Length;
        seeksPressure = unknown == IncipientPoint.Unknown.Pressure;
        this.given = given;
        scratch = new double[kernel.ScratchLength];
        light = new double[n];
        middle = new double[n];
        heavy = new double[n];
        d = new double[n];
        lnW = new double[n];
        w = new double[n];
        lnPhi = new double[n];
        square = new double[n * n];
        jacobian = new double[n * n];
        step = new double[n];
    }

    /// <summary>A change of phases.</summary>
    /// <param name="State">The state there: the phases that are there on the side with fewer, and the one that appears or vanishes with an amount of zero.</param>
    /// <param name="Changing">Index of that phase.</param>
    /// <param name="Appears">Whether it is there on the side of higher temperature or pressure.</param>
    /// <param name="Below">Phases at lower temperature or pressure.</param>
    /// <param name="Above">Phases at higher temperature or pressure.</param>
    public sealed record Change(EquilibriumResult State, int Changing, bool Appears, PhaseRegion Below, PhaseRegion Above);

    /// <summary>The changes between two temperatures or pressures, from low to high.</summary>
    public List<Change> Find(double low, double high)
    {
        List<Change> found = [];
        (double from, double to) = seeksPressure ? (Math.Log(low), Math.Log(high)) : (low, high);
        int steps = Math.Max(1, (int)Math.Ceiling((to - from) / (seeksPressure ? LnPressureStep : TemperatureStep)));
        Point previous = At(from);
        for (int i = 1; i <= steps; i++)
        {
            Point next = At(from + ((to - from) * i / steps));
            Connect(previous, next, found);
            previous = next;
        }

        return found;
    }

    /// <summary>
    /// The first vapour (or, of a gas, the first drop) beside whatever other phases there are, searched from a place near it. Null when none is
    /// found within the range of the fluid.
    /// </summary>
    /// <param name="bubble">First vapour, or first drop.</param>
    /// <param name="near">K or Pa.</param>
    public Change? Incipient(bool bubble, double near)
    {
        const double FirstStep = 0.002;
        const double Growth = 1.7;
        double lowest = seeksPressure ? Math.Log(fluid.LowestPressure) : fluid.LowestTemperature;
        double highest = seeksPressure ? Math.Log(fluid.HighestPressure) : fluid.HighestTemperature;
        Point last = At(seeksPressure ? Math.Log(near) : near);
        bool isInside = IsInside(last, bubble);

        // Vapour comes with temperature and goes with pressure, the last liquid the other way.
        double direction = isInside == (bubble == seeksPressure) ? 1 : -1;
        double width = FirstStep * (seeksPressure ? 1 : near);
        while (true)
        {
            double at = Math.Clamp(last.At + (direction * width), lowest, highest);
            if (at == last.At)
            {
                return null;
            }

            Point next = At(at);
            if (IsInside(next, bubble) != isInside)
            {
                return Between(last, next, bubble);
            }

            last = next;
            width *= Growth;
        }
    }

    /// <summary>The first vapour, searched over the whole range from where it is not yet there. Null when there is none.</summary>
    public Change? FirstVapor()
    {
        const int Cells = 30;
        double low = seeksPressure ? Math.Log(1e3) : Math.Max(kernel.LowestTemperatureAt(given), 40);
        double high = seeksPressure ? Math.Log(1e8) : Math.Min(fluid.HighestTemperature, 500);
        Point? last = null;
        for (int cell = 0; cell <= Cells; cell++)
        {
            double share = (seeksPressure ? Cells - cell : cell) / (double)Cells;
            Point next = At(seeksPressure ? low + (share * (high - low)) : low * Math.Pow(high / low, share));
            if (last is { } before && !IsInside(before, true) && IsInside(next, true) && Between(before, next, true) is { } found)
            {
                return found;
            }

            last = next;
        }

        return null;
    }

    private Change? Between(Point one, Point other, bool bubble)
    {
        List<Change> found = [];
        (Point below, Point above) = one.At < other.At ? (one, other) : (other, one);
        Connect(below, above, found);
        return found.Find(change => bubble
            ? change.State.Phases[change.Changing].IsVapor && change.Appears != seeksPressure
            : change.State.Phases.Length == 2 && change.Changing == 1 && change.State.Phases[0].IsVapor && change.Appears == seeksPressure);
    }

    // Of a bubble point the side with vapour, of a dew point that with more than the gas.
    private static bool IsInside(Point point, bool bubble) => bubble ? point.Result.Phases.Length > 1 && point.Result.Phases[0].IsVapor : point.Result.Phases.Length > 1;

    private Point At(double at)
    {
        double value = seeksPressure ? Math.Clamp(Math.Exp(at), fluid.LowestPressure, fluid.HighestPressure) : at;
        return new(at, fluid.At(seeksPressure ? given : value, seeksPressure ? value : given, z));
    }

    private double Scale(double at) => seeksPressure ? 1 : at;

    private void Connect(Point a, Point b, List<Change> found)
    {
        if (a.Region == b.Region)
        {
            return;
        }

        // Where a fourth phase exists answers may change from one place to the next: that is not looked into any further.
        double width = b.At - a.At;
        bool isLast = width < (a.IsUnresolved || b.IsUnresolved ? Coarse : Narrowest) * Scale(b.At);
        if (width < Coarse * Scale(b.At) && Solve(a, b) is { } change)
        {
            // Beyond what a flash can tell from the change there may be another one.
            found.Add(change);
            return;
        }

        double center = a.At + (0.5 * width);
        if (isLast || center <= a.At || center >= b.At)
        {
            Jump(a, b, found);
            return;
        }

        Point between = At(center);
        Connect(a, between, found);
        Connect(between, b, found);
    }

    // Solves for the change where both sides differ by one phase, or where one takes the place of another.
    private Change? Solve(Point a, Point b)
    {
        int difference = b.Count - a.Count;
        if (a.IsUnresolved || b.IsUnresolved || Math.Abs(difference) > 1)
        {
            return null;
        }

        // Between two pairs of phases all three mostly exist over a stretch. Of two components they meet at one place.
        if (difference == 0 && (a.Count != 2 || IsRename(a, b) || (IsothermalFlash.PresentCount(z) > 2 && b.At - a.At > Touching * Scale(b.At))))
        {
            return null;
        }

        (Point poor, Point rich) = Sides(a, b);
        PhaseResult entering = Added(poor, rich, out double distance);
        double slack = Blur * Scale(b.At);
        return distance > Same && TryRoot(poor, rich, entering, a.At - slack, b.At + slack, out double at, out PhaseSplit split)
            ? Assemble(at, split, poor, rich, entering, a, b)
            : null;
    }

    // The side with fewer phases first; of as many, the one without vapour.
    private static (Point Poor, Point Rich) Sides(Point a, Point b) =>
        a.Count < b.Count || (a.Count == b.Count && !a.Result.Phases[0].IsVapor) ? (a, b) : (b, a);

    // What halving has left: nothing where only the name of a phase changes; else a change that could not be solved for, or a jump.
    private void Jump(Point a, Point b, List<Change> found)
    {
        if (a.Count == b.Count && IsRename(a, b))
        {
            return;
        }

        (Point poor, Point rich) = Sides(a, b);
        PhaseResult entering = Added(poor, rich, out _);
        PhaseSplit split = new(light, middle, heavy);
        Fill(poor.Result, ref split);
        entering.MoleFractions.CopyTo(w, 0);
        found.Add(Assemble(poor.At, split, poor, rich, entering, a, b));
    }

    private Change Assemble(double at, scoped in PhaseSplit split, Point poor, Point rich, PhaseResult entering, Point a, Point b)
    {
        double t = seeksPressure ? given : at;
        double p = seeksPressure ? Math.Exp(at) : given;
        kernel.SetTemperature(t, scratch);
        CaloricFigures totals = fluid.Totals(t, p, z, split, scratch);
        EquilibriumResult bulk = fluid.Collect(t, p, z, split, totals, scratch);

        // Which phase is the vapour is told by the side that has all of them.
        bool hasVapor = rich.Result.Phases[0].IsVapor && !entering.IsVapor;
        PhaseResult incipient = new(0, entering.IsVapor, [.. w], fluid.Phase(t, p, w, entering.Figures.Root, scratch));
        List<PhaseResult> phases = [.. bulk.Phases.Select((phase, i) => phase with { IsVapor = hasVapor && i == 0 })];
        int place = entering.IsVapor ? 0 : phases.FindIndex(phase => !phase.IsVapor && phase.Figures.MolarDensity > incipient.Figures.MolarDensity);
        place = place < 0 ? phases.Count : place;
        phases.Insert(place, incipient);
        bool isUnstable = poor.IsUnresolved || rich.IsUnresolved || IsUnstable(t, p, bulk.Phases[^1], incipient, out _);
        return new(
            new(t, p, [.. phases], totals, isUnstable, bulk.Residual, 0),
            place,
            ReferenceEquals(poor.Result, a.Result),
            Named(a, ReferenceEquals(poor.Result, a.Result) ? hasVapor : entering.IsVapor),
            Named(b, ReferenceEquals(poor.Result, b.Result) ? hasVapor : entering.IsVapor));
    }

    private static PhaseRegion Named(Point point, bool isVapor) =>
        point.Count > 1 || point.IsUnresolved ? point.Region : isVapor ? PhaseRegion.Vapor : PhaseRegion.Liquid;

    private bool IsUnstable(double t, double p, PhaseResult phase, PhaseResult incipient, out double distance)
    {
        const double Clear = -1e-8;
        Span<double> trial = stackalloc double[n];
        kernel.LnFugacityCoefficients(t, p, phase.MoleFractions, phase.Figures.Root, scratch, d, out _);
        for (int i = 0; i < n; i++)
        {
            d[i] += phase.MoleFractions[i] > 0 ? Math.Log(phase.MoleFractions[i]) : 0;
        }

        distance = 0;
        return IsothermalFlash.PresentCount(z) > 1
            && StabilityAnalysis.FindUnstable(
                kernel, t, p, new TestedPhases(d, phase.MoleFractions, phase.Figures.MolarDensity, incipient.MoleFractions, incipient.Figures.MolarDensity), scratch, trial, out _, out distance, thorough: false)
            && distance < Clear;
    }

    private static bool IsRename(Point a, Point b)
    {
        for (int i = 0; i < a.Count; i++)
        {
            if (Difference(a.Result.Phases[i], b.Result.Phases[i]) > 100 * Same)
            {
                return false;
            }
        }

        return true;
    }

    // The phase of the one that is farthest from any of the other.
    private static PhaseResult Added(Point poor, Point rich, out double distance)
    {
        PhaseResult added = rich.Result.Phases[0];
        distance = -1;
        foreach (PhaseResult phase in rich.Result.Phases)
        {
            double nearest = double.PositiveInfinity;
            foreach (PhaseResult other in poor.Result.Phases)
            {
                nearest = Math.Min(nearest, Difference(phase, other));
            }

            if (nearest > distance)
            {
                distance = nearest;
                added = phase;
            }
        }

        return added;
    }

    private static double Difference(PhaseResult a, PhaseResult b)
    {
        double sum = Math.Abs(Math.Log(a.Figures.MolarDensity / b.Figures.MolarDensity));
        for (int i = 0; i < a.MoleFractions.Length; i++)
        {
            sum += Math.Abs(a.MoleFractions[i] - b.MoleFractions[i]);
        }

        return sum;
    }

    // Where the tangent-plane distance of the entering phase against those of the poorer side vanishes: secants, kept within the bracket as soon as
    // there is one.
    private bool TryRoot(Point poor, Point rich, PhaseResult entering, double lowest, double highest, out double at, out PhaseSplit split)
    {
        const int MaxIterations = 40;
        const double Fine = 1e-14;
        split = new(light, middle, heavy);
        at = poor.At;
        for (int i = 0; i < n; i++)
        {
            lnW[i] = z[i] > 0 ? Math.Log(Math.Max(entering.MoleFractions[i], 1e-300)) : 0;
        }

        Fill(poor.Result, ref split);
        if (!TryDistance(at, entering.Figures.Root, ref split, out double f))
        {
            return false;
        }

        double other = poor.At + (0.5 * (rich.At - poor.At));
        double previous = at;
        double previousF = f;
        for (int iteration = 0; iteration < MaxIterations; iteration++)
        {
            double next = iteration == 0 ? other : at - (f * (at - previous) / (f - previousF));
            if (!double.IsFinite(next))
            {
                return false;
            }

            next = Math.Clamp(next, lowest, highest);
            double moved = Math.Abs(next - at);
            if (moved <= Fine * Math.Abs(at) || (f == 0 && iteration > 0))
            {
                return IsEntering(at, split, entering.Figures.Root) && at > lowest && at < highest;
            }

            (previous, previousF) = (at, f);
            at = next;

            // Always from the side of the bracket: from there the last step of the flash leaves nothing but rounding, while an answer that is as good
            // as its tolerance is not improved, and where the second liquid is met at a small slope that shows in the place.
            Fill(poor.Result, ref split);
            if (!TryDistance(at, entering.Figures.Root, ref split, out f))
            {
                return false;
            }

            if (Math.Abs(f) >= Math.Abs(previousF) && Math.Abs(f) < 1e-12 && iteration > 1)
            {
                // No digits left.
                return IsEntering(at, split, entering.Figures.Root) && at > lowest && at < highest;
            }
        }

        return false;
    }

    private void Fill(EquilibriumResult result, ref PhaseSplit split)
    {
        PhaseResult[] phases = result.Phases;
        split.PhaseCount = phases.Length;
        phases[0].MoleFractions.CopyTo(split.Light);
        phases[^1].MoleFractions.CopyTo(split.Heavy);
        split.LightFraction = phases.Length > 1 || phases[0].IsVapor ? phases[0].Fraction : 0;
        split.HeavyFraction = phases.Length > 1 || !phases[0].IsVapor ? phases[^1].Fraction : 0;
        split.LightRoot = phases[0].Figures.Root;
        split.HeavyRoot = phases[^1].Figures.Root;
        split.LightDensity = phases[0].Figures.MolarDensity;
        split.HeavyDensity = phases[^1].Figures.MolarDensity;
        split.LightIsVapor = phases[0].IsVapor;
        if (phases.Length == 3)
        {
            phases[1].MoleFractions.CopyTo(split.Middle);
            split.MiddleFraction = phases[1].Fraction;
            split.MiddleRoot = phases[1].Figures.Root;
        }
    }

    // ln of the sum of W at its stationary point: above zero the phase lies below the tangent plane.
    private bool TryDistance(double at, DensityRoot root, ref PhaseSplit split, out double distance)
    {
        const int MaxIterations = 60;
        const double Solved = 1e-13;
        distance = 0;
        double t = seeksPressure ? given : at;
        double p = seeksPressure ? Math.Exp(at) : given;
        kernel.SetTemperature(t, scratch);
        if (split.PhaseCount > 1 && !IsothermalFlash.SolveFrom(kernel, t, p, z, scratch, ref split))
        {
            return false;
        }

        kernel.LnFugacityCoefficients(t, p, split.Heavy, split.HeavyRoot, scratch, d, out _);
        for (int i = 0; i < n; i++)
        {
            d[i] += split.Heavy[i] > 0 ? Math.Log(split.Heavy[i]) : 0;
        }

        double best = double.PositiveInfinity;
        for (int iteration = 0; iteration < MaxIterations; iteration++)
        {
            double sum = SumOfTrial();
            kernel.LnFugacityDerivatives(t, p, w, root, scratch, lnPhi, square, default, default, out _);
            double error = 0;
            for (int i = 0; i < n; i++)
            {
                step[i] = z[i] > 0 ? d[i] - lnW[i] - lnPhi[i] : 0;
                error = Math.Max(error, Math.Abs(step[i]));
                for (int j = 0; j < n; j++)
                {
                    jacobian[(i * n) + j] = (i == j ? 1 : 0) + (z[i] > 0 ? square[(i * n) + j] * w[j] : 0);
                }
            }

            if (!double.IsFinite(error))
            {
                return false;
            }

            if (error < Solved || (error >= best && best < 1e-11))
            {
                distance = Math.Log(sum);
                return true;
            }

            best = Math.Min(best, error);
            if (!LinearSystem.Solve(jacobian, n, step))
            {
                return false;
            }

            double scale = 1;
            for (int i = 0; i < n; i++)
            {
                scale = Math.Min(scale, 1 / Math.Max(1, Math.Abs(step[i])));
            }

            for (int i = 0; i < n; i++)
            {
                lnW[i] += scale * step[i];
            }
        }

        return false;
    }

    private double SumOfTrial()
    {
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            w[i] = z[i] > 0 ? Math.Exp(lnW[i]) : 0;
            sum += w[i];
        }

        for (int i = 0; i < n; i++)
        {
            w[i] /= sum;
        }

        return sum;
    }

    // Whether the trial phase is not one of those there.
    private bool IsEntering(double at, scoped in PhaseSplit split, DensityRoot root)
    {
        double t = seeksPressure ? given : at;
        double p = seeksPressure ? Math.Exp(at) : given;
        double density = kernel.LnFugacityCoefficients(t, p, w, root, scratch, lnPhi, out _);
        return !IsPhase(split.Heavy, kernel.LnFugacityCoefficients(t, p, split.Heavy, split.HeavyRoot, scratch, lnPhi, out _), density)
            && (split.PhaseCount < 2 || !IsPhase(split.Light, split.LightDensity, density))
            && (split.PhaseCount < 3 || !IsPhase(split.Middle, split.MiddleDensity, density));
    }

    private bool IsPhase(ReadOnlySpan<double> x, double density, double trialDensity)
    {
        double sum = Math.Abs(Math.Log(density / trialDensity));
        for (int i = 0; i < n; i++)
        {
            sum += Math.Abs(x[i] - w[i]);
        }

        return sum < Same;
    }

    private readonly record struct Point(double At, EquilibriumResult Result)
    {
        public int Count => Result.Phases.Length;

        public bool IsUnresolved => Result.StillUnstable;

        public PhaseRegion Region => Result switch
        {
            { StillUnstable: true } => PhaseRegion.UnresolvedPhases,
            { Phases.Length: 3 } => Result.Phases[0].IsVapor ? PhaseRegion.TwoLiquidsVapor : PhaseRegion.ThreeLiquids,
            { Phases.Length: 2 } => Result.Phases[0].IsVapor ? PhaseRegion.LiquidVapor : PhaseRegion.TwoLiquids,
            _ => Result.Phases[0].IsVapor ? PhaseRegion.Vapor : PhaseRegion.Liquid,
        };
    }
}
