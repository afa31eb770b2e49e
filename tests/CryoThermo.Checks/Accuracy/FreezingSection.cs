using CryoThermo.Checks.Values;
using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium.Solids;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The part of the accuracy page about solids and freeze-out.</summary>
internal sealed class FreezingSection(AccuracyPage page)
{
    private static readonly double[] Shares = [0.98, 0.9, 0.8, 0.6];

    public void Write()
    {
        page.Line();
        page.Line("## Freezing");
        page.Line();
        page.Line("Pure solids; their fugacity is that of the subcooled liquid of the same model times the ratio from fusion ([how](concepts/freezing.md)). Compared is ln of the fugacity in the fluid over that of the solid at the measured point, which is zero if met: positive where the model freezes more readily. 0.1 is about 10 % in the solubility or in the amount of a trace. Beside it the same as an error of the freezing temperature (calculated minus measured).");
        page.Head("set", "points", "measured", "model", "ln ratio: mean absolute / bias / largest", "K: mean absolute / bias / largest", "not solved");
        foreach (SolidComparison c in SolidComparison.All.Where(c => c.Set.Kind != SolidKind.Sublimation))
        {
            page.Row(
                $"{c.Set.Name} {page.Cite(c.Set.Source)}",
                c.LnRatios.Count.ToString(),
                $"{Words(c.Set.Kind)}; {c.Set.Uncertainty}",
                ComparedModels.NameOf(c.Model),
                Show(c.LnRatios),
                Show(c.Kelvins),
                c.NotSolved.ToString());
        }

        page.Line();
        page.Line("Frost points are compared with the vapour, as the data state. With the fluid solved instead, a model may have liquid at a measured point: "
            + string.Join("; ", SolidComparison.All.Where(c => c.LnRatiosSolved.Count > 0).Select(c => $"{ComparedModels.NameOf(c.Model)} {Show(c.LnRatiosSolved)}"))
            + ". The limit below is kept with the vapour only.");
        page.Line();
        page.Line("### Limits for freezing");
        page.Line();
        page.Line("Set for this library: common practice, no source. Solubility and frost 0.12, freezing temperatures 0.25 in the mean absolute ln ratio; eutectics within 1.5 K; sublimation pressures in high vacuum within a factor of two, by which published equations differ (note with the data).");
        page.Head("what", "reached", "limit", "kept");
        foreach (FreezingCheck check in FreezingCheck.All)
        {
            string unit = check.Unit.Length > 0 ? " " + check.Unit : string.Empty;
            page.Row(
                check.Subject,
                AccuracyPage.Number(check.Value) + unit,
                AccuracyPage.Number(check.Limit) + unit,
                check.IsMet ? "yes" : $"**no**: {CheckValues.KnownFreezingMisses.FirstOrDefault(m => m.Subject == check.Subject)?.Reason ?? "not known why"}");
        }

        page.Line();
        page.Line("### Eutectics");
        page.Head("pair", "measured, K", "mole fraction of the first", "model", "computed, K", "mole fraction");
        foreach (EutecticPoint e in CheckValues.Eutectics)
        {
            foreach (FluidModel model in SolidComparison.Models)
            {
                (double t, double x) = FreezingCheck.EutecticOf(e, model);
                page.Row($"{e.First} and {e.Second} {page.Cite(e.Source)}", $"{e.Temperature} +/- {e.Uncertainty}", $"{e.MoleFractionOfFirst}", ComparedModels.NameOf(model), $"{t:F2}", $"{x:F3}");
            }
        }

        page.Line();
        page.Line("### Single solubilities of solids in cold liquids");
        page.Line();
        page.Line("Mole fractions at the bubble pressure. Most are recalled from memory, of low confidence, and differ among authors by factors: a list, not a judgement. What the source says for certain stands with the data.");
        page.Head("solid", "liquid", "K", "measured", "confidence", "Recommended (ln ratio)", "Peng-Robinson (ln ratio)");
        foreach (SolidSolubilityPoint point in CheckValues.SolidSolubilities)
        {
            page.Row([
                point.Solid,
                $"{point.Solvent} {page.Cite(point.Source + (point.FromMemory ? " (from memory)" : string.Empty))}",
                $"{point.Temperature}",
                $"{point.MoleFraction:0.###E0}",
                point.Confidence + (point.Note is null ? string.Empty : $" ({point.Note})"),
                .. SolidComparison.Models.Select(m => SolubilityOf(point, m)),
            ]);
        }

        page.Line();
        page.Line("### Sublimation pressures");
        page.Line();
        page.Line("Far below the triple point no liquid equation reaches: the solid is continued along published sublimation lines or with a constant enthalpy of sublimation. Against measured sets in high vacuum (other published equations differ from them by up to a factor of two), ln of measured over computed pressure. Argon, xenon and oxygen have no measured set here.");
        page.Head("set", "points", "K", "stated", "model", "mean absolute / bias / largest", "how the solid is continued");
        foreach (SolidComparison c in SolidComparison.All.Where(c => c.Set.Kind == SolidKind.Sublimation))
        {
            WorkingFluid fluid = SolidComparison.FluidOf(c.Set, [1], c.Model);
            double lowest = Enumerable.Range(0, c.Set.Points.Count).Min(c.Set.Temperature);
            page.Row(
                $"{c.Set.Name} {page.Cite(c.Set.Source)}",
                c.LnRatios.Count.ToString(),
                $"{lowest:G4} to {Enumerable.Range(0, c.Set.Points.Count).Max(c.Set.Temperature):G4}",
                c.Set.Uncertainty,
                ComparedModels.NameOf(c.Model),
                Show(c.LnRatios),
                new SolidMixture(fluid.Kernel, fluid.Composition.Components)[0]!.BasisNote(lowest) ?? "not");
        }

        page.Line();
        page.Line("Against the published sublimation lines of the substance files: ln of the computed fugacity of the solid over the pressure of the line at shares of the triple temperature. Just below the triple point up to 0.06 of it is the vapour, which is no ideal gas there (carbon dioxide). With Peng-Robinson it is mostly its error in the pressure of the cold liquid, which the frost of a trace in gas inherits.");
        page.Head(["substance", "model", .. Shares.Select(s => $"{s}"), "line"]);
        foreach (Substance substance in SubstanceCatalog.Default.All.Where(s => s.Solid is not null).OrderBy(s => s.Name, StringComparer.Ordinal))
        {
            SaturationCurve[] lines = [.. substance.Equations.Select(e => e.SublimationPressure).OfType<SaturationCurve>(), .. substance.Solid!.SublimationPressures];
            if (lines.Length == 0)
            {
                continue;
            }

            foreach (FluidModel model in SolidComparison.Models)
            {
                WorkingFluid fluid = WorkingFluid.Pure(substance.Name).WithModel(model);
                PureSolid solid = new SolidMixture(fluid.Kernel, fluid.Composition.Components)[0]!;
                page.Row([
                    substance.Name,
                    ComparedModels.NameOf(model),
                    .. Shares.Select(s => Against(solid, lines, s * substance.Solid.TripleTemperature)),
                    string.Join("; ", lines.Select(l => page.Cite(l.Provenance.Source.Publication + (l.Provenance.Source.FromMemory ? " (from memory)" : string.Empty))).Distinct()),
                ]);
            }
        }
    }

