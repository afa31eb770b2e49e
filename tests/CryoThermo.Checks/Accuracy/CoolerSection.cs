using CryoThermo.Checks.Values;
using CryoThermo.Coolers;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The part of the accuracy page about published mixtures of throttle coolers.</summary>
internal sealed class CoolerSection(AccuracyPage page)
{
    private const string Missed = "**missed**";

    public void Write()
    {
        page.Line();
        page.Line("## Coolers: published mixtures");
        page.Line();
        page.Line("What was reported of throttle coolers and of their mixtures, against the limit of a throttle cycle with a perfect recuperator and no leak. A real cooler stays inside of that limit, and how far inside tells its losses, not an error of a model; a figure beyond it is a finding and said so. Tolerances stand with the data since before anything was computed here; nothing is adjusted. A deviation is calculated minus reported, of bounds how far outside; in brackets what is allowed.");
        Reported();
        Given();
        Boiling();
        Limits();
        Expected();
        Tables();
        Misses();
    }

    private static IEnumerable<IGrouping<(string, string, string), CoolerCheck>> Rows(bool areReported) =>
        CoolerCheck.All.Where(c => c.Figure?.IsReported == areReported).GroupBy(c => (c.Mixture.Name, c.What, c.Expected));

    private static string Value(CoolerCheck? check) => check switch
    {
        null => "-",
        { Figure.Quantity: CoolerQuantity.BubblePressure or CoolerQuantity.GreatestCooling } => $"{check.Computed:F0} {CoolerCheck.UnitOf(check.Figure.Quantity)}",
        { Figure.Quantity: CoolerQuantity.FirstSolid } when CoolerCalculations.SolidOf(check.Mixture, check.Model) is null => "none found",
        _ when check.Unit == "K" => $"{check.Computed:F2} K",
        _ => $"{check.Computed:F2}",
    };

    private static string Off(CoolerCheck check)
    {
        string unit = check.Unit.Length > 0 ? " " + check.Unit : string.Empty;
        if (check.Deviation == 0 && check.Figure?.Only is null)
        {
            return "inside";
        }

        string deviation = AccuracyPage.Signed(Math.Round(check.Deviation, 3)) + unit;
        return check.Limit is null ? deviation : $"{deviation} {(check.IsMet ? "met" : Missed)}{(check.Limit == 0 ? string.Empty : $" ({AccuracyPage.Number(check.Limit.Value)}{unit})")}";
    }

    private static string Mark(SourceMark mark) => mark switch
    {
        SourceMark.FromMemory => "from memory",
        SourceMark.Abstract => "abstract",
        SourceMark.Patent => "patent",
        _ => "computed, not published",
    };

    private static string Composition(CoolerMixture mixture) => string.Join(", ", mixture.MoleFractions.Select(p => $"{p.Key} {p.Value:0.####}"));

    private static string Meaning(CoolerCheck recommended, CoolerCheck cubic)
    {
        CoolerFigure figure = recommended.Figure!;
        string text = figure.Quantity switch
        {
            CoolerQuantity.ShareOfGreatest when recommended.IsMet => $"the cooler kept {100 * recommended.Computed:F0} % of what a perfect recuperator would; the rest are the losses of its own",
            CoolerQuantity.ShareOfGreatest => "**measured above the computed limit**: the warm end was colder than taken, or the measurement or the model is wrong",
            CoolerQuantity.LowestTemperature => Reach(figure.Greatest!.Value - recommended.Computed, recommended.IsMet),
            CoolerQuantity.GreatestCooling => recommended.IsMet
                ? $"below the bound by {100 * (1 - (recommended.Computed / figure.Greatest!.Value)):F0} %"
                : "**above what was thought to be the most**",
            CoolerQuantity.DifferenceOverPureGas => $"capacity {AccuracyPage.Signed(Math.Round(100 * (recommended.Computed - 1), 1))} % of that of pure {figure.PureGas}",
            CoolerQuantity.DensityRatio => recommended.IsMet
                ? "inside of the band in which one fixed restrictor is said to do from start to end of cool-down"
                : "**outside of the band in which one fixed restrictor is said to do from start to end of cool-down**",
            CoolerQuantity.FirstSolid => Solid(recommended),
            CoolerQuantity.BubblePressure => $"vapour pressure {AccuracyPage.Signed(Math.Round(100 * ((recommended.Computed / figure.Only!.Value) - 1), 2))} %, with Peng-Robinson {AccuracyPage.Signed(Math.Round(100 * ((cubic.Computed / figure.Only!.Value) - 1), 1))} %: a cooler at 65 K needs less than this pressure of nitrogen, in the suction or beside a lighter gas",
            _ when recommended.Model.FluidOf(recommended.Mixture.MoleFractions).Pedigree.Pairs.Any(p => p.FittedTo?.Contains(recommended.Mixture.Name, StringComparison.Ordinal) == true)
                => "a pair of the model was fitted to this very point: it proves nothing",
            _ => $"the boundary is off by {Math.Abs(recommended.Deviation):F2} K",
        };
        return recommended.IsMet == cubic.IsMet ? text : $"{text}; by Peng-Robinson {(cubic.IsMet ? "met" : "missed")}";
    }

