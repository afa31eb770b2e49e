using CryoThermo.Checks.Values;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Accuracy;

/// <summary>
/// Does the library reproduce the deviation noted for a set? Judged with the pair parameters of the note, on evenly picked points. It does when
/// the mean absolute deviation is within a factor of 1.3 (or 0.15 %, 0.0015 in mole fraction) and the bias has the same sign wherever the
/// noted bias is more than half the noted mean absolute deviation.
/// </summary>
public sealed record NotedComparison(MeasuredSet Set, NotedDeviation Noted, NotedFigure Figure, Deviations? Here, int NotSolvedHere, bool OnAllPoints)
{
    private const double Factor = 1.3;

    /// <summary>True when the rule holds.</summary>
    public bool IsMet => Here is { Count: > 0 } && Holds(Here, Figure.MeanAbsolute, Figure.Bias);

    /// <summary>Why not, where it is known.</summary>
    public string? Reason => CheckValues.Reasons.FirstOrDefault(r => r.Set == Set.Name && r.Quantity == Figure.Quantity)?.Reason;

    /// <summary>All comparisons of a set.</summary>
    public static IReadOnlyList<NotedComparison> Of(MeasuredSet set)
    {
        List<NotedComparison> list = [];
        foreach (NotedDeviation noted in set.NotedDeviations ?? [])
        {
            List<PairInteraction> interactions = [.. (noted.PairsTakenAsZero ?? []).Select(p => new PairInteraction(p[0], p[1], 0))];
            if (noted.FittedInteraction is { } fitted)
            {
                interactions = [new(set.Components[0], set.Components[1], fitted)];
            }

            SubstanceCatalog catalog = PairCatalog.With(interactions);
            int most = set.Components.Count == 1 ? 15 : 12;
            SetComparison sample = SetComparison.Create(set, FluidModel.PengRobinson, catalog, SetComparison.Evenly(SetComparison.Inner(set), most));
            SetComparison all = SetComparison.Create(set, FluidModel.PengRobinson, catalog, SetComparison.Inner(set));
            foreach (NotedFigure figure in noted.Figures)
            {
                Deviations? onSample = sample.Of(figure.Quantity, figure.Of);
                Deviations? onAll = all.Of(figure.Quantity, figure.Of);
                bool useAll = onAll is not null && Holds(onAll, figure.MeanAbsolute, figure.Bias) && !(onSample is not null && Holds(onSample, figure.MeanAbsolute, figure.Bias));
                list.Add(new(set, noted, figure, useAll ? onAll : onSample, useAll ? all.NotSolved : sample.NotSolved, useAll));
            }
        }

        return list;
    }

    /// <summary>The rule: size within the factor or the floor, and the sign of a bias that counts.</summary>
    internal static bool Holds(Deviations here, double meanAbsolute, double bias)
    {
        if (here.Count == 0)
        {
            return false;
        }

        double floor = here.IsFraction ? 0.0015 : 0.15;
        bool size = Math.Abs(here.MeanAbsolute - meanAbsolute) <= floor
            || (here.MeanAbsolute <= Factor * meanAbsolute && meanAbsolute <= Factor * here.MeanAbsolute);
        bool sign = Math.Abs(bias) <= 0.5 * meanAbsolute || Math.Abs(bias) <= floor || Math.Sign(here.Bias) == Math.Sign(bias);
        return size && sign;
    }
}
