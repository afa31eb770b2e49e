namespace CryoThermo.Design;

/// <summary>
/// The global search: differential evolution (Storn, Price, J. Global Optim. 11 (1997) 341) from independent random starts. Each quantity lies
/// in 0 to 1: a component's is its share above a threshold, below which it is absent; a pressure's is its place on a logarithmic scale. All
/// random numbers are drawn in one order; only evaluations run side by side, so that the answer does not depend on the number of cores.
/// </summary>
internal sealed class BlendExplorer
{
    private const double Threshold = 0.12;
    private const double Settled = 1e-4;
    private const double Crossing = 0.9;

    private readonly BlendProblem problem;
    private readonly BlendEvaluator[] evaluators;
    private readonly BlendSearchOptions options;
    private readonly bool isLowFree;
    private readonly bool isHighFree;
    private readonly int components;
    private readonly int free;
    private readonly int population;

    public BlendExplorer(BlendEvaluator evaluator, BlendSearchOptions options)
    {
        this.options = options;
        problem = evaluator.Problem;
        components = problem.Components.Count;
        isLowFree = problem.GreatestLowPressure.Pascals > problem.LeastLowPressure.Pascals * 1.0001;
        isHighFree = problem.GreatestHighPressure.Pascals > problem.LeastHighPressure.Pascals * 1.0001;
        free = components + (isLowFree ? 1 : 0) + (isHighFree ? 1 : 0);
        population = Math.Max(8, options.PopulationFactor * free);
        evaluators = [.. Enumerable.Range(0, options.Starts).Select(s => evaluator.WithWeights(Weights(evaluator.Weights, s)))];
    }

    public int Evaluations { get; private set; }

    public int Failures { get; private set; }

    /// <summary>All distinct blends seen.</summary>
    public List<ExploredBlend> Seen { get; } = [];

    /// <summary>The best of each start, by its own weights; null where nothing could be evaluated.</summary>
    public ExploredBlend?[] BestOfStart { get; private set; } = [];

    public void Run(IProgress<BlendSearchProgress>? progress, BlendSearchStage stage, CancellationToken cancellation)
    {
        int starts = options.Starts;
        Random[] random = [.. Enumerable.Range(0, starts).Select(s => new Random(unchecked((options.Seed * 7919) + (s * 104729))))];
        double[][][] points = [.. random.Select(r => Enumerable.Range(0, population).Select(_ => RandomPoint(r)).ToArray())];
        ExploredBlend?[][] values = [.. Enumerable.Range(0, starts).Select(_ => new ExploredBlend?[population])];
        Evaluate(points, values, [.. Enumerable.Repeat(true, starts)], cancellation);
        bool[] isRunning = [.. Enumerable.Repeat(true, starts)];
        for (int generation = 1; generation < options.Generations && isRunning.Contains(true); generation++)
        {
            progress?.Report(new(stage, generation / (double)options.Generations, Evaluations));
            double[][][] trials = [.. Enumerable.Range(0, starts).Select(s => isRunning[s] ? Trials(points[s], values[s], random[s]) : [])];
            ExploredBlend?[][] trialValues = [.. trials.Select(t => new ExploredBlend?[t.Length])];
            Evaluate(trials, trialValues, isRunning, cancellation);
            for (int s = 0; s < starts; s++)
            {
                for (int i = 0; i < trials[s].Length; i++)
                {
                    if (trialValues[s][i] is { } trial && trial.IsBetterThan(values[s][i]))
                    {
                        points[s][i] = trials[s][i];
                        values[s][i] = trial;
                    }
                }

                isRunning[s] = isRunning[s] && !HasSettled(values[s]);
            }
        }

        BestOfStart = [.. values.Select(v => v.Aggregate((ExploredBlend?)null, (best, x) => x is not null && x.IsBetterThan(best) ? x : best))];
        progress?.Report(new(stage, 1, Evaluations));
    }

    // The first start has the weights asked for; with several goals each further one leans towards one of them, so that the front is seen.
    private static double[] Weights(double[] weights, int start) => weights.Length == 1 || start == 0
        ? weights
        : [.. weights.Select((w, i) => i == (start - 1) % weights.Length ? 6 * w : w)];

