using System.Diagnostics;

namespace CryoThermo.Design;

/// <summary>
/// Finds which components, in which proportions, between which pressures cool best by the limit of the throttle cycle: global exploration with
/// a cubic equation from random starts, then the best distinct blends improved and ranked with the recommended model. No known blend is a start.
/// </summary>
/// <remarks>
/// The answer is the best of what was looked at, not a proof; how well independent starts agree is reported. Pressure drop, leaks and the
/// composition in circulation, which differs from the charge, are outside the cycle limit.
/// </remarks>
public static class BlendSearch
{
    private const double DistinctStart = 0.03;
    private const double DistinctAnswer = 0.01;
    private const int ShortSteps = 3;
    private const int LongSteps = 25;
    private const int Leaders = 8;

    /// <summary>Runs a search.</summary>
    /// <param name="problem">What is wanted.</param>
    /// <param name="options">How it is run; null for the usual.</param>
    /// <param name="progress">Receives where it is; null for none.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <exception cref="ArgumentException">The problem contradicts itself, or a substance is unknown.</exception>
    /// <exception cref="OperationCanceledException">The search was ended early.</exception>
    public static BlendSearchResult Run(
        BlendProblem problem, BlendSearchOptions? options = null, IProgress<BlendSearchProgress>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(problem);
        options ??= new();
        problem.Check();
        options.Check();
        Stopwatch watch = Stopwatch.StartNew();
        BlendEvaluator cubic = new(problem, options.ExplorationModel ?? ExplorationModelOf(problem));
        BlendExplorer explorer = new(cubic, options);
        explorer.Run(progress, BlendSearchStage.Exploring, cancellation);
        double explorationSeconds = watch.Elapsed.TotalSeconds;
        Refiner refiner = new(options, progress, cancellation);
        BlendFigures?[] polished = refiner.ImproveEach(cubic, [.. explorer.BestOfStart.OfType<ExploredBlend>()], LongSteps, 0);
        StartAgreement agreement = AgreementOf(problem, polished);
        TimeSpan explorationTime = watch.Elapsed;

        watch.Restart();
        BlendEvaluator best = new(problem, options.RankingModel ?? FluidModel.Recommended);
        List<ExploredBlend> finalists = Finalists(problem, polished, explorer.Seen, options.Finalists);
        List<BlendFigures> ranked = refiner.Rank(best, finalists);
        bool isFeasible = ranked.Count > 0 && ranked[0].Violation <= 0;
        BlendFigures[] reported = [.. isFeasible ? ranked.Where(r => r.Violation <= 0) : ranked.Take(Leaders)];
        BlendEvaluation[] reports = [.. reported.Select(r => Report(best, r))];
        IReadOnlyList<BlendEvaluation> front = Front(problem, ranked, reports, isFeasible);
        TimeSpan rankingTime = watch.Elapsed;
        IReadOnlyList<BlendObstacle> obstacles = isFeasible || ranked.Count == 0 ? [] : Obstacles(problem, options, ranked[0], refiner, progress, cancellation);
        return new(
            problem,
            reports,
            front,
            isFeasible,
            obstacles,
            agreement,
            cubic.Model.Name,
            best.Model,
            explorer.Evaluations,
            refiner.Evaluations,
            explorer.Failures + refiner.Failures,
            explorationTime,
            rankingTime,
            explorer.Evaluations / explorationSeconds);
    }

    private static FluidModel ExplorationModelOf(BlendProblem problem)
    {
        string[] quantum = ["hydrogen", "parahydrogen", "orthohydrogen", "helium", "neon", "deuterium"];
        return problem.Components.Any(c => quantum.Contains(Substances.SubstanceCatalog.Default.Find(c.Substance).Name))
            ? FluidModel.PengRobinsonQuantumCorrected
            : FluidModel.PengRobinson;
    }

    private static BlendEvaluation Report(BlendEvaluator evaluator, BlendFigures figures) =>
        evaluator.Report(evaluator.Evaluate(figures.Fractions, figures.Low, figures.High, fine: true, all: true));

    private static StartAgreement AgreementOf(BlendProblem problem, BlendFigures?[] polished)
    {
        double weight = problem.Goals.Sum(g => g.Weight);
        bool isLowest = problem.Goals is [{ Objective: BlendObjective.LowestTemperature }];
        double[] values = [.. polished.OfType<BlendFigures>().Where(p => p.Violation <= 0).Select(p => Math.Exp(p.Merit / weight)).Select(v => isLowest ? 1 / v : v)];
        if (values.Length == 0)
        {
            return new([], 0, 0);
        }

        double best = isLowest ? values.Min() : values.Max();
        return new(values, 100 * (values.Max() - values.Min()) / values.Max(), values.Count(v => Math.Abs(v - best) <= 0.005 * best));
    }

