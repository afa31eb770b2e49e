using CryoThermo.Checks.Values;

namespace CryoThermo.Checks.Accuracy;

/// <summary>Does the multi-fluid standard here reproduce the deviation noted for it? Rule as in <see cref="NotedComparison"/>.</summary>
/// <param name="Set">The set.</param>
/// <param name="Noted">What was noted.</param>
/// <param name="Here">Deviations here, on the evenly picked points or, where only those agree, on all.</param>
/// <param name="All">Deviations here on all points.</param>
public sealed record MultiFluidNotedComparison(MeasuredSet Set, NotedMultiFluidDeviation Noted, Deviations? Here, Deviations? All)
{
    private const int MostPoints = 8;

    /// <summary>True when the rule holds.</summary>
    public bool IsMet => Here is { Count: > 0 } && NotedComparison.Holds(Here, Noted.MeanAbsolute, Noted.Bias);

    /// <summary>Why not, as far as it can be computed; null when it cannot.</summary>
    public string? Reason
    {
        get
        {
            if (IsMet)
            {
                return null;
            }

            if (All is null or { Count: 0 } || Here is null)
            {
                return "no point is solved here";
            }

            List<string> reasons = [];
            if (Here.Count != Noted.Points)
            {
                reasons.Add($"not the same points: {Noted.Points} solved there, {Here.Count} of {MostPoints} picked here");
            }

            if (Math.Abs(All.Largest - Noted.Largest) <= 0.02 * Math.Abs(Noted.Largest))
            {
                reasons.Add("the largest deviation over all points is the noted one, so only the choice of points differs");
            }
            else if (Noted.MeanAbsolute >= All.Values.Min(Math.Abs) && Noted.MeanAbsolute <= All.Values.Max(Math.Abs)
                && All.Values.Any(v => Math.Abs(v - Noted.Largest) <= 0.02 * Math.Abs(Noted.Largest)))
            {
                reasons.Add("one point here has the noted largest deviation, so the choice of points differs");
            }

            return reasons.Count == 0 ? null : string.Join("; ", reasons);
        }
    }

    /// <summary>All comparisons.</summary>
    public static IReadOnlyList<MultiFluidNotedComparison> Everything { get; } = [.. CheckValues.NotedMultiFluidDeviations.Select(Create)];

    private static MultiFluidNotedComparison Create(NotedMultiFluidDeviation noted)
    {
        MeasuredSet set = CheckValues.Measured.Single(s => s.Name == noted.Set);
        Deviations? all = ComparedModels.Of(set, FluidModel.MultiFluid)?.Of(noted.Quantity, noted.Of);
        Deviations? sample = all?.On(SetComparison.Evenly(SetComparison.Inner(set), MostPoints).ToHashSet());
        bool useAll = all is { Count: > 0 } && NotedComparison.Holds(all, noted.MeanAbsolute, noted.Bias)
            && !(sample is { Count: > 0 } && NotedComparison.Holds(sample, noted.MeanAbsolute, noted.Bias));
        return new(set, noted, useAll ? all : sample, all);
    }
}
