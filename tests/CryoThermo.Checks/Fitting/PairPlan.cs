using CryoThermo.Checks.Values;
using CryoThermo.Fitting;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Fitting;

/// <summary>Which measured points a pair is fitted to, and which are held out.</summary>
/// <param name="First">One substance.</param>
/// <param name="Second">The other.</param>
/// <param name="Fitted">Points of the fit.</param>
/// <param name="HeldOut">Points that judge it.</param>
/// <param name="Rule">The rule of the hold-out in words.</param>
public sealed record PairPlan(string First, string Second, IReadOnlyList<MeasurementSet> Fitted, IReadOnlyList<MeasurementSet> HeldOut, string Rule)
{
    /// <summary>Whether all sets have these two components only, so that no other pair matters.</summary>
    public bool IsAlone => Fitted.Concat(HeldOut).All(s => s.Components.Count == 2);

    /// <summary>
    /// The plans, by fixed rules. Every pair with measured sets of its own: of each set every third isotherm, counted from the second coldest,
    /// is held out; of a set with fewer than three isotherms every third point; a set of vapour compositions alone whole, where there is another. Then pairs known from single figures, and the pairs of hydrogen from
    /// the ternary set.
    /// </summary>
    public static IReadOnlyList<PairPlan> Of(SubstanceCatalog catalog)
    {
        List<PairPlan> plans = [];
        IReadOnlyList<MeasurementSet> sets = MeasuredSets.OfMixtures(catalog);
        foreach (IGrouping<string, MeasurementSet> pair in sets.Where(s => s.Components.Count == 2).GroupBy(s => string.Join('|', s.Components.Select(c => c.Name).Order(StringComparer.Ordinal))))
        {
            PairPlan plan = Split(pair.First().Components[0].Name, pair.First().Components[1].Name, [.. pair]);
            bool hasExcess = CheckValues.Excess.Any(e => e.MoleFractions.ContainsKey(plan.First) && e.MoleFractions.ContainsKey(plan.Second));
            plans.Add(hasExcess ? plan with { HeldOut = [.. plan.HeldOut, MeasuredSets.OfExcess(plan.First, plan.Second, catalog)] } : plan);
        }

        MeasurementSet ternary = sets.First(s => s.Name == "ch4-h2-n2-bubble-2014");
        plans.Add(WithGuards(Split("nitrogen", "hydrogen", [ternary]), sets));
        plans.Add(WithGuards(Split("methane", "hydrogen", [ternary]), sets));
        plans.Add(Single("argon", "krypton"));
        plans.Add(Single("krypton", "xenon"));
        plans.Add(Single("krypton", "methane"));
        plans.Add(new(
            "trifluoromethane", "hexafluoroethane", [MeasuredSets.OfBlend("R-508B", false, catalog)], [MeasuredSets.OfBlend("R-508B", true, catalog)], "dew temperature held out"));
        plans.Add(new(
            "propylene",
            "propane",
            [MeasuredSets.OfBlend("R-433A", false, catalog), MeasuredSets.OfBlend("R-433A", true, catalog)],
            [MeasuredSets.OfBlend("R-433B", false, catalog), MeasuredSets.OfBlend("R-433B", true, catalog)],
            "R-433B held out"));
        return plans;

        PairPlan Single(string first, string second) =>
            new(first, second, [MeasuredSets.OfExcess(first, second, catalog)], [], "a single figure: nothing held out");
    }

    private static PairPlan WithGuards(PairPlan plan, IReadOnlyList<MeasurementSet> sets) => plan with
    {
        HeldOut =
        [
            .. plan.HeldOut,
            .. sets.Where(s => s.Components.Count == 2 && s.Components.Any(c => c.Name == plan.First) && s.Components.Any(c => c.Name == plan.Second)),
        ],
    };

    private static PairPlan Split(string first, string second, IReadOnlyList<MeasurementSet> sets)
    {
        List<MeasurementSet> fitted = [];
        List<MeasurementSet> heldOut = [];
        foreach (MeasurementSet set in sets)
        {
            if (IsVaporAlone(set) && sets.Any(s => !IsVaporAlone(s)))
            {
                heldOut.Add(set);
                continue;
            }

            bool hasIsotherms = CountIsotherms(set) >= 3;
            (MeasurementSet toFit, MeasurementSet toHold) = hasIsotherms ? set.HoldOutIsotherms() : set.HoldOutEvery(3);
            fitted.Add(toFit);
            heldOut.Add(toHold);
        }

        return new(first, second, fitted, heldOut, "every third isotherm (or point, with fewer than three) held out");
    }

    private static bool IsVaporAlone(MeasurementSet set) => set.Points.All(p => p.Kind == MeasurementKind.VaporComposition);

    private static int CountIsotherms(MeasurementSet set)
    {
        double last = double.NegativeInfinity;
        int count = 0;
        foreach (double t in set.Points.Select(p => p.Temperature.Kelvins).Order())
        {
            if (t - last > 0.5)
            {
                count++;
                last = t;
            }
        }

        return count;
    }
}
