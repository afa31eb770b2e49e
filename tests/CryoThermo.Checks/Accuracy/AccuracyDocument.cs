using CryoThermo.Checks.Fitting;
using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>Writes docs/accuracy.md from the check values: the same numbers the tests assert.</summary>
public sealed class AccuracyDocument
{
    private static IReadOnlyList<FluidModel> Models => ComparedModels.All;

    private readonly AccuracyPage page = new();
    private readonly List<string> outside = [];

    private AccuracyDocument()
    {
    }

    /// <summary>The document.</summary>
    public static string Write()
    {
        AccuracyDocument document = new();
        ComparedModels.Prepare();
        document.Introduction();
        new EquationSection(document.page, RecommendedOfPureFluids(), (set, quantity) => Uncertainty(set, quantity, null)).Write();
        document.Examples();
        document.VaporPressures();
        document.Measured();
        document.Worst();
        document.Limits();
        new QuantumGasSection(document.page, Words).Write();
        new FreezingSection(document.page).Write();
        new TransportSection(document.page).Write();
        document.Translation();
        document.Points();
        document.Blends();
        document.Excess();
        new CapacitySection(document.page).Write();
        new ThrottleSection(document.page).Write();
        new CoolerSection(document.page).Write();
        document.PureFluids();
        document.Pairs();
        document.Regressions();
        document.Noted();
        document.NotedMultiFluid();
        document.Outside();
        document.Sources();
        return document.page.ToString();
    }

    private static string Number(double value) => AccuracyPage.Number(value);

    private static string Signed(double value) => AccuracyPage.Signed(value);

    private static string Fixed(double value, int digits) => value.ToString("F" + digits);

    private static string Amount(IReadOnlyDictionary<string, double> x) => string.Join(", ", x.Select(p => $"{p.Key} {p.Value:0.####}"));

    private static WorkingFluid FluidOf(IReadOnlyDictionary<string, double> x, FluidModel model) =>
        WorkingFluid.Mixture(Composition.FromMoles([.. x.Select(p => (p.Key, AmountOfSubstance.FromMoles(p.Value)))])).WithModel(model);

    private void Line(string line = "") => page.Line(line);

    private void Row(params string[] cells) => page.Row(cells);

    private void Head(params string[] cells) => page.Head(cells);

    private string Cite(string source) => page.Cite(source);

    private static Dictionary<string, SetComparison> RecommendedOfPureFluids() => CheckValues.Measured
        .Where(s => s.Components.Count == 1 && SubstanceCatalog.Default.Find(s.Components[0]).Equations.Count > 0)
        .ToDictionary(s => s.Name, s => ComparedModels.Of(s, FluidModel.Recommended)!, StringComparer.Ordinal);

    // Half of the sets have a smaller mean absolute deviation.
    private static SubstanceCatalog Published { get; } = CubicFitCommand.Start.WithStandardPairsOnly();

    private static string Middle(Func<MeasuredSet, bool> which, MeasuredQuantity quantity, FluidModel model)
    {
        double[] values =
        [
            .. CheckValues.Measured.Where(which).Select(s => ComparedModels.Of(s, model)?.Of(quantity, null)).Where(d => d is { Count: > 0 }).Select(d => d!.MeanAbsolute).Order(),
        ];
        return values.Length == 0 ? "(no set)" : $"{Number((values[values.Length / 2] + values[(values.Length - 1) / 2]) / 2)} %";
    }

    private static bool HasEstimatedPair(MeasuredSet set) => ComparedModels.FluidOf(set, FluidModel.Recommended).Pedigree.EstimatedPairs.Any();

    // Sets whose pair is estimated in a catalogue of published pairs.
    private static MeasuredSet[] EstimatedSets(Func<MeasuredSet, bool> which) =>
    [
        .. CheckValues.Measured.Where(s => which(s) && Published.Mixture([.. s.Components.Select(c => (c, 1.0 / s.Components.Count))]).Pedigree.EstimatedPairs.Any()),
    ];

    private static string MiddleOfEstimates(Func<MeasuredSet, bool> which, FluidModel model)
    {
        double[] values =
        [
            .. EstimatedSets(which)
                .Select(s => SetComparison.Create(s, model, Published, SetComparison.Inner(s)).Of(MeasuredQuantity.Pressure, null))
                .Where(d => d is { Count: > 0 }).Select(d => d!.MeanAbsolute).Order(),
        ];
        return $"{Number((values[values.Length / 2] + values[(values.Length - 1) / 2]) / 2)} %";
    }

    private static bool RestsOnMeasurements(MeasuredSet set) => ComparedModels.FluidOf(set, FluidModel.Recommended).Pedigree.Pairs
        .All(p => p.Tier != PairTier.Estimated && (p as MultiFluidPair)?.Basis?.StartsWith("fitted to measurements", StringComparison.Ordinal) != false);

    private static IReadOnlyList<CubicPair> PairsOf(MeasuredSet set) => [.. ComparedModels.FluidOf(set, FluidModel.PengRobinson).Pedigree.Pairs.Cast<CubicPair>()];

