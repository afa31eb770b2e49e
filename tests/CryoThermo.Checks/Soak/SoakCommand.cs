namespace CryoThermo.Checks.Soak;

/// <summary>The soak command.</summary>
public static class SoakCommand
{
    private static readonly Dictionary<string, (string Name, Func<SoakCase, SoakOutcome> Kind, int Count)> Kinds = new(StringComparer.Ordinal)
    {
        ["flashes"] = ("isothermal flashes (worst: ln fugacity difference)", FlashSoak.Flash, 100000),
        ["enthalpy"] = ("enthalpy and entropy round trips (worst: relative temperature)", FlashSoak.RoundTrip, 20000),
        ["boundaries"] = ("bubble and dew points against flashes beside them (counts: points found)", FlashSoak.Boundaries, 20000),
        ["pure"] = ("states of pure fluids, the equations in turn (worst: relative pressure; 2: between the lines of a pseudo-pure fluid)", _ => throw new InvalidOperationException(), 10000 * PureFluidSoak.EquationCount),
        ["quantum-flashes"] = ("isothermal flashes with hydrogen, helium or neon (worst: ln fugacity difference)", FlashSoak.Flash, 20000),
        ["quantum-enthalpy"] = ("enthalpy and entropy round trips with hydrogen, helium or neon (worst: relative temperature)", FlashSoak.RoundTrip, 5000),
        ["quantum-boundaries"] = ("bubble and dew points with hydrogen, helium or neon against flashes beside them (counts: points found)", FlashSoak.Boundaries, 5000),
        ["multi-fluid-flashes"] = ("isothermal flashes by the multi-fluid model (worst: ln fugacity difference)", FlashSoak.Flash, 20000),
        ["multi-fluid-enthalpy"] = ("enthalpy and entropy round trips by the multi-fluid model (worst: relative temperature)", FlashSoak.RoundTrip, 5000),
        ["multi-fluid-boundaries"] = ("bubble and dew points by the multi-fluid model against flashes beside them (counts: points found)", FlashSoak.Boundaries, 5000),
        ["multi-fluid-scan"] = ("dense searches for a phase missed by the multi-fluid model (worst: tangent-plane distance)", DenseSearch.Run, 200),
        ["envelopes"] = ("phase envelopes (counts: critical points on the lines; flagged: crossed by another phase; worst: ln fugacity difference)", EnvelopeSoak.Run, 1000),
        ["quantum-envelopes"] = ("phase envelopes with hydrogen, helium or neon (counts: critical points on the lines; flagged: crossed by another phase)", EnvelopeSoak.Run, 500),
        ["multi-fluid-envelopes"] = ("phase envelopes by the multi-fluid model (counts: critical points on the lines; flagged: crossed by another phase)", EnvelopeSoak.Run, 200),
        ["isobars"] = ("isobars against flashes at random temperatures (counts: no change of phases, one or two, more; flagged: unresolved phases somewhere; worst: enthalpy error over its bound)", IsobarSoak.Run, 1000),
        ["multi-fluid-isobars"] = ("isobars by the multi-fluid model against flashes at random temperatures (counts: no change of phases, one or two, more; flagged: unresolved phases somewhere)", IsobarSoak.Run, 200),
        ["phase-changes"] = ("phase changes along isobars and isotherms beside flashes, blends of all kinds (counts: most phases at a change; worst: ln fugacity difference)", PhaseChangeSoak.Run, 500),
        ["quantum-phase-changes"] = ("phase changes with hydrogen, helium or neon beside flashes (counts: most phases at a change; worst: ln fugacity difference)", PhaseChangeSoak.Run, 200),
        ["multi-fluid-phase-changes"] = ("phase changes by the multi-fluid model beside flashes (counts: most phases at a change; worst: ln fugacity difference)", PhaseChangeSoak.Run, 100),
        ["split-phase-changes"] = ("phase changes of blends whose liquid splits beside flashes (counts: most phases at a change; worst: ln fugacity difference)", PhaseChangeSoak.Run, 500),
        ["recipes"] = ("charge recipes (counts: solved, refused for a bottle, for condensation, for amounts or allowed pressure; worst: balance of amounts)", _ => throw new InvalidOperationException(), 5000),
        ["blends"] = ("blend searches of at most three components (counts: feasible, infeasible; worst: J/mol of capacity above a difference of the streams)", _ => throw new InvalidOperationException(), 1000),
        ["capillaries"] = ("flows through capillaries (counts: choked, not choked, with a stream alongside; flagged: refused with the reason; worst: velocity at the choke off the speed of sound, relative)", _ => throw new InvalidOperationException(), 2000),
        ["exchangers"] = ("recuperators of tubes (counts: both streams of one phase throughout, two phases somewhere; flagged: refused with the reason; worst: first law by states of their own, relative)", _ => throw new InvalidOperationException(), 2000),
        ["pre-coolers"] = ("pre-coolers (counts: pure refrigerant, blend; flagged: refused with the reason; worst: heat of the stream against that of the refrigerant by states of their own, relative)", _ => throw new InvalidOperationException(), 500),
        ["separators"] = ("cold boxes with a phase separator (counts: cold exchanger as drawn, running backwards; flagged: refused with the reason; worst: balance by states of their own over the duty of the warm exchanger)", _ => throw new InvalidOperationException(), 500),
        ["coolers"] = ("whole coolers (counts: load carried, not carried and said so; flagged: refused with the limit named; worst: balance by states of their own over the power)", _ => throw new InvalidOperationException(), 2000),
        ["transport"] = ("viscosity, conductivity and surface tension of random phases (counts: phases, 0: below the equation of state; worst: relative distance of a nearly pure mixture from the pure fluid by corresponding states)", _ => throw new InvalidOperationException(), 20000),
        ["scan"] = ("dense searches for a missed phase (worst: tangent-plane distance)", DenseSearch.Run, 500),
        ["valves"] = ("valves (counts: one phase, several phases before the valve, no state of the model; worst: round trip)", _ => throw new InvalidOperationException(), 5000),
    };

