using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// All lines of a phase fraction that begin at low pressure: the one from the dew side, and, where that does not come back to low pressure,
/// the one from the bubble side too. Every point is tested for stability.
/// </summary>
internal static class EnvelopeBuilder
{
    /// <summary>Where tracing begins and ends, Pa.</summary>
    public const double LowestPressure = 1e3;

    /// <summary>A traced line.</summary>
    /// <param name="Nodes">Its points in order.</param>
    /// <param name="Start">Why it begins where it does.</param>
    /// <param name="Stop">Why it ends where it does.</param>
    /// <param name="CriticalPoints">Critical points on it.</param>
    public sealed record Line(List<EnvelopeNode> Nodes, EnvelopeStop Start, EnvelopeStop Stop, List<CriticalPointFinder.Point> CriticalPoints);

    /// <summary>Traces them; empty when no start is found. The second phase of the equations is the vapour at the start of each line.</summary>
    /// <param name="kernel">Equation of state, of two components or more.</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="fraction">Vapour fraction, 0 to 1.</param>
    /// <param name="equations">Receives for each line its equations.</param>
    public static List<Line> Build(MixtureKernel kernel, ReadOnlySpan<double> z, double fraction, List<EnvelopeEquations> equations)
    {
        List<Line> lines = [];

        // The boundary is one line from dew to bubble; a line of another fraction leads through the critical point to its complement.
        double dewSide = Math.Max(fraction, 1 - fraction);
        foreach (double share in (ReadOnlySpan<double>)[dewSide, 1 - dewSide])
        {
            EnvelopeEquations own = new(kernel, z, share);
            if (!TryStart(own, share, lines, equations, out double[] start, out EnvelopeStop reason))
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

            lines.Add(new(nodes, reason, stop, critical));
            equations.Add(own);
            if (share == 0.5 || stop == EnvelopeStop.LowestPressure)
            {
                break;
            }
        }

        return lines;
    }

    private static bool TryStart(
        EnvelopeEquations own, double share, List<Line> lines, List<EnvelopeEquations> equations, out double[] start, out EnvelopeStop reason)
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
                return !IsOn(lines, equations, own, start);
            }

            reason = EnvelopeStop.LowestTemperature;
        }

        return false;
    }

    // Whether a line already traced passes through a point.
    private static bool IsOn(List<Line> lines, List<EnvelopeEquations> equations, EnvelopeEquations own, double[] point)
    {
        const double Same = 1e-6;
        for (int k = 0; k < lines.Count; k++)
        {
            EnvelopeTracer tracer = new(equations[k], LowestPressure);
            List<EnvelopeNode> nodes = lines[k].Nodes;
            for (int i = 0; i + 1 < nodes.Count; i++)
            {
                EnvelopeNode? there = tracer.Between(nodes[i], nodes[i + 1], node => node.Variables[own.Pressure] - point[own.Pressure]);
                if (there is not null && Math.Abs(there.Variables[own.Temperature] - point[own.Temperature]) < Same)
                {
                    return true;
                }
            }
        }

        return false;
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