    private static string Reach(double room, bool isMet) => (room >= 0, isMet) switch
    {
        (true, true) => $"a perfect cycle gets {room:F1} K colder than reported: room for leak and recuperator",
        (true, false) => $"a perfect cycle gets {room:F1} K colder than reported, more than expected",
        (false, true) => $"reported {-room:F1} K colder than a perfect cycle gets, less than what the figure is good for",
        _ => $"**reported {-room:F1} K colder than a perfect cycle gets**",
    };

    private static string Solid(CoolerCheck check)
    {
        WorkingFluid fluid = check.Model.FluidOf(check.Mixture.MoleFractions);
        string first = CoolerCalculations.SolidOf(check.Mixture, check.Model) is { } point ? $"{point.Component.Name} first, from {point.FluidPhases}" : "no solid";
        int estimated = fluid.Pedigree.EstimatedPairs.Count();
        return $"{first}; not judged, for want of figures of its solid: {string.Join(", ", fluid.FreezeOut.NotJudged.Select(s => s.Name).DefaultIfEmpty("none"))}; {estimated} of {fluid.Pedigree.Pairs.Count} pairs estimated, and the fractions are ours: an order check only";
    }

    private void Reported()
    {
        page.Line();
        page.Line("### Reported");
        page.Head("case", "source", "reported", "figure", "Recommended", "Peng-Robinson", "deviation", "what it means");
        CoolerMixture? last = null;
        foreach (IGrouping<(string, string, string), CoolerCheck> row in Rows(areReported: true))
        {
            CoolerCheck recommended = row.Single(c => ReferenceEquals(c.Model, CoolerModel.Recommended));
            CoolerCheck cubic = row.Single(c => ReferenceEquals(c.Model, CoolerModel.PengRobinson));
            CoolerMixture mixture = recommended.Mixture;
            page.Row(
                mixture.Name,
                $"{Mark(recommended.Figure!.Mark ?? mixture.Mark)} {page.Cite(recommended.Figure.Source ?? mixture.Source)}",
                ReferenceEquals(mixture, last) ? "as above" : mixture.Reported,
                $"{recommended.What}: {recommended.Expected}",
                Value(recommended),
                Value(cubic),
                $"{Off(recommended)}; {Off(cubic)}",
                Meaning(recommended, cubic));
            last = mixture;
        }
    }

