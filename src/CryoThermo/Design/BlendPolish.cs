using CryoThermo.Numerics;

namespace CryoThermo.Design;

/// <summary>
/// Local search: the least enthalpy difference is a minimum of a few smooth branches, so each step linearises all of them, the other goals and
/// the limits, and solves a linear program within a region of trust (successive linear programming for minimax problems, Madsen 1975).
/// </summary>
internal sealed class BlendPolish
{
    private const double FractionStep = 1e-3;
    private const double PressureStep = 5e-3;
    private const double LargestTrust = 0.15;
    private const double SmallestTrust = 1e-4;
    private const double Backoff = 1e-4;
    private const double Penalty = 1e3;

    private readonly BlendEvaluator evaluator;
    private readonly BlendProblem problem;
    private readonly bool fine;
    private readonly CancellationToken cancellation;
    private readonly double capacityWeight;
    private readonly int excluded;

    /// <summary>Prepares searches.</summary>
    /// <param name="evaluator">What is evaluated by.</param>
    /// <param name="fine">Whether by fine isobars.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <param name="excluded">A component that stays out, if the start has none of it; -1 for none.</param>
    public BlendPolish(BlendEvaluator evaluator, bool fine, CancellationToken cancellation, int excluded = -1)
    {
        this.excluded = excluded;
        this.evaluator = evaluator;
        this.fine = fine;
        this.cancellation = cancellation;
        problem = evaluator.Problem;
        for (int i = 0; i < problem.Goals.Count; i++)
        {
            capacityWeight += problem.Goals[i].Objective == BlendObjective.LowestTemperature ? 0 : evaluator.Weights[i];
        }
    }

    /// <summary>Evaluations made so far.</summary>
    public int Evaluations { get; private set; }

    /// <summary>Improves a blend; the answer is never worse than the start.</summary>
    public BlendFigures Improve(BlendFigures start, int mostSteps, double firstTrust = 0.05)
    {
        BlendFigures best = start;
        double trust = firstTrust;
        Slopes? slopes = null;
        for (int step = 0; step < mostSteps && trust >= SmallestTrust; step++)
        {
            cancellation.ThrowIfCancellationRequested();
            slopes ??= SlopesAt(best);
            if (slopes is null || slopes.Variables.Length == 0)
            {
                break;
            }

            BlendFigures? next = Step(best, slopes, trust, out bool moved);
            if (!moved)
            {
                break;
            }

            if (next is not null && next.IsBetterThan(best))
            {
                double gain = best.Violation > 0 ? double.PositiveInfinity : next.Merit - best.Merit;
                best = next;
                slopes = null;
                trust = gain < 1e-6 ? 0.3 * trust : Math.Min(LargestTrust, 1.6 * trust);
            }
            else
            {
                trust *= 0.3;
            }
        }

        return WithoutTraces(best);
    }

    /// <summary>Leaves out fractions too small to fill, where that costs nothing.</summary>
    private BlendFigures WithoutTraces(BlendFigures best)
    {
        const double Trace = 2e-3;
        const double Worth = 2e-4;
        if (!best.Fractions.Any(x => x is > 0 and < Trace))
        {
            return best;
        }

        double[] z = [.. best.Fractions.Select(x => x < Trace ? 0 : x)];
        double sum = z.Sum();
        for (int i = 0; i < z.Length; i++)
        {
            z[i] /= sum;
        }

        BlendFigures? without = Evaluate(z, best.Low, best.High);
        return without is not null && (without.IsBetterThan(best) || (without.Violation <= 0 && best.Violation <= 0 && without.Merit > best.Merit - Worth)) ? without : best;
    }

    private BlendFigures? Evaluate(double[] z, double low, double high)
    {
        Evaluations++;
        return evaluator.TryEvaluate(z, low, high, fine);
    }

    private BlendFigures? Near(BlendFigures at, MinimumSides[] sides, double[] z, double low, double high)
    {
        Evaluations++;
        return evaluator.TryEvaluateNear(at, sides, z, low, high);
    }

