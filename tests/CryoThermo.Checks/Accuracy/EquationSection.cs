using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The part of the accuracy page about the Helmholtz equations of pure fluids.</summary>
internal sealed class EquationSection(AccuracyPage page, IReadOnlyDictionary<string, SetComparison> comparisons, Func<MeasuredSet, MeasuredQuantity, (double? Limit, string Stated)> uncertainty)
{
    private const double LowestPressure = 1000;

    private static IEnumerable<(Substance Substance, HelmholtzEquation Equation)> All =>
        SubstanceCatalog.Default.All.OrderBy(s => s.Name, StringComparer.Ordinal).SelectMany(s => s.Equations.Select(e => (s, e)));

    public void Write()
    {
        page.Line();
        page.Line("## Pure fluids: equations of state in the Helmholtz energy");
        page.Line();
        page.Line("The coefficients were recalled from the publications and verified by computation, not copied from them: each file says what was checked. A reference equation represents the best measurements; a technical one is a short form. The first of a substance is the one the library takes.");
        Equations();
        CriticalConditions();
        Curves();
        Published();
        Measured();
        Inversion();
    }

    private void Equations()
    {
        page.Line();
        page.Line("### What there is, and how good it says it is");
        page.Head("substance", "equation", "K", "MPa", "density", "vapour pressure", "heat capacity", "speed of sound", "source");
        foreach ((Substance substance, HelmholtzEquation e) in All)
        {
            page.Row(
                substance.Name,
                Kind(e) + (e.IsPseudoPure ? ", pseudo-pure" : string.Empty),
                $"{e.Range.LowestTemperature:G5} to {e.Range.HighestTemperature:G5}",
                $"{e.Range.HighestPressure / 1e6:G4}",
                e.Uncertainty.Density ?? "-",
                e.Uncertainty.VaporPressure ?? "-",
                e.Uncertainty.HeatCapacity ?? "-",
                e.Uncertainty.SpeedOfSound ?? "-",
                page.Cite(e.Provenance.Source.Publication + (e.Provenance.Source.FromMemory ? " (from memory)" : string.Empty)));
        }
    }

    private void CriticalConditions()
    {
        page.Line();
        page.Line("### Critical points");
        page.Line();
        page.Line("At the critical point of the substance the pressure should be the critical one and both derivatives by density should vanish; reference equations are made so. Short forms meet the point only nearly and have a critical point of their own, where their saturation ends.");
        page.Head("equation", "p/pc - 1", "dp/drho/(R T)", "rho d2p/drho2/(R T)", "own critical point", "above the substance's by, K");
        foreach ((Substance substance, HelmholtzEquation e) in All.Where(x => !x.Equation.IsPseudoPure))
        {
            HelmholtzFluid fluid = new(e, substance.AcentricFactor);
            double t = substance.CriticalTemperature;
            double rho = substance.CriticalMolarDensity;
            double[] scratch = new double[fluid.ScratchLength];
            fluid.SetIsotherm(t, scratch);
            IsothermDerivatives at = fluid.AlongIsotherm(rho, scratch);
            const double Step = 1e-5;
            double curvature = (fluid.AlongIsotherm(rho * (1 + Step), scratch).Stiffness - fluid.AlongIsotherm(rho * (1 - Step), scratch).Stiffness) / (2 * Step);
            page.Row(
                $"{substance.Name}, {Kind(e)}",
                AccuracyPage.Signed((rho * e.GasConstant * t * at.Compressibility / substance.CriticalPressure) - 1),
                AccuracyPage.Signed(at.Stiffness),
                AccuracyPage.Signed(curvature),
                $"{e.CriticalPoint.Temperature:F4} K, {e.CriticalPoint.Pressure / 1e6:F5} MPa, {e.CriticalPoint.MolarDensity:F1} mol/m3",
                AccuracyPage.Signed(Math.Round(e.CriticalPoint.Temperature - t, 5)));
        }
    }

    private void Curves()
    {
        page.Line();
        page.Line("### Saturation against independent curves");
        page.Line();
        page.Line("Largest deviation, percent, of the curves given with the equations from the equality of pressure and Gibbs energy of both phases: first for more than 1 kPa and less than 0.95 of the critical temperature, then over the whole curve. Curves that were fitted to the equation itself show how well the fit is, no more.");
        page.Head("equation", "vapour pressure", "liquid density", "vapour density", "curves from");
        foreach ((Substance substance, HelmholtzEquation e) in All.Where(x => !x.Equation.IsPseudoPure))
        {
            HelmholtzFluid fluid = new(e, substance.AcentricFactor);
            page.Row(
                $"{substance.Name}, {Kind(e)}",
                Deviation(fluid, e, e.VaporPressure, (p, _, _) => p),
                Deviation(fluid, e, e.SaturatedLiquidDensity, (_, l, _) => l),
                Deviation(fluid, e, e.SaturatedVaporDensity, (_, _, v) => v),
                e.VaporPressure is { } curve ? page.Cite(curve.Provenance.Source.Publication) : "-");
        }
    }

    private static string Deviation(HelmholtzFluid fluid, HelmholtzEquation equation, SaturationCurve? curve, Func<double, double, double, double> pick)
    {
        if (curve is null)
        {
            return "-";
        }

        double low = Math.Max(curve.LowestTemperature, equation.Range.LowestTemperature);
        double high = Math.Min(curve.HighestTemperature, 0.998 * equation.CriticalPoint.Temperature);
        double[] scratch = new double[fluid.ScratchLength];
        double inner = 0;
        double whole = 0;
        for (int k = 0; k <= 300; k++)
        {
            double t = low + ((high - low) * k / 300);
            if (!fluid.TrySaturation(t, scratch, out double p, out double l, out double v))
            {
                return "**not solved**";
            }

            double miss = 100 * Math.Abs((curve.At(t) / pick(p, l, v)) - 1);
            whole = Math.Max(whole, miss);
            inner = p > LowestPressure && t < 0.95 * equation.CriticalPoint.Temperature ? Math.Max(inner, miss) : inner;
        }

        return $"{AccuracyPage.Number(inner)}, {AccuracyPage.Number(whole)}";
    }

