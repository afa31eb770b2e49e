using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// Follows the circulations of a cooler from one to the next along their own arc, where a search at a given cold temperature fails: near a kink, on a plateau of boiling and
/// where the curve turns back. Not thread-safe.
/// </summary>
/// <remarks>
/// The unknowns are the logarithms of both pressures and of the mole fractions, what an after-cooler, a pre-cooler and tubes ask for, and one that runs along the path: the
/// enthalpy at which the stream leaves the cold head, or the share of the charge that is filled. A step goes along the tangent and is corrected at right angles to it (H. B.
/// Keller, in: Applications of Bifurcation Theory, Academic Press 1977, p. 359), with slopes by differences, kept up by Broyden's method.
/// </remarks>
internal sealed class CirculationPath
{
    /// <summary>Enthalpy that counts as much as a pressure e times as high, J/mol.</summary>
    private const double EnthalpyScale = 4000;
    private const double TemperatureScale = 50;
    private const double DifferenceStep = 1e-4;
    private const double FrozenDifferenceStep = 1e-6;

    /// <summary>What contents may miss with the recuperator held where nothing closer is found: they are told to be closed to 1e-9.</summary>
    private const double Close = 9e-10;

    /// <summary>How well the flow of a throttle is known by its own computation, relative.</summary>
    private const double FlowTolerance = 8e-6;

    /// <summary>Share of a component from which its content counts in full.</summary>
    private const double Counted = 0.1;

    /// <summary>How well a load is met at best, over it or 1 W: enthalpies are known to no more.</summary>
    private const double LoadTolerance = 1e-6;
    private const double FirstStep = 0.15;
    private const double MostStep = 0.5;
    private const double LeastStep = 1e-4;
    private const double Longest = 0.5;
    private const int MostCorrections = 8;
    private const int MostCorrectionsAtFirst = 30;
    private const int MostHalvings = 4;
    private const int MostSteps = 250;
    private const double Slow = 0.35;

    private readonly CoolerSolver solver;
    private readonly bool isFrozen;
    private readonly Running running;
    private readonly double[] amounts;
    private readonly int[] active;
    private readonly bool hasFlow;
    private readonly bool hasAfterCooler;
    private readonly bool hasWarmEnd;
    private readonly double cold;
    private readonly double total;
    private readonly double scale;
    private readonly int n;
    private double below;
    private bool isComputed;

    private CirculationPath(CoolerSolver solver, CoolerPoint about, Running running, bool isFrozen = false)
    {
        this.solver = solver;
        this.isFrozen = isFrozen;
        this.running = running;
        amounts = solver.Amounts;
        active = [.. Enumerable.Range(0, amounts.Length).Where(i => amounts[i] > 0)];
        hasFlow = !isFrozen && (solver.Cooler.Recuperator.Tubes is not null || solver.Cooler.Separator is not null);
        hasAfterCooler = !isFrozen && !solver.Cooler.AfterCooling.IsHeld(about.NextAfterCooler, solver.Room);
        hasWarmEnd = running != Running.WarmEnd && (hasAfterCooler || (!isFrozen && solver.Cooler.PreCooling is not null));
        total = amounts.Sum();
        cold = about.Cold;
        scale = Math.Max(1, Math.Abs(about.Gross));
        n = 3 + active.Length + (hasFlow ? 1 : 0) + (hasAfterCooler ? 1 : 0) + (hasWarmEnd ? 1 : 0);
    }

    /// <summary>The circulations from one towards lower enthalpies at the outlet of the cold head, without the first.</summary>
    /// <param name="solver">Takes the states.</param>
    /// <param name="from">The first.</param>
    /// <param name="tolerance">Relative, of flows, contents and temperatures.</param>
    /// <exception cref="ConvergenceException">It does not go on.</exception>
    public static IEnumerable<CoolerPoint> Colder(CoolerSolver solver, CoolerPoint from, double tolerance)
    {
        CirculationPath path = new(solver, from, Along(solver));
        return path.Follow(path.Begin(from, 1, tolerance), -1, tolerance).Select(node => node.Point);
    }

