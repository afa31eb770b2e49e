using CryoThermo.Checks.Values;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Accuracy;

/// <summary>
/// A quantity of a measured set in which no compared model has a larger mean absolute deviation than the recommended one and at least one
/// has a smaller: over the points each model solves, or over the points all of them solve.
/// </summary>
/// <param name="Set">The set.</param>
/// <param name="Recommended">Deviations of the recommended model on its own points.</param>
/// <param name="Means">Mean absolute deviation of each model on its own points.</param>
/// <param name="CommonMeans">The same on the points that all of them solve.</param>
/// <param name="CommonPoints">How many those are.</param>
/// <param name="Reasons">Why, as far as it can be computed.</param>
public sealed record WorstCase(
    MeasuredSet Set,
    Deviations Recommended,
    IReadOnlyList<(FluidModel Model, double Mean)> Means,
    IReadOnlyList<(FluidModel Model, double Mean)> CommonMeans,
    int CommonPoints,
    IReadOnlyList<string> Reasons)
{
    private const double Tie = 1e-9;

    // Range in which the standard states its uncertainty.
    private const double LowestStated = 90;
    private const double HighestStated = 450;
    private const double HighestStatedPressure = 35e6;

    /// <summary>All cases, in the order of the sets.</summary>
    public static IEnumerable<WorstCase> All => CheckValues.Measured.SelectMany(Of);

    /// <summary>The cases of a set.</summary>
    public static IEnumerable<WorstCase> Of(MeasuredSet set)
    {
        SetComparison recommended = ComparedModels.Of(set, FluidModel.Recommended)!;
        foreach (Deviations figure in recommended.Figures.Where(f => f.Count > 0 && IsIndependent(set, f)))
        {
            (FluidModel Model, Deviations Deviations)[] models =
            [
                .. ComparedModels.All.Select(m => (m, ComparedModels.Of(set, m)?.Of(figure.Quantity, figure.Of))).Where(x => x.Item2 is { Count: > 0 }).Select(x => (x.m, x.Item2!)),
            ];
            HashSet<int> common = [.. figure.Points];
            foreach ((_, Deviations d) in models)
            {
                common.IntersectWith(d.Points);
            }

            (FluidModel, double Mean)[] means = [.. models.Select(m => (m.Model, m.Deviations.MeanAbsolute))];
            (FluidModel, double Mean)[] onCommon = [.. models.Where(_ => common.Count > 0).Select(m => (m.Model, m.Deviations.On(common).MeanAbsolute))];
            if (IsWorst(means) || IsWorst(onCommon))
            {
                yield return new(set, figure, means, onCommon, common.Count, [.. ReasonsOf(set, figure, recommended, means.Min(m => m.Mean))]);
            }
        }
    }

    /// <summary>Whether the recommended model is the last among them, or shares the last place, and another is better.</summary>
    public static bool IsWorst(IReadOnlyList<(FluidModel Model, double Mean)> means)
    {
        ArgumentNullException.ThrowIfNull(means);
        double own = means.Where(m => ReferenceEquals(m.Model, FluidModel.Recommended)).Select(m => m.Mean).DefaultIfEmpty(0).Single();
        return means.Count > 1 && means.All(m => own >= m.Mean * (1 - Tie)) && means.Any(m => own > m.Mean * (1 + Tie));
    }

    /// <summary>A binary vapour has one independent fraction: that of the component the set lists.</summary>
    public static bool IsIndependent(MeasuredSet set, Deviations figure)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(figure);
        return figure.Quantity != MeasuredQuantity.VaporFraction || figure.Of == set.Columns.First(c => c.Quantity == MeasuredQuantity.VaporFraction).Of;
    }

    /// <summary>What the model and the pairs taken for a set tell.</summary>
    public static IEnumerable<string> ReasonsOfPairs(MeasuredSet set)
    {
        FluidPedigree pedigree = ComparedModels.FluidOf(set, FluidModel.Recommended).Pedigree;
        if (pedigree.Model.Cubic is not null)
        {
            yield return $"computed with {pedigree.Model.Name} ({pedigree.Reason})";
        }

        foreach (BinaryPair pair in pedigree.Pairs)
        {
            string names = $"{pair.First.Name} + {pair.Second.Name}";
            if (pair.Tier == PairTier.Estimated)
            {
                double? half = pair switch
                {
                    MultiFluidPair m => m.HalfWidth95,
                    CubicPair c => c.HalfWidth95,
                    _ => null,
                };
                yield return $"estimated pair {names}, {(half is { } h ? $"95 % band of its parameter ±{h:0.###}" : "no error band known")}";
            }
            else if (pair is MultiFluidPair { Basis: { } basis } && !basis.StartsWith("fitted to measurements", StringComparison.Ordinal))
            {
                yield return $"pair {names} of the standard: {basis}";
            }
            else if (pair is { Tier: PairTier.FittedHere, FittedTo: { } fitted })
            {
                yield return $"pair {names} fitted here to {fitted}";
            }
        }
    }

    private static IEnumerable<string> ReasonsOf(MeasuredSet set, Deviations figure, SetComparison comparison, double best)
    {
        FluidPedigree pedigree = ComparedModels.FluidOf(set, FluidModel.Recommended).Pedigree;
        string unit = figure.IsFraction ? string.Empty : " %";
        foreach (string reason in ReasonsOfPairs(set))
        {
            yield return reason;
        }

        if (pedigree.Equation is { } equation && figure.Quantity switch
        {
            MeasuredQuantity.Pressure => equation.Uncertainty.VaporPressure,
            MeasuredQuantity.Density => equation.Uncertainty.Density,
            MeasuredQuantity.SpeedOfSound => equation.Uncertainty.SpeedOfSound,
            _ => equation.Uncertainty.HeatCapacity,
        } is { } stated)
        {
            yield return $"the {equation.Standard.ToString().ToLowerInvariant()} equation of {set.Components[0]} states {stated}";
        }

        foreach (string gas in set.Components.Where(c => SubstanceCatalog.Default.Find(c).Identity.Molecule?.IsQuantumGas == true))
        {
            yield return $"{gas} is a quantum gas";
        }

        int[] outside = [.. Enumerable.Range(0, figure.Count).Where(i => IsOutside(set, figure.Points[i]))];
        if (set.Components.Count > 1 && pedigree.Model.IsMultiFluid && outside.Length > 0)
        {
            yield return $"{outside.Length} of {figure.Count} points outside {LowestStated} to {HighestStated} K and {HighestStatedPressure / 1e6} MPa (mean there {AccuracyPage.Number(outside.Average(i => Math.Abs(figure.Values[i])))}{unit})";
        }

        if (CheckValues.NotedMultiFluidDeviations.FirstOrDefault(n => n.Set == set.Name && n.Quantity == figure.Quantity && (n.Of == figure.Of || set.Components.Count == 2)) is { } noted
            && ComparedModels.Of(set, FluidModel.MultiFluid)?.Of(figure.Quantity, figure.Of) is { } standard
            && standard.Values.SequenceEqual(figure.Values))
        {
            yield return $"the standard itself: an independent program found {AccuracyPage.Number(noted.MeanAbsolute)}{unit} on {noted.Points} points";
        }

        if (comparison.NotSolved > 0)
        {
            yield return $"{comparison.NotSolved} of {comparison.Points} points without such an equilibrium";
        }

        (double? limit, string uncertainty) = AccuracyDocument.Uncertainty(set, figure.Quantity, figure.Of);
        if (limit is { } l && figure.MeanAbsolute <= l)
        {
            yield return $"inside the uncertainty of the data ({uncertainty})";
        }
        else if (limit is { } most && figure.MeanAbsolute - best <= most)
        {
            yield return $"less behind the best model than the uncertainty of the data ({uncertainty})";
        }

        foreach (SetRemark remark in CheckValues.Remarks.Where(r => r.Set == set.Name))
        {
            yield return remark.Remark;
        }
    }

    private static bool IsOutside(MeasuredSet set, int point) =>
        set.ValueOf(point, MeasuredQuantity.Temperature) is < LowestStated or > HighestStated || set.ValueOf(point, MeasuredQuantity.Pressure) > HighestStatedPressure;
}