    private void Introduction()
    {
        Line("# How far to trust the numbers");
        Line();
        Line("Written by `dotnet run -c Release --project tests/CryoThermo.Checks -- accuracy` from the check values the tests use. Do not edit by hand.");
        Line();
        Line("Pure fluids are computed with reference or technical equations of state in the Helmholtz energy. Blends are computed by default with the multi-fluid model: each component keeps its own accurate equation, and each pair of components has parameters that join them. The form, and the equations and pairs of 21 common gases, are those of ISO 20765-2 (`FluidModel.MultiFluid` takes that standard as it stands); `FluidModel.Recommended`, the default, adds further components and takes the best pairs known. The cubic equations Peng-Robinson and Soave-Redlich-Kwong stay available and are compared throughout. In plain words, for somebody who builds a cooler:");
        Line();
        Func<MeasuredSet, bool> bubble = s => s.Components.Count > 1 && s.Kind is MeasuredKind.VaporLiquid or MeasuredKind.Bubble or MeasuredKind.BubbleWithDensity;
        Func<MeasuredSet, bool> density = s => s.Components.Count > 1 && s.Kind == MeasuredKind.Density;
        Func<MeasuredSet, bool> soundOfBlend = s => s.Components.Count > 1 && s.Kind == MeasuredKind.SpeedOfSound;
        Func<MeasuredSet, bool> heatOfBlend = s => s.Components.Count > 1 && s.Kind is MeasuredKind.IsobaricHeatCapacity or MeasuredKind.IsochoricHeatCapacity;
        (FluidModel best, FluidModel cubic) = (FluidModel.Recommended, FluidModel.PengRobinson);
        Line("- **Pure fluids** are as good as the publications of their equations: boiling points within 0.02 K, vapour pressures and densities mostly within 0.1 % (technical equations 0.2 to 0.5 %). See the first table.");
        Line($"- **Density of blends** is good, gas and cold liquid alike: half of the measured sets are met within {Middle(s => density(s) && !HasEstimatedPair(s), MeasuredQuantity.Density, best)}, where Peng-Robinson has {Middle(s => density(s) && !HasEstimatedPair(s), MeasuredQuantity.Density, cubic)}; with an estimated pair {Middle(s => density(s) && HasEstimatedPair(s), MeasuredQuantity.Density, best)}.");
        Line($"- **Speed of sound and heat capacity of blends**: {Middle(soundOfBlend, MeasuredQuantity.SpeedOfSound, best)} and {Middle(heatOfBlend, MeasuredQuantity.HeatCapacity, best)} (Peng-Robinson {Middle(soundOfBlend, MeasuredQuantity.SpeedOfSound, cubic)} and {Middle(heatOfBlend, MeasuredQuantity.HeatCapacity, cubic)}); next to a critical point much more.");
        double gas = 100 * CheckValues.ReferenceDifferences.Max(r => Math.Abs((DifferenceOf(r, best).Difference / r.Difference) - 1));
        double gasCubic = 100 * CheckValues.ReferenceDifferences.Max(r => Math.Abs((DifferenceOf(r, cubic).Difference / r.Difference) - 1));
        Line($"- **Cooling capacity near room temperature** is where a cubic misleads most: for pure gases up to {Number(gasCubic)} % with Peng-Robinson, {Number(gas)} % with the default. The bench cooler of the examples and benchmark blends are compared further down.");
        Line($"- **Boiling and condensing of blends whose pairs rest on measurements** is good: half of the measured sets are met within {Middle(s => bubble(s) && RestsOnMeasurements(s), MeasuredQuantity.Pressure, best)} in pressure (Peng-Robinson {Middle(s => bubble(s) && RestsOnMeasurements(s), MeasuredQuantity.Pressure, cubic)}), which is a fraction of a kelvin to about one kelvin. A pair that was fitted to a long list of other measurements can still miss a set: see where the default is the worst model. A pair fitted here was fitted to about two thirds of the points of its set; how it does on the rest is told with its source.");
        Line($"- **Blends with an estimated pair** are not good: with the estimates in place of the pairs fitted here, half of the {EstimatedSets(bubble).Length} sets whose pair nobody published are off by more than {MiddleOfEstimates(bubble, best)} in pressure (Peng-Robinson {MiddleOfEstimates(bubble, cubic)}), hydrocarbons with fluorocarbons worst. The fluid names its estimated pairs (`Pedigree.EstimatedPairs`): look at them before you order gas. A published pair can be a guess of the standard, too: its `Basis` says so.");
        Line($"- **Where the default is not the best choice**: {WorstCase.All.Count()} of {CheckValues.Measured.Sum(s => ComparedModels.Of(s, best)!.Figures.Count(f => f.Count > 0 && WorstCase.IsIndependent(s, f)))} compared quantities of the sets are met by no model worse and by at least one better; they are listed below with the reason.");
        (MeasuredSet Set, double Mean)[] viscosities =
        [
            .. CheckValues.MeasuredTransport.Where(t => t.Kind == MeasuredKind.Viscosity && t.Components.Count > 1).Select(t => (t, TransportComparison.Of(t).Percent.Average(Math.Abs))),
        ];
        Line($"- **Viscosity and thermal conductivity** state their uncertainty with each result: 10 % and 8 % for a cold liquid blend. The {viscosities.Length} measured viscosities of mixtures are met within {Number(viscosities.Min(v => v.Mean))} to {Number(viscosities.Max(v => v.Mean))} % in the mean; no cold liquid of three or more components was at hand. Conductivity next to a critical point is good for nothing where the fluid's correlation has no enhancement.");
        Line("- **Argon or nitrogen with propane and heavier hydrocarbons below some 110 K**: the standard itself shows a spurious second or third liquid there. A flag about two liquids in such a blend is not to be trusted without a measurement.");
        Line("- **Below 90 K** the standard is used in its extended range: it states no tight uncertainty there, and neither does the library.");
        Line($"- **Freezing** is computed apart (`fluid.FreezeOut`), for pure solids: no equation of state here knows by itself that a component turns solid. Measured carbon dioxide in methane and nitrogen is met within {Number(SolidComparison.All.First(c => c.Set.Kind == SolidKind.Solubility).MeanAbsolute * 100)} % in the solubility and {Number(SolidComparison.All.First(c => c.Set.Kind == SolidKind.Frost).MeanAbsolute * 100)} % at the frost point; traces near 77 K only within factors. See below.");
        CoolerCheck[] reported = [.. CoolerCheck.All.Where(c => c.Figure is { IsReported: true })];
        CoolerCheck[] shares = [.. reported.Where(c => c.Figure!.Quantity == CoolerQuantity.ShareOfGreatest)];
        string MissedBy(CoolerModel model)
        {
            CoolerCheck[] missed = [.. reported.Where(c => !c.IsMet && ReferenceEquals(c.Model, model))];
            return $"{missed.Length} ({missed.Count(c => model.FluidOf(c.Mixture.MoleFractions).Pedigree.EstimatedPairs.Any())} of them with an estimated pair)";
        }

        Line($"- **Published cooler mixtures**: of {reported.Length / CoolerModel.Both.Count} reported figures the default misses {MissedBy(CoolerModel.Recommended)}, Peng-Robinson {MissedBy(CoolerModel.PengRobinson)}; {(shares.All(c => c.IsMet) ? "no measured cooling is" : "**a measured cooling is**")} above the computed limit.");
        Line();
        Line("A set counts as met when the mean absolute deviation is inside the stated expanded uncertainty of the data (about 95 %). The sets where no model is are listed near the end, not hidden.");
        Line();
        Line("Deviations are calculated minus measured. 'Not solved' counts points where the model has no such equilibrium. 'Flagged' counts points where it says a further phase exists (bubble and dew points), or where it has another phase than the one measured (single-phase properties); the comparison then uses the metastable point, or the density root nearer to the measurement. Points of a mixture set at the pure ends are left out.");
    }

