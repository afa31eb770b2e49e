using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Follows a line of given phase fraction from one end to the other. Each step specifies the variable that changes fastest; the next point
/// is extrapolated by the cubic through the last two points and their tangents; the step follows Newton's effort. At a critical point all
/// ln K and the difference of densities pass zero together: it is stepped over.
/// </summary>
internal sealed class EnvelopeTracer
{
    private const int MaxNodes = 1500;
    private const int FewestOfALoop = 8;
    private const double LargestLnKStep = 0.7;
    private const double LargestTemperatureStep = 0.05;
    private const double LargestPressureStep = 0.6;
    private const double LargestDensityStep = 0.6;

    // Close to a critical point the largest of ln K and the density difference is this small; it is then stepped over at once.
    private const double CloseToCritical = 0.3;
    private const double SmallestStep = 1e-9;

    // A critical point is stepped over also where that is more than a step: nearer to it there are fewer digits.
    private const double Reach = 4;

    // From before a critical point to beyond it, over the distance before.
    private const double Over = 1.8;

    // Nearer to a critical point than this no point is taken: the equations fall with the cube of the distance, and with them their digits.
    private const double Nearest = 1e-3;

    // Where the line cannot be followed and its phases differ by less than this, rounding is the reason.
    private const double Alike = 0.01;

    // Nearer than this the line is interpolated between points that are solved: the cubic's error is then below 1e-9.
    private const double Beside = 3e-3;

    private readonly EnvelopeEquations equations;
    private readonly double lowestLnP;
    private readonly double highestLnP;
    private readonly double lowestLnT;
    private readonly double highestLnT;

    /// <summary>Prepares tracing.</summary>
    /// <param name="equations">The equations; their share is that of the line.</param>
    /// <param name="lowestPressure">Pa.</param>
    public EnvelopeTracer(EnvelopeEquations equations, double lowestPressure)
    {
        this.equations = equations;
        MixtureKernel kernel = equations.Kernel;
        lowestLnP = Math.Log(lowestPressure);
        highestLnP = Math.Log(kernel.HighestPressure);
        lowestLnT = Math.Log(kernel.LowestTemperature);
        highestLnT = Math.Log(kernel.HighestTemperature);
    }

    /// <summary>
    /// Traces from a solved point towards higher pressure. Where a phase loses its mechanical stability and does not gain it again, the line
    /// ends: beyond lies what the equation of state does between its spinodals.
    /// </summary>
    /// <param name="start">Variables of the first point.</param>
    /// <param name="stop">Why it ended.</param>
    public List<EnvelopeNode> Trace(double[] start, out EnvelopeStop stop)
    {
        return Trimmed(Follow(start, equations.Pressure, 1, out stop), ref stop);
    }

    private static List<EnvelopeNode> Trimmed(List<EnvelopeNode> nodes, ref EnvelopeStop stop)
    {
        int compressible = nodes.FindLastIndex(static node => node.IsCompressible);
        if (compressible >= 0 && compressible < nodes.Count - 1)
        {
            stop = EnvelopeStop.MetastableLimit;
            nodes.RemoveRange(compressible + 1, nodes.Count - compressible - 1);
        }

        return nodes;
    }

    /// <summary>Traces away from a critical point, from a solved point beside it.</summary>
    /// <param name="start">Variables of the first point.</param>
    /// <param name="stop">Why it ended.</param>
    public List<EnvelopeNode> TraceApart(double[] start, out EnvelopeStop stop)
    {
        int apart = Largest(start);
        return Trimmed(Follow(start, apart, Math.Sign(start[apart]), out stop), ref stop);
    }

    /// <summary>A solved point beside a critical point, on the side where the second phase lies along the critical direction or against it.</summary>
    public bool TryBeside(CriticalConditions conditions, CriticalPointFinder.Point point, int side, out double[] variables)
    {
        foreach (double distance in (ReadOnlySpan<double>)[0.12, 0.04, 0.3])
        {
            if (TryBeside(conditions, point, side * distance, out variables))
            {
                return true;
            }
        }

        variables = [];
        return false;
    }

