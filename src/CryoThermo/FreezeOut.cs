using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using CryoThermo.Equilibrium.Solids;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// What freezes out of a fluid, where, and how much of it. Each solid is taken as pure; its fugacity is that of the subcooled liquid of the
/// fluid's own model times the ratio that fusion, heat capacities and crystal transitions give, with the volume change for pressure; colder than
/// three quarters of the triple temperature along published sublimation lines. Results say what they rest on. Immutable and thread-safe.
/// </summary>
/// <remarks>Solids are in the substance files (docs/formats/substance-file.md); the formula is in docs/concepts/freezing.md.</remarks>
public sealed class FreezeOut
{
    private const double SecondsInCentury = 100 * 365.25 * 86400;

    private static readonly Source EstimateSource = new(
        "pure-solid route with the model's own fugacities; compared with measured frost points, freezing points and solubilities in docs/accuracy.md",
        FromMemory: false);

    private readonly WorkingFluid fluid;
    private readonly SolidMixture solids;
    private readonly double[] z;
    private readonly double[] lnAmounts;
    private readonly TraceImpurity[] impurities;

    internal FreezeOut(WorkingFluid fluid)
        : this(fluid, [])
    {
    }

    // The traces are the last components of the fluid, with no amount there.
    private FreezeOut(WorkingFluid fluid, TraceImpurity[] impurities)
    {
        if (fluid.IsPseudoPure)
        {
            throw new InvalidOperationException(
                $"{fluid.Composition.Components[0].Name} is a mixture described as if it were pure: make it a mixture of its components to learn what freezes out of it.");
        }

        this.fluid = fluid;
        this.impurities = impurities;
        solids = new(fluid.Kernel, fluid.Composition.Components);
        z = [.. fluid.Composition.MoleFractions];
        lnAmounts = [.. z.Select(x => Math.Log(x))];
        for (int i = 0; i < impurities.Length; i++)
        {
            lnAmounts[z.Length - impurities.Length + i] = Math.Log(impurities[i].MoleFraction);
        }
    }

    /// <summary>Components with figures of their solid: those that are judged.</summary>
    public IReadOnlyList<Substance> Judged => [.. Present().Where(c => c.Solid is not null)];

    /// <summary>Components without figures of their solid: whether they freeze is not told.</summary>
    public IReadOnlyList<Substance> NotJudged => [.. Present().Where(c => c.Solid is null)];

    /// <summary>
    /// Where each component would begin to freeze on cooling at constant pressure, if no other solid formed before; the first solid first.
    /// Components that stay fluid down to the lowest temperature of the model are not listed. Looked for in steps of 1 K.
    /// </summary>
    /// <param name="pressure">Absolute, as for <see cref="WorkingFluid.At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range.</exception>
    public IReadOnlyList<FreezingPoint> FreezingPoints(Pressure pressure) => Points(pressure, firstOnly: false);

    /// <summary>Where the first solid forms on cooling at constant pressure; null when none does down to the lowest temperature of the model.</summary>
    /// <param name="pressure">Absolute, as for <see cref="WorkingFluid.At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range.</exception>
    public FreezingPoint? FirstSolid(Pressure pressure) => Points(pressure, firstOnly: true).FirstOrDefault();

    /// <summary>How far each component is from freezing at a temperature and pressure.</summary>
    /// <param name="temperature">As for <see cref="WorkingFluid.At"/>.</param>
    /// <param name="pressure">Absolute, as for <see cref="WorkingFluid.At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public FreezingAssessment At(Temperature temperature, Pressure pressure)
    {
        (double t, double p) = Check(temperature, pressure);
        return new(temperature, pressure, Margins(t, p, Scan(p)), Basis([t]));
    }