    private void Examples()
    {
        Line();
        Line("## Published worked examples");
        Head("example", "quantity", "published", "computed", "tolerance", "verdict");
        foreach (PublishedExample example in CheckValues.Examples)
        {
            IReadOnlyList<double> computed = ExampleCalculations.Compute(example);
            for (int i = 0; i < computed.Count; i++)
            {
                PublishedValue value = example.Values[i];
                bool met = Math.Abs(computed[i] - value.Published) <= value.Tolerance;
                Row(
                    $"{example.Name} {Cite(example.Source + (example.FromMemory ? " (from memory)" : string.Empty))}",
                    value.Quantity + (value.Unit.Length > 0 ? ", " + value.Unit : string.Empty),
                    value.Published.ToString("G7"),
                    computed[i].ToString("G7"),
                    value.RelativeTolerance is { } relative ? $"{100 * relative:G3} %" : value.Tolerance.ToString("G3"),
                    met ? "met" : "**not met**");
            }
        }

        Line();
        Line("What is given:");
        Line();
        foreach (PublishedExample example in CheckValues.Examples)
        {
            Line($"- {example.Name}: {example.Given}{(example.NotCovered is { } left ? $". Left out: {left}" : string.Empty)}.");
        }

        foreach (UncoveredExample example in CheckValues.Uncovered)
        {
            Line($"- Not computed: {example.What} ({example.Source}): {example.Why}.");
        }
    }

    private void VaporPressures()
    {
        RoundedPressureList list = CheckValues.VaporPressures;
        Line();
        Line($"## Vapour pressures at {list.Temperature} K");
        Line();
        Line($"Rounded figures every builder meets ({list.Source}).");
        Head("fluid", "figure, bar", "recommended equation, bar", "Peng-Robinson, bar", "Soave-Redlich-Kwong, bar");
        foreach (RoundedPressure pressure in list.Pressures)
        {
            Row([
                pressure.Fluid,
                pressure.Bar.ToString(),
                Fixed(WorkingFluid.Pure(pressure.Fluid).Saturation(Temperature.FromKelvins(list.Temperature)).Pressure.Bars, 3),
                .. ComparedModels.Cubics.Select(m => Fixed(WorkingFluid.Pure(pressure.Fluid).WithModel(m).Saturation(Temperature.FromKelvins(list.Temperature)).Pressure.Bars, 2)),
            ]);
        }
    }

    private void Measured()
    {
        Line();
        Line("## Measured sets");
        (string Title, Func<MeasuredSet, bool> Which)[] groups =
        [
            ("Bubble and dew pressures, vapour compositions", s => s.Kind is MeasuredKind.VaporLiquid or MeasuredKind.Bubble or MeasuredKind.BubbleWithDensity or MeasuredKind.Dew or MeasuredKind.LiquidComposition or MeasuredKind.VaporComposition),
            ("Saturation of pure fluids", s => s.Kind is MeasuredKind.VaporPressure or MeasuredKind.SaturatedLiquidDensity),
            ("Densities", s => s.Kind == MeasuredKind.Density),
            ("Speed of sound and heat capacity", s => s.Kind is MeasuredKind.SpeedOfSound or MeasuredKind.IsobaricHeatCapacity or MeasuredKind.IsochoricHeatCapacity),
        ];
        foreach ((string title, Func<MeasuredSet, bool> which) in groups)
        {
            Line();
            Line($"### {title}");
            Line();
            Line("Mean absolute / bias / largest deviation, in percent, compositions in mole fraction; in brackets the numbers of points not solved and flagged, where there are any; '-' where the model does not hold all components. Uncertainty as stated with the data.");
            Head(["set", "quantity", "points", .. Models.Select(ComparedModels.NameOf), "uncertainty", "inside"]);
            foreach (MeasuredSet set in CheckValues.Measured.Where(which))
            {
                MeasuredRows(set);
            }
        }

        Line();
        Line("### Remarks");
        Line();
        foreach (SetRemark remark in CheckValues.Remarks)
        {
            Line($"- {remark.Set}: {remark.Remark}");
        }
    }

    private void MeasuredRows(MeasuredSet set)
    {
        SetComparison?[] all = [.. Models.Select(m => ComparedModels.Of(set, m))];
        foreach (MeasuredQuantity quantity in all.SelectMany(c => c?.Figures ?? []).Select(f => f.Quantity).Distinct())
        {
            // A binary vapour has one independent fraction: that of the component the set lists.
            string? of = quantity == MeasuredQuantity.VaporFraction ? set.Columns.First(c => c.Quantity == MeasuredQuantity.VaporFraction).Of : null;
            Deviations?[] deviations = [.. all.Select(c => c?.Of(quantity, of))];
            (double? limit, string stated) = Uncertainty(set, quantity, of);
            string[] inside = [.. Models.Where((_, i) => limit is { } l && deviations[i] is { Count: > 0 } d && d.MeanAbsolute <= l).Select(ComparedModels.ShortNameOf)];
            if (limit is not null && inside.Length == 0)
            {
                (double best, FluidModel by) = Models.Zip(deviations).Where(x => x.Second is { Count: > 0 }).Select(x => (x.Second!.MeanAbsolute, x.First)).MinBy(x => x.MeanAbsolute);
                outside.Add($"{set.Name}, {Words(quantity, of)}: best mean absolute deviation {Number(best)}{(quantity == MeasuredQuantity.VaporFraction ? string.Empty : " %")} ({ComparedModels.NameOf(by)}), stated uncertainty {stated}{(HasEstimatedPair(set) ? "; estimated pair" : string.Empty)}");
            }

            Row([
                $"{set.Name} {Cite(set.Source + (set.Doi is { } doi ? ", doi:" + doi : string.Empty))}",
                Words(quantity, of),
                all.First(c => c is not null)!.Points.ToString(),
                .. all.Select((c, i) => c is null ? "-" : Show(deviations[i]) + (c.NotSolved + c.Flagged > 0 ? $" ({c.NotSolved}, {c.Flagged})" : string.Empty)),
                stated,
                limit is null ? "-" : inside.Length == 0 ? "no" : string.Join(", ", inside),
            ]);
        }
    }