    private BlendFigures? Step(BlendFigures at, Slopes slopes, double trust, out bool moved)
    {
        int m = slopes.Variables.Length;
        int level = 2 * m;
        int relief = level + 1;
        int count = relief + 1;
        List<double[]> rows = [];
        List<double> limits = [];
        int reference = slopes.Reference;
        double worst = 0;
        foreach (double value in slopes.Margins)
        {
            worst = Math.Max(worst, Backoff - value);
        }

        bool cools = at.Capacity > 0;
        double[] objective = new double[count];
        objective[level] = cools ? capacityWeight : 0;
        objective[relief] = worst > 0 ? Penalty : 0;
        for (int i = 0; i < m; i++)
        {
            Variable v = slopes.Variables[i];
            objective[i] = cools ? slopes.Smooth[i] : 0;
            objective[m + i] = -objective[i];
            Row(i, 1, v.IsPressure ? Math.Min(2 * trust, v.Up) : Math.Min(trust, v.Up));
            Row(m + i, 1, v.IsPressure ? Math.Min(2 * trust, v.Down) : Math.Min(trust, v.Down));
        }

        double[] sum = new double[count];
        for (int i = 0; i < m; i++)
        {
            sum[i] = slopes.Variables[i].IsPressure ? 0 : 1;
            sum[m + i] = -sum[i];
        }

        rows.Add(sum);
        limits.Add(at.Fractions[reference]);
        if (cools)
        {
            for (int k = 0; k < at.Minima.Length; k++)
            {
                double[] row = new double[count];
                for (int i = 0; i < m; i++)
                {
                    row[i] = -slopes.Minima[k][i] / at.Capacity;
                    row[m + i] = -row[i];
                }

                row[level] = 1;
                rows.Add(row);
                limits.Add((at.Minima[k].Difference / at.Capacity) - 1);
            }
        }

        for (int j = 0; j < slopes.Margins.Length; j++)
        {
            double[] row = new double[count];
            for (int i = 0; i < m; i++)
            {
                row[i] = -slopes.MarginSlopes[j][i];
                row[m + i] = -row[i];
            }

            row[relief] = 1;
            rows.Add(row);
            limits.Add(slopes.Margins[j] - Backoff + worst);
        }

        Row(relief, 1, worst);
        Span<double> solution = stackalloc double[count];
        moved = SmallLinearProgram.TryMaximise(objective, rows, limits, solution);
        if (!moved)
        {
            return null;
        }

        double[] z = [.. at.Fractions];
        double low = at.Low;
        double high = at.High;
        double largest = 0;
        for (int i = 0; i < m; i++)
        {
            double change = solution[i] - solution[m + i];
            largest = Math.Max(largest, Math.Abs(change));
            Variable v = slopes.Variables[i];
            if (v.Component >= 0)
            {
                z[v.Component] = Math.Max(0, z[v.Component] + change);
            }
            else if (v.IsLow)
            {
                low = Math.Clamp(low * Math.Exp(change), problem.LeastLowPressure.Pascals, problem.GreatestLowPressure.Pascals);
            }
            else
            {
                high = Math.Clamp(high * Math.Exp(change), problem.LeastHighPressure.Pascals, problem.GreatestHighPressure.Pascals);
            }
        }

        moved = largest > 1e-7;
        if (!moved)
        {
            return null;
        }

        z[reference] = 0;
        z[reference] = Math.Max(0, 1 - z.Sum());
        return Evaluate(Normalised([.. z.Select(x => x < 1e-6 ? 0 : x)]), low, high);

        void Row(int variable, double factor, double limit)
        {
            double[] row = new double[count];
            row[variable] = factor;
            rows.Add(row);
            limits.Add(Math.Max(0, limit));
        }
    }

    private static double[] Normalised(double[] z)
    {
        double sum = z.Sum();
        return [.. z.Select(x => x / sum)];
    }