    /// <summary>The circulation whose cooling covers leak and load, between two of which one has more and one less.</summary>
    /// <param name="solver">Takes the states.</param>
    /// <param name="warm">The first, from which the path is followed to lower enthalpies.</param>
    /// <param name="load">W.</param>
    /// <param name="tolerance">Relative, of flows, contents, temperatures and cooling.</param>
    /// <param name="onTheWay">The same on the way.</param>
    /// <exception cref="ConvergenceException">The path ends before.</exception>
    public static CoolerPoint Meet(CoolerSolver solver, CoolerPoint warm, double load, double tolerance, double onTheWay)
    {
        CirculationPath path = new(solver, warm, Along(solver));
        Node last = path.Begin(warm, 1, onTheWay);
        bool isAbove = solver.Net(last.Point) > load;

        // On fine isobars the load may lie on the other side already.
        foreach (Node node in path.Follow(last, isAbove == solver.Net(warm) > load ? -1 : 1, onTheWay))
        {
            if (solver.Net(node.Point) > load != isAbove)
            {
                return path.Crossing(last, node, load, tolerance).Point;
            }

            last = node;
        }

        throw new ConvergenceException(
            "circulation of the cooler", FormattableString.Invariant($"load {load:G5} W below {warm.Cold:F2} K"), Math.Abs(solver.Net(last.Point) - load), "The circulations do not come to that load.");
    }

    /// <summary>The same circulation on fine isobars, its cooling covering leak and load.</summary>
    /// <param name="solver">Takes the states.</param>
    /// <param name="coarse">It on coarse ones.</param>
    /// <param name="load">W.</param>
    /// <param name="tolerance">Relative, of flows, contents, temperatures and cooling.</param>
    /// <exception cref="ConvergenceException">None was found.</exception>
    public static CoolerPoint Refined(CoolerSolver solver, CoolerPoint coarse, double load, double tolerance)
    {
        CirculationPath path = new(solver, coarse, Along(solver));
        double[] x = path.Unknowns(coarse, 1);
        Node start = path.At(x, coarse);
        return (path.Correct(start, null, path.Load(load), tolerance, out _, enough: CoolerSolver.Settled) ?? throw Lost(start)).Point;
    }

    /// <summary>The circulation with all of the charge, from one with little of it.</summary>
    /// <param name="solver">Takes the states.</param>
    /// <param name="little">The one with little.</param>
    /// <param name="share">What it holds of the charge.</param>
    /// <param name="tolerance">Relative, of flows, contents and temperatures.</param>
    /// <exception cref="ConvergenceException">The path ends before.</exception>
    public static CoolerPoint Charged(CoolerSolver solver, CoolerPoint little, double share, double tolerance)
    {
        CirculationPath path = new(solver, little, Running.Charge);
        return path.Until(path.Begin(little, share, tolerance), 0, tolerance);
    }

    /// <summary>The circulation with the stream pre-cooled to a temperature, from one in which it enters the cold box warmer.</summary>
    /// <param name="solver">Takes the states, without pre-cooler.</param>
    /// <param name="warmer">The one before.</param>
    /// <param name="temperature">Temperature to which the stream is pre-cooled, K.</param>
    /// <param name="below">What the cold end is colder by, K.</param>
    /// <param name="tolerance">Relative, of flows, contents and temperatures.</param>
    /// <exception cref="ConvergenceException">The path ends before.</exception>
    public static CoolerPoint PreCooled(CoolerSolver solver, CoolerPoint warmer, double temperature, double below, double tolerance)
    {
        CirculationPath path = new(solver, warmer, Running.WarmEnd) { below = below };
        return path.Until(path.Begin(warmer, 1, tolerance), temperature / TemperatureScale, tolerance);
    }

    /// <summary>The same circulation with the course of the recuperator held, its flows, contents and load closed.</summary>
    /// <param name="solver">Takes the states.</param>
    /// <param name="point">It, nearly closed.</param>
    /// <param name="load">W; null where the cold temperature is held instead.</param>
    /// <param name="tolerance">Relative, of flows, contents and cooling.</param>
    /// <param name="isComputed">Whether the flow of the throttle is computed in each state, to its own accuracy, and not carried over.</param>
    /// <exception cref="ConvergenceException">It does not close.</exception>
    public static CoolerPoint Closed(CoolerSolver solver, CoolerPoint point, double? load, double tolerance, bool isComputed)
    {
        CirculationPath path = new(solver, point, load is null ? Running.Temperature : Along(solver), isFrozen: true) { isComputed = isComputed };
        double[] x = path.Unknowns(point, 1);
        Node start = path.At(x, point);
        return (path.Correct(start, null, load is { } sought ? path.Load(sought) : path.Fixed(x[^1]), tolerance, out _, enough: Close) ?? throw Lost(start)).Point;
    }