    private void Worst()
    {
        Line();
        Line("## Where the default is the worst of the models");
        Line();
        Line("Every quantity of a set in which no model has a larger mean absolute deviation than Recommended and at least one has a smaller, over the points each solves or over the points all of them solve. The reasons are computed from the pairs and equations taken, not written by hand; where the first two columns are equal the pair is that of the standard.");
        Head(["set", "quantity", .. Models.Reverse().Select(ComparedModels.NameOf), "on common points, in the same order", "why"]);
        foreach (WorstCase worst in WorstCase.All)
        {
            Row([
                worst.Set.Name,
                Words(worst.Recommended.Quantity, worst.Recommended.Of),
                .. Models.Reverse().Select(m => Of(worst.Means, m)),
                $"{string.Join(", ", Models.Reverse().Select(m => Of(worst.CommonMeans, m)))} ({worst.CommonPoints})",
                worst.Reasons.Count == 0 ? "**not known**" : string.Join("; ", worst.Reasons),
            ]);
        }

        Line();
        Line("Points not solved and flagged by each model are in the tables above. Sets of which Recommended solves no point at all:");
        Line();
        foreach (MeasuredSet set in CheckValues.Measured.Where(s => ComparedModels.Of(s, FluidModel.Recommended)!.Figures.All(f => f.Count == 0)))
        {
            Line($"- {set.Name}: {string.Join("; ", WorstCase.ReasonsOfPairs(set).DefaultIfEmpty("**not known**"))}");
        }

        static string Of(IReadOnlyList<(FluidModel Model, double Mean)> means, FluidModel model) =>
            means.Any(m => ReferenceEquals(m.Model, model)) ? Number(means.Single(m => ReferenceEquals(m.Model, model)).Mean) : "-";
    }

    private void Limits()
    {
        Line();
        Line("## Limits the multi-fluid models are to keep");
        Line();
        Line("Liquid densities of methane, ethane, propane and their blends within 0.3 % in the mean and 0.6 % at worst; isothermal enthalpy differences of nitrogen, argon, oxygen and methane within 1 %. Set for this library: common practice, no source. Liquid is what is denser than one and a half times the critical density of the blend's mean critical volume.");
        Head("what", "reached, %", "limit, %", "kept");
        foreach (LimitCheck check in LimitCheck.All)
        {
            Row(
                check.Subject,
                Number(check.Value),
                Number(check.Limit),
                check.IsMet ? "yes" : $"**no**: {CheckValues.KnownMisses.FirstOrDefault(m => m.Subject == check.Subject)?.Reason ?? "not known why"}");
        }
    }

    private static string Show(Deviations? d) => d is { Count: > 0 } ? $"{Number(d.MeanAbsolute)} / {Signed(d.Bias)} / {Signed(d.Largest)}" : "-";

    private static string Words(MeasuredQuantity quantity, string? of) => quantity switch
    {
        MeasuredQuantity.VaporFraction => $"fraction of {of} in the vapour",
        MeasuredQuantity.SpeedOfSound => "speed of sound",
        MeasuredQuantity.HeatCapacity => "heat capacity",
        MeasuredQuantity.Pressure => "pressure",
        MeasuredQuantity.Density => "density",
        _ => throw new InvalidOperationException($"{quantity} is no compared quantity."),
    };

    /// <summary>The stated expanded uncertainty of a quantity of a set, percent or mole fraction, and in words.</summary>
    internal static (double? Limit, string Stated) Uncertainty(MeasuredSet set, MeasuredQuantity quantity, string? of)
    {
        StatedUncertainty? stated = set.ExpandedUncertainty.FirstOrDefault(u => quantity switch
        {
            MeasuredQuantity.Density => u.Quantity is MeasuredQuantity.MolarDensity or MeasuredQuantity.MassDensity,
            MeasuredQuantity.HeatCapacity => u.Quantity is MeasuredQuantity.IsobaricHeatCapacity or MeasuredQuantity.IsochoricHeatCapacity,
            MeasuredQuantity.VaporFraction => u.Quantity == quantity && u.Of == of,
            _ => u.Quantity == quantity,
        });
        return stated switch
        {
            { Relative: { } relative } => (100 * relative, $"{100 * relative:G3} %"),
            { Absolute: { } absolute } when quantity == MeasuredQuantity.VaporFraction => (absolute, absolute.ToString("G3")),
            _ => (null, "not stated"),
        };
    }

    private void Translation()
    {
        Line();
        Line("## Volume translation");
        Line();
        Line("Mean absolute deviation of the measured densities in percent, without and with a constant volume shift per substance. Liquid-like means denser than one and a half times the critical density of the blend's mean critical volume.");
        Head("set", "points", "Peng-Robinson", "translated", "Soave-Redlich-Kwong", "translated");
        foreach (MeasuredSet set in CheckValues.Measured.Where(s => s.Kind is MeasuredKind.Density or MeasuredKind.SaturatedLiquidDensity))
        {
            IReadOnlySet<int> liquid = LimitCheck.LiquidPoints(set);
            foreach ((string name, int[] points) in new[]
            {
                ("liquid-like", SetComparison.Inner(set).Where(liquid.Contains).ToArray()),
                ("gas-like and between", SetComparison.Inner(set).Where(p => !liquid.Contains(p)).ToArray()),
            })
            {
                if (points.Length == 0)
                {
                    continue;
                }

                Row([
                    $"{set.Name}, {name}",
                    points.Length.ToString(),
                    .. ComparedModels.Cubics.SelectMany(m => new[] { m, m.WithVolumeTranslation() })
                        .Select(m => Number(SetComparison.Create(set, m, SubstanceCatalog.Default, points).Of(MeasuredQuantity.Density, null)?.MeanAbsolute ?? double.NaN)),
                ]);
            }
        }
    }

    private void Points()
    {
        Line();
        Line("## Single equilibrium points");
        Line();
        Line("Temperature deviation in K at the given pressure where the temperature is the measured quantity (blends at one atmosphere), else pressure deviation in percent; then the largest difference in mole fraction of the other phase.");
        Head(["system", "state", .. Models.Select(ComparedModels.NameOf), "reliability"]);
        foreach (EquilibriumPoint point in CheckValues.EquilibriumPoints)
        {
            Row([
                $"{point.System} {Cite(point.Source + (point.FromMemory ? " (from memory)" : string.Empty))}",
                point.Liquid is null || (point.Liquid.Sum(p => p.Key == "methane" ? p.Value : 0) is > 0 and < 0.05) ? $"dew, {Amount(point.Vapor!)}" : $"bubble, {Amount(point.Liquid)}",
                .. Models.Select(m => PointDeviation(point, m)),
                point.Reliability,
            ]);
        }
    }

