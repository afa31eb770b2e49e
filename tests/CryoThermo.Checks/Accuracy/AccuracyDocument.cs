using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>Writes docs/accuracy.md from the check values: the same numbers the tests assert.</summary>
public sealed class AccuracyDocument
{
    private static readonly FluidModel[] Models = [FluidModel.PengRobinson, FluidModel.SoaveRedlichKwong];

    private readonly AccuracyPage page = new();
    private readonly List<string> outside = [];
    private readonly Dictionary<(string Set, FluidModel Model), SetComparison> comparisons = [];
    private readonly Dictionary<string, SetComparison> recommended = new(StringComparer.Ordinal);

    private AccuracyDocument()
    {
    }

    /// <summary>The document.</summary>
    public static string Write()
    {
        AccuracyDocument document = new();
        document.Compare();
        document.Introduction();
        new EquationSection(document.page, document.recommended, (set, quantity) => Uncertainty(set, quantity, null)).Write();
        document.Examples();
        document.VaporPressures();
        document.Measured();
        new QuantumGasSection(document.page, Words).Write();
        document.Translation();
        document.Points();
        document.Blends();
        document.Excess();
        document.Capacity();
        document.PureFluids();
        document.Pairs();
        document.Regressions();
        document.Noted();
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

    private void Compare()
    {
        foreach (MeasuredSet set in CheckValues.Measured)
        {
            foreach (FluidModel model in Models)
            {
                comparisons[(set.Name, model)] = SetComparison.Create(set, model, SubstanceCatalog.Default, SetComparison.Inner(set));
            }

            if (set.Components.Count == 1 && SubstanceCatalog.Default.Find(set.Components[0]).Equations.Count > 0)
            {
                recommended[set.Name] = SetComparison.Create(set, FluidModel.Recommended, SubstanceCatalog.Default, SetComparison.Inner(set));
            }
        }
    }

    private double Middle(Func<MeasuredSet, bool> which, MeasuredQuantity quantity, FluidModel model)
    {
        double[] values =
        [
            .. CheckValues.Measured.Where(which).Select(s => comparisons[(s.Name, model)].Of(quantity, null)).Where(d => d is { Count: > 0 }).Select(d => d!.MeanAbsolute).Order(),
        ];
        return values[values.Length / 2];
    }

    private bool HasEstimatedPair(MeasuredSet set) => PairsOf(set).Any(p => p.Tier == PairTier.Estimated);

    private static IReadOnlyList<CubicPair> PairsOf(MeasuredSet set) =>
        [.. WorkingFluid.Mixture([.. set.Components.Select(c => (c, 1.0 / set.Components.Count))]).WithModel(FluidModel.PengRobinson).Pedigree.Pairs.Cast<CubicPair>()];

    private void Introduction()
    {
        Line("# How far to trust the numbers");
        Line();
        Line("Written by `dotnet run -c Release --project tests/CryoThermo.Checks -- accuracy` from the check values the tests use. Do not edit by hand.");
        Line();
        Line("Pure fluids are computed with reference or technical equations of state in the Helmholtz energy, blends with cubic equations so far: Peng-Robinson (the default) and Soave-Redlich-Kwong. In plain words, for somebody who builds a cooler:");
        Line();
        Line("- **Pure fluids** are as good as the publications of their equations: boiling points within 0.02 K, vapour pressures and densities mostly within 0.1 % (technical equations 0.2 to 0.5 %). See the first table.");
        Func<MeasuredSet, bool> bubble = s => s.Components.Count > 1 && s.Kind is MeasuredKind.VaporLiquid or MeasuredKind.Bubble or MeasuredKind.BubbleWithDensity;
        Line($"- **Boiling and condensing of blends whose pairs are known** is good: half of the measured sets are met within {Number(Middle(s => bubble(s) && !HasEstimatedPair(s), MeasuredQuantity.Pressure, FluidModel.PengRobinson))} % in pressure (Peng-Robinson), which is a fraction of a kelvin to about one kelvin.");
        Line($"- **Blends with an estimated pair** are not: half of those sets are off by more than {Number(Middle(s => bubble(s) && HasEstimatedPair(s), MeasuredQuantity.Pressure, FluidModel.PengRobinson))} % in pressure, hydrocarbons with fluorocarbons worst. The fluid names its estimated pairs (`Pedigree.EstimatedPairs`): look at them before you order gas.");
        Line("- **Cooling capacity of a blend near room temperature** is where a cubic misleads most: see the table of isothermal enthalpy differences. Divide by the error before you size a compressor.");
        Line($"- **Density of blends and by cubics**: half of the sets are within {Number(Middle(s => s.Kind == MeasuredKind.Density, MeasuredQuantity.Density, FluidModel.PengRobinson))} % with Peng-Robinson, {Number(Middle(s => s.Kind == MeasuredKind.Density, MeasuredQuantity.Density, FluidModel.SoaveRedlichKwong))} % with Soave-Redlich-Kwong; gases are good, cold liquids are not. Volume translation cures most of what Peng-Robinson gets wrong in cold liquids; with Soave-Redlich-Kwong it helps some liquids and hurts others.");
        Line("- **Speed of sound and heat capacity of liquids** are rough in blends.");
        Line("- **Freezing** is not part of any of this: no equation here knows that a component turns solid. Melting and sublimation lines of pure fluids are given apart.");
        Line();
        Line("A set counts as met when the mean absolute deviation is inside the stated expanded uncertainty of the data (about 95 %). Hardly any cubic result is; the sets where no model is are listed near the end, not hidden.");
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
                .. Models.Select(m => Fixed(WorkingFluid.Pure(pressure.Fluid).WithModel(m).Saturation(Temperature.FromKelvins(list.Temperature)).Pressure.Bars, 2)),
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
            Line("Mean absolute / bias / largest deviation, in percent, compositions in mole fraction; uncertainty as stated with the data.");
            Head("set", "quantity", "points", "Peng-Robinson", "not solved, flagged", "Soave-Redlich-Kwong", "not solved, flagged", "uncertainty", "inside");
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
        SetComparison first = comparisons[(set.Name, Models[0])];
        SetComparison second = comparisons[(set.Name, Models[1])];
        foreach (MeasuredQuantity quantity in first.Figures.Concat(second.Figures).Select(f => f.Quantity).Distinct())
        {
            // A binary vapour has one independent fraction: that of the component the set lists.
            string? of = quantity == MeasuredQuantity.VaporFraction ? set.Columns.First(c => c.Quantity == MeasuredQuantity.VaporFraction).Of : null;
            Deviations?[] both = [first.Of(quantity, of), second.Of(quantity, of)];
            (double? limit, string stated) = Uncertainty(set, quantity, of);
            string[] inside = [.. Models.Where((_, i) => limit is { } l && both[i] is { Count: > 0 } d && d.MeanAbsolute <= l).Select(m => m == Models[0] ? "PR" : "SRK")];
            Deviations? ofEquation = recommended.GetValueOrDefault(set.Name)?.Of(quantity, of);
            if (limit is { } most && inside.Length == 0 && !(ofEquation is { Count: > 0 } && ofEquation.MeanAbsolute <= most))
            {
                outside.Add($"{set.Name}, {Words(quantity, of)}: best mean absolute deviation {Number(both.Append(ofEquation).OfType<Deviations>().Min(d => d.MeanAbsolute))}{(quantity == MeasuredQuantity.VaporFraction ? string.Empty : " %")}, stated uncertainty {stated}{(HasEstimatedPair(set) ? "; estimated pair" : string.Empty)}");
            }

            Row(
                $"{set.Name} {Cite(set.Source + (set.Doi is { } doi ? ", doi:" + doi : string.Empty))}",
                Words(quantity, of),
                first.Points.ToString(),
                Show(both[0]),
                $"{first.NotSolved}, {first.Flagged}",
                Show(both[1]),
                $"{second.NotSolved}, {second.Flagged}",
                stated,
                limit is null ? "-" : inside.Length == 0 ? "no" : string.Join(", ", inside));
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

    private static (double? Limit, string Stated) Uncertainty(MeasuredSet set, MeasuredQuantity quantity, string? of)
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
            bool liquid(int point)
            {
                double[] z = set.Components.Count == 1 ? [1] : set.FractionsOf(point, MeasuredQuantity.OverallFraction)!;
                Substance[] substances = [.. set.Components.Select(SubstanceCatalog.Default.Find)];
                double mass = z.Zip(substances, (x, s) => x * s.MolarMass).Sum();
                double volume = z.Zip(substances, (x, s) => x / s.CriticalMolarDensity).Sum();
                return set.ValueOf(point, MeasuredQuantity.MassDensity) / mass * volume > 1.5;
            }

            foreach ((string name, int[] points) in new[]
            {
                ("liquid-like", SetComparison.Inner(set).Where(liquid).ToArray()),
                ("gas-like and between", SetComparison.Inner(set).Where(p => !liquid(p)).ToArray()),
            })
            {
                if (points.Length == 0)
                {
                    continue;
                }

                Row([
                    $"{set.Name}, {name}",
                    points.Length.ToString(),
                    .. Models.SelectMany(m => new[] { m, m.WithVolumeTranslation() })
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
        Head("system", "state", "Peng-Robinson", "Soave-Redlich-Kwong", "reliability");
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
        WorkingFluid fluid = FluidOf(bubble ? point.Liquid! : point.Vapor!, model);
        bool byPressure = point.Noted.Pressure is not null;
        State state = (bubble, byPressure) switch
        {
            (true, true) => fluid.BubblePoint(Temperature.FromKelvins(point.Temperature)),
            (false, true) => fluid.DewPoint(Temperature.FromKelvins(point.Temperature)),
            (true, false) => fluid.BubblePoint(Pressure.FromPascals(point.Pressure)),
            (false, false) => fluid.DewPoint(Pressure.FromPascals(point.Pressure)),
        };
        IReadOnlyDictionary<string, double>? other = bubble ? point.Vapor : point.Liquid;
        Phase incipient = state.Phases[bubble ? 0 : 1];
        string fraction = other is null ? string.Empty : $"; {Number(other.Max(p => Math.Abs(incipient.Composition[p.Key] - p.Value)))}";
        return (byPressure
            ? $"{Signed(100 * ((state.Pressure.Pascals / point.Pressure) - 1))} %"
            : $"{Signed(state.Temperature.Kelvins - point.Temperature)} K") + fraction;
    }

    private void Blends()
    {
        Line();
        Line("## Boiling points of designated blends");
        Line();
        Line("Bubble and dew temperature at 101.325 kPa, deviation in K. A blend marked 'fitted' gave one of its own pair parameters, so it proves nothing.");
        Head("blend", "listed bubble, dew, K", "Peng-Robinson bubble, dew", "noted", "Soave-Redlich-Kwong bubble, dew", "independent");
        foreach (BlendBoilingPoint blend in CheckValues.Blends)
        {
            string[] deviations = [.. Models.Select(m =>
            {
                WorkingFluid fluid = FluidOf(blend.MoleFractions, m);
                Pressure p = Pressure.FromPascals(blend.Pressure);
                return $"{Signed(Math.Round(fluid.BubblePoint(p).Temperature.Kelvins - blend.BubbleTemperature, 2))}, {Signed(Math.Round(fluid.DewPoint(p).Temperature.Kelvins - blend.DewTemperature, 2))}";
            })];
            Row(
                $"{blend.Designation} {Cite(blend.Source + (blend.FromMemory ? " (from memory)" : string.Empty))}",
                $"{blend.BubbleTemperature}, {blend.DewTemperature}",
                deviations[0],
                $"{Signed(blend.Noted.BubbleDeviation)}, {Signed(blend.Noted.DewDeviation)}",
                deviations[1],
                blend.Noted.IndependentOfThisPoint ? "yes" : "fitted");
        }
    }

    private void Excess()
    {
        Line();
        Line("## Excess properties of cryogenic liquids");
        Line();
        Line("J/mol, equimolar liquid at its bubble pressure, liquid roots. 'Noted' is what the equation gave when the data were collected; where it is in brackets the pair parameter was then taken as zero.");
        Head("mixture", "K", "measured GE, HE", "Peng-Robinson GE, HE", "noted", "k, tier", "Soave-Redlich-Kwong GE, HE", "noted", "k, tier");
        foreach (ExcessProperty excess in CheckValues.Excess)
        {
            string[] cells = [.. Models.SelectMany(m =>
            {
                WorkingFluid fluid = FluidOf(excess.MoleFractions, m);
                (double g, double h) = ExcessOf(fluid, excess.Temperature);
                NotedExcess noted = m == Models[0] ? excess.NotedPengRobinson : excess.NotedSoaveRedlichKwong;
                string was = $"{noted.ExcessGibbsEnergy}, {noted.ExcessEnthalpy}";
                CubicPair pair = (CubicPair)fluid.Pedigree.Pairs[0];
                return new[] { $"{Fixed(g, 1)}, {Fixed(h, 1)}", noted.InteractionTakenAsZero ? $"({was})" : was, $"{pair.InteractionParameter:0.####}, {TierWords(pair.Tier)}" };
            })];
            Row([
                $"{Amount(excess.MoleFractions)} {Cite(excess.Source + (excess.FromMemory ? " (from memory)" : string.Empty))}",
                excess.Temperature.ToString(),
                $"{excess.ExcessGibbsEnergy}, {excess.ExcessEnthalpy?.ToString() ?? "-"} (±{excess.Uncertainty})",
                .. cells,
            ]);
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

    private void Capacity()
    {
        Line();
        Line("## Cooling capacity: isothermal enthalpy differences at 300 K");
        Line();
        Line("h(300 K, 1.01325 bar) - h(300 K, high pressure) of the pure gas, J/mol, and the temperature after throttling between the same pressures. Reference: long equations of state, computed here, not published, good to 1 % and 1 K. Error of the cubics in percent and K.");
        Head("gas", "high pressure, bar", "reference, J/mol", "Peng-Robinson", "Soave-Redlich-Kwong", "after throttling, K", "Peng-Robinson", "Soave-Redlich-Kwong");
        foreach (ReferenceDifference reference in CheckValues.ReferenceDifferences)
        {
            (double Difference, double After)[] here = [.. Models.Select(m => DifferenceOf(reference, m))];
            Row([
                reference.Fluid,
                (reference.HighPressure / 1e5).ToString("G4"),
                Fixed(reference.Difference, 1),
                .. here.Select(v => $"{Signed(Math.Round(100 * ((v.Difference / reference.Difference) - 1), 1))} %"),
                Fixed(reference.TemperatureAfterThrottle, 1),
                .. here.Select(v => $"{Signed(Math.Round(v.After - reference.TemperatureAfterThrottle, 1))} K"),
            ]);
        }
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
            double[] here = [.. Models.Select(m => FigureOf(figure, m))];
            double best = FigureOf(figure, FluidModel.Recommended);
            string[] within = [.. Models.Where((_, i) => Math.Abs((here[i] / figure.Value) - 1) <= figure.RelativeTolerance).Select(m => m == Models[0] ? "PR" : "SRK")];
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
        Line("## Pair parameters");
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
                pair.InteractionParameter.ToString("0.####"),
                TierWords(pair.Tier) + (pair.HalfWidth95 is { } half ? $" ±{half:0.###}" : string.Empty),
                Number(comparisons[(set.Name, Models[0])].Of(MeasuredQuantity.Pressure, null)?.MeanAbsolute ?? double.NaN),
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
            string what = split.Phases.Count == 2
                ? $"largest difference in a mole fraction {(LargestDifference(split, state) is var d && d < 1e-6 ? "below 1e-6" : Number(d))}"
                : $"three phases there; here {state.PhaseDescription}";
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

        // Either order: two liquids are not sorted the same way everywhere.
        bool swap = Math.Abs(split.Phases[0].Fraction - state.Phases[0].Fraction) > Math.Abs(split.Phases[0].Fraction - state.Phases[1].Fraction);
        double largest = 0;
        for (int k = 0; k < 2; k++)
        {
            Phase phase = state.Phases[swap ? 1 - k : k];
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
                bool found = bubble ? fluid.TryBubblePoint(Pressure.FromPascals(p), out state) : fluid.TryDewPoint(Pressure.FromPascals(p), out state);
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