    /// <summary>Equilibrium with solids at a temperature and pressure: how much of each component is solid, and the fluid that is left.</summary>
    /// <param name="temperature">As for <see cref="WorkingFluid.At"/>.</param>
    /// <param name="pressure">Absolute, as for <see cref="WorkingFluid.At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The amounts did not converge.</exception>
    public FrozenState WithSolidsAt(Temperature temperature, Pressure pressure)
    {
        (double t, double p) = Check(temperature, pressure);
        double[] frozen = new double[z.Length];
        if (!FreezeFlash.TrySolve(solids, t, p, z, frozen, out EquilibriumResult? left, out double residual))
        {
            throw new ConvergenceException(
                "Equilibrium with solids",
                $"{fluid.Composition} at {t:G9} K, {p / 1e5:G9} bar",
                residual,
                "Close to a eutectic several solids form at once; try a temperature some tenths of a kelvin away.");
        }

        IReadOnlyList<Substance> components = fluid.Composition.Components;
        FrozenAmount[] amounts =
        [
            .. frozen.Select((amount, i) => new FrozenAmount(components[i], amount, z[i] > 0 ? amount / z[i] : 0))
                .Where(a => a.Amount > 0)
                .OrderByDescending(a => a.Amount),
        ];
        WorkingFluid? rest = left is null || amounts.Length == 0 ? null : fluid.WithFractions(Rest(frozen));
        State? state = left is null ? null : amounts.Length == 0 ? new(fluid, left) : rest!.At(temperature, pressure);
        return new(temperature, pressure, amounts, state, left is null ? 0 : 1 - frozen.Sum(), residual, Basis([t]));
    }

    /// <summary>
    /// Mole fraction of a component at which the liquid is in equilibrium with its solid. The fluid less this component is the solvent; the
    /// component need not be part of it.
    /// </summary>
    /// <param name="component">Any spelling of its name.</param>
    /// <param name="temperature">As for <see cref="WorkingFluid.At"/>.</param>
    /// <param name="pressure">Absolute, as for <see cref="WorkingFluid.At"/>; high enough that the solvent is liquid.</param>
    /// <exception cref="ArgumentException">The name is unknown, the library has no figures of its solid, or the fluid holds nothing else.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or the solvent has no liquid there, not even a metastable one.</exception>
    public Solubility Solubility(string component, Temperature temperature, Pressure pressure)
    {
        FreezeOut wide = WithComponent(component, out int index);
        (double t, double p) = wide.Check(temperature, pressure);
        return wide.SolubilityAt(index, t, p, isSaturated: false);
    }

    /// <summary>The same at the bubble pressure of the solution: of a liquid under its own vapour.</summary>
    /// <param name="component">Any spelling of its name.</param>
    /// <param name="temperature">As for <see cref="WorkingFluid.At"/>, below the critical temperature of the solvent.</param>
    /// <exception cref="ArgumentException">The name is unknown, the library has no figures of its solid, or the fluid holds nothing else.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    /// <exception cref="ConvergenceException">The solution has no bubble point there, or the pressure did not converge.</exception>
    public Solubility SolubilityAtSaturation(string component, Temperature temperature)
    {
        const int MostSteps = 60;
        FreezeOut wide = WithComponent(component, out int index);
        double t = Guard.InRange(temperature.Kelvins, wide.fluid.Kernel.LowestTemperature, wide.fluid.Kernel.HighestTemperature, "K", nameof(temperature));
        double[] x = wide.Solvent(index);
        double pressure = wide.BubblePressure(x, t);
        double change = double.PositiveInfinity;
        for (int step = 0; step < MostSteps; step++)
        {
            SolidSolubility.TrySolve(wide.solids, index, t, pressure, wide.Solvent(index), x, out _);
            double next = wide.BubblePressure(x, t);
            change = Math.Abs(next / pressure - 1);
            pressure = next;
            if (change < 1e-10)
            {
                return wide.SolubilityAt(index, t, pressure, isSaturated: true);
            }
        }

        throw new ConvergenceException("Solubility at saturation", $"{component} in {fluid.Composition} at {t:G9} K", change, "Give a pressure instead.");
    }

    /// <summary>
    /// Where a trace begins to freeze out of the fluid on cooling at constant pressure, from gas (frost point) or from liquid; null when it stays
    /// fluid down to the lowest temperature of the model. A trace that would condense as a liquid of its own before is told to freeze at its own
    /// melting temperature.
    /// </summary>
    /// <param name="trace">The trace; it does not act on the phases of the fluid.</param>
    /// <param name="pressure">Absolute, as for <see cref="WorkingFluid.At"/>.</param>
    /// <exception cref="ArgumentException">The name is unknown, it is part of the charge, or the library has no figures of its solid.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range.</exception>
    public FreezingPoint? FrostPoint(TraceImpurity trace, Pressure pressure)
    {
        ArgumentNullException.ThrowIfNull(trace);
        FreezeOut wide = WithTraces([trace], onlyTraces: true);
        wide.RequireSolid(wide.z.Length - 1);
        return wide.Points(pressure, firstOnly: true).FirstOrDefault();
    }