    private static string Against(PureSolid solid, SaturationCurve[] lines, double t)
    {
        SaturationCurve? line = lines.FirstOrDefault(l => t >= l.LowestTemperature && t <= l.HighestTemperature);
        if (line is null)
        {
            return "-";
        }

        double p = line.At(t);
        return (solid.LnFugacity(t, p) - Math.Log(p)).ToString("+0.000;-0.000;0.000");
    }

    private static string SolubilityOf(SolidSolubilityPoint point, FluidModel model)
    {
        try
        {
            Solubility s = WorkingFluid.Pure(point.Solvent).WithModel(model).FreezeOut.SolubilityAtSaturation(point.Solid, Temperature.FromKelvins(point.Temperature));
            return $"{s.MoleFraction:0.##E0} ({Math.Log(s.MoleFraction / point.MoleFraction):+0.00;-0.00})";
        }
        catch (ConvergenceException)
        {
            return "not solved";
        }
    }

    private static string Show(IReadOnlyList<double> d) => d.Count == 0
        ? "-"
        : $"{AccuracyPage.Number(d.Average(Math.Abs))} / {AccuracyPage.Signed(d.Average())} / {AccuracyPage.Signed(d.MaxBy(Math.Abs))}";

    private static string Words(SolidKind kind) => kind switch
    {
        SolidKind.Frost => "frost point of a gas",
        SolidKind.Freezing => "freezing of a fluid at pressure",
        SolidKind.Solubility => "solubility in saturated liquid",
        SolidKind.Liquidus => "freezing of a liquid",
        _ => "sublimation pressure",
    };
}