    private static bool HasSettled(ExploredBlend?[] values)
    {
        double worst = double.PositiveInfinity;
        double best = double.NegativeInfinity;
        foreach (ExploredBlend? value in values)
        {
            if (value is null || value.Violation > 0)
            {
                return false;
            }

            worst = Math.Min(worst, value.Merit);
            best = Math.Max(best, value.Merit);
        }

        return best - worst < Settled;
    }

    private double[] RandomPoint(Random random)
    {
        double[] point = new double[free];
        for (int i = 0; i < free; i++)
        {
            point[i] = random.NextDouble();
        }

        return point;
    }

    private double[][] Trials(double[][] points, ExploredBlend?[] values, Random random)
    {
        int best = 0;
        for (int i = 1; i < values.Length; i++)
        {
            best = values[i] is { } value && value.IsBetterThan(values[best]) ? i : best;
        }

        double[][] trials = new double[points.Length][];
        for (int i = 0; i < points.Length; i++)
        {
            int a = Other(i, i);
            int b = Other(i, a);
            int c = Other(a, b);
            bool leansToBest = random.NextDouble() < 0.4;
            double factor = 0.4 + (0.5 * random.NextDouble());
            double[] point = points[i];
            double[] start = leansToBest ? points[best] : points[c];
            int always = random.Next(free);
            double[] trial = new double[free];
            for (int j = 0; j < free; j++)
            {
                bool crosses = random.NextDouble() < Crossing || j == always;
                double x = crosses ? start[j] + (factor * (points[a][j] - points[b][j])) : point[j];

                // Back into the range by half of the way: the bounds themselves stay reachable.
                trial[j] = x < 0 ? (random.NextDouble() < 0.5 ? 0 : 0.5 * point[j]) : x > 1 ? (random.NextDouble() < 0.5 ? 1 : 0.5 * (1 + point[j])) : x;
            }

            trials[i] = trial;
        }

        return trials;

        int Other(int first, int second)
        {
            int k = random.Next(points.Length);
            while (k == first || k == second)
            {
                k = random.Next(points.Length);
            }

            return k;
        }
    }

    private void Evaluate(double[][][] points, ExploredBlend?[][] values, bool[] isRunning, CancellationToken cancellation)
    {
        (int Start, int Index)[] work = [.. Enumerable.Range(0, points.Length).Where(s => isRunning[s]).SelectMany(s => Enumerable.Range(0, points[s].Length).Select(i => (s, i)))];
        ParallelOptions parallel = new() { CancellationToken = cancellation, MaxDegreeOfParallelism = options.MostThreads ?? Environment.ProcessorCount };
        Parallel.For(0, work.Length, parallel, k =>
        {
            (int s, int i) = work[k];
            (double[] z, double low, double high) = Blend(points[s][i]);
            values[s][i] = evaluators[s].TryEvaluate(z, low, high, fine: false) is { } figures ? ExploredBlend.Of(figures) : null;
        });
        Evaluations += work.Length;
        foreach ((int s, int i) in work)
        {
            if (values[s][i] is { } value)
            {
                Seen.Add(value);
            }
            else
            {
                Failures++;
            }
        }
    }

    private (double[] Fractions, double Low, double High) Blend(double[] point)
    {
        double[] z = new double[components];
        for (int i = 0; i < components; i++)
        {
            z[i] = Math.Max(0, point[i] - Threshold);
        }

        evaluators[0].LeaveOutFuelOrOxidiser(z);
        int most = problem.MostComponents;
        if (most < components)
        {
            double least = z.OrderDescending().ElementAt(most - 1);
            int kept = 0;
            for (int i = 0; i < components; i++)
            {
                z[i] = z[i] >= least && kept < most ? z[i] : 0;
                kept += z[i] > 0 ? 1 : 0;
            }
        }

        double sum = z.Sum();
        if (!(sum > 0))
        {
            z[point.AsSpan(0, components).ToArray().Index().MaxBy(x => x.Item).Index] = sum = 1;
        }

        for (int i = 0; i < components; i++)
        {
            z[i] /= sum;
        }

        double low = isLowFree ? Between(problem.LeastLowPressure.Pascals, problem.GreatestLowPressure.Pascals, point[components]) : problem.LeastLowPressure.Pascals;
        double high = isHighFree ? Between(problem.LeastHighPressure.Pascals, problem.GreatestHighPressure.Pascals, point[^1]) : problem.LeastHighPressure.Pascals;
        return (z, low, high);

        static double Between(double least, double most, double share) => Math.Clamp(least * Math.Pow(most / least, share), least, most);
    }
}