    private static List<ExploredBlend> Finalists(BlendProblem problem, BlendFigures?[] polished, List<ExploredBlend> seen, int count)
    {
        List<ExploredBlend> chosen = [];
        foreach (BlendFigures figures in polished.OfType<BlendFigures>())
        {
            TryAdd(ExploredBlend.Of(figures), DistinctAnswer);
        }

        double[] weights = [.. problem.Goals.Select(g => g.Weight)];
        IEnumerable<ExploredBlend> order = seen
            .Select(s => weights.Length == 1 ? s : s with { Merit = s.GoalLogs.Zip(weights).Sum(x => x.First * x.Second) })
            .OrderBy(s => s.Violation > 0 ? s.Violation : 0)
            .ThenByDescending(s => s.Merit);
        if (weights.Length > 1)
        {
            // First the front, evenly: the best of each goal and what lies between.
            ExploredBlend[] front = [.. NonDominated([.. seen.Where(s => s.Violation <= 0 && s.GoalLogs.All(double.IsFinite))], s => s.GoalLogs).OrderBy(s => s.GoalLogs[0])];
            int step = Math.Max(1, front.Length * 2 / Math.Max(1, count));
            for (int i = 0; i < front.Length && chosen.Count < count; i += step)
            {
                TryAdd(front[i], DistinctAnswer);
            }
        }

        foreach (ExploredBlend blend in order)
        {
            if (chosen.Count >= count)
            {
                break;
            }

            TryAdd(blend, DistinctStart);
        }

        return chosen;

        void TryAdd(ExploredBlend blend, double distance)
        {
            if (chosen.Count < count && chosen.All(c => c.DistanceTo(blend) >= distance))
            {
                chosen.Add(blend);
            }
        }
    }

    private static List<T> NonDominated<T>(IReadOnlyList<T> all, Func<T, double[]> goals)
    {
        List<T> kept = [];
        foreach (T item in all.OrderByDescending(x => goals(x).Sum()))
        {
            double[] own = goals(item);
            if (!kept.Any(k => goals(k).Zip(own).All(p => p.First >= p.Second)))
            {
                kept.Add(item);
            }
        }

        return kept;
    }

    private static IReadOnlyList<BlendEvaluation> Front(BlendProblem problem, List<BlendFigures> ranked, BlendEvaluation[] reports, bool isFeasible)
    {
        if (!isFeasible || reports.Length == 0)
        {
            return [];
        }

        if (problem.Goals.Count == 1)
        {
            return [reports[0]];
        }

        BlendFigures[] feasible = [.. ranked.Where(r => r.Violation <= 0)];
        List<BlendFigures> front = NonDominated(feasible, f => f.GoalLogs);
        return [.. feasible.Index().Where(f => front.Contains(f.Item)).OrderBy(f => f.Item.GoalLogs[0]).Select(f => reports[f.Index])];
    }

    private static List<BlendObstacle> Obstacles(
        BlendProblem problem, BlendSearchOptions options, BlendFigures least, Refiner refiner, IProgress<BlendSearchProgress>? progress, CancellationToken cancellation)
    {
        const double NearlyMissed = 0.2;
        List<BlendObstacle> found = [];
        MarginFigure[] suspects = [.. least.Margins.Where(m => m.Scaled < NearlyMissed).OrderBy(m => m.Scaled)];
        foreach (MarginFigure suspect in suspects)
        {
            if (suspect.Kind == BlendConstraintKind.FuelWithOxidiser)
            {
                // Not a limit to give way in.
                if (suspect.Margin < 0)
                {
                    found.Add(new(suspect.Kind, suspect.Value, suspect.Limit, -suspect.Margin, suspect.Unit, false, null));
                }

                continue;
            }

            BlendSearchOptions brief = options with { Starts = Math.Min(2, options.Starts) };
            BlendExplorer explorer = new(new(problem, options.ExplorationModel ?? ExplorationModelOf(problem), null, suspect.Kind), brief);
            explorer.Run(progress, BlendSearchStage.ExplainingInfeasibility, cancellation);
            BlendEvaluator ranking = new(problem, options.RankingModel ?? FluidModel.Recommended, null, suspect.Kind);
            ExploredBlend[] starts = [.. explorer.BestOfStart.OfType<ExploredBlend>().Append(ExploredBlend.Of(least))];
            BlendFigures? best = null;
            foreach (BlendFigures candidate in refiner.ImproveEach(ranking, starts, LongSteps, 0).OfType<BlendFigures>())
            {
                best = candidate.IsBetterThan(best) ? candidate : best;
            }

            bool helps = best is not null && best.Margins.Where(m => m.Kind != suspect.Kind).All(m => m.Margin >= 0);
            double? needed = helps ? best!.Margins.First(m => m.Kind == suspect.Kind).Value : null;
            if (suspect.Margin < 0 || helps)
            {
                found.Add(new(suspect.Kind, suspect.Value, suspect.Limit, Math.Max(0, -suspect.Margin), suspect.Unit, helps, needed));
            }
        }

        return found;
    }

