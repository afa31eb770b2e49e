using CryoThermo.Flow;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The part of the accuracy page about flow through throttles, and the way to the comparison of blends.</summary>
internal sealed class ThrottleSection(AccuracyPage page)
{
    public void Write()
    {
        page.Line();
        page.Line("## Blends found against published compositions");
        page.Line();
        page.Line("[The table](concepts/blend-comparison.md) has a page of its own: its searches take minutes. By the same measure, limits and model the blend search finds at least as much as each published composition.");
        page.Line();
        page.Line("## Flow through capillaries");
        page.Line();
        page.Line($"Mass flow by the homogeneous model against the dimensionless correlation for refrigerants {page.Cite("D. A. Wolf, R. R. Bittle, M. B. Pate, ASHRAE RP-762 (1995), ASHRAE Refrigeration Handbook; exponents from memory")}, over its range of bores, lengths, condensing temperatures and inlets. It is an order check: no measured point of a capillary is at hand, neither for these refrigerants nor for blends of a throttle cooler. The viscosity of R-134a is an estimate here.");
        page.Head(["refrigerant", "inlet", "cases", .. Enum.GetValues<TwoPhaseViscosity>().Select(r => $"{r}: least, mean, greatest of the correlation, %")]);
        foreach (IGrouping<(string Fluid, bool IsSubcooled), CapillaryComparison> group in CapillaryComparison.All.GroupBy(c => (c.Fluid, c.Subcooling > 0)))
        {
            double[] correlated = [.. group.Select(c => c.Correlated())];
            page.Row([
                group.Key.Fluid,
                group.Key.IsSubcooled ? "subcooled" : "5 % vapour",
                group.Count().ToString(),
                .. Enum.GetValues<TwoPhaseViscosity>().Select(rule =>
                {
                    double[] off = [.. group.Zip(correlated, (c, reference) => 100 * ((c.Computed(rule) / reference) - 1))];
                    return $"{AccuracyPage.Signed(Math.Round(off.Min(), 1))}, {AccuracyPage.Signed(Math.Round(off.Average(), 1))}, {AccuracyPage.Signed(Math.Round(off.Max(), 1))}";
                }),
            ]);
        }
    }
}
