using CryoThermo.Checks.Values;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The part of the accuracy page about viscosity, thermal conductivity and surface tension.</summary>
internal sealed class TransportSection(AccuracyPage page)
{
    public void Write()
    {
        page.Line();
        page.Line("## Viscosity, thermal conductivity and surface tension");
        page.Line();
        page.Line("A pure fluid takes its own correlations; where it has none, and in mixtures, the dense part follows corresponding states with nitrogen, fitted to the correlations of each fluid ([how](concepts/transport.md)). Each result states its uncertainty. Set to figures compared here were only the conductivity of the gases propylene, isopentane and tetrafluoromethane at 300 K, the viscosity of the gases krypton and neon at 298 K, and the coefficients of isopentane (its liquid at 298 K).");
        Published();
        Handbook();
        Measured();
        States();
        Air();
        Misses();
    }

    private void Published()
    {
        page.Line();
        page.Line("### Check values of the publications");
        page.Head("fluid", "quantity", "source", "values", "met to the last printed digit", "the others");
        foreach (IGrouping<(string Fluid, TransportQuantity Quantity, string Source), TransportCheck> group in CheckValues.Transport.Published
            .GroupBy(c => (c.Fluid, c.Quantity, c.Source)))
        {
            page.Row(
                group.Key.Fluid,
                Word(group.Key.Quantity),
                page.Cite(group.Key.Source + " (from memory)"),
                group.Count().ToString(),
                group.Count(TransportComparison.IsMet).ToString(),
                string.Join("; ", group.Where(c => !TransportComparison.IsMet(c)).Select(c =>
                    $"{c.Temperature} K, {Density(c)}: {TransportComparison.Of(c):G6} for {c.Value:G6} {c.Unit}, {c.Miss ?? "not known why"}")));
        }
    }

    private void Handbook()
    {
        page.Line();
        page.Line("### Figures of handbooks");
        page.Line();
        page.Line($"Gas at 300 K and 101325 Pa and the boiling liquid, mostly at its normal boiling point: the range over the editions recalled, and what is computed ({page.Cite(CheckValues.Transport.HandbookSource)}). Viscosity in microPa s, conductivity in mW/(m K).");
        page.Head("fluid", "K", "phase", "viscosity, handbooks", "computed", "conductivity, handbooks", "computed");
        foreach (IGrouping<(string Fluid, double Temperature, HandbookPhase Phase), TransportHandbookFigure> group in CheckValues.Transport.Handbook
            .GroupBy(f => (f.Fluid, f.Temperature, f.Phase)))
        {
            page.Row([
                group.Key.Fluid,
                $"{group.Key.Temperature}",
                group.Key.Phase == HandbookPhase.Gas ? "gas" : "boiling liquid",
                .. Enum.GetValues<TransportQuantity>().SelectMany(q => group.FirstOrDefault(f => f.Quantity == q) is { } figure ? Cells(figure) : ["-", "-"]),
            ]);
        }

        page.Line();
        page.Line("Surface tension of the boiling liquid, mN/m, from the same handbooks.");
        page.Head("fluid", "K", "handbooks", "computed", "difference, percent");
        foreach (SurfaceTensionFigure figure in CheckValues.Transport.SurfaceTension)
        {
            double value = TransportComparison.Of(figure);
            page.Row(figure.Fluid, $"{figure.Temperature}", $"{figure.Value}", $"{value:G4}", AccuracyPage.Signed(100 * ((value / figure.Value) - 1)));
        }

        page.Line();
        foreach (TransportMixturePoint point in CheckValues.Transport.Mixtures)
        {
            double value = TransportComparison.Of(point);
            page.Line($"A single mixture: {string.Join(", ", point.MoleFractions.Select(x => $"{x.Key} {x.Value}"))} at {point.Temperature} K and {point.Pressure / 1e5} bar has {point.Value} {point.Unit} measured ({page.Cite(point.Source + " (from memory)")}), {value:G4} computed ({AccuracyPage.Signed(100 * ((value / point.Value) - 1))} %).");
        }

        static string[] Cells(TransportHandbookFigure figure)
        {
            double value = TransportComparison.Of(figure);
            bool inside = value >= figure.Lowest && value <= figure.Highest;
            return [$"{figure.Lowest} to {figure.Highest}", inside ? $"{value:G4}" : $"**{value:G4}**"];
        }
    }