    private bool TryBeside(CriticalConditions conditions, CriticalPointFinder.Point point, double distance, out double[] variables)
    {
        variables = new double[equations.Length];
        double[] direction = new double[conditions.Count];
        if (!conditions.TryEigenvalue(point.Temperature, 1 / point.MolarDensity, direction, out _))
        {
            return false;
        }

        // Amounts change along the eigenvector at constant volume: ln K_i = s u_i/sqrt(z_i) - change of the whole.
        double whole = 0;
        int index = 0;
        for (int i = 0; i < equations.Count; i++)
        {
            double z = equations.Feed[i];
            if (z > 0)
            {
                variables[i] = direction[index++] / Math.Sqrt(z);
                whole += z * variables[i];
            }
        }

        for (int i = 0; i < equations.Count; i++)
        {
            variables[i] -= equations.Feed[i] > 0 ? whole : 0;
        }

        variables[equations.DensityDifference] = whole;
        double scale = distance / Closeness(variables);
        for (int i = 0; i < equations.Length; i++)
        {
            variables[i] *= scale;
        }

        double density = Math.Log(point.MolarDensity);
        bool firstIsWhole = equations.Share == 0;
        variables[equations.Temperature] = Math.Log(point.Temperature);
        variables[equations.Pressure] = Math.Log(point.Pressure);
        variables[equations.FirstDensity] = density - (firstIsWhole ? 0 : scale * whole);
        variables[equations.SecondDensity] = density + (firstIsWhole ? scale * whole : 0);
        int apart = Largest(variables);
        return equations.Solve(variables, apart, variables[apart], out _, out _) && Closeness(variables) < 5 * Math.Abs(distance);
    }

    private List<EnvelopeNode> Follow(double[] start, int variable, int sign, out EnvelopeStop stop)
    {
        List<EnvelopeNode> nodes = [];
        double[] tangent = new double[equations.Length];
        stop = EnvelopeStop.NotContinued;
        if (!equations.Tangent(start, variable, tangent))
        {
            return nodes;
        }

        if (sign < 0)
        {
            Negate(tangent);
        }

        nodes.Add(new((double[])start.Clone(), tangent));
        double step = 0.1;
        while (nodes.Count < MaxNodes)
        {
            EnvelopeNode last = nodes[^1];
            if (!TryNext(nodes, ref step, out EnvelopeNode? next))
            {
                stop = Closeness(last.Variables) < Alike ? EnvelopeStop.PhasesAlike : EnvelopeStop.NotContinued;
                return nodes;
            }

            double[] x = next.Variables;
            (EnvelopeStop Stop, int Index, double Limit)? limit = Left(last, next);
            if (limit is { } crossed)
            {
                EnvelopeNode? end = Between(last, next, node => node.Variables[crossed.Index] - crossed.Limit);
                if (end is not null)
                {
                    nodes.Add(end);
                }

                stop = crossed.Stop;
                return nodes;
            }

            if (nodes.Count > FewestOfALoop && IsPassed(nodes[0], last, next))
            {
                nodes.Add(nodes[0]);
                stop = EnvelopeStop.ClosedLoop;
                return nodes;
            }

            nodes.Add(next);
        }

        return nodes;
    }

