using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// All lines of a phase fraction that begin at low pressure: the one from the dew side, and, where that does not come back to the bubble side,
/// the one from there too. Every point is tested for stability.
/// </summary>
internal static class EnvelopeBuilder
{
    /// <summary>Where tracing begins and ends, Pa.</summary>
    public const double LowestPressure = 1e3;

    /// <summary>A traced line.</summary>
    /// <param name="Share">Share of the second phase, which is the vapour where the line begins.</param>
    /// <param name="Nodes">Its points in order.</param>
    /// <param name="Start">Why it begins where it does.</param>
    /// <param name="Stop">Why it ends where it does.</param>
    /// <param name="CriticalPoints">Critical points on it.</param>
    public sealed record Line(double Share, List<EnvelopeNode> Nodes, EnvelopeStop Start, EnvelopeStop Stop, List<CriticalPointFinder.Point> CriticalPoints);

    /// <summary>Traces them; empty when no start is found.</summary>
    /// <param name="kernel">Equation of state, of two components or more.</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="fraction">Vapour fraction, 0 to 1.</param>
    public static List<Line> Build(MixtureKernel kernel, ReadOnlySpan<double> z, double fraction)
    {
        List<Line> lines = [];

        // The boundary is one line from dew to bubble; a line of another fraction leads through the critical point to its complement.
        double dewSide = Math.Max(fraction, 1 - fraction);
        foreach (double share in (ReadOnlySpan<double>)[dewSide, 1 - dewSide])
        {
            EnvelopeEquations own = new(kernel, z, share);
            if (!TryStart(own, share, lines, out double[] start, out EnvelopeStop reason))
            {
                continue;
            }

            EnvelopeTracer tracer = new(own, LowestPressure);
            List<EnvelopeNode> nodes = tracer.Trace(start, out EnvelopeStop stop);
            if (nodes.Count < 2)
            {
                continue;
            }

            List<CriticalPointFinder.Point> critical = CriticalPoints(tracer, own, nodes);
            tracer.InsertExtrema(nodes);
            foreach (EnvelopeNode node in nodes)
            {
                node.IsUnstable = own.IsUnstable(node.Variables, out _);
            }

            lines.Add(new(share, nodes, stop == EnvelopeStop.ClosedLoop ? stop : reason, stop, critical));
            if (share == 0.5)
            {
                break;
            }
        }

        if (fraction is 0 or 1)
        {
            AddDetached(kernel, z, lines);
        }

        return lines;
    }

    // Lines that never come down to low pressure, as those around a liquid-liquid critical point under pressure, begin at that point.
    private static void AddDetached(MixtureKernel kernel, ReadOnlySpan<double> z, List<Line> lines)
    {
        foreach (CriticalPointFinder.Point point in CriticalPointFinder.Find(kernel, z))
        {
            if (!point.IsStable || point.Pressure > kernel.HighestPressure || lines.Exists(line => line.CriticalPoints.Exists(c => IsSame(c, point))))
            {
                continue;
            }

            EnvelopeEquations own = new(kernel, z, 1);
            EnvelopeTracer tracer = new(own, LowestPressure);
            CriticalConditions conditions = new(kernel, z);
            if (tracer.TryBeside(conditions, point, 1, out double[] before) && tracer.TryBeside(conditions, point, -1, out double[] after))
            {
                List<EnvelopeNode> nodes = tracer.TraceApart(before, out EnvelopeStop start);
                List<EnvelopeNode> onward = tracer.TraceApart(after, out EnvelopeStop stop);
                if (nodes.Count < 2 || onward.Count < 2)
                {
                    continue;
                }

                nodes = [.. nodes.AsEnumerable().Reverse().Select(static node => node.Reversed()), .. onward];
                List<CriticalPointFinder.Point> critical = CriticalPoints(tracer, own, nodes);
                tracer.InsertExtrema(nodes);
                foreach (EnvelopeNode node in nodes)
                {
                    node.IsUnstable = own.IsUnstable(node.Variables, out _);
                }

                lines.Add(new(1, nodes, start, stop, critical));
            }
        }
    }

    private static bool IsSame(CriticalPointFinder.Point a, CriticalPointFinder.Point b)
    {
        const double Same = 1e-5;
        return Math.Abs((a.Temperature / b.Temperature) - 1) < Same && Math.Abs((a.MolarDensity / b.MolarDensity) - 1) < 100 * Same;
    }