    /// <summary>Local searches side by side; answers come in the order of their starts.</summary>
    private sealed class Refiner(BlendSearchOptions options, IProgress<BlendSearchProgress>? progress, CancellationToken cancellation)
    {
        private int evaluations;
        private int failures;

        public int Evaluations => evaluations;

        public int Failures => failures;

        public BlendFigures?[] ImproveEach(BlendEvaluator evaluator, IReadOnlyList<ExploredBlend> starts, int steps, double shareBefore, double trust = 0.05)
        {
            BlendFigures?[] answers = new BlendFigures?[starts.Count];
            int done = 0;
            ParallelOptions parallel = new() { CancellationToken = cancellation, MaxDegreeOfParallelism = options.MostThreads ?? Environment.ProcessorCount };
            Parallel.For(0, starts.Count, parallel, i =>
            {
                BlendPolish polish = new(evaluator, fine: false, cancellation);
                if (evaluator.TryEvaluate(starts[i].Fractions, starts[i].Low, starts[i].High, fine: false) is { } first)
                {
                    answers[i] = polish.Improve(first, steps, trust);
                }
                else
                {
                    Interlocked.Increment(ref failures);
                }

                Interlocked.Add(ref evaluations, polish.Evaluations + 1);
                progress?.Report(new(BlendSearchStage.Refining, shareBefore + ((1 - shareBefore) * Interlocked.Increment(ref done) / starts.Count), evaluations));
            });
            return answers;
        }

        public List<BlendFigures> Rank(BlendEvaluator evaluator, List<ExploredBlend> finalists)
        {
            evaluations = 0;
            List<BlendFigures> first = Distinct(ImproveEach(evaluator, finalists, ShortSteps, 0));
            BlendFigures?[] leaders = ImproveEach(evaluator, [.. first.Take(Leaders).Select(ExploredBlend.Of)], LongSteps, 0.5);
            List<BlendFigures> all = Distinct([.. leaders, .. first.Skip(Leaders), .. WithoutOne(evaluator, leaders)]);

            // The figures reported are those of fine isobars; what these find violated is repaired with them.
            BlendFigures?[] fine = new BlendFigures?[all.Count];
            ParallelOptions parallel = new() { CancellationToken = cancellation, MaxDegreeOfParallelism = options.MostThreads ?? Environment.ProcessorCount };
            Parallel.For(0, all.Count, parallel, i =>
            {
                fine[i] = evaluator.TryEvaluate(all[i].Fractions, all[i].Low, all[i].High, fine: true);
                Interlocked.Increment(ref evaluations);
                if (fine[i] is { Violation: > 0 } missed && (all[i].Violation <= 0 || i < Leaders))
                {
                    BlendPolish polish = new(evaluator, fine: true, cancellation);
                    fine[i] = polish.Improve(missed, 5, 0.005);
                    Interlocked.Add(ref evaluations, polish.Evaluations);
                }
            });
            return Distinct(fine);
        }

        /// <summary>The next-best of fewer components: the best blend without each of its components in turn, the others adjusted.</summary>
        private BlendFigures?[] WithoutOne(BlendEvaluator evaluator, BlendFigures?[] leaders)
        {
            BlendFigures? best = leaders.Aggregate((BlendFigures?)null, (b, x) => x is not null && x.IsBetterThan(b) ? x : b);
            if (best is null || best.Fractions.Count(x => x > 0) < 2)
            {
                return [];
            }

            int[] present = [.. best.Fractions.Index().Where(x => x.Item is > 0 and < 1).Select(x => x.Index)];
            BlendFigures?[] answers = new BlendFigures?[present.Length];
            ParallelOptions parallel = new() { CancellationToken = cancellation, MaxDegreeOfParallelism = options.MostThreads ?? Environment.ProcessorCount };
            Parallel.For(0, present.Length, parallel, k =>
            {
                int left = present[k];

                // By the sum of the others: one less a fraction close to one has lost its digits.
                double others = best.Fractions.Index().Where(x => x.Index != left).Sum(x => x.Item);
                double[] z = [.. best.Fractions.Select((x, i) => i == left ? 0 : x / others)];
                BlendPolish polish = new(evaluator, fine: false, cancellation, left);
                if (evaluator.TryEvaluate(z, best.Low, best.High, fine: false) is { } start)
                {
                    answers[k] = polish.Improve(start, LongSteps);
                }

                Interlocked.Add(ref evaluations, polish.Evaluations + 1);
            });
            return answers;
        }

        private static List<BlendFigures> Distinct(IEnumerable<BlendFigures?> all)
        {
            List<BlendFigures> kept = [];
            BlendFigures[] order = [.. all.OfType<BlendFigures>().OrderBy(f => Math.Max(0, f.Violation)).ThenByDescending(f => f.Merit)];
            foreach (BlendFigures figures in order)
            {
                ExploredBlend own = ExploredBlend.Of(figures);
                if (kept.All(k => ExploredBlend.Of(k).DistanceTo(own) >= DistinctAnswer))
                {
                    kept.Add(figures);
                }
            }

            return kept;
        }
    }
}