    private static string PointDeviation(EquilibriumPoint point, FluidModel model)
    {
        // The chart examples give a computed second phase at rounded figures; the feed is the phase with the rounder numbers.
        bool bubble = point.Liquid is not null && !(point.Liquid.TryGetValue("methane", out double methane) && methane < 0.05);
        IReadOnlyDictionary<string, double> feed = bubble ? point.Liquid! : point.Vapor!;
        if (!ComparedModels.Holds(model, feed.Keys))
        {
            return "-";
        }

        WorkingFluid fluid = FluidOf(feed, model);
        bool byPressure = point.Noted.Pressure is not null;
        State? state;
        bool found = (bubble, byPressure) switch
        {
            (true, true) => fluid.TryUnsplitPoint(true, Temperature.FromKelvins(point.Temperature), out state),
            (false, true) => fluid.TryUnsplitPoint(false, Temperature.FromKelvins(point.Temperature), out state),
            (true, false) => fluid.TryUnsplitPoint(true, Pressure.FromPascals(point.Pressure), out state),
            (false, false) => fluid.TryUnsplitPoint(false, Pressure.FromPascals(point.Pressure), out state),
        };
        if (!found)
        {
            return "not solved";
        }

        IReadOnlyDictionary<string, double>? other = bubble ? point.Vapor : point.Liquid;
        Phase incipient = state!.Phases[bubble ? 0 : 1];
        string fraction = other is null ? string.Empty : $"; {Number(other.Max(p => Math.Abs(incipient.Composition[p.Key] - p.Value)))}";
        return (byPressure
            ? $"{Signed(100 * ((state.Pressure.Pascals / point.Pressure) - 1))} %"
            : $"{Signed(state.Temperature.Kelvins - point.Temperature)} K") + fraction + (state.HasUnresolvedPhase ? " (flagged)" : string.Empty);
    }

    private void Blends()
    {
        Line();
        Line("## Boiling points of designated blends");
        Line();
        Line("Bubble and dew temperature at 101.325 kPa, deviation in K. A blend marked 'fitted' gave one of its own cubic pair parameters, so it proves nothing for Peng-Robinson.");
        Head(["blend", "listed bubble, dew, K", "Peng-Robinson", "noted", .. Models.Skip(1).Select(ComparedModels.NameOf), "independent"]);
        foreach (BlendBoilingPoint blend in CheckValues.Blends)
        {
            string[] deviations = [.. Models.Select(m =>
            {
                if (!ComparedModels.Holds(m, blend.MoleFractions.Keys))
                {
                    return "-";
                }

                WorkingFluid fluid = FluidOf(blend.MoleFractions, m);
                Pressure p = Pressure.FromPascals(blend.Pressure);
                string bubble = fluid.TryBubblePoint(p, out State? first) ? Signed(Math.Round(first.Temperature.Kelvins - blend.BubbleTemperature, 2)) : "not solved";
                string dew = fluid.TryDewPoint(p, out State? drop) ? Signed(Math.Round(drop.Temperature.Kelvins - blend.DewTemperature, 2)) : "not solved";
                return $"{bubble}, {dew}";
            })];
            Row([
                $"{blend.Designation} {Cite(blend.Source + (blend.FromMemory ? " (from memory)" : string.Empty))}",
                $"{blend.BubbleTemperature}, {blend.DewTemperature}",
                deviations[0],
                $"{Signed(blend.Noted.BubbleDeviation)}, {Signed(blend.Noted.DewDeviation)}",
                .. deviations.Skip(1),
                FluidOf(blend.MoleFractions, FluidModel.PengRobinson).Pedigree.Pairs.Any(p => p.FittedTo?.Contains(blend.Designation, StringComparison.Ordinal) == true) ? "fitted" : "yes",
            ]);
        }
    }

    private void Excess()
    {
        Line();
        Line("## Excess properties of cryogenic liquids");
        Line();
        Line("J/mol, equimolar liquid at its bubble pressure, liquid roots. 'Noted' is what the equation gave when the data were collected; where it is in brackets the pair parameter was then taken as zero.");
        Head("mixture", "K", "measured GE, HE", "Peng-Robinson GE, HE", "noted", "k, tier", "Soave-Redlich-Kwong GE, HE", "noted", "k, tier", "MultiFluid GE, HE", "Recommended GE, HE", "pair, tier");
        foreach (ExcessProperty excess in CheckValues.Excess)
        {
            string[] cells = [.. ComparedModels.Cubics.SelectMany(m =>
            {
                WorkingFluid fluid = FluidOf(excess.MoleFractions, m);
                (double g, double h) = ExcessOf(fluid, excess.Temperature);
                NotedExcess noted = ReferenceEquals(m, FluidModel.PengRobinson) ? excess.NotedPengRobinson : excess.NotedSoaveRedlichKwong;
                string was = $"{noted.ExcessGibbsEnergy}, {noted.ExcessEnthalpy}";
                CubicPair pair = (CubicPair)fluid.Pedigree.Pairs[0];
                return new[] { $"{Fixed(g, 1)}, {Fixed(h, 1)}", noted.InteractionTakenAsZero ? $"({was})" : was, $"{pair.InteractionParameter:0.####}, {TierWords(pair.Tier)}" };
            })];
            Row([
                $"{Amount(excess.MoleFractions)} {Cite(excess.Source + (excess.FromMemory ? " (from memory)" : string.Empty))}",
                excess.Temperature.ToString(),
                $"{excess.ExcessGibbsEnergy}, {excess.ExcessEnthalpy?.ToString() ?? "-"} (±{excess.Uncertainty})",
                .. cells,
                ComparedModels.Holds(FluidModel.MultiFluid, excess.MoleFractions.Keys) ? Excess(FluidModel.MultiFluid) : "-",
                Excess(FluidModel.Recommended),
                FluidOf(excess.MoleFractions, FluidModel.Recommended).Pedigree.Pairs[0] is var pair ? $"{(pair is MultiFluidPair { Basis: { } basis } ? basis + ", " : string.Empty)}{TierWords(pair.Tier)}" : "-",
            ]);

            string Excess(FluidModel model)
            {
                (double g, double h) = ExcessOf(FluidOf(excess.MoleFractions, model), excess.Temperature);
                return $"{Fixed(g, 1)}, {Fixed(h, 1)}";
            }
        }

        Line();
        Line("A parameter fitted here to the same excess Gibbs energy meets it by construction.");
    }