    /// <summary>What is nearest to freezing at each place of a path, traces included.</summary>
    /// <param name="path">The places; temperatures and pressures as for <see cref="WorkingFluid.At"/>.</param>
    /// <param name="impurities">Traces beside the charge, for example water and carbon dioxide; may be empty.</param>
    /// <exception cref="ArgumentException">A name is unknown or part of the charge.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A temperature or pressure is outside its range.</exception>
    public FreezingRisk Along(IReadOnlyList<PathPoint> path, params IReadOnlyList<TraceImpurity> impurities)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(impurities);
        FreezeOut wide = WithTraces([.. impurities], onlyTraces: false);
        Dictionary<double, FreezeScan> scans = [];
        List<FreezingRiskPoint> points = [];
        foreach (PathPoint point in path)
        {
            (double t, double p) = wide.Check(point.Temperature, point.Pressure);
            if (!scans.TryGetValue(p, out FreezeScan? scan))
            {
                scans[p] = scan = wide.Scan(p);
            }

            points.Add(new(point.Place, point.Temperature, point.Pressure, wide.Margins(t, p, scan)));
        }

        return new(points, wide.impurities, wide.Basis([.. path.Select(point => point.Temperature.Kelvins)]));
    }

    /// <summary>How fast a trace can close a restriction with its frost.</summary>
    /// <param name="trace">The trace.</param>
    /// <param name="flow">Flow of the fluid.</param>
    /// <param name="temperature">The coldest temperature the flow meets in the restriction.</param>
    /// <param name="pressure">Absolute pressure there.</param>
    /// <param name="bore">Diameter of the bore, above 0.</param>
    /// <param name="length">Length over which frost settles, above 0.</param>
    /// <exception cref="ArgumentException">The name is unknown, it is part of the charge, or the library has no figures of its solid.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public PluggingEstimate Plugging(TraceImpurity trace, MolarFlow flow, Temperature temperature, Pressure pressure, Length bore, Length length)
    {
        ArgumentNullException.ThrowIfNull(trace);
        double moles = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        double diameter = Guard.Positive(bore.Meters, "m", nameof(bore));
        double depth = Guard.Positive(length.Meters, "m", nameof(length));
        FreezeOut wide = WithTraces([trace], onlyTraces: true);
        int index = wide.z.Length - 1;
        PureSolid solid = wide.RequireSolid(index);
        (double t, double p) = wide.Check(temperature, pressure);
        double[] values = new double[wide.z.Length];
        wide.solids.LnSaturation(t, p, wide.z, wide.lnAmounts, values);
        double ln = values[index];
        Substance substance = wide.fluid.Composition.Components[index];
        double share = ln > 0 ? 1 - Math.Exp(-ln) : 0;
        double rate = moles * trace.MoleFraction * share * substance.MolarMass;
        double density = substance.MolarMass / solid.MolarVolume;
        double seconds = 0.25 * Math.PI * diameter * diameter * depth * density / rate;
        FreezingBasis basis = wide.Basis([t]);
        List<string> notes = [$"assumed: {PluggingEstimate.Assumption} (common practice, no source)", .. basis.Notes];
        if (substance.Solid!.MolarVolume is null)
        {
            notes.Add($"density of solid {substance.Name} estimated from that of the cold liquid of the model");
        }

        List<Caution> cautions = [.. basis.Cautions];
        if (share > 0)
        {
            cautions.Insert(0, new(
                CautionSeverity.Warning,
                "Frost can close the restriction",
                $"{rate * 3.6e6:G3} g/h of {substance.Name} at {t:0.0} K",
                "anything that freezes out at all can close a throttle (threshold: any supersaturation)",
                $"Dry and clean the charge with an adsorber before the cold end, and fit a relief that a blocked throttle cannot isolate. The time is an estimate for planning, not a guarantee. {Caution.Deference}",
                Source.CommonPractice));
        }

        return new(
            trace,
            substance,
            Math.Exp(Math.Clamp(ln, -700, 700)),
            share,
            MassFlow.FromKilogramsPerSecond(rate),
            Density.FromKilogramsPerCubicMeter(density),
            seconds < SecondsInCentury ? Duration.FromSeconds(seconds) : null,
            basis with { Notes = notes, Cautions = cautions });
    }

    /// <summary>ln of fluid over solid fugacity of each component of a solved state that could freeze there.</summary>
    internal IReadOnlyList<(Substance Component, double LnRatio)> LnSaturationAt(State state)
    {
        double[] values = new double[z.Length];
        solids.LnSaturation(state.Result, lnAmounts, values);
        return [.. values.Select((ln, i) => (fluid.Composition.Components[i], ln)).Where(v => !double.IsNegativeInfinity(v.ln))];
    }

    private static double Distance(FreezeCrossing crossing, double temperature) => Math.Abs(crossing.Temperature - temperature);

    private static FreezingOrigin OriginOf(EquilibriumResult result)
    {
        bool gas = result.Phases.Any(p => p.IsVapor && p.Fraction > 0);
        bool liquid = result.Phases.Any(p => !p.IsVapor && p.Fraction > 0);
        return gas ? liquid ? FreezingOrigin.GasAndLiquid : FreezingOrigin.Gas : FreezingOrigin.Liquid;
    }

    private IEnumerable<Substance> Present() => fluid.Composition.Components.Where((_, i) => !double.IsNegativeInfinity(lnAmounts[i]));

    private (double Temperature, double Pressure) Check(Temperature temperature, Pressure pressure) => (
        Guard.InRange(temperature.Kelvins, fluid.Kernel.LowestTemperature, fluid.Kernel.HighestTemperature, "K", nameof(temperature)),
        Check(pressure));

    private double Check(Pressure pressure) =>
        Guard.InRange(pressure.Pascals, fluid.Kernel.LowestPressure, fluid.Kernel.HighestPressure, "Pa", nameof(pressure));

    private FreezeScan Scan(double p) => FreezeScan.Along(solids, p, z, lnAmounts, 0, firstOnly: false);

    private List<FreezingPoint> Points(Pressure pressure, bool firstOnly)
    {
        double p = Check(pressure);
        FreezeScan scan = FreezeScan.Along(solids, p, z, lnAmounts, 0, firstOnly);
        List<FreezingPoint> points = [];
        foreach (FreezeCrossing crossing in scan.Crossings.Where(c => c.FreezesOnCooling))
        {
            Substance component = fluid.Composition.Components[crossing.Component];
            if (points.Any(point => ReferenceEquals(point.Component, component)))
            {
                continue;
            }

            FreezeCrossing? again = scan.Crossings.FirstOrDefault(
                c => c.Component == crossing.Component && !c.FreezesOnCooling && c.Temperature < crossing.Temperature);
            points.Add(new(
                component,
                Temperature.FromKelvins(crossing.Temperature),
                pressure,
                OriginOf(crossing.Fluid),
                new State(fluid, crossing.Fluid).PhaseDescription,
                again is null ? null : Temperature.FromKelvins(again.Temperature),
                Basis([crossing.Temperature])));
        }

        return points;
    }

    private List<FreezingMargin> Margins(double t, double p, FreezeScan scan)
    {
        double[] values = new double[z.Length];
        solids.LnSaturation(t, p, z, lnAmounts, values);
        double[]? atBound = null;
        List<FreezingMargin> margins = [];
        for (int i = 0; i < z.Length; i++)
        {
            if (double.IsNegativeInfinity(lnAmounts[i]) || solids[i] is not { } solid)
            {
                continue;
            }

            bool canFreeze = !double.IsNegativeInfinity(values[i]);
            if (!canFreeze)
            {
                atBound = new double[z.Length];
                solids.LnSaturation(Math.Min(solid.Bound(p), fluid.Kernel.HighestTemperature), p, z, lnAmounts, atBound);
            }

            FreezeCrossing[] own = [.. scan.Crossings.Where(c => c.Component == i)];
            FreezeCrossing? nearest = own.MinBy(c => Distance(c, t));
            FreezeCrossing? first = own.FirstOrDefault(c => c.FreezesOnCooling);
            double ln = canFreeze ? values[i] : atBound![i];
            margins.Add(new(
                fluid.Composition.Components[i],
                Math.Exp(lnAmounts[i]),
                ln,
                nearest is null ? null : Temperature.FromKelvins(nearest.Temperature),
                first is null ? null : Temperature.FromKelvins(first.Temperature),
                nearest is null ? null : TemperatureDelta.FromKelvins(canFreeze && ln > 0 ? -Distance(nearest, t) : Distance(nearest, t)),
                canFreeze));
        }

        return [.. margins.OrderBy(m => m.Margin?.Kelvins ?? double.MaxValue).ThenByDescending(m => m.LnSaturationRatio)];
    }

    private double[] Rest(double[] frozen)
    {
        double sum = 1 - frozen.Sum();
        double[] rest = new double[z.Length];
        for (int i = 0; i < z.Length; i++)
        {
            rest[i] = Math.Max(0, z[i] - frozen[i]) / sum;
        }

        double total = rest.Sum();
        return [.. rest.Select(x => x / total)];
    }

    private PureSolid RequireSolid(int index) => solids[index]
        ?? throw new ArgumentException(
            $"The library has no figures of solid {fluid.Composition.Components[index].Name}; a substance file with a 'solid' block gives them.");

    private FreezeOut WithComponent(string component, out int index)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(component);
        FreezeOut wide = fluid.Composition.IndexOf(component) >= 0 ? this : new(fluid.WithTraces([component]));
        index = wide.fluid.Composition.IndexOf(component);
        wide.RequireSolid(index);
        return wide;
    }

    private FreezeOut WithTraces(TraceImpurity[] traces, bool onlyTraces)
    {
        foreach (TraceImpurity trace in traces)
        {
            if (fluid.Composition[trace.Substance] > 0)
            {
                throw new ArgumentException($"{trace.Substance} is part of the charge, which tells its amount; it cannot be a trace beside it.");
            }
        }

        FreezeOut wide = traces.Length == 0 ? this : new(fluid.WithTraces([.. traces.Select(t => t.Substance)]), traces);
        if (onlyTraces)
        {
            wide.lnAmounts.AsSpan(0, wide.z.Length - traces.Length).Fill(double.NegativeInfinity);
        }

        return wide;
    }

    private double[] Solvent(int index)
    {
        double[] solvent = [.. z];
        solvent[index] = 0;
        double sum = solvent.Sum();
        return sum > 0
            ? [.. solvent.Select(x => x / sum)]
            : throw new ArgumentException($"The fluid holds {fluid.Composition.Components[index].Name} alone; a solvent is missing.");
    }

    private double BubblePressure(double[] x, double t)
    {
        MixtureKernel equation = fluid.Kernel.Equation;
        double pressure = 1e5;
        double temperature = t;
        double[] incipient = new double[x.Length];
        double[] scratch = new double[equation.ScratchLength];
        return IncipientPoint.TryFind(equation, x, true, IncipientPoint.Unknown.Pressure, ref temperature, ref pressure, scratch, incipient, out double residual)
            && pressure >= fluid.Kernel.LowestPressure
            ? pressure
            : throw new ConvergenceException("Bubble point of the solution", $"{fluid.Composition.WithFractions(x)} at {t:G9} K", residual, "Give a pressure instead.");
    }

    private Solubility SolubilityAt(int index, double t, double pressure, bool isSaturated)
    {
        double[] x = new double[z.Length];
        bool isLimited = SolidSolubility.TrySolve(solids, index, t, pressure, Solvent(index), x, out bool isLiquid);
        if (!isLiquid)
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressure), pressure, $"pressure is {pressure / 1e5:G6} bar; at {t:G6} K the solvent has no liquid there, not even a metastable one. Take a higher pressure.");
        }

        FreezingBasis basis = Basis([t], index);
        EquilibriumResult check = fluid.Kernel.At(t, isSaturated ? pressure * (1 + 1e-6) : pressure, x);
        if (check.Phases.Length > 1 || check.Phases[0].IsVapor)
        {
            string what = check.Phases.Any(phase => phase.IsVapor) ? "boils" : "splits into two liquids";
            basis = basis with
            {
                Notes = [.. basis.Notes, $"the solution is metastable: at {t:0.00} K and {pressure / 1e5:0.###} bar absolute it {what}; the solid may not be what limits"],
            };
        }

        return new(
            fluid.Composition.Components[index],
            Temperature.FromKelvins(t),
            Pressure.FromPascals(pressure),
            x[index],
            isLimited,
            fluid.Composition.WithFractions(x),
            basis);
    }

    private FreezingBasis Basis(IReadOnlyList<double> temperatures, int solute = -1)
    {
        List<string> notes = [];
        double coldest = temperatures.Count > 0 ? temperatures.Min() : double.PositiveInfinity;
        bool ranOut = false;
        for (int i = 0; i < z.Length; i++)
        {
            Substance component = fluid.Composition.Components[i];
            if (component.Solid is not { } figures || (double.IsNegativeInfinity(lnAmounts[i]) && i != solute))
            {
                continue;
            }

            if (figures.HeatCapacityDifference is null)
            {
                notes.Add($"{component.Name}: difference of heat capacities of liquid and solid not known, taken as zero");
            }

            if (figures.VolumeChange is null)
            {
                notes.Add($"{component.Name}: volume change on fusion not known, no effect of pressure on freezing");
            }

            if (double.IsFinite(coldest) && coldest < figures.TripleTemperature && solids[i]!.BasisNote(coldest) is { } note)
            {
                notes.Add($"{component.Name}: {note}");
                ranOut = true;
            }
        }

        if (ranOut)
        {
            notes.Add("the further a solid is continued below its triple point, the less sure: measured solubilities of traces in liquid nitrogen at 77 K differ from computed ones by factors");
        }

        for (int i = 0; i < z.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                bool isPresent = (z[i] > 0 || i == solute || i >= z.Length - impurities.Length) && (z[j] > 0 || j == solute);
                if (isPresent && fluid.PairOf(j, i) is { Tier: PairTier.Estimated } pair)
                {
                    notes.Add($"interaction of {pair.First.Name} and {pair.Second.Name} estimated");
                }
            }
        }

        if (fluid.Model.Cubic is not null && (impurities.Length > 0 || solute >= 0))
        {
            notes.Add($"computed with {fluid.Model.Name}: {fluid.Pedigree.Reason}");
        }

        Substance[] present = [.. fluid.Composition.Components.Where((_, i) => i == solute || !double.IsNegativeInfinity(lnAmounts[i]))];
        SolidSystem[] systems = [.. SolidSystemTable.Among(present).Where(s => !s.IsPureSolidConservative)];
        notes.AddRange(systems.Select(s => $"not conservative: {s} ({s.Source.Publication}); freezing begins warmer than computed here for pure solids"));
        List<Caution> cautions =
        [
            new(
                CautionSeverity.Notice,
                "Freezing is estimated",
                $"model {fluid.Model.Name}",
                "solids taken as pure and in equilibrium; a fluid can supercool, and frost grows where the wall is colder than the stream (no threshold)",
                $"Keep several kelvins, or a factor of two to five in the amount of a trace, away from the computed freezing. {Caution.Deference}",
                EstimateSource),
        ];
        if (fluid.Composition.Components.Where((c, i) => z[i] >= 0.1).Any(c => c.Name == "oxygen") && present.Any(c => c.Identity.Molecule?.IsHydrocarbon == true))
        {
            cautions.Insert(0, new(
                CautionSeverity.Danger,
                "Hydrocarbon with oxygen",
                "the fluid holds at least 10 % mol oxygen and a hydrocarbon",
                "solid or dissolved hydrocarbon that gathers in liquid oxygen can explode; take the lowest solubility known, not a computed one (threshold: any amount)",
                $"Keep hydrocarbons out of oxygen. {Caution.Deference}",
                new("industry practice for air separation (for example McKinley, Himmelberger, Chem. Eng. Prog. 53 (1957) 112)", FromMemory: true)));
        }

        return new(fluid.Model, notes, NotJudged, systems, cautions);
    }
}