    /// <summary>The circulation at a cold temperature, from another.</summary>
    /// <param name="solver">Takes the states.</param>
    /// <param name="near">The other.</param>
    /// <param name="temperature">K.</param>
    /// <param name="tolerance">Relative, of flows, contents and temperatures.</param>
    /// <exception cref="ConvergenceException">The path ends before.</exception>
    public static CoolerPoint To(CoolerSolver solver, CoolerPoint near, double temperature, double tolerance)
    {
        CirculationPath path = new(solver, near, Along(solver));
        Node last = path.Begin(near, 1, tolerance);
        int direction = last.Point.Cold > temperature ? -1 : 1;
        foreach (Node node in path.Follow(last, direction, tolerance))
        {
            if (node.Point.Cold > temperature != last.Point.Cold > temperature || node.Point.Cold.Equals(temperature))
            {
                CirculationPath held = new(solver, node.Point, Running.Temperature);
                double share = (temperature - last.Point.Cold) / (node.Point.Cold - last.Point.Cold);
                double[] a = held.Unknowns(last.Point, 1);
                double[] b = held.Unknowns(node.Point, 1);
                double[] x = [.. a.Zip(b, (p, q) => p + (share * (q - p)))];
                x[^1] = temperature / TemperatureScale;
                CoolerPoint side = share < 0.5 ? last.Point : node.Point;
                Node? met = null;
                try
                {
                    met = held.Correct(held.At(x, side), null, held.Fixed(x[^1]), tolerance, out _);
                }
                catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
                {
                    // By its bracket.
                }

                return (met ?? path.ByBracket(last, node, p => (p.Point.Cold - temperature) / TemperatureScale, tolerance)).Point;
            }

            last = node;
        }

        throw Lost(last);
    }

    // Behind a separator the cold head's fluid follows from the state of the whole: there the temperature runs.
    private static Running Along(CoolerSolver solver) => solver.Cooler.Separator is null ? Running.Enthalpy : Running.Temperature;

    private static ConvergenceException Lost(Node node) => new(
        "circulation of the cooler",
        FormattableString.Invariant($"cold end {node.Point.Cold:F2} K, {node.Point.Guess.Low / 1e5:G4} and {node.Point.Guess.High / 1e5:G4} bar absolute"),
        node.Miss,
        "Change charge or throttle a little.");

    // To where the unknown that runs along the path has a given value.
    private CoolerPoint Until(Node from, double end, double tolerance)
    {
        Node last = from;
        bool isBelow = from.X[^1] < end;
        foreach (Node node in Follow(last, isBelow ? 1 : -1, tolerance))
        {
            if (node.X[^1] < end != isBelow)
            {
                double share = (end - last.X[^1]) / (node.X[^1] - last.X[^1]);
                double[] x = [.. last.X.Zip(node.X, (a, b) => a + (share * (b - a)))];
                x[^1] = end;
                Node? met = null;
                try
                {
                    met = Correct(At(x, node.Point), null, Fixed(end), tolerance, out _);
                }
                catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
                {
                    // By its bracket.
                }

                return (met ?? ByBracket(last, node, p => p.X[^1] - end, tolerance)).Point;
            }

            last = node;
        }

        throw Lost(last);
    }

    private Node Begin(CoolerPoint from, double share, double tolerance)
    {
        double[] x = Unknowns(from, share);
        return Correct(At(x, from), null, Fixed(x[^1]), tolerance, out _, MostCorrectionsAtFirst)
            ?? throw Lost(At(x, from));
    }

    private IEnumerable<Node> Follow(Node from, int direction, double tolerance)
    {
        double[] ahead = new double[n];
        ahead[^1] = direction;
        Node node = from;
        double[] slopes = Slopes(node);
        double step = FirstStep;
        for (int i = 0; i < MostSteps; i++)
        {
            if (Tangent(slopes, ahead) is not { } tangent)
            {
                yield break;
            }

            Node? next = null;
            while (next is null)
            {
                double[] x = [.. node.X.Zip(tangent, (a, t) => a + (step * t))];
                double[] kept = [.. slopes];
                int rounds = 0;
                try
                {
                    next = Correct(At(x, node.Point), kept, Plane(tangent, x), tolerance, out rounds);
                }
                catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
                {
                    // A shorter step.
                }

                if (next is not null && Distance(next.X, node.X) > 2.5 * step)
                {
                    next = null;
                }

                if (next is not null)
                {
                    slopes = kept;
                    step = rounds <= 3 ? Math.Min(MostStep, 1.6 * step) : rounds > 5 ? 0.6 * step : step;
                    break;
                }

                step *= 0.4;
                if (step < LeastStep)
                {
                    yield break;
                }
            }

            ahead = tangent;
            node = next;
            yield return node;
        }
    }