    private Slopes? SlopesAt(BlendFigures at)
    {
        int n = at.Fractions.Length;
        int reference = at.Fractions.Index().MaxBy(x => x.Item).Index;
        bool mayEnter = at.Fractions.Count(x => x > 0) < problem.MostComponents || problem.MostComponents >= n;
        List<Variable> variables = [];
        for (int i = 0; i < n; i++)
        {
            if (i != reference && i != excluded && (at.Fractions[i] > 0 || mayEnter))
            {
                variables.Add(new(i, false, 1 - at.Fractions[i], at.Fractions[i]));
            }
        }

        // Where not all may enter, none does from outside once the number is full: the count is then judged by the evaluation.
        AddPressure(true, at.Low, problem.LeastLowPressure.Pascals, problem.GreatestLowPressure.Pascals);
        AddPressure(false, at.High, problem.LeastHighPressure.Pascals, problem.GreatestHighPressure.Pascals);
        int m = variables.Count;
        double[] margins = [.. at.Margins.Where(IsSmooth).Select(c => c.Scaled)];
        Slopes slopes = new(
            reference,
            [.. variables],
            margins,
            [.. at.Minima.Select(_ => new double[m])],
            [.. margins.Select(_ => new double[m])],
            new double[m]);
        double smooth = Smooth(at);
        MinimumSides[] sides = fine ? [] : evaluator.SidesOf(at);
        for (int i = 0; i < m; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            Variable v = variables[i];
            double h;
            double[] z = [.. at.Fractions];
            double low = at.Low;
            double high = at.High;
            if (v.Component >= 0)
            {
                h = Math.Min(FractionStep, 0.5 * at.Fractions[reference]);
                z[v.Component] += h;
                z[reference] -= h;
            }
            else
            {
                h = v.Up >= PressureStep ? PressureStep : -PressureStep;
                low *= v.IsLow ? Math.Exp(h) : 1;
                high *= v.IsLow ? 1 : Math.Exp(h);
            }

            BlendFigures? there = fine ? Evaluate(z, low, high) : Near(at, sides, z, low, high);
            if (there is null)
            {
                return null;
            }

            for (int k = 0; k < at.Minima.Length; k++)
            {
                double moved = fine ? Matching(there, at.Minima[k]) : there.Minima[k].Difference;
                slopes.Minima[k][i] = (moved - at.Minima[k].Difference) / h;
            }

            MarginFigure[] margin = [.. there.Margins.Where(IsSmooth)];
            for (int j = 0; j < margins.Length; j++)
            {
                slopes.MarginSlopes[j][i] = (margin[j].Scaled - margins[j]) / h;
            }

            double other = Smooth(there);
            slopes.Smooth[i] = double.IsFinite(other) && double.IsFinite(smooth) ? (other - smooth) / h : 0;
        }

        return slopes;

        void AddPressure(bool isLow, double value, double least, double most)
        {
            if (most > least * 1.0001)
            {
                variables.Add(new(-1, isLow, Math.Log(most / value), Math.Log(value / least)));
            }
        }

        // The number of components jumps.
        static bool IsSmooth(MarginFigure m) => m.Kind != BlendConstraintKind.ComponentCount;
    }

    /// <summary>The merit less the part that goes with the least difference.</summary>
    private double Smooth(BlendFigures f) => f.Capacity > 0 ? f.Merit - (capacityWeight * Math.Log(f.Capacity)) : double.NaN;

    /// <summary>The minimum of another blend that stands for one of this; its difference there where it has none near.</summary>
    private static double Matching(BlendFigures there, LeastPoint point)
    {
        const double Kelvins = 8;
        LeastPoint? nearest = null;
        foreach (LeastPoint other in there.Minima)
        {
            if (Math.Abs(other.Temperature - point.Temperature) < Math.Abs((nearest?.Temperature ?? double.PositiveInfinity) - point.Temperature))
            {
                nearest = other;
            }
        }

        return nearest is { } found && Math.Abs(found.Temperature - point.Temperature) < Kelvins ? found.Difference : there.Difference(point.Temperature);
    }

    /// <summary>What a step may change: a fraction against that of the reference component, or the logarithm of a pressure.</summary>
    private readonly record struct Variable(int Component, bool IsLow, double Up, double Down)
    {
        public bool IsPressure => Component < 0;
    }

    private sealed record Slopes(int Reference, Variable[] Variables, double[] Margins, double[][] Minima, double[][] MarginSlopes, double[] Smooth);
}