    /// <summary>Excess Gibbs energy and enthalpy of the liquid at its bubble pressure, J/mol.</summary>
    public static (double Gibbs, double Enthalpy) ExcessOf(WorkingFluid fluid, double temperature)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        double pressure = fluid.BubblePoint(Temperature.FromKelvins(temperature)).Pressure.Pascals;
        MixtureKernel equation = fluid.Kernel.Equation;
        double[] z = [.. fluid.Composition.MoleFractions];
        double[] scratch = new double[equation.ScratchLength];
        double[] mixed = new double[z.Length];
        double[] pure = new double[z.Length];
        equation.SetTemperature(temperature, scratch);
        equation.LnFugacityCoefficients(temperature, pressure, z, DensityRoot.Liquid, scratch, mixed, out _);
        double gibbs = 0;
        double enthalpy = equation.Residual(temperature, pressure, z, DensityRoot.Liquid, scratch, out _).Enthalpy;
        for (int i = 0; i < z.Length; i++)
        {
            double[] x = new double[z.Length];
            x[i] = 1;
            equation.LnFugacityCoefficients(temperature, pressure, x, DensityRoot.Liquid, scratch, pure, out _);
            gibbs += z[i] * (mixed[i] - pure[i]) * equation.GasConstant * temperature;
            enthalpy -= z[i] * equation.Residual(temperature, pressure, x, DensityRoot.Liquid, scratch, out _).Enthalpy;
        }