    private Node Crossing(Node a, Node b, double load, double tolerance)
    {
        double missA = solver.Net(a.Point) - load;
        double missB = solver.Net(b.Point) - load;
        double share = missA / (missA - missB);
        double[] x = [.. a.X.Zip(b.X, (p, q) => p + (share * (q - p)))];
        try
        {
            if (Correct(At(x, share < 0.5 ? a.Point : b.Point), null, Load(load), tolerance, out _, enough: CoolerSolver.Settled) is { } met && Distance(met.X, a.X) <= 1.5 * Distance(b.X, a.X))
            {
                return met;
            }
        }
        catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
        {
            // By its bracket.
        }

        return ByBracket(a, b, p => (solver.Net(p.Point) - load) / scale, tolerance);
    }

    // A kink between: the place on the chord is bracketed, each circulation at right angles to it.
    private Node ByBracket(Node a, Node b, Func<Node, double> miss, double tolerance)
    {
        double[] chord = [.. a.X.Zip(b.X, (p, q) => q - p)];
        double length = Math.Sqrt(chord.Sum(c => c * c));
        double[] along = [.. chord.Select(c => c / length)];
        Dictionary<double, Node> found = new() { [0] = a, [1] = b };
        (double low, double high) = BracketedRoot.Narrow(
            s =>
            {
                Node near = found.MinBy(f => Math.Abs(f.Key - s)).Value;
                double[] x = [.. a.X.Zip(chord, (p, c) => p + (s * c))];
                Node node = Correct(At(x, near.Point), null, Plane(along, x), tolerance, out _, enough: CoolerSolver.Settled)
                    ?? throw Lost(near);
                found[s] = node;
                return miss(node);
            },
            0,
            miss(a),
            1,
            miss(b),
            (p, q) => Math.Abs(q - p) * length < 1e-9 || (found.TryGetValue(p, out Node? at) && Math.Abs(miss(at)) <= 0.1 * tolerance) || (found.TryGetValue(q, out at) && Math.Abs(miss(at)) <= 0.1 * tolerance));
        return Math.Abs(miss(found[low])) < Math.Abs(miss(found[high])) ? found[low] : found[high];
    }

    /// <summary>Newton's method on the circulation and one equation more; null where it does not converge. Slopes are kept up to date.</summary>
    private Node? Correct(Node start, double[]? slopes, Condition condition, double tolerance, out int rounds, int most = MostCorrections, double enough = 0)
    {
        Node node = start;
        double[]? own = slopes;
        bool isFresh = false;
        double[] left = new double[n * n];
        double[] step = new double[n];
        double miss = Math.Max(node.Miss, condition.Over(node, tolerance));
        for (rounds = 0; rounds < most; rounds++)
        {
            if (miss <= tolerance)
            {
                return node;
            }

            if (own is null)
            {
                own = Slopes(node);
                isFresh = true;
            }

            own.CopyTo(left, 0);
            condition.Row(own).CopyTo(left.AsSpan((n - 1) * n));
            for (int i = 0; i < n - 1; i++)
            {
                step[i] = -node.Values[i];
            }

            step[^1] = -condition.Miss(node);
            if (!LinearSystem.Solve(left, n, step))
            {
                break;
            }

            double share = Math.Min(1, Longest / Math.Max(1e-300, step.Max(Math.Abs)));
            Node? next = null;
            double nextMiss = double.PositiveInfinity;
            for (int half = 0; half < MostHalvings; half++, share *= 0.4)
            {
                try
                {
                    Node trial = At([.. node.X.Zip(step, (x, s) => x + (share * s))], node.Point);
                    Learn(own, node, trial);
                    double trialMiss = Math.Max(trial.Miss, condition.Over(trial, tolerance));
                    if (trialMiss < nextMiss)
                    {
                        (next, nextMiss) = (trial, trialMiss);
                    }
                }
                catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
                {
                    continue;
                }

                if (nextMiss < miss || !isFresh)
                {
                    break;
                }
            }

            if (next is null || (nextMiss >= miss && isFresh))
            {
                break;
            }

            bool isSlow = nextMiss > Slow * miss;
            if (nextMiss < miss)
            {
                (node, miss) = (next, nextMiss);
            }

            if (isSlow && miss > tolerance)
            {
                // Slopes anew, by differences.
                if (isFresh && rounds > most / 2)
                {
                    break;
                }

                Slopes(node).CopyTo(own, 0);
                isFresh = true;
            }
            else
            {
                isFresh = false;
            }
        }

        return miss <= Math.Max(tolerance, enough) ? node : null;
    }

