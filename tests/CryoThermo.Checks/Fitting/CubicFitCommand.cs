using System.Collections.Concurrent;
using System.Globalization;
using CryoThermo.Diagnostics;
using CryoThermo.Fitting;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Fitting;

/// <summary>Fits pairs of Peng-Robinson and Soave-Redlich-Kwong to the measured phase equilibria by fixed rules, and writes their file.</summary>
public static class CubicFitCommand
{
    /// <summary>The greatest magnitude of k(T) from the coldest to the warmest state of the scan: the limit of the fit for a constant k.</summary>
    public const double LargestInteraction = 0.5;

    // A pair fitted to other measurements is replaced when the score on the points held out falls by a tenth.
    private const double WorthReplacing = 1 / 1.1;

    private static readonly FluidModel[] Models = [FluidModel.PengRobinson, FluidModel.SoaveRedlichKwong];

    private static readonly PairParameter[][] Choices =
    [
        [PairParameter.Interaction],
        [PairParameter.Interaction, PairParameter.InverseTemperatureCoefficient],
    ];

    /// <summary>What the fits start from: published pairs, all others estimated.</summary>
    public static SubstanceCatalog Start { get; } = SubstanceCatalog.Default.WithPublishedCubicPairsOnly();

    // With the fits to single figures that the library holds beside those of this command.
    private static SubstanceCatalog Held { get; } = SubstanceCatalog.Default.WithoutFittedCubicFile();

    /// <summary>The plans of a cubic: two components, points of both phases, liquid densities left out.</summary>
    public static IReadOnlyList<PairPlan> Plans() =>
    [
        .. PairPlan.Of(Start)
            .Where(p => p.IsAlone)
            .Select(p => p with { Fitted = PhaseEquilibria(p.Fitted), HeldOut = [.. PhaseEquilibria(p.HeldOut), .. p.HeldOut.Where(IsExcess)] })
            .Where(p => p.Fitted.Count > 0),
    ];

    /// <summary>Fits all plans and returns the text of the file.</summary>
    /// <param name="output">Receives the tables.</param>
    /// <param name="only">Fit only pairs of this substance; null for all.</param>
    public static string Run(TextWriter output, string? only = null)
    {
        (PairPlan Plan, FluidModel Model)[] tasks =
        [
            .. Plans()
                .Where(p => only is null || p.First == only || p.Second == only)
                .SelectMany(p => Models.Select(m => (Plan: p, Model: m)))
                .Where(t => PairOf(Start, t.Plan, t.Model).Confidence != PairConfidence.Good),
        ];
        Lazy<(CubicPair? Pair, string Text)>[] outcomes = [.. tasks.Select(t => new Lazy<(CubicPair?, string)>(() => FitWithText(t.Plan, t.Model)))];
        Task work = Task.Run(() => Parallel.ForEach(Partitioner.Create(outcomes, EnumerablePartitionerOptions.NoBuffering), o => _ = o.Value));
        List<BinaryPair> accepted = [];
        foreach (Lazy<(CubicPair? Pair, string Text)> outcome in outcomes)
        {
            output.Write(outcome.Value.Text);
            output.Flush();
            if (outcome.Value.Pair is { } pair)
            {
                accepted.Add(pair);
            }
        }

        work.GetAwaiter().GetResult();
        return PairFileWriter.Write(accepted);
    }

    /// <summary>The pair of a plan in a catalogue.</summary>
    public static CubicPair PairOf(SubstanceCatalog catalog, PairPlan plan, FluidModel model) => catalog.PairOf(
        catalog.Find(plan.First), catalog.Find(plan.Second), ReferenceEquals(model, FluidModel.PengRobinson) ? CubicModelKind.PengRobinson : CubicModelKind.SoaveRedlichKwong);

    private static (CubicPair? Pair, string Text) FitWithText(PairPlan plan, FluidModel model)
    {
        using StringWriter text = new();
        text.WriteLine($"{plan.First} + {plan.Second}, {model} ({plan.Rule})");
        (CubicPair? pair, string reason) = Fit(plan, model, text);
        text.WriteLine($"  -> {(pair is null ? "REFUSED" : "TAKEN")}: {reason}");
        text.WriteLine();
        return (pair, text.ToString());
    }