    private void Published()
    {
        page.Line();
        page.Line("### Published values");
        page.Line();
        int met = 0;
        List<EquationCheck> misses = [];
        foreach (EquationCheck check in CheckValues.EquationChecks)
        {
            if (Math.Abs(EquationCalculations.Compute(check) - check.Value) <= EquationCalculations.Allowed(check) * (1 + 1e-9))
            {
                met++;
            }
            else
            {
                misses.Add(check);
            }
        }

        page.Line($"{met} of {CheckValues.EquationChecks.Count} values are met: tables of the publications to every printed digit, boiling points within 0.02 K (0.1 K for technical equations), triple-point pressures within 2 %. Not met:");
        page.Head("value", "published", "computed", "deviation, %", "allowed", "why");
        foreach (EquationCheck check in misses)
        {
            double computed = EquationCalculations.Compute(check);
            page.Row(
                $"{check.Subject} {page.Cite(check.Source + (check.FromMemory ? " (from memory)" : string.Empty))}",
                $"{check.Value} {check.Unit}",
                computed.ToString("G8"),
                AccuracyPage.Signed(100 * ((computed / check.Value) - 1)),
                $"{AccuracyPage.Number(EquationCalculations.Allowed(check))} ({check.Rule})",
                CheckValues.EquationMisses.FirstOrDefault(m => m.Subject == check.Subject)?.Reason ?? "not known");
        }

        page.Line();
        page.Line("All of them:");
        page.Head("fluid", "equation", "quantity", "values", "met", "largest deviation over the allowed one", "source");
        foreach (IGrouping<(string Fluid, EquationStandard Standard, EquationQuantity Quantity, string Source), EquationCheck> group in CheckValues.EquationChecks.GroupBy(c => (c.Fluid, c.Standard, c.Quantity, c.Source)))
        {
            double[] ratios = [.. group.Select(c => Math.Abs(EquationCalculations.Compute(c) - c.Value) / EquationCalculations.Allowed(c))];
            page.Row(
                group.Key.Fluid,
                group.Key.Standard.ToString().ToLowerInvariant(),
                System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(group.Key.Quantity.ToString()),
                ratios.Length.ToString(),
                ratios.Count(r => r <= 1 + 1e-9).ToString(),
                AccuracyPage.Number(ratios.Max()),
                page.Cite(group.Key.Source + " (from memory)"));
        }
    }

    private void Measured()
    {
        page.Line();
        page.Line("### Measured sets of pure fluids");
        page.Line();
        page.Line("Mean absolute / bias / largest deviation, percent, of the recommended equation; 'noted' is what was found when the data were collected, on the number of points in parentheses.");
        page.Line();
        page.Line("Not compared: sublimation pressures of nitrogen, krypton and neon at ultra-high vacuum (J. Chem. Thermodyn. 118 (2018) 127), which lie below the ends of the sublimation lines.");
        page.Head("set", "quantity", "points", "recommended equation", "noted", "uncertainty", "inside");
        foreach (MeasuredSet set in CheckValues.Measured)
        {
            if (!comparisons.TryGetValue(set.Name, out SetComparison? comparison))
            {
                continue;
            }

            foreach (Deviations d in comparison.Figures.Where(f => f.Count > 0))
            {
                NotedEquationDeviation? noted = CheckValues.NotedEquationDeviations.FirstOrDefault(n => n.Set == set.Name && n.Quantity == d.Quantity);
                (double? limit, string stated) = uncertainty(set, d.Quantity);
                page.Row(
                    $"{set.Name} {page.Cite(set.Source + (set.Doi is { } doi ? ", doi:" + doi : string.Empty))}",
                    System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(d.Quantity.ToString()),
                    comparison.Points.ToString(),
                    $"{AccuracyPage.Number(d.MeanAbsolute)} / {AccuracyPage.Signed(d.Bias)} / {AccuracyPage.Signed(d.Largest)}",
                    noted is null ? "-" : $"{AccuracyPage.Number(noted.MeanAbsolute)} / {AccuracyPage.Signed(noted.Bias)} / {AccuracyPage.Signed(noted.Largest)} ({noted.Points})",
                    stated,
                    limit is not { } l ? "-" : d.MeanAbsolute <= l ? "yes" : "no");
            }
        }
    }

    private void Inversion()
    {
        page.Line();
        page.Line("### Joule-Thomson inversion at low pressure");
        page.Line();
        page.Line("Above this temperature no throttling cools, whatever the pressure. Ranges: common practice, no source.");
        page.Head("fluid", "computed, K", "expected, K", "inside the stated range of the equation");
        foreach ((string name, string expected) in new[] { ("helium", "40 to 50"), ("hydrogen", "195 to 205"), ("neon", "215 to 225"), ("nitrogen", "600 to 625"), ("argon", "-"), ("carbon monoxide", "-"), ("air", "-"), ("oxygen", "-"), ("methane", "-") })
        {
            JouleThomsonInversion inversion = WorkingFluid.Pure(name).JouleThomsonInversion;
            Temperature? t = inversion.HighestTemperature;
            page.Row(name, t is { } found ? found.Kelvins.ToString("F1") : "above the model", expected, inversion.IsInsideStatedRange ? "yes" : "no");
        }
    }

    private static string Kind(HelmholtzEquation equation) => equation.Standard.ToString().ToLowerInvariant();
}