    private void Learn(double[] slopes, Node from, Node to)
    {
        double length = 0;
        for (int j = 0; j < n; j++)
        {
            length += (to.X[j] - from.X[j]) * (to.X[j] - from.X[j]);
        }

        if (!(length > 0))
        {
            return;
        }

        for (int i = 0; i < n; i++)
        {
            double off = to.Values[i] - from.Values[i];
            for (int j = 0; j < n; j++)
            {
                off -= slopes[(i * n) + j] * (to.X[j] - from.X[j]);
            }

            for (int j = 0; j < n; j++)
            {
                slopes[(i * n) + j] += off * (to.X[j] - from.X[j]) / length;
            }
        }
    }

    private double[]? Tangent(double[] slopes, double[] ahead)
    {
        double[] left = [.. slopes];
        ahead.CopyTo(left, (n - 1) * n);
        double[] tangent = new double[n];
        tangent[^1] = 1;
        if (!LinearSystem.Solve(left, n, tangent))
        {
            return null;
        }

        double length = Math.Sqrt(tangent.Sum(t => t * t));
        return double.IsFinite(length) ? [.. tangent.Select(t => t / length)] : null;
    }

    /// <summary>Slopes of the values by differences, row-major, value by unknown.</summary>
    private double[] Slopes(Node about)
    {
        double[] slopes = new double[n * n];
        for (int j = 0; j < n; j++)
        {
            double size = isFrozen && !isComputed ? FrozenDifferenceStep : DifferenceStep;
            Node beside = Beside(about, j, size) ?? Beside(about, j, -size)
                ?? throw new ConvergenceException("circulation of the cooler", FormattableString.Invariant($"cold end {about.Point.Cold:F2} K"), about.Miss, "States beside it are not found.");
            double step = beside.X[j] - about.X[j];
            for (int i = 0; i < n; i++)
            {
                slopes[(i * n) + j] = (beside.Values[i] - about.Values[i]) / step;
            }
        }

        return slopes;
    }

    private Node? Beside(Node about, int unknown, double step)
    {
        double[] x = [.. about.X];
        x[unknown] += step;
        try
        {
            return At(x, about.Point);
        }
        catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
        {
            return null;
        }
    }

    private double[] Unknowns(CoolerPoint point, double share)
    {
        double[] x = new double[n];
        x[0] = Math.Log(point.Guess.Low);
        x[1] = Math.Log(point.Guess.High);
        for (int i = 0; i < active.Length; i++)
        {
            x[2 + i] = Math.Log(point.Guess.Fractions[active[i]]);
        }

        int at = 2 + active.Length;
        if (hasFlow)
        {
            x[at++] = Math.Log(point.Guess.Flow);
        }

        if (hasAfterCooler)
        {
            x[at++] = point.Guess.AfterCooler / TemperatureScale;
        }

        if (hasWarmEnd)
        {
            x[at] = point.Guess.WarmEnd / TemperatureScale;
        }

        x[^1] = Last(point, share);
        return x;
    }

    private double Last(CoolerPoint point, double share) => running switch
    {
        Running.Charge => Math.Log(share),
        Running.WarmEnd => point.Guess.WarmEnd / TemperatureScale,
        Running.Temperature => point.Cold / TemperatureScale,
        _ => point.ColdOutlet.MolarEnthalpy.JoulesPerMole / EnthalpyScale,
    };

