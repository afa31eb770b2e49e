namespace CryoThermo.Checks.Soak;

/// <summary>Many cases of one kind.</summary>
/// <param name="Name">The kind in words.</param>
/// <param name="Count">Number of cases.</param>
/// <param name="Failures">Failures with full inputs, in the order of the cases.</param>
/// <param name="ByPhases">How many cases had 0, 1, 2, 3 phases (or points, for the boundaries).</param>
/// <param name="Unresolved">How many answers were flagged: a further phase exists.</param>
/// <param name="Worst">The largest figure bounded by the rules.</param>
/// <param name="WorstCase">Number of the case with that figure.</param>
public sealed record SoakRun(string Name, int Count, IReadOnlyList<string> Failures, IReadOnlyList<int> ByPhases, int Unresolved, double Worst, int WorstCase)
{
    /// <summary>Runs cases on two threads; the result does not depend on their order.</summary>
    /// <param name="name">The kind in words.</param>
    /// <param name="kind">What to do with a case.</param>
    /// <param name="count">Number of cases.</param>
    /// <param name="seed">Seed of the run.</param>
    /// <param name="first">Number of the first case.</param>
    /// <param name="progress">Receives a line now and then; may be null.</param>
    /// <param name="create">The case of a seed and number; null for the usual blends.</param>
    public static SoakRun Execute(
        string name, Func<SoakCase, SoakOutcome> kind, int count, int seed, int first, TextWriter? progress, Func<int, int, SoakCase>? create = null) =>
        Execute(
            name,
            number =>
            {
                SoakCase soak = (create ?? SoakCase.Create)(seed, number);
                return (soak.ToString(), () => kind(soak));
            },
            count,
            first,
            progress);

    /// <summary>Runs numbered cases on two threads; the result does not depend on their order.</summary>
    /// <param name="name">The kind in words.</param>
    /// <param name="cases">A case by its number: what it is, and how to run it.</param>
    /// <param name="count">Number of cases.</param>
    /// <param name="first">Number of the first case.</param>
    /// <param name="progress">Receives a line now and then; may be null.</param>
    public static SoakRun Execute(string name, Func<int, (string Inputs, Func<SoakOutcome> Run)> cases, int count, int first, TextWriter? progress)
    {
        SoakOutcome[] outcomes = new SoakOutcome[count];
        int done = 0;
        Parallel.For(0, count, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i =>
        {
            (string inputs, Func<SoakOutcome> run) = cases(first + i);
            try
            {
                outcomes[i] = run();
            }
#pragma warning disable CA1031 // Any exception at all is a failure of the case, told with its inputs.
            catch (Exception error)
#pragma warning restore CA1031
            {
                outcomes[i] = new($"{inputs}: {error.GetType().Name}: {error.Message}", 0, false, 0);
            }

            int finished = Interlocked.Increment(ref done);
            if (progress is not null && finished % Math.Max(1, count / 10) == 0)
            {
                lock (progress)
                {
                    progress.WriteLine($"{name}: {finished} of {count}");
                }
            }
        });
        int worst = 0;
        int[] byPhases = new int[4];
        for (int i = 0; i < count; i++)
        {
            byPhases[outcomes[i].Phases]++;
            worst = outcomes[i].Worst > outcomes[worst].Worst ? i : worst;
        }

        return new(
            name,
            count,
            [.. outcomes.Where(o => o.Failure is not null).Select(o => o.Failure!)],
            byPhases,
            outcomes.Count(o => o.Unresolved),
            count > 0 ? outcomes[worst].Worst : 0,
            first + worst);
    }

    /// <summary>One line.</summary>
    public override string ToString() =>
        $"{Name}: {Count} cases, {Failures.Count} failures, {ByPhases[0]}/{ByPhases[1]}/{ByPhases[2]}/{ByPhases[3]} with 0/1/2/3, {Unresolved} flagged as unresolved, worst {Worst:E2} (case {WorstCase})";
}