    private void Given()
    {
        page.Line();
        page.Line("Mole fractions, how sure they are, and what is assumed:");
        page.Line();
        foreach (CoolerMixture mixture in CheckValues.CoolerMixtures)
        {
            WorkingFluid fluid = CoolerModel.Recommended.FluidOf(mixture.MoleFractions);
            string[] estimated = [.. fluid.Pedigree.EstimatedPairs.Select(p => $"{p.First.Name} + {p.Second.Name}")];
            page.Line($"- {mixture.Name}: {Composition(mixture)}; confidence {mixture.Confidence}{(mixture.Given is { } given ? $"; {given}" : string.Empty)}. Recommended takes: {fluid.Model.Name}{(estimated.Length == 0 ? string.Empty : $"; estimated pairs: {string.Join(", ", estimated)}")}.");
        }

        const double Reached = 0.78;
        const double Cold = 170;
        const double Ambient = 300;
        page.Line();
        page.Line($"The coefficient of performance of {Reached} at {Cold} K is {Reached / (Cold / (Ambient - Cold)):F2} of that of a reversible machine from {Ambient} K: for machines without losses only, so that it is compared with nothing here.");
    }

    private void Boiling()
    {
        page.Line();
        page.Line("### Bubble and dew temperatures");
        page.Line();
        page.Line("K; '-' where there is none or it was not found; flagged where the model has a further phase there.");
        page.Head(["case", "bar", .. CoolerModel.Both.SelectMany(m => (string[])[$"bubble, {m.Name}", $"dew, {m.Name}"])]);
        foreach (CoolerMixture mixture in CheckValues.CoolerMixtures.Where(m => m.Figures.All(f => f.Quantity != CoolerQuantity.FirstSolid) && m.MoleFractions.Count > 1))
        {
            foreach (double pressure in mixture.HighPressure is { } high ? (double[])[mixture.LowPressure, high] : [mixture.LowPressure])
            {
                page.Row([mixture.Name, $"{pressure / 1e5:G4}", .. CoolerModel.Both.SelectMany(m => (string[])[Point(m, true), Point(m, false)])]);

                string Point(CoolerModel model, bool isBubble)
                {
                    WorkingFluid fluid = model.FluidOf(mixture.MoleFractions);
                    Pressure p = Pressure.FromPascals(pressure);
                    State? state;
                    return (isBubble ? fluid.TryBubblePoint(p, out state) : fluid.TryDewPoint(p, out state))
                        ? $"{state.Temperature.Kelvins:F2}{(state.HasUnresolvedPhase ? " (flagged)" : string.Empty)}"
                        : "-";
                }
            }
        }
    }

    private void Limits()
    {
        page.Line();
        page.Line("### Greatest cooling, pinch and lowest temperature");
        page.Line();
        page.Line("Perfect recuperator, no leak. Negative: the cycle does not reach that temperature.");
        page.Head(["case", "cold, K", "warm end, K", .. CoolerModel.Both.SelectMany(m => (string[])[$"{m.Name}, J/mol", "pinch, K", "lowest, K"])]);
        foreach (CoolerMixture mixture in CheckValues.CoolerMixtures)
        {
            foreach (IReadOnlyList<double> limit in mixture.Limits)
            {
                page.Row([mixture.Name, $"{limit[0]}", $"{limit[1]}", .. CoolerModel.Both.SelectMany(Cells)]);

                IEnumerable<string> Cells(CoolerModel model)
                {
                    CycleLimit greatest = CoolerCalculations.LimitOf(mixture, model, mixture.LowPressure, mixture.HighPressure!.Value, limit[0], limit[1]);
                    LowestTemperature lowest = CoolerCalculations.LowestOf(mixture, model, mixture.LowPressure, mixture.HighPressure.Value, limit[1]);
                    return [$"{greatest.GreatestCooling.JoulesPerMole:F0}", $"{greatest.PinchTemperature.Kelvins:F1}", $"{(lowest.EndOfSearch ? "below " : string.Empty)}{lowest.Temperature.Kelvins:F1}"];
                }
            }
        }

        CoolerMixture benchmark = CheckValues.CoolerMixtures.Single(m => m.Mark == SourceMark.Computed);
        page.Line();
        foreach (CoolerModel model in CoolerModel.Both)
        {
            page.Line($"- {benchmark.Name}, {model.Name}: pre-cooling from 300 to 280 K multiplies the greatest cooling at 120 K by {At(benchmark.LowPressure, 280) / At(benchmark.LowPressure, 300):F2}; from there, 1 bar more suction pressure costs {100 * (1 - (At(benchmark.LowPressure + 1e5, 280) / At(benchmark.LowPressure, 280))):F0} %.");

            double At(double low, double warm) => CoolerCalculations.LimitOf(benchmark, model, low, benchmark.HighPressure!.Value, 120, warm).GreatestCooling.JoulesPerMole;
        }
    }