        return (gibbs, enthalpy);
    }

    /// <summary>Isothermal enthalpy difference, J/mol, and temperature after throttling, K, of a reference value by a model.</summary>
    public static (double Difference, double After) DifferenceOf(ReferenceDifference reference, FluidModel model)
    {
        ArgumentNullException.ThrowIfNull(reference);
        WorkingFluid fluid = WorkingFluid.Pure(reference.Fluid).WithModel(model);
        Temperature t = Temperature.FromKelvins(reference.Temperature);
        Pressure low = Pressure.FromPascals(reference.LowPressure);
        State high = fluid.At(t, Pressure.FromPascals(reference.HighPressure));
        return (
            (fluid.At(t, low).MolarEnthalpy - high.MolarEnthalpy).JoulesPerMole,
            fluid.AtEnthalpy(low, high.MolarEnthalpy).Temperature.Kelvins);
    }

    private void PureFluids()
    {
        Line();
        Line("## Published figures of pure fluids");
        Line();
        Line("Ideal work: reversible work from gas at 300 K and 101.325 kPa to saturated liquid at the same pressure. The computed reference is a long equation of state (or the ISO 20765-2 pure-fluid terms).");
        Head("figure", "published", "reference", "recommended here", "Peng-Robinson", "Soave-Redlich-Kwong", "tolerance", "within");
        foreach (PureFluidFigure figure in CheckValues.PureFluidFigures)
        {
            double[] here = [.. ComparedModels.Cubics.Select(m => FigureOf(figure, m))];
            double best = FigureOf(figure, FluidModel.Recommended);
            string[] within = [.. ComparedModels.Cubics.Where((_, i) => Math.Abs((here[i] / figure.Value) - 1) <= figure.RelativeTolerance).Select(ComparedModels.ShortNameOf)];
            Row(
                $"{(figure.What == PureFluidQuantity.IdealWorkOfLiquefaction ? "ideal work" : "Joule-Thomson coefficient at 298.15 K")}, {figure.Fluid}, {figure.Unit} {Cite(figure.Source + (figure.FromMemory ? " (from memory)" : string.Empty))}",
                figure.Value.ToString("G5"),
                figure.ComputedByReferenceEquation.ToString("G5"),
                best.ToString("G5"),
                here[0].ToString("G4"),
                here[1].ToString("G4"),
                $"{100 * figure.RelativeTolerance:G3} %",
                string.Join(", ", within.Prepend(Math.Abs((best / figure.Value) - 1) <= figure.RelativeTolerance ? "recommended" : "not the recommended")));
        }
    }

    /// <summary>A published figure of a pure fluid by a model, in its unit.</summary>
    public static double FigureOf(PureFluidFigure figure, FluidModel model)
    {
        ArgumentNullException.ThrowIfNull(figure);
        WorkingFluid fluid = WorkingFluid.Pure(figure.Fluid).WithModel(model);
        Pressure pressure = Pressure.FromPascals(figure.Pressure);
        State feed = fluid.At(Temperature.FromKelvins(figure.Temperature), pressure);
        if (figure.What == PureFluidQuantity.JouleThomsonCoefficient)
        {
            return feed.JouleThomsonCoefficientKelvinsPerBar!.Value * 1.01325;
        }

        State liquid = fluid.Saturation(pressure).Liquid;
        return ((figure.Temperature * (feed.SpecificEntropy - liquid.SpecificEntropy).JoulesPerKilogramKelvin)
            - (feed.SpecificEnthalpy - liquid.SpecificEnthalpy).JoulesPerKilogram) / 1000;
    }

    private static string TierWords(PairTier tier) => tier switch
    {
        PairTier.Published => "published",
        PairTier.FittedHere => "fitted here",
        _ => "estimated",
    };

    private void Pairs()
    {
        Line();
        Line("## Pair parameters of the cubic equations");
        Line();
        Line("Known pairs by class, and how far the estimating rule is from them: an estimated parameter carries this band.");
        Head("class", "model", "known pairs", "root mean square error", "95 % within ±");
        foreach (CubicPairClass kind in Enum.GetValues<CubicPairClass>())
        {
            foreach (CubicModelKind model in Enum.GetValues<CubicModelKind>().Where(m => kind == CubicPairClass.WithQuantumGas || m != CubicModelKind.PengRobinsonQuantumCorrected))
            {
                CubicPairEstimator.ErrorBand band = SubstanceCatalog.Default.Estimator.Band(kind, model);
                Row(ClassWords(kind), ModelWords(model), band.Count.ToString(), Fixed(band.RootMeanSquare, 4), Fixed(band.HalfWidth95, 4));
            }
        }

        Line();
        Line("Pairs of the measured bubble-point sets with their parameter and what it gives (mean absolute pressure deviation, Peng-Robinson), and with the parameter moved to both ends of its band where it is estimated.");
        Head("set", "pair", "k", "tier", "deviation, %", "at lower end, %", "at upper end, %");
        foreach (MeasuredSet set in CheckValues.Measured.Where(s => s.Components.Count == 2 && s.Kind is MeasuredKind.VaporLiquid or MeasuredKind.Bubble or MeasuredKind.BubbleWithDensity or MeasuredKind.LiquidComposition))
        {
            CubicPair pair = PairsOf(set)[0];
            string End(double sign) => pair.HalfWidth95 is { } width
                ? Number(SetComparison.Create(
                    set,
                    FluidModel.PengRobinson,
                    PairCatalog.With([new PairInteraction(set.Components[0], set.Components[1], pair.InteractionParameter + (sign * width))]),
                    SetComparison.Inner(set)).Of(MeasuredQuantity.Pressure, null)?.MeanAbsolute ?? double.NaN)
                : "-";
            Row(
                set.Name,
                $"{set.Components[0]} + {set.Components[1]}",
                pair.InteractionParameter.ToString("0.####")
                    + (pair.InverseTemperatureCoefficient == 0 ? string.Empty : $" {(pair.InverseTemperatureCoefficient < 0 ? '-' : '+')} {Math.Abs(pair.InverseTemperatureCoefficient):0.####} (298.15 K/T - 1)"),
                TierWords(pair.Tier) + (pair.HalfWidth95 is { } half ? $" ±{half:0.###}" : string.Empty),
                Number(ComparedModels.Of(set, FluidModel.PengRobinson)!.Of(MeasuredQuantity.Pressure, null)?.MeanAbsolute ?? double.NaN),
                End(-1),
                End(1));
        }
    }

    private static string ModelWords(CubicModelKind model) => model switch
    {
        CubicModelKind.PengRobinson => "Peng-Robinson",
        CubicModelKind.SoaveRedlichKwong => "Soave-Redlich-Kwong",
        _ => "Peng-Robinson, quantum-corrected (with the pairs of plain Peng-Robinson)",
    };

    private static string ClassWords(CubicPairClass kind) => kind switch
    {
        CubicPairClass.Hydrocarbons => "two hydrocarbons",
        CubicPairClass.WithQuantumGas => "with hydrogen, helium or neon",
        _ => "all others",
    };

    private void ThreePhaseLines()
    {
        Line();
        Line("## Upper ends of three-phase lines");
        Line();
        Line("Two liquids and a vapour of two components, up to where two of the phases become one. The landmarks are recalled (Llave, Luks, Kohn, J. Chem. Eng. Data 30 (1985) 435, from memory, of low reliability: 1 K and 1.5 bar at best), so nothing is judged by them. The 0.30/0.30/0.20/0.20 blend of nitrogen, methane, ethane and propane splits into two liquids or into two liquids and a vapour at the pressures below.");
        Line();
        FluidModel[] models = [FluidModel.PengRobinson, FluidModel.SoaveRedlichKwong, FluidModel.MultiFluid, FluidModel.Recommended];
        Head(["pair", "landmark", .. models.Select(m => m.Name)]);
        foreach ((string other, string landmark) in (ReadOnlySpan<(string, string)>)[("ethane", "132.4 K, 41 bar"), ("propane", "126.6 K"), ("isobutane", "-"), ("n-butane", "-")])
        {
            Row([
                $"nitrogen + {other}",
                landmark,
                .. models.Select(m => WorkingFluid.Mixture(("nitrogen", 0.5), (other, 0.5)).WithModel(m).FindThreePhaseLine()?.UpperEnd is { } end
                    ? $"{end.Temperature.Kelvins:0.0} K, {end.Pressure.Bars:0.0} bar"
                    : "none"),
            ]);
        }

        Line();
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.3), ("ethane", 0.2), ("propane", 0.2));
        Head(["temperature, K", .. models.Where(m => !ReferenceEquals(m, FluidModel.SoaveRedlichKwong)).Select(m => $"{m.Name}, 20 bar")]);
        foreach (double t in new[] { 90.0, 100, 110, 120 })
        {
            Row([$"{t}", .. models.Where(m => !ReferenceEquals(m, FluidModel.SoaveRedlichKwong)).Select(m => blend.WithModel(m).At(UnitsNet.Temperature.FromKelvins(t), UnitsNet.Pressure.FromBars(20)).PhaseDescription)]);
        }
    }

    private void Regressions()
    {
        Line();
        Line("## Regressions against an independent program");
        Line();
        Line("Computed, not published: they show that two programs agree on Peng-Robinson with the same constants and pair parameters, nothing more.");
        Line();
        foreach (IGrouping<bool, RegressionFigure> group in CheckValues.States.SelectMany(RegressionCalculations.FiguresOf).GroupBy(f => f.NeedsSecondDerivative))
        {
            double worst = group.Max(f => Math.Abs(f.Here - f.There) / Math.Abs(f.There));
            string bound = new[] { 1e-12, 1e-9, 2e-7, 1e-6 }.Where(b => worst < b).Select(b => "below " + b.ToString("G1")).FirstOrDefault(Number(worst));
            Line(group.Key
                ? $"- {CheckValues.States.Count} single states, heat capacities, speed of sound, Joule-Thomson coefficient ({group.Count()} figures): largest relative difference {bound}. The other program differentiated numerically; here the derivatives are analytic, and the tests compare them with differences of the enthalpy."
                : $"- {CheckValues.States.Count} single states, all other figures ({group.Count()}): largest relative difference {bound}.");
        }

        foreach (RegressionSplit split in CheckValues.Splits)
        {
            State state = RegressionCalculations.SplitOf(split);
            string what = $"{state.PhaseDescription}, largest difference in a mole fraction {(LargestDifference(split, state) is var d && d < 1e-6 ? "below 1e-6" : Number(d))}";
            Line($"- {string.Join(", ", split.Components.Select((c, i) => $"{c} {split.MoleFractions[i]}"))} at {split.Temperature} K and {split.Pressure / 1e5:G4} bar: {what}.");
        }

        Line();
        Line("Isothermal enthalpy differences h(T, low) - h(T, high) of blends. The other program searched vapour-liquid splits only, so cold rows may differ where a second liquid forms; 'several liquids' counts rows where one of the two states here has two liquids or is flagged.");
        Head("blend", "low, high pressure, bar", "rows", "within 0.5 % or 2 J/mol", "several liquids", "largest difference of the others, J/mol", "bubble and dew differences, K");
        foreach (EnthalpyDifferenceTable table in CheckValues.Tables)
        {
            TableRow(table);
        }
    }

    /// <summary>Largest difference in a mole fraction or phase fraction between a regression split and the state here.</summary>
    public static double LargestDifference(RegressionSplit split, State state)
    {
        ArgumentNullException.ThrowIfNull(split);
        ArgumentNullException.ThrowIfNull(state);
        if (state.Phases.Count != split.Phases.Count)
        {
            return 1;
        }

        // Any order: liquids are not sorted the same way everywhere.
        double largest = 0;
        for (int k = 0; k < split.Phases.Count; k++)
        {
            Phase phase = state.Phases.MinBy(p => Math.Abs(p.Fraction - split.Phases[k].Fraction))!;
            largest = Math.Max(largest, Math.Abs(phase.Fraction - split.Phases[k].Fraction));
            for (int i = 0; i < split.Components.Count; i++)
            {
                largest = Math.Max(largest, Math.Abs(phase.Composition.MoleFractions[i] - split.Phases[k].MoleFractions[i]));
            }
        }

        return largest;
    }

    private void TableRow(EnthalpyDifferenceTable table)
    {
        string[] names = [.. table.MoleFractions.Keys];
        List<PairInteraction> interactions = [];
        for (int i = 0; i < names.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                // The tables list every parameter that was not zero.
                interactions.Add(
                    CheckValues.TableInteractions.FirstOrDefault(k => (k.First == names[i] && k.Second == names[j]) || (k.First == names[j] && k.Second == names[i]))
                    ?? new PairInteraction(names[j], names[i], 0));
            }
        }

        WorkingFluid fluid = PairCatalog.With(interactions).Mixture([.. table.MoleFractions.Select(p => (p.Key, p.Value / table.MoleFractions.Values.Sum()))]).WithModel(FluidModel.PengRobinson);
        int met = 0;
        int several = 0;
        double largest = 0;
        foreach (IReadOnlyList<double> row in table.Differences ?? [])
        {
            Temperature t = Temperature.FromKelvins(row[0]);
            State low = fluid.At(t, Pressure.FromPascals(table.LowPressure));
            State high = fluid.At(t, Pressure.FromPascals(table.HighPressure!.Value));
            double miss = (low.MolarEnthalpy - high.MolarEnthalpy).JoulesPerMole - row[1];
            bool within = Math.Abs(miss) <= Math.Max(2, 0.005 * Math.Abs(row[1]));
            met += within ? 1 : 0;
            if (new[] { low, high }.Any(s => s.HasUnresolvedPhase || s.Phases.Count(f => f.Kind == PhaseKind.Liquid) > 1))
            {
                several++;
            }
            else if (!within)
            {
                largest = Math.Abs(miss) > Math.Abs(largest) ? miss : largest;
            }
        }

        List<string> temperatures = [];
        void Compare(double? there, double? pressure, bool bubble)
        {
            if (there is { } listed && pressure is { } p)
            {
                State? state;
                bool found = fluid.TryUnsplitPoint(bubble, Pressure.FromPascals(p), out state);
                temperatures.Add(found ? Signed(Math.Round(state!.Temperature.Kelvins - listed, 1)) : "none");
            }
        }

        Compare(table.BubbleAtLowPressure, table.LowPressure, true);
        Compare(table.DewAtLowPressure, table.LowPressure, false);
        Compare(table.BubbleAtHighPressure, table.HighPressure, true);
        Compare(table.DewAtHighPressure, table.HighPressure, false);
        Row(
            $"{table.Name} {Cite(table.Source)}",
            $"{table.LowPressure / 1e5:G4}{(table.HighPressure is { } high2 ? $", {high2 / 1e5:G4}" : string.Empty)}",
            (table.Differences?.Count ?? 0).ToString(),
            met.ToString(),
            several.ToString(),
            Signed(Math.Round(largest)),
            temperatures.Count == 0 ? "-" : string.Join(", ", temperatures));
    }

    private void Noted()
    {
        NotedComparison[] all = [.. CheckValues.Measured.SelectMany(NotedComparison.Of)];
        Line();
        Line("## Deviations noted when the data were collected");
        Line();
        Line("An independent program noted the deviation of Peng-Robinson from each set, on at most 12 evenly picked points (15 for pure fluids) and with the pair parameters of its time. Compared here with the same pair parameters on evenly picked points. Rule: mean absolute within a factor of 1.3 (or 0.15 %, 0.0015 in mole fraction), same sign of the bias wherever the noted bias is more than half the noted mean absolute deviation.");
        Line();
        Line($"{all.Count(c => c.IsMet)} of {all.Length} figures agree. The others:");
        Head("set", "quantity", "pair parameter", "noted (points)", "here (points)", "why");
        foreach (NotedComparison c in all.Where(c => !c.IsMet))
        {
            Row(
                c.Set.Name,
                Words(c.Figure.Quantity, c.Figure.Of),
                c.Noted.FittedInteraction is { } k ? k.ToString() : c.Noted.PairsTakenAsZero is not null ? "0" : "as shipped",
                $"{Number(c.Figure.MeanAbsolute)} / {Signed(c.Figure.Bias)} / {Signed(c.Figure.Largest)} ({c.Figure.Points})",
                c.Here is null ? "-" : $"{Show(c.Here)} ({c.Here.Count})",
                c.Reason ?? "**not explained**");
        }
    }

    private void NotedMultiFluid()
    {
        IReadOnlyList<MultiFluidNotedComparison> all = MultiFluidNotedComparison.Everything;
        Line();
        Line("### The same for the multi-fluid standard");
        Line();
        Line($"Noted by an independent program for ISO 20765-2 on at most 8 evenly picked points; the same rule. {all.Count(c => c.IsMet)} of {all.Count} figures agree. The others:");
        Head("set", "quantity", "noted (points)", "here (points)", "here, all points", "why");
        foreach (MultiFluidNotedComparison c in all.Where(c => !c.IsMet))
        {
            Row(
                c.Set.Name,
                Words(c.Noted.Quantity, c.Noted.Of),
                $"{Number(c.Noted.MeanAbsolute)} / {Signed(c.Noted.Bias)} / {Signed(c.Noted.Largest)} ({c.Noted.Points})",
                c.Here is { Count: > 0 } ? $"{Show(c.Here)} ({c.Here.Count})" : "-",
                c.All is { Count: > 0 } ? $"{Show(c.All)} ({c.All.Count})" : "-",
                c.Reason ?? "**not explained**");
        }
    }

    private void Outside()
    {
        Line();
        Line("## Where no model is inside the data's uncertainty");
        Line();
        foreach (string line in outside)
        {
            Line($"- {line}");
        }
    }

    private void Sources()
    {
        Line();
        Line("## Sources");
        Line();
        Line("Measured sets were read from the IUPAC-standard ThermoML archive files of the articles.");
        Line();
        int number = 0;
        foreach (string source in page.Sources)
        {
            number++;
            Line($"{number}. {source}");
        }
    }
}