    private void Measured()
    {
        page.Line();
        page.Line("### Measured sets");
        page.Line();
        page.Line("Mean absolute / bias / largest deviation in percent; beside it the expanded uncertainty the data state and the mean of the uncertainties stated with the results here.");
        page.Head("set", "quantity", "points", "deviation", "uncertainty of the data", "stated here", "within what is stated here");
        foreach (MeasuredSet set in CheckValues.MeasuredTransport)
        {
            (IReadOnlyList<double> percent, double stated, int missing) = TransportComparison.Of(set);
            page.Row(
                $"{set.Name} {page.Cite(set.Source + (set.Doi is { } doi ? ", doi:" + doi : string.Empty))}",
                Word(TransportComparison.QuantityOf(set)),
                missing == 0 ? $"{percent.Count}" : $"{percent.Count}, {missing} without such a phase",
                Show(percent),
                AccuracyPage.Number(100 * set.ExpandedUncertainty[0].Relative!.Value),
                AccuracyPage.Number(stated),
                percent.Average(Math.Abs) <= stated ? "yes" : "**no**");
        }
    }

    private void States()
    {
        page.Line();
        page.Line("### Corresponding states against the correlations of pure fluids");
        page.Line();
        page.Line("What a mixture tends to as one component remains, less the fluid's own correlation, percent, mean absolute / largest: the step between a nearly pure mixture and the pure fluid, and the quality of the fit. Gas and boiling liquid from 0.4 to 0.9 of the critical temperature, gas to 0.3 and supercritical fluid at 0.7 to 1.5 times the critical density, up to 400 K.");
        page.Head("fluid", "viscosity, gas", "liquid", "supercritical", "conductivity, gas", "liquid", "supercritical");
        foreach (string name in FluidsWithCorrelations())
        {
            page.Row([
                name,
                .. Enum.GetValues<TransportQuantity>().SelectMany(q => TransportComparison.StatesAgainstReference(name, q)
                    .Select(values => values.Count == 0 ? "-" : $"{AccuracyPage.Number(values.Average(Math.Abs))} / {AccuracyPage.Signed(values.MaxBy(Math.Abs))}")),
            ]);
        }
    }

    private void Air()
    {
        page.Line();
        page.Line("Air as a mixture of nitrogen 0.7812, oxygen 0.2096 and argon 0.0092 against the correlation of air, which took no part in any fit, percent.");
        page.Head("K", "mol/m3", "viscosity", "conductivity without what the critical point adds");
        foreach ((double t, double density) in new[] { (80.0, 30200.0), (100, 28000), (120, 23500), (140, 15000), (200, 10000), (300, 5000) })
        {
            (double viscosity, double conductivity) = TransportComparison.AirAsMixture(t, density);
            page.Row($"{t}", $"{density}", AccuracyPage.Signed(viscosity), AccuracyPage.Signed(conductivity));
        }
    }

    private void Misses()
    {
        page.Line();
        page.Line("### What misses, and why");
        page.Head("figure", "off by, percent", "limit", "reason");
        foreach (LimitCheck check in TransportComparison.All.Where(c => !c.IsMet))
        {
            page.Row(
                check.Subject,
                AccuracyPage.Number(check.Value),
                check.Limit == 0 ? "the range of the handbooks" : $"{AccuracyPage.Number(check.Limit)} %, stated",
                CheckValues.KnownTransportMisses.FirstOrDefault(m => m.Subject == check.Subject)?.Reason ?? "not known why");
        }
    }

    /// <summary>Fluids with correlations of their own that corresponding states were fitted to.</summary>
    internal static IEnumerable<string> FluidsWithCorrelations() => SubstanceCatalog.Default.All
        .Where(s => s.Transport is { DenseViscosity: not null, CorrespondingStates: not null } && s.Name is not ("nitrogen" or "helium" or "orthohydrogen"))
        .Select(s => s.Name).Order(StringComparer.Ordinal);

    private static string Density(TransportCheck check) => check.MolarDensity is { } molar ? $"{molar} mol/m3" : $"{check.MassDensity} kg/m3";

    private static string Word(TransportQuantity quantity) => quantity == TransportQuantity.Viscosity ? "viscosity" : "thermal conductivity";

    private static string Word(MeasuredQuantity quantity) => quantity switch
    {
        MeasuredQuantity.Viscosity => "viscosity",
        MeasuredQuantity.ThermalConductivity => "thermal conductivity",
        _ => "surface tension",
    };

    private static string Show(IReadOnlyList<double> values) =>
        $"{AccuracyPage.Number(values.Average(Math.Abs))} / {AccuracyPage.Signed(values.Average())} / {AccuracyPage.Signed(values.MaxBy(Math.Abs))}";
}