    /// <summary>The slice the tests run: 2 000 flashes, 200 round trips, 200 pairs of boundaries, 20 searches, 100 states of each pure equation, 500 flashes with hydrogen, helium or neon, and by the multi-fluid model 1 000 flashes, 50 round trips, 100 pairs of boundaries, 5 searches; 200 charge recipes, 500 states with transport, 40 valves, 60 capillaries, 30 recuperators of tubes.</summary>
    public static IReadOnlyList<SoakRun> Slice(int seed, TextWriter? progress) =>
    [
        Execute("flashes", 2000, seed, 0, progress),
        Execute("enthalpy", 200, seed, 0, progress),
        Execute("boundaries", 200, seed, 0, progress),
        Execute("scan", 20, seed, 0, progress),
        Execute("pure", 100 * PureFluidSoak.EquationCount, seed, 0, progress),
        Execute("quantum-flashes", 500, seed, 0, progress),
        Execute("multi-fluid-flashes", 1000, seed, 0, progress),
        Execute("multi-fluid-enthalpy", 50, seed, 0, progress),
        Execute("multi-fluid-boundaries", 100, seed, 0, progress),
        Execute("multi-fluid-scan", 5, seed, 0, progress),
        Execute("recipes", 200, seed, 0, progress),
        Execute("transport", 500, seed, 0, progress),
        Execute("valves", 40, seed, 0, progress),
        Execute("capillaries", 60, seed, 0, progress),
        Execute("exchangers", 30, seed, 0, progress),
    ];

    /// <summary>Runs the command; 0 when no case failed, 1 when some did, 2 for wrong arguments.</summary>
    public static int Run(string kind, string[] options, TextWriter output, TextWriter progress)
    {
        if (kind != "slice" && !Kinds.ContainsKey(kind))
        {
            progress.WriteLine($"'{kind}' is no kind of soak: slice, {string.Join(", ", Kinds.Keys)}.");
            return 2;
        }

        int count = kind == "slice" ? 0 : Kinds[kind].Count;
        int seed = 1;
        int first = 0;
        for (int i = 0; i < options.Length; i += 2)
        {
            if (i + 1 >= options.Length || !int.TryParse(options[i + 1], out int value) || value < 0)
            {
                progress.WriteLine($"{options[i]} needs a whole number.");
                return 2;
            }

            switch (options[i])
            {
                case "--count":
                    count = value;
                    break;
                case "--seed":
                    seed = value;
                    break;
                case "--case":
                    (first, count) = (value, 1);
                    break;
                default:
                    progress.WriteLine($"Unknown option {options[i]}: --count, --seed, --case.");
                    return 2;
            }
        }

        IReadOnlyList<SoakRun> runs = kind == "slice" ? Slice(seed, progress) : [Execute(kind, count, seed, first, progress)];
        foreach (string failure in runs.SelectMany(r => r.Failures))
        {
            output.WriteLine(failure);
        }

        foreach (SoakRun run in runs)
        {
            output.WriteLine(run);
        }

        return runs.Any(r => r.Failures.Count > 0) ? 1 : 0;
    }

    private static SoakRun Execute(string kind, int count, int seed, int first, TextWriter? progress) => kind switch
    {
        "pure" => SoakRun.Execute(Kinds[kind].Name, number => ($"case {number}", () => PureFluidSoak.Run(seed, number)), count, first, progress),
        "recipes" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => RecipeSoak.Run(seed, number)), count, first, progress),
        "valves" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => ValveSoak.Run(seed, number)), count, first, progress),
        "blends" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => BlendSoak.Run(seed, number)), count, first, progress),
        "capillaries" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => CapillarySoak.Run(seed, number)), count, first, progress),
        "exchangers" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => ExchangerSoak.Run(seed, number)), count, first, progress),
        "pre-coolers" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => PreCoolerSoak.Run(seed, number)), count, first, progress),
        "coolers" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => CoolerSoak.Run(seed, number)), count, first, progress),
        "separators" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => SeparatorSoak.Run(seed, number)), count, first, progress),
        "transport" => SoakRun.Execute(Kinds[kind].Name, number => ($"seed {seed} case {number}", () => TransportSoak.Run(seed, number)), count, first, progress),
        _ => SoakRun.Execute(
            Kinds[kind].Name,
            Kinds[kind].Kind,
            count,
            seed,
            first,
            progress,
            kind.StartsWith("quantum", StringComparison.Ordinal)
                ? SoakCase.WithQuantumGas
                : kind.StartsWith("split", StringComparison.Ordinal) ? SoakCase.WithTwoLiquids
                : kind.StartsWith("multi-fluid", StringComparison.Ordinal) ? SoakCase.CreateMultiFluid : SoakCase.Create),
    };
}
