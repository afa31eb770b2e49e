using System.Collections.Concurrent;
using CryoThermo.Diagnostics;
using CryoThermo.Fitting;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Fitting;

/// <summary>Fits the further pairs of the multi-fluid model to the measured sets by fixed rules, and writes their file.</summary>
public static class FitCommand
{
    // A further free parameter must lower the score on the points held out by this factor.
    internal const double WorthAParameter = 1.1;

    private const double WorthVolumesWithoutDensity = 2;

    // A refitted pair of the standard must lower it at least to this share.
    private const double MeasurablyBetter = 0.8;

    // The standard is clearly off where its mean deviation is this many times the stated expanded uncertainty.
    private const double ClearlyOff = 1.5;

    // A pair of the standard is not replaced on fewer points of phase equilibrium than these.
    private const int LeastPoints = 15;

    // A kind of deviation that is beside the fit may rise by this factor, or stay within the stated uncertainty.
    private const double Guard = 1.2;

    // What a measured liquid that the model splits costs: a fit that splits every tenth counts twice.
    internal const double FalseSplit = 10;

    // A point without an answer counts as this many expanded uncertainties in a score.
    private const double NotSolved = 5;

    private static readonly PairParameter[][] Choices =
    [
        [PairParameter.TemperatureGamma],
        [PairParameter.TemperatureGamma, PairParameter.TemperatureBeta],
    ];

    // Reducing volumes are freed with measured densities; without, only for pairs that nobody fitted to measurements, and when that halves the
    // score: phase equilibria alone bend them to hide other faults.
    private static readonly PairParameter[][] DensityChoices =
    [
        [PairParameter.TemperatureGamma, PairParameter.VolumeGamma],
        [PairParameter.TemperatureGamma, PairParameter.TemperatureBeta, PairParameter.VolumeGamma],
    ];

    private static readonly PairParameter[][] DepartureChoices =
    [
        [PairParameter.DepartureWeight],
        [PairParameter.TemperatureGamma, PairParameter.DepartureWeight],
        [PairParameter.TemperatureGamma, PairParameter.TemperatureBeta, PairParameter.DepartureWeight],
    ];

    /// <summary>Fits all plans and returns the text of the file.</summary>
    /// <param name="output">Receives the tables.</param>
    /// <param name="only">Fit only pairs of this substance; null for all.</param>
    public static string Run(TextWriter output, string? only = null)
    {
        SubstanceCatalog standard = SubstanceCatalog.Default.WithStandardPairsOnly();
        SubstanceCatalog catalog = standard;
        PairPlan[] plans = [.. PairPlan.Of(catalog).Where(p => only is null || p.First == only || p.Second == only)];
        List<BinaryPair> accepted = [];

        // Pairs with sets of two components do not need one another; the rest follows in order, each with the pairs taken before it.
        PairPlan[] alone = [.. plans.Where(p => p.IsAlone)];
        Lazy<(Outcome Outcome, string Text)>[] outcomes = [.. alone.Select(p => new Lazy<(Outcome, string)>(() => FitWithText(p, standard)))];
        Task work = Task.Run(() => Parallel.ForEach(Partitioner.Create(outcomes, EnumerablePartitionerOptions.NoBuffering), o => _ = o.Value));
        for (int i = 0; i < alone.Length; i++)
        {
            output.Write(outcomes[i].Value.Text);
            output.Flush();
            Take(alone[i], outcomes[i].Value.Outcome);
        }

        work.GetAwaiter().GetResult();
        foreach (PairPlan plan in plans.Where(p => !p.IsAlone))
        {
            (Outcome outcome, string text) = FitWithText(plan, catalog);
            output.Write(text);
            output.Flush();
            Take(plan, outcome);
        }

        void Take(PairPlan plan, Outcome outcome)
        {
            if (outcome.Result is { } result)
            {
                BinaryPair pair = result.Pair with { Source = result.Pair.Source with { Verified = $"{plan.Rule}: {Held(result)}{outcome.Warning}" } };
                accepted.RemoveAll(p => p.First.Equals(pair.First) && p.Second.Equals(pair.Second));
                accepted.Add(pair);
                catalog = catalog.With(pair);
            }
        }

        return PairFileWriter.Write(accepted);
    }

    /// <summary>The score: mean magnitude of the deviations in units of their stated expanded uncertainty.</summary>
    public static double Score(IEnumerable<SetDeviations> rows, bool after)
    {
        double sum = 0;
        int count = 0;
        foreach (SetDeviations row in rows)
        {
            DeviationFigures figures = after ? row.After : row.Before;
            sum += (figures.Count * figures.MeanAbsolute / row.Uncertainty) + (NotSolved * figures.NotSolved);
            count += figures.Count + figures.NotSolved;
        }

        return count == 0 ? 0 : sum / count;
    }

    private static (Outcome Outcome, string Text) FitWithText(PairPlan plan, SubstanceCatalog catalog)
    {
        using StringWriter text = new();
        Outcome outcome = Fit(plan, catalog, text);
        text.WriteLine($"  -> {(outcome.Result is null ? "REFUSED" : "TAKEN")}: {outcome.Reason}");
        text.WriteLine();
        return (outcome, text.ToString());
    }

