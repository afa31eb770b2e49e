using CryoThermo.Flow;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The parts of the accuracy page about the blend search and about flow through throttles.</summary>
internal sealed class ThrottleSection(AccuracyPage page)
{
    public void Write()
    {
        Blends();
        Capillaries();
    }

    private void Blends()
    {
        page.Line();
        page.Line("## Blends found against published compositions");
        page.Line();
        page.Line("By the same measure, limits and model; sources and conditions are on [the page of the comparison](concepts/blend-comparison.md), whose searches take minutes and are run by a command of their own.");
        page.Line();
        using Stream stream = typeof(ThrottleSection).Assembly.GetManifestResourceStream("blend-comparison.md")!;
        using StreamReader reader = new(stream);
        string[] lines = reader.ReadToEnd().Split('\n');
        foreach (string row in lines.Where(l => l.StartsWith('|')))
        {
            page.Line(row);
        }

        page.Line();
        page.Line(lines.Single(l => l.StartsWith("At most about", StringComparison.Ordinal)));
    }

    private void Capillaries()
    {
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