    private void Expected()
    {
        page.Line();
        page.Line("### Expected from an independent program");
        page.Line();
        page.Line("Not published: figures and bounds from a program with Peng-Robinson (1976) that looked for vapour and one liquid only, and found the least difference among the temperatures of its table. A deviation of Recommended is a difference of equations, not an error. 'Its pairs': Peng-Robinson here with the pairs of that program.");
        page.Head("case", "figure", "expected", "Recommended", "Peng-Robinson", "its pairs", "deviation in the same order");
        foreach (IGrouping<(string, string, string), CoolerCheck> row in Rows(areReported: false))
        {
            CoolerCheck?[] all = [.. ((CoolerModel[])[.. CoolerModel.Both, CoolerModel.SameEquation]).Select(m => row.SingleOrDefault(c => ReferenceEquals(c.Model, m)))];
            CoolerCheck any = row.First();
            page.Row([any.Mixture.Name, any.What, any.Expected, .. all.Select(Value), string.Join("; ", all.OfType<CoolerCheck>().Select(Off))]);
        }
    }

    private void Tables()
    {
        page.Line();
        page.Line("### Its tables of boiling temperatures and enthalpy differences");
        page.Line();
        page.Line("The differences themselves are under 'Benchmark blends'. A part of a small difference means little: near the lowest temperature it is all or nothing. '-' where no tolerance is stated.");
        page.Head("case", "model", "bubble, dew: inside", "largest, K", "tolerance, K", "differences: inside", "largest, %", "at", "tolerance, %");
        foreach (IGrouping<(CoolerMixture Mixture, CoolerModel Model), CoolerCheck> group in CoolerCheck.All.Where(c => c.Figure is null).GroupBy(c => (c.Mixture, c.Model)))
        {
            CoolerCheck[] points = [.. group.Where(c => c.Unit == "K")];
            CoolerCheck[] differences = [.. group.Where(c => c.Unit == "%")];
            page.Row(
                group.Key.Mixture.Name,
                group.Key.Model.Name,
                Inside(points),
                Largest(points) is { } k ? AccuracyPage.Signed(k.Deviation) : "-",
                string.Join(" and ", points.Select(c => c.Limit).OfType<double>().Distinct().Order().Select(l => $"{l}").DefaultIfEmpty("-")),
                Inside(differences),
                Largest(differences) is { } d ? AccuracyPage.Signed(d.Deviation) : "-",
                Largest(differences)?.What["difference at ".Length..] ?? "-",
                differences.FirstOrDefault()?.Limit is { } limit ? AccuracyPage.Number(limit) : "-");
        }

        static CoolerCheck? Largest(CoolerCheck[] checks) => checks.MaxBy(c => Math.Abs(c.Deviation));

        static string Inside(CoolerCheck[] checks) =>
            checks.Length == 0 ? "-" : checks.All(c => c.Limit is null) ? $"({checks.Length} compared)" : $"{checks.Count(c => c.Limit is not null && c.IsMet)} of {checks.Count(c => c.Limit is not null)}";
    }

    private void Misses()
    {
        page.Line();
        page.Line("### Missed");
        page.Head("what", "off by", "allowed", "why");
        foreach (CoolerCheck check in CoolerCheck.All.Where(c => !c.IsMet))
        {
            string unit = check.Unit.Length > 0 ? " " + check.Unit : string.Empty;
            page.Row(
                check.Subject,
                AccuracyPage.Signed(check.Deviation) + unit,
                AccuracyPage.Number(check.Limit!.Value) + unit,
                CheckValues.KnownCoolerMisses.FirstOrDefault(m => m.Subject == check.Subject)?.Reason ?? "**not known why**");
        }
    }
}