    private static Outcome Fit(PairPlan plan, SubstanceCatalog catalog, TextWriter output)
    {
        output.WriteLine($"{plan.First} + {plan.Second} ({plan.Rule})");
        PairFit fit;
        try
        {
            fit = new(plan.First, plan.Second, null, catalog);
        }
        catch (ArgumentException exception)
        {
            return new(null, exception.Message);
        }

        MultiFluidPair start = (MultiFluidPair)fit.Start;
        bool isStandard = start.Tier == PairTier.Published;
        MeasurementSet[] phases = [.. plan.Fitted.Where(s => !IsOnePhase(s))];
        bool hasDensity = plan.Fitted.Any(s => s.Points.Any(p => p.Density is not null));
        bool wasMeasured = isStandard && start.RestsOnMeasurements;
        if (isStandard)
        {
            SetDeviations[] standard = [.. PairFit.Compare(plan.HeldOut, FluidModel.Recommended, catalog, catalog, true)];
            if (!standard.Any(IsOff))
            {
                Print(standard, output);
                return new(null, "the standard is not clearly off from the phase equilibria");
            }

            int points = phases.Concat(plan.HeldOut.Where(s => !IsOnePhase(s))).Sum(s => s.Points.Count);
            if (points < LeastPoints)
            {
                Print(standard, output);
                return new(null, $"only {points} points of phase equilibrium");
            }
        }

        if (!isStandard && phases.Length == 0)
        {
            return new(null, "densities alone do not tell the strength of a pair");
        }

        PairFitResult? best = null;
        double bestScore = double.PositiveInfinity;
        double bestSplits = 0;
        int metastableBefore = Metastable(plan, catalog);
        PairFit departing = isStandard || start.Departure is not null ? fit : fit.WithDeparture("generalised", 0);
        foreach (PairParameter[] free in Choices.Concat(hasDensity || !wasMeasured ? DensityChoices : []).Concat(isStandard && start.Departure is null ? [] : DepartureChoices.Skip(isStandard ? 0 : 1)))
        {
            bool volumes = free.Contains(PairParameter.VolumeGamma) || phases.Length == 0;
            if ((volumes && !hasDensity && bestScore < WorthVolumesWithoutDensity) || (!ReferenceEquals(departing, fit) && free.Contains(PairParameter.DepartureWeight) && bestSplits == 0))
            {
                continue;
            }

            PairFitResult result;
            try
            {
                result = (free.Contains(PairParameter.DepartureWeight) ? departing : fit).Fit(free, volumes ? plan.Fitted : phases, plan.HeldOut);
            }
            catch (Exception exception) when (exception is ConvergenceException or ArgumentException)
            {
                output.WriteLine($"  {string.Join(", ", free)}: {exception.Message}");
                continue;
            }

            SetDeviations[] judged = Judged(result, phases.Length > 0);
            double after = Score(judged, true);
            int metastable = Metastable(plan, result.ToCatalog());
            output.WriteLine(
                $"  {string.Join(", ", result.Parameters.Select(p => $"{p.Parameter} {p.Value:0.0000}±{p.StandardError:0.0000}{(p.IsAtLimit ? " at limit" : "")}"))}: "
                + $"score {Score(judged, false):0.###} -> {after:0.###}, measured liquids that would split {metastableBefore} -> {metastable}");
            double splits = Math.Max(0, metastable - metastableBefore) / (double)Math.Max(1, result.PointCount);
            double penalized = after * Math.Pow(WorthAParameter, free.Length) * (1 + (FalseSplit * splits));
            if (!hasDensity && free.Contains(PairParameter.VolumeGamma))
            {
                penalized *= WorthVolumesWithoutDensity;
            }

            if (penalized < bestScore && !result.Parameters.Any(p => p.IsAtLimit))
            {
                bestScore = penalized;
                bestSplits = splits;
                best = result;
            }
        }

        if (best is null)
        {
            return new(null, "no choice of parameters gave a fit inside the limits");
        }

        output.Write(best);
        string scan = Scan(plan, catalog, best.ToCatalog(), out bool isWorse, out double warmestSplit);
        output.WriteLine($"  {scan}");
        SetDeviations[] held = [.. best.Sets.Where(s => s.IsHeldOut)];
        SetDeviations[] chosen = Judged(best, phases.Length > 0);
        double limit = isStandard ? MeasurablyBetter : 1;
        if (held.Length > 0 && !(Score(chosen, true) <= limit * Score(chosen, false)))
        {
            return new(null, $"not measurably better on the points held out (score {Score(chosen, false):0.###} -> {Score(chosen, true):0.###})");
        }

        SetDeviations[] used = [.. best.Sets.Where(s => !s.IsHeldOut && (phases.Length == 0 || s.Kind is not (MeasurementKind.Density or MeasurementKind.SpeedOfSound)))];
        if (!(Score(used, true) <= limit * Score(used, false)))
        {
            return new(null, $"not measurably better on the points fitted (score {Score(used, false):0.###} -> {Score(used, true):0.###}): chance on those held out");
        }

        if (start.HalfWidth95 is { } band && best.Parameters.Any(p => p.StandardError > 0.5 * band))
        {
            return new(null, $"determined no better than the estimate, which is within {band:0.###}");
        }

        if (isStandard && held.FirstOrDefault(s => s.After.MeanAbsolute > Math.Max(Guard * s.Before.MeanAbsolute, s.Uncertainty)) is { } spoiled)
        {
            return new(null, $"spoils {spoiled.Kind} of {spoiled.Set}: {spoiled.Before.MeanAbsolute:G3} -> {spoiled.After.MeanAbsolute:G3}, stated {spoiled.Uncertainty:G3}");
        }

        int split = Metastable(plan, best.ToCatalog());
        if (isStandard && split > metastableBefore)
        {
            return new(null, $"splits {split} measured liquids, {metastableBefore} before");
        }

        string warning = (split > 0 ? $"; the model splits {split} of the {best.PointCount} measured liquids in two" : string.Empty)
            + (warmestSplit > 0 ? $"; it has two liquids up to about {warmestSplit:0} K, not compared with measurements" : string.Empty);
        return isStandard && isWorse ? new(null, scan) : new(best, isStandard ? "the standard is clearly off and this is better" : "no published parameters", warning);
    }