    private static (CubicPair? Pair, string Reason) Fit(PairPlan plan, FluidModel model, TextWriter output)
    {
        PairFit fit = new(plan.First, plan.Second, model, Start);
        PairFitResult? best = null;
        ScanCounts? scan = null;
        ScanCounts? bestScan = null;
        double bestScore = double.PositiveInfinity;
        int splitBefore = FitCommand.Metastable(plan, Start, model);
        foreach (PairParameter[] free in Choices)
        {
            PairFitResult result;
            try
            {
                result = fit.Fit(free, plan.Fitted, plan.HeldOut);
            }
            catch (Exception exception) when (exception is ConvergenceException or ArgumentException)
            {
                output.WriteLine($"  {string.Join(", ", free)}: {exception.Message}");
                continue;
            }

            SetDeviations[] judged = FitCommand.Judged(result, true);
            double after = FitCommand.Score(judged, true);
            int split = FitCommand.Metastable(plan, result.ToCatalog(), model);
            CubicPair pair = (CubicPair)result.Pair;
            ScanCounts now = ScanCounts.Of(plan.First, plan.Second, result.ToCatalog(), model);
            string correlation = free.Length > 1 ? $", correlation {result.CorrelationOf(free[0], free[1]):0.00}" : string.Empty;
            output.WriteLine(
                $"  {string.Join(", ", result.Parameters.Select(p => $"{p.Parameter} {p.Value:0.0000}±{p.StandardError:0.0000}{(p.IsAtLimit ? " at limit" : "")}"))}{correlation}: "
                + $"score {FitCommand.Score(judged, false):0.###} -> {after:0.###}, measured liquids that would split {splitBefore} -> {split}; "
                + $"k at {ScanCounts.Coldest} K {pair.InteractionAt(ScanCounts.Coldest):0.000}, at {ScanCounts.Warmest} K {pair.InteractionAt(ScanCounts.Warmest):0.000}; "
                + $"of {now.States} states {now.Failed} without an answer, {now.Unresolved} with an unresolved phase, two liquids up to {now.WarmestSplit:0} K");
            double splits = Math.Max(0, split - splitBefore) / (double)Math.Max(1, result.PointCount);
            double penalized = after * Math.Pow(FitCommand.WorthAParameter, free.Length) * (1 + (FitCommand.FalseSplit * splits));
            bool isBounded = IsBounded(pair) && !result.Parameters.Any(p => p.IsAtLimit);
            bool isWorse = scan is not null
                && (now.Failed > scan.Failed || now.Unresolved > scan.Unresolved + (now.States / 100) || now.WarmestSplit > scan.WarmestSplit + ScanCounts.Step);
            if (isBounded && !isWorse && penalized < bestScore)
            {
                bestScore = penalized;
                best = result;
                bestScan = now;
            }
            else if (penalized < bestScore)
            {
                output.WriteLine($"    not taken: {(isBounded ? "more failures, unresolved phases or warmer splits than with a constant k" : "a parameter or k(T) at its limit")}");
            }

            scan ??= now;
        }

        if (best is null)
        {
            return (null, "no choice of parameters gave a fit inside the limits");
        }

        output.Write(best);
        CubicPair start = (CubicPair)fit.Start;
        SetDeviations[] chosen = FitCommand.Judged(best, true);
        SetDeviations[] used = [.. best.Sets.Where(s => !s.IsHeldOut)];
        foreach ((SetDeviations[] rows, string which) in new[] { (chosen, "held out"), (used, "fitted") })
        {
            if (!(FitCommand.Score(rows, true) <= FitCommand.Score(rows, false)))
            {
                return (null, $"not better on the points {which} (score {FitCommand.Score(rows, false):0.###} -> {FitCommand.Score(rows, true):0.###})");
            }
        }

        if (start.HalfWidth95 is { } band && best.Parameters.Any(p => p.StandardError > 0.5 * band))
        {
            return (null, $"determined no better than the estimate, which is within {band:0.###}");
        }

        if (start.Tier == PairTier.Published)
        {
            return (null, "a published value stays, though its confidence is not good");
        }

        string reason = "no published parameter";
        if (PairOf(Held, plan, model) is { Tier: PairTier.FittedHere } other)
        {
            SetDeviations[] against = [.. PairFit.Compare(plan.HeldOut.Count > 0 ? plan.HeldOut : plan.Fitted, model, Held, best.ToCatalog(), true)];
            double was = FitCommand.Score(against, false);
            double now = FitCommand.Score(against, true);
            reason = $"against {other.Parameters}, fitted to {other.FittedTo}: score {was:0.###} -> {now:0.###} on the points held out";
            if (!(now <= WorthReplacing * was))
            {
                return (null, reason);
            }
        }

        int splitAfter = FitCommand.Metastable(plan, best.ToCatalog(), model);
        string warning = splitAfter > 0 ? $"; the model splits {splitAfter} of the {best.PointCount} measured liquids in two" : string.Empty;
        double warmest = bestScan!.WarmestSplit;
        warning += warmest > 0 ? $"; it has two liquids up to about {warmest:0} K, not compared with measurements" : string.Empty;
        CubicPair taken = (CubicPair)best.Pair;
        if (taken.InverseTemperatureCoefficient != 0)
        {
            double coldest = plan.Fitted.Min(s => s.Points.Min(p => p.Temperature.Kelvins));
            double hottest = plan.Fitted.Max(s => s.Points.Max(p => p.Temperature.Kelvins));
            warning += string.Create(
                CultureInfo.InvariantCulture,
                $"; k(T) is {taken.InteractionAt(coldest):0.000} at {coldest:0} K and {taken.InteractionAt(hottest):0.000} at {hottest:0} K, and extrapolated outside: {taken.InteractionAt(100):0.000} at 100 K");
        }

        return (taken with { Source = taken.Source with { Verified = $"{plan.Rule}: {FitCommand.Held(best)}{warning}" } }, reason);
    }

    private static bool IsBounded(CubicPair pair) =>
        Math.Abs(pair.InteractionAt(ScanCounts.Coldest)) <= LargestInteraction && Math.Abs(pair.InteractionAt(ScanCounts.Warmest)) <= LargestInteraction;

    private static bool IsExcess(MeasurementSet set) => set.Points.All(p => p.Kind == MeasurementKind.ExcessGibbsEnergy);

    // Liquid densities say nothing about k: a cubic is off by its own few percent.
    private static IReadOnlyList<MeasurementSet> PhaseEquilibria(IReadOnlyList<MeasurementSet> sets) =>
        [.. sets.Where(s => !FitCommand.IsOnePhase(s) && !IsExcess(s)).Select(s => new MeasurementSet(s.Name, s.Source, s.Components, s.Points.Select(WithoutDensity)))];

    private static Measurement WithoutDensity(Measurement point) => point.Density is null || point.Kind != MeasurementKind.BubblePressure
        ? point
        : Measurement.OfBubblePressure(point.Temperature, point.Pressure, point.Fractions, point.VaporFractions, null, point.Uncertainty) with { Place = point.Place };
}