    // Whether the stretch between two neighbours leads through a point.
    private bool IsPassed(EnvelopeNode point, EnvelopeNode a, EnvelopeNode b)
    {
        const double Near = 0.02;
        int s = Parameter(a, b);
        double at = point.Variables[s];
        if ((at - a.Variables[s]) * (at - b.Variables[s]) > 0)
        {
            return false;
        }

        double[] x = Hermite(a, b, s, at, null);
        for (int i = 0; i < x.Length; i++)
        {
            if (!(Math.Abs(x[i] - point.Variables[i]) < Near * Unit(i)))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Inserts the extrema of temperature and pressure, each solved on the line.</summary>
    public void InsertExtrema(List<EnvelopeNode> nodes)
    {
        for (int k = nodes.Count - 2; k >= 0; k--)
        {
            EnvelopeNode a = nodes[k];
            EnvelopeNode b = nodes[k + 1];
            EnvelopeNode? hot = Extremum(a, b, equations.Temperature);
            EnvelopeNode? high = Extremum(a, b, equations.Pressure);
            EnvelopeNode[] inserted = [.. new[] { hot is null ? null : hot with { IsTemperatureExtremum = true }, high is null ? null : high with { IsPressureExtremum = true } }
                .OfType<EnvelopeNode>()];
            if (inserted.Length == 2)
            {
                int s = Parameter(a, b);
                if ((inserted[0].Variables[s] - inserted[1].Variables[s]) * (b.Variables[s] - a.Variables[s]) > 0)
                {
                    Array.Reverse(inserted);
                }
            }

            nodes.InsertRange(k + 1, inserted);
        }
    }

    /// <summary>Whether both densities and all K-values exchange their roles between two neighbours: a critical point lies between them.</summary>
    public bool IsCriticalBetween(EnvelopeNode a, EnvelopeNode b)
    {
        int s = Largest(a.Variables);
        return a.Variables[s] * b.Variables[s] < 0 && Closeness(a.Variables) < 2 * CloseToCritical && Closeness(b.Variables) < 2 * CloseToCritical;
    }

    /// <summary>Variables interpolated to where both phases are the same, between neighbours with a critical point between them.</summary>
    public double[] AtCritical(EnvelopeNode a, EnvelopeNode b)
    {
        int s = Largest(a.Variables);
        (EnvelopeNode before, EnvelopeNode after) = AroundCritical(a, b, s);
        return Hermite(before, after, s, 0, null);
    }

    /// <summary>The point between two neighbours where a function of the point vanishes; null where it has one sign at both or no point is found.</summary>
    public EnvelopeNode? Between(EnvelopeNode a, EnvelopeNode b, Func<EnvelopeNode, double> function)
    {
        double fa = function(a);
        double fb = function(b);
        if (fa == 0)
        {
            return a;
        }

        if (fb == 0)
        {
            return b;
        }

        if (fa * fb > 0 || !double.IsFinite(fa * fb))
        {
            return null;
        }

        int s = Parameter(a, b);
        double sa = a.Variables[s];
        double sb = b.Variables[s];
        EnvelopeNode? best = null;
        double bestValue = double.PositiveInfinity;
        int side = 0;
        for (int iteration = 0; iteration < 60; iteration++)
        {
            // Regula falsi with the Illinois halving; every few steps plain halving.
            double share = iteration % 6 == 5 ? 0.5 : fa / (fa - fb);
            double at = sa + (share * (sb - sa));
            EnvelopeNode? node = Solved(a, b, s, at);
            if (node is null)
            {
                return best;
            }

            double f = function(node);
            if (Math.Abs(f) < bestValue)
            {
                bestValue = Math.Abs(f);
                best = node;
            }

            if (Math.Abs(f) < 1e-12 || Math.Abs(sb - sa) < 1e-13 * Math.Max(1, Math.Abs(at)))
            {
                return best;
            }

            if (f * fa > 0)
            {
                sa = at;
                fa = f;
                fb = side == 1 ? fb / 2 : fb;
                side = 1;
            }
            else
            {
                sb = at;
                fb = f;
                fa = side == -1 ? fa / 2 : fa;
                side = -1;
            }
        }

        return best;
    }

    private EnvelopeNode? Extremum(EnvelopeNode a, EnvelopeNode b, int variable) =>
        a.Tangent[variable] * b.Tangent[variable] < 0 ? Between(a, b, node => node.Tangent[variable] / Largest(node.Tangent, equations.Length)) : null;

    private static double Largest(double[] vector, int length)
    {
        double largest = 0;
        for (int i = 0; i < length; i++)
        {
            largest = Math.Max(largest, Math.Abs(vector[i]));
        }

        return largest;
    }

    // The largest of ln K and the density difference: both phases are the same where it vanishes.
    private int Largest(double[] x)
    {
        int largest = equations.DensityDifference;
        for (int i = 0; i < equations.Count; i++)
        {
            largest = Math.Abs(x[i]) > Math.Abs(x[largest]) ? i : largest;
        }

        return largest;
    }

    private double Closeness(double[] x) => Math.Abs(x[Largest(x)]);

    private (EnvelopeStop Stop, int Index, double Limit)? Left(EnvelopeNode last, EnvelopeNode next)
    {
        double[] x = next.Variables;
        double[] before = last.Variables;
        if (x[equations.Pressure] < lowestLnP && before[equations.Pressure] > lowestLnP)
        {
            return (EnvelopeStop.LowestPressure, equations.Pressure, lowestLnP);
        }

        if (x[equations.Pressure] > highestLnP)
        {
            return (EnvelopeStop.HighestPressure, equations.Pressure, highestLnP);
        }

        if (x[equations.Temperature] < lowestLnT)
        {
            return (EnvelopeStop.LowestTemperature, equations.Temperature, lowestLnT);
        }

        return x[equations.Temperature] > highestLnT ? (EnvelopeStop.HighestTemperature, equations.Temperature, highestLnT) : null;
    }

    private bool TryNext(List<EnvelopeNode> nodes, ref double step, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out EnvelopeNode? next)
    {
        EnvelopeNode last = nodes[^1];
        EnvelopeNode? before = nodes.Count > 1 ? nodes[^2] : null;
        double[] x = last.Variables;
        next = null;

        // The fastest variable; near a critical point the one that tells the phases apart.
        int s = Fastest(last.Tangent);
        int apart = Largest(x);
        bool isClose = Math.Abs(x[apart]) < 2.5 * CloseToCritical;
        bool nears = last.Tangent[apart] * x[apart] < 0;
        double speed = Math.Abs(last.Tangent[apart]) / LargestLnKStep;
        if (isClose && speed > (nears ? 0.05 : 0.4) * Math.Abs(last.Tangent[s]) / Unit(s))
        {
            s = apart;
        }

        double sign = Math.Sign(last.Tangent[s]);

        // A critical point within reach is stepped over, also where another variable changes faster: approached by that, it would never be passed.
        if (nears && Math.Abs(x[apart]) < CloseToCritical && Over * Math.Abs(x[apart]) < Reach * Limit(last.Tangent, apart))
        {
            s = apart;
            sign = Math.Sign(last.Tangent[s]);
        }

        bool approaches = s == apart && isClose && sign * x[apart] < 0;
        step = Math.Min(step, Limit(last.Tangent, s));
        if (nears && s != apart && Math.Abs(x[apart]) < 3)
        {
            // By another variable a critical point is approached in steps too small to pass it unseen.
            step = Math.Min(step, 0.55 * Math.Abs(x[apart] / last.Tangent[apart] * last.Tangent[s]));
        }

        if (approaches)
        {
            double distance = Math.Abs(x[apart]);
            if (distance < CloseToCritical)
            {
                // Over the critical point, at first symmetrically; to points so near beyond it that digits are few only where nothing else is met.
                if (TryOver(nodes, s, [Over - 1, 1.3], out next) || TryOverCritical(last, s, [1, 0.5], out next)
                    || TryOver(nodes, s, [0.4, 0.2], out next) || TryOverCritical(last, s, [0.25], out next))
                {
                    step = Math.Abs(next.Variables[s]);
                    return true;
                }
            }

            step = Math.Min(step, 0.55 * distance);
        }

        for (int attempt = 0; attempt < 45; attempt++)
        {
            double target = x[s] + (sign * step);
            if (TrySolve(last, before, s, target, out next, out int iterations) && Agrees(last, next, s))
            {
                step *= iterations <= 3 ? 1.7 : iterations <= 5 ? 1.1 : 0.6;
                return true;
            }

            step *= 0.45;
            if (step < SmallestStep)
            {
                break;
            }
        }

        next = null;
        return false;
    }

    private bool TryOver(List<EnvelopeNode> nodes, int s, ReadOnlySpan<double> shares, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out EnvelopeNode? next)
    {
        EnvelopeNode last = nodes[^1];
        foreach (double share in shares)
        {
            if (TrySolve(last, nodes.Count > 1 ? nodes[^2] : null, s, -share * last.Variables[s], out next, out _) && Agrees(last, next, s))
            {
                return true;
            }
        }

        next = null;
        return false;
    }

    // Where Newton does not reach the other side from the points before, the critical point itself is solved by its own conditions; the parabola
    // through it and the last point with its tangent then leads close enough.
    private bool TryOverCritical(EnvelopeNode last, int s, ReadOnlySpan<double> shares, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out EnvelopeNode? next)
    {
        const double Far = 0.15;
        next = null;
        double[] x = last.Variables;
        double[] at = Linear(last, s, 0);
        if (!CriticalPointFinder.TryNear(
                equations.Kernel, equations.Feed, Math.Exp(at[equations.Temperature]), Math.Exp(at[equations.FirstDensity]), Far, out CriticalPointFinder.Point point))
        {
            return false;
        }

        Array.Clear(at);
        at[equations.Temperature] = Math.Log(point.Temperature);
        at[equations.Pressure] = Math.Log(point.Pressure);
        at[equations.FirstDensity] = Math.Log(point.MolarDensity);
        at[equations.SecondDensity] = at[equations.FirstDensity];
        foreach (double share in shares)
        {
            double[] guess = new double[equations.Length];
            for (int i = 0; i < guess.Length; i++)
            {
                double chord = x[i] - at[i];
                double slope = x[s] * last.Tangent[i] / last.Tangent[s];
                guess[i] = at[i] - (share * ((2 * chord) - slope)) + (share * share * (slope - chord));
            }

            if (TrySolve(last, guess, s, -share * x[s], out next, out _) && Agrees(last, next, s))
            {
                return true;
            }
        }

        return false;
    }

    // Newton from the extrapolated point, tangent oriented onwards.
    private bool TrySolve(
        EnvelopeNode last, EnvelopeNode? before, int s, double target, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out EnvelopeNode? node, out int iterations)
    {
        double[] guess = before is not null && Math.Abs(before.Tangent[s]) > 1e-3 * Largest(before.Tangent, equations.Length)
            && (before.Variables[s] - last.Variables[s]) * last.Tangent[s] < 0
            ? Hermite(before, last, s, target, null)
            : Linear(last, s, target);
        return TrySolve(last, guess, s, target, out node, out iterations);
    }

    private bool TrySolve(
        EnvelopeNode last, double[] guess, int s, double target, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out EnvelopeNode? node, out int iterations)
    {
        node = null;
        if (!equations.Solve(guess, s, target, out iterations, out _))
        {
            return false;
        }

        double[] tangent = new double[equations.Length];
        if (!equations.Tangent(guess, s, tangent))
        {
            return false;
        }

        if (target < last.Variables[s])
        {
            Negate(tangent);
        }

        node = new(guess, tangent) { IsCompressible = equations.Stiffness > 0 };
        return true;
    }

    // The new point must lie where the tangents of both lead to, not on another line or further along than one step.
    private bool Agrees(EnvelopeNode last, EnvelopeNode next, int s)
    {
        double moved = next.Variables[s] - last.Variables[s];
        double[] x = last.Variables;
        double[] y = next.Variables;

        // Equal phases solve the equations everywhere, and almost equal ones do so to all digits.
        if (Closeness(y) < Nearest)
        {
            return false;
        }

        // The direction may turn by no more than 60 degrees: else the point lies on a stretch that leads back.
        double product = 0;
        double firstSquare = 0;
        double secondSquare = 0;
        double sameWay = last.Tangent[s] * next.Tangent[s] < 0 ? -1 : 1;
        for (int i = 0; i < equations.Length; i++)
        {
            double a = last.Tangent[i] / Unit(i);
            double b = sameWay * next.Tangent[i] / Unit(i);
            product += a * b;
            firstSquare += a * a;
            secondSquare += b * b;
        }

        if (!(product > 0.5 * Math.Sqrt(firstSquare * secondSquare)))
        {
            return false;
        }

        double scaleA = moved / last.Tangent[s];
        double scaleB = moved / next.Tangent[s];
        for (int i = 0; i < equations.Length; i++)
        {
            double byFirst = last.Tangent[i] * scaleA;
            double bySecond = next.Tangent[i] * scaleB;
            double change = y[i] - x[i];
            double low = Math.Min(byFirst, bySecond);
            double high = Math.Max(byFirst, bySecond);
            double unit = i < equations.Count ? 1 : i == equations.Temperature ? 0.08 : 1;
            double slack = (0.12 * unit) + (0.5 * (high - low)) + (0.25 * Math.Abs(change));
            if (change < low - slack || change > high + slack || Math.Abs(bySecond - byFirst) > 2.5 * unit)
            {
                return false;
            }
        }

        return true;
    }

    private int Fastest(double[] tangent)
    {
        int fastest = equations.Pressure;
        double most = 0;
        for (int i = 0; i < equations.Length; i++)
        {
            double speed = Math.Abs(tangent[i]) / Unit(i);
            if (speed > most)
            {
                most = speed;
                fastest = i;
            }
        }

        return fastest;
    }

    // Largest step of a variable.
    private double Unit(int i) =>
        i < equations.Count ? LargestLnKStep : i == equations.Temperature ? LargestTemperatureStep : i == equations.Pressure ? LargestPressureStep : LargestDensityStep;

    // Largest step of one variable that keeps all within their limits.
    private double Limit(double[] tangent, int s)
    {
        double limit = double.PositiveInfinity;
        for (int i = 0; i < equations.Length; i++)
        {
            limit = Math.Min(limit, Unit(i) * Math.Abs(tangent[s]) / Math.Max(Math.Abs(tangent[i]), 1e-300));
        }

        return limit;
    }

    // A variable that changes one way only between two neighbours, the one that changes most.
    private int Parameter(EnvelopeNode a, EnvelopeNode b)
    {
        int best = Largest(a.Variables);
        if (IsCriticalBetween(a, b))
        {
            return best;
        }

        double most = 0;
        double scaleA = Largest(a.Tangent, equations.Length);
        double scaleB = Largest(b.Tangent, equations.Length);
        for (int i = 0; i < equations.Length; i++)
        {
            double change = b.Variables[i] - a.Variables[i];
            double ta = a.Tangent[i] / scaleA;
            double tb = b.Tangent[i] / scaleB;
            if (ta * change > 0 && tb * change > 0)
            {
                double worth = Math.Abs(change) * Math.Min(Math.Abs(ta), Math.Abs(tb));
                if (worth > most)
                {
                    most = worth;
                    best = i;
                }
            }
        }

        return best;
    }

    // A solved point between two neighbours. Beside a critical point the equations lose their digits: there the cubic through points on both
    // sides that are still solved.
    private EnvelopeNode? Solved(EnvelopeNode a, EnvelopeNode b, int s, double at)
    {
        if (!IsCriticalBetween(a, b) || Math.Abs(at) >= Beside)
        {
            return SolvedAt(a, b, s, at);
        }

        (EnvelopeNode before, EnvelopeNode after) = AroundCritical(a, b, s);
        double[] tangent = new double[equations.Length];
        return new(Hermite(before, after, s, at, tangent), tangent);
    }

    private (EnvelopeNode Before, EnvelopeNode After) AroundCritical(EnvelopeNode a, EnvelopeNode b, int s)
    {
        double side = Math.Sign(a.Variables[s]);
        EnvelopeNode before = Math.Abs(a.Variables[s]) > Beside ? SolvedAt(a, b, s, side * Beside) ?? a : a;
        EnvelopeNode after = Math.Abs(b.Variables[s]) > Beside ? SolvedAt(a, b, s, -side * Beside) ?? b : b;
        return (before, after);
    }

    private EnvelopeNode? SolvedAt(EnvelopeNode a, EnvelopeNode b, int s, double at)
    {
        double[] x = Hermite(a, b, s, at, null);
        double[] tangent = new double[equations.Length];
        double[] solved = (double[])x.Clone();
        if (!equations.Solve(solved, s, at, out _, out _) || Math.Abs(solved[equations.Temperature] - x[equations.Temperature]) > 0.05
            || !equations.Tangent(solved, s, tangent))
        {
            return null;
        }

        if (b.Variables[s] < a.Variables[s])
        {
            Negate(tangent);
        }

        return new(solved, tangent) { IsCompressible = equations.Stiffness > 0 };
    }

    private static void Negate(double[] vector)
    {
        for (int i = 0; i < vector.Length; i++)
        {
            vector[i] = -vector[i];
        }
    }

    private static double[] Linear(EnvelopeNode node, int s, double at)
    {
        double[] x = (double[])node.Variables.Clone();
        double factor = (at - x[s]) / node.Tangent[s];
        for (int i = 0; i < x.Length; i++)
        {
            x[i] += factor * node.Tangent[i];
        }

        return x;
    }

    // The cubic through two points and their slopes by the variable s; the tangent, if wanted, points from a to b.
    private static double[] Hermite(EnvelopeNode a, EnvelopeNode b, int s, double at, double[]? tangent)
    {
        double width = b.Variables[s] - a.Variables[s];
        double u = (at - a.Variables[s]) / width;
        double u2 = u * u;
        double u3 = u2 * u;
        double[] x = new double[a.Variables.Length];
        for (int i = 0; i < x.Length; i++)
        {
            double xa = a.Variables[i];
            double xb = b.Variables[i];
            double da = width * a.Tangent[i] / a.Tangent[s];
            double db = width * b.Tangent[i] / b.Tangent[s];
            x[i] = (((2 * u3) - (3 * u2) + 1) * xa) + ((u3 - (2 * u2) + u) * da) + (((-2 * u3) + (3 * u2)) * xb) + ((u3 - u2) * db);
            if (tangent is not null)
            {
                tangent[i] = (((6 * u2) - (6 * u)) * (xa - xb)) + (((3 * u2) - (4 * u) + 1) * da) + (((3 * u2) - (2 * u)) * db);
            }
        }

        return x;
    }
}