    /// <summary>States at given unknowns, and what they miss.</summary>
    private Node At(double[] x, CoolerPoint near)
    {
        double[] z = new double[amounts.Length];
        double all = 0;
        for (int i = 0; i < active.Length; i++)
        {
            z[active[i]] = Math.Exp(x[2 + i]);
            all += z[active[i]];
        }

        foreach (int i in active)
        {
            z[i] /= all;
        }

        int at = 2 + active.Length;
        CoolerGuess guess = new(
            Math.Max(CoolerSolver.LowestSuction, Math.Exp(x[0])),
            Math.Exp(x[1]),
            z,
            hasFlow ? Math.Exp(x[at++]) : near.Flow,
            hasAfterCooler ? TemperatureScale * x[at++] : near.NextAfterCooler,
            running == Running.WarmEnd ? TemperatureScale * x[^1] : hasWarmEnd ? TemperatureScale * x[at] : near.NextWarmEnd);
        double temperature = running switch
        {
            Running.Temperature => TemperatureScale * x[^1],
            Running.WarmEnd => (TemperatureScale * x[^1]) - below,
            _ => cold,
        };
        State? coldOutlet = null;
        if (running == Running.Enthalpy)
        {
            WorkingFluid fluid = near.Fluid.WithFractions(z);
            CoolerRecuperator recuperator = solver.Cooler.Recuperator;
            double pressure = recuperator.Tubes is null ? guess.Low + recuperator.LowSidePressureDrop.Pascals : guess.Low * near.Course.ColdPressureRatio;
            coldOutlet = CoolerCircuit.Within(
                () => fluid.AtEnthalpy(Pressure.FromPascals(pressure), MolarEnergy.FromJoulesPerMole(EnthalpyScale * x[^1]), near.ColdOutlet), guess, near.Cold);
            temperature = coldOutlet.Temperature.Kelvins;
        }

        CoolerPoint point = solver.Evaluate(temperature, guess, near, isFrozen, isCoarse: false, isVerified: !isFrozen || isComputed, coldOutlet);
        double[] own = [.. x];
        own[^1] = running == Running.Enthalpy ? Last(point, 1) : x[^1];

        double[] values = new double[n];
        values[0] = point.FlowMiss;
        double share = running == Running.Charge ? Math.Exp(x[^1]) : 1;
        for (int i = 0; i < active.Length; i++)
        {
            double content = 0;
            foreach (SpaceFilling filling in point.Fillings)
            {
                content += filling.Moles(active[i]);
            }

            values[1 + i] = Math.Log(content / (share * amounts[active[i]]));
        }

        at = 1 + active.Length;
        values[at++] = Math.Log(all);
        if (hasFlow)
        {
            values[at++] = Math.Log(point.Flow / guess.Flow);
        }

        if (hasAfterCooler)
        {
            values[at++] = (point.NextAfterCooler - guess.AfterCooler) / TemperatureScale;
        }

        if (hasWarmEnd)
        {
            values[at] = (point.NextWarmEnd - guess.WarmEnd) / TemperatureScale;
        }

        values[^1] = solver.Net(point) / scale;
        return new(own, point, values, Missed(values));
    }

    // What is missing of a trace counts by its share in the charge.
    private double Missed(double[] values)
    {
        double miss = 0;
        for (int i = 0; i < n - 1; i++)
        {
            double weight = i >= 1 && i <= active.Length ? Math.Min(1, amounts[active[i - 1]] / total / Counted) : i == 0 && isComputed ? Close / FlowTolerance : 1;
            miss = Math.Max(miss, weight * Math.Abs(values[i]));
        }

        return miss;
    }

    private static double Distance(double[] a, double[] b) => Math.Sqrt(a.Zip(b, (x, y) => (x - y) * (x - y)).Sum());

    private static Condition Plane(double[] normal, double[] through) => new(
        node => node.X.Select((x, j) => normal[j] * (x - through[j])).Sum(), _ => normal);

    private Condition Fixed(double last)
    {
        double[] row = new double[n];
        row[^1] = 1;
        return new(node => node.X[^1] - last, _ => row);
    }

    private Condition Load(double load) => new(node => node.Values[^1] - (load / scale), slopes => slopes[((n - 1) * n)..], LoadTolerance * Math.Max(1, load) / scale);

    /// <summary>States, what they were taken at, and what they miss: flow, contents, sum of fractions, what coolers and tubes ask for; last the cooling left.</summary>
    private sealed record Node(double[] X, CoolerPoint Point, double[] Values, double Miss);

    /// <summary>The unknown that runs along the path.</summary>
    private enum Running
    {
        Enthalpy,
        Temperature,
        Charge,
        WarmEnd,
    }

    /// <summary>The equation that picks one circulation of the path: what a node misses, and its slopes by the unknowns.</summary>
    private sealed record Condition(Func<Node, double> Miss, Func<double[], double[]> Row, double LeastTolerance = 0)
    {
        public double Over(Node node, double tolerance) => Math.Abs(Miss(node)) * Math.Min(1, tolerance / Math.Max(tolerance, LeastTolerance));
    }
}