    internal static bool IsOnePhase(MeasurementSet set) => set.Points.All(p => p.Kind is MeasurementKind.Density or MeasurementKind.SpeedOfSound);

    private static bool IsOff(SetDeviations row) =>
        row.Kind is not (MeasurementKind.Density or MeasurementKind.SpeedOfSound or MeasurementKind.VaporComposition) && row.Before.MeanAbsolute > ClearlyOff * row.Uncertainty;

    // What judges a fit: the held-out phase equilibria, where there are any, else all held-out rows; with nothing held out the fitted rows.
    internal static SetDeviations[] Judged(PairFitResult result, bool holdsPhases)
    {
        SetDeviations[] held = [.. result.Sets.Where(s => s.IsHeldOut && (!holdsPhases || s.Kind is not (MeasurementKind.Density or MeasurementKind.SpeedOfSound)))];
        return held.Length > 0 ? held : [.. result.Sets];
    }

    // Measured bubble points at which the model has the liquid split.
    internal static int Metastable(PairPlan plan, SubstanceCatalog catalog, FluidModel? model = null)
    {
        int count = 0;
        foreach (MeasurementSet set in plan.Fitted)
        {
            foreach (Measurement point in set.Points.Where(p => p.Kind == MeasurementKind.BubblePressure))
            {
                WorkingFluid fluid = catalog.Mixture([.. set.Components.Select((c, i) => (c.Name, point.Fractions[i]))]);
                fluid = model is null ? fluid : fluid.WithModel(model);
                try
                {
                    count += fluid.TryUnsplitPoint(true, point.Temperature, out State? state) && state.HasUnresolvedPhase ? 1 : 0;
                }
                catch (ArgumentException)
                {
                    count++;
                }
            }
        }

        return count;
    }

    private static void Print(IEnumerable<SetDeviations> rows, TextWriter output)
    {
        foreach (SetDeviations row in rows)
        {
            output.WriteLine($"  {row.Set} {row.Kind}: mean {row.Before.MeanAbsolute:G3}, stated {row.Uncertainty:G3}, {row.Before.Count} points, not solved {row.Before.NotSolved}");
        }
    }

    internal static string Held(PairFitResult result) => string.Join(
        "; ",
        result.Sets.Where(s => s.IsHeldOut).Select(s =>
            $"{s.Set} {s.Kind} mean deviation {s.Before.MeanAbsolute:G3} before, {s.After.MeanAbsolute:G3} after, {s.After.Count} points, stated uncertainty {s.Uncertainty:G3}"));

    private static string Scan(PairPlan plan, SubstanceCatalog before, SubstanceCatalog after, out bool isWorse, out double warmestSplit)
    {
        ScanCounts was = ScanCounts.Of(plan.First, plan.Second, before);
        ScanCounts now = ScanCounts.Of(plan.First, plan.Second, after);
        warmestSplit = now.WarmestSplit;
        isWorse = now.Failed > was.Failed || now.Unresolved > was.Unresolved + (now.States / 100) || now.WarmestSplit > was.WarmestSplit + ScanCounts.Step;
        return $"scan of {now.States} states: failures {was.Failed} -> {now.Failed}, unresolved phases {was.Unresolved} -> {now.Unresolved}, "
            + $"liquid-liquid splits {was.Splits} (up to {was.WarmestSplit:0} K) -> {now.Splits} (up to {now.WarmestSplit:0} K), "
            + $"density at 10 MPa changed by {100 * now.DensityChangeFrom(was):0.##} % on average"
            + string.Concat(now.Failures.Take(3).Select(f => $"\n    no answer at {f}"));
    }

    private sealed record Outcome(PairFitResult? Result, string Reason, string Warning = "");
}