    /// <summary>The saturation line of a pure fluid up to its critical point.</summary>
    /// <param name="kernel">Equation of state.</param>
    /// <param name="z">Mole fractions, one of them 1.</param>
    /// <param name="fraction">Vapour fraction that the line is asked for.</param>
    public static Line Saturation(MixtureKernel kernel, ReadOnlySpan<double> z, double fraction)
    {
        const int Points = 60;
        int only = IncipientPoint.SingleComponent(z);
        CriticalPointFinder.Point critical = CriticalPointFinder.Find(kernel, z)[0];
        Span<double> scratch = stackalloc double[kernel.ScratchLength];
        List<EnvelopeNode> nodes = [];
        for (int i = 0; i < Points; i++)
        {
            // Denser towards the critical point.
            double share = i / (double)Points;
            double p = LowestPressure * Math.Pow(critical.Pressure / LowestPressure, share * (2 - share));
            if (PureSaturation.TryTemperature(kernel, only, p, scratch, out double t, out double liquid, out double vapor)
                && t >= kernel.LowestTemperature && t < critical.Temperature)
            {
                nodes.Add(Node(z.Length, t, p, liquid, vapor));
            }
        }

        EnvelopeNode last = Node(z.Length, critical.Temperature, critical.Pressure, critical.MolarDensity, critical.MolarDensity);
        nodes.Add(last with { IsTemperatureExtremum = true, IsPressureExtremum = true });
        EnvelopeStop start = nodes[0].Variables[z.Length + 1] > Math.Log(1.01 * LowestPressure) ? EnvelopeStop.LowestTemperature : EnvelopeStop.LowestPressure;
        return new(fraction, nodes, start, EnvelopeStop.CriticalPoint, [critical]);

        static EnvelopeNode Node(int n, double t, double p, double liquid, double vapor)
        {
            double[] x = new double[n + 5];
            x[n] = Math.Log(t);
            x[n + 1] = Math.Log(p);
            x[n + 2] = Math.Log(liquid);
            x[n + 3] = Math.Log(vapor);
            x[n + 4] = x[n + 3] - x[n + 2];
            return new(x, new double[n + 5]);
        }
    }

    private static bool TryStart(EnvelopeEquations own, double share, List<Line> lines, out double[] start, out EnvelopeStop reason)
    {
        start = new double[own.Length];
        reason = EnvelopeStop.LowestPressure;
        double lowest = Math.Log(own.Kernel.LowestTemperature);
        for (int attempt = 0; attempt < 12; attempt++)
        {
            double pressure = LowestPressure * Math.Pow(10, 0.5 * attempt);
            bool found = share is 0 or 1
                ? VaporFractionPoint.TryEnd(own, share == 0, IncipientPoint.Unknown.Temperature, pressure, start)
                : VaporFractionPoint.TryTwoPhases(own, share, IncipientPoint.Unknown.Temperature, pressure, start);
            own.Share = share;
            if (found && start[own.Temperature] > lowest)
            {
                return !IsOn(lines, own, start);
            }

            reason = EnvelopeStop.LowestTemperature;
        }

        return false;
    }

    // Whether a line already traced passes through a point.
    private static bool IsOn(List<Line> lines, EnvelopeEquations own, double[] point)
    {
        foreach (Line line in lines)
        {
            EnvelopeTracer tracer = new(new(own.Kernel, own.Feed, line.Share), LowestPressure);
            List<EnvelopeNode> nodes = line.Nodes;
            if (IsSame(nodes[0].Variables, point, own) || IsSame(nodes[^1].Variables, point, own))
            {
                return true;
            }

            for (int i = 0; i + 1 < nodes.Count; i++)
            {
                EnvelopeNode? there = tracer.Between(nodes[i], nodes[i + 1], node => node.Variables[own.Pressure] - point[own.Pressure]);
                if (there is not null && IsSame(there.Variables, point, own))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static bool IsSame(double[] a, double[] b, EnvelopeEquations equations)
    {
        const double Same = 1e-6;
        return Math.Abs(a[equations.Temperature] - b[equations.Temperature]) < Same && Math.Abs(a[equations.Pressure] - b[equations.Pressure]) < Same;
    }

    private static List<CriticalPointFinder.Point> CriticalPoints(EnvelopeTracer tracer, EnvelopeEquations equations, List<EnvelopeNode> nodes)
    {
        List<CriticalPointFinder.Point> points = [];
        for (int i = 0; i + 1 < nodes.Count; i++)
        {
            if (tracer.IsCriticalBetween(nodes[i], nodes[i + 1]))
            {
                double[] x = tracer.AtCritical(nodes[i], nodes[i + 1]);
                if (CriticalPointFinder.TryNear(
                        equations.Kernel, equations.Feed, Math.Exp(x[equations.Temperature]), Math.Exp(x[equations.FirstDensity]), out CriticalPointFinder.Point point))
                {
                    points.Add(point);
                }
            }
        }

        return points;
    }
}
