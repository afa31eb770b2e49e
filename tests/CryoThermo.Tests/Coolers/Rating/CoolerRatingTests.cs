using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Insulation;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Coolers.Rating;

public sealed class CoolerRatingTests(RatedCoolers coolers) : IClassFixture<RatedCoolers>
{
    public static TheoryData<string> Ratings => ["conductance", "tubes", "pre-cooled"];

    // Every state again by temperature and pressure in a fluid made anew; the balance of the whole loop from those alone.
    [Theory]
    [MemberData(nameof(Ratings))]
    public void Balances_close_by_recomputation(string name)
    {
        CoolerState state = Reached(name);
        Composition composition = state.CirculatingFluid.Composition;
        WorkingFluid fluid = WorkingFluid.Mixture([.. composition.Components.Select((c, i) => (c.Name, composition.MoleFractions[i]))]).WithModel(FluidModel.PengRobinson);
        Dictionary<string, State> again = state.Loop.ToDictionary(p => p.Place, p => fluid.At(p.State.Temperature, p.State.Pressure));
        double flow = state.Compression.MolarFlow.MolesPerSecond;
        double power = (double)state.Compression.Power.Watts;
        double H(string place) => flow * again[place].MolarEnthalpy.JoulesPerMole;
        string warmEnd = name == "pre-cooled" ? "pre-cooler outlet" : "after-cooler outlet";
        double shell = (double)state.Compression.ShellHeat.Watts;
        Assert.InRange(Math.Abs(H("compressor discharge") - H("compressor suction") - (power - shell)) / power, 0, 1e-6);
        Assert.InRange(Math.Abs(H("throttle outlet") - H("throttle inlet")) / power, 0, 1e-6);
        Assert.InRange(Math.Abs(H("cold head outlet") - H("throttle outlet") - (double)(state.NetCooling + state.HeatLeak).Watts) / power, 0, 1e-6);
        double recuperator = H("compressor suction") - H("cold head outlet") - (H(warmEnd) - H("throttle inlet")) - (double)state.HeatIntoRecuperator.Watts;
        Assert.InRange(Math.Abs(recuperator) / power, 0, 1e-6);
        double whole = power - shell + (double)(state.NetCooling + state.HeatLeak + state.HeatIntoRecuperator).Watts - (double)state.AfterCoolerHeat.Watts - (double)(state.PreCoolerHeat ?? Power.Zero).Watts;
        Assert.InRange(Math.Abs(whole) / power, 0, 1e-6);

        // Second law by the same states; the losses told are those.
        double S(string place) => flow * again[place].MolarEntropy.JoulesPerMoleKelvin;
        double room = RatedCoolers.Room.Kelvins;
        double made = S("compressor suction") + S("throttle inlet") - S("cold head outlet") - S(warmEnd);
        Assert.True(made > 0, $"recuperator {made} W/K");
        Assert.Equal((double)state.ExergyLosses.Single(l => l.Part == "recuperator").Loss.Watts, (room * made) - (double)state.HeatIntoRecuperator.Watts, 1e-6 * power);
        Assert.Equal((double)state.ExergyLosses.Single(l => l.Part == "throttle").Loss.Watts, room * (S("throttle outlet") - S("throttle inlet")), 1e-6 * power);
        Assert.All(state.ExergyLosses, l => Assert.True(l.Loss.Watts >= -1e-6m * (decimal)power, $"{l.Part}: {l.Loss.Watts} W"));
        double useful = (double)state.NetCooling.Watts * ((room / state.ColdTemperature.Kelvins) - 1);
        double supplied = name == "pre-cooled"
            ? power + (flow * ((again[warmEnd].MolarEnthalpy - again["after-cooler outlet"].MolarEnthalpy).JoulesPerMole - (room * (again[warmEnd].MolarEntropy - again["after-cooler outlet"].MolarEntropy).JoulesPerMoleKelvin)))
            : power;
        Assert.Equal(supplied, useful + state.ExergyLosses.Sum(l => (double)l.Loss.Watts), 1e-5 * power);
    }

    [Theory]
    [MemberData(nameof(Ratings))]
    public void Spaces_hold_the_charge_to_the_last_digits(string name)
    {
        CoolerState state = Reached(name);
        double charged = name == "tubes" ? 0.8 : 1.0;
        for (int i = 0; i < 5; i++)
        {
            double held = state.Contents.Sum(c => c.Amounts[i].Moles);
            double filled = charged * RatedCoolers.Blend.Composition.MoleFractions[i];
            Assert.InRange(Math.Abs(held - filled) / charged, 0, 1e-9);
        }

        // Gas spaces from a state of their own.
        State shell = state.CirculatingFluid.At(RatedCoolers.Room, state.SuctionPressure);
        Assert.Equal(3e-3 * shell.MolarDensity.MolesPerCubicMeter, state.Contents.Single(c => c.Space == "shell and buffer").Total.Moles, 1e-9);
        State discharge = state.Compression.Discharge;
        Assert.Equal(1e-4 * discharge.MolarDensity.MolesPerCubicMeter, state.Contents.Single(c => c.Space == "discharge line").Total.Moles, 1e-9);
    }

    [Theory]
    [InlineData("conductance")]
    [InlineData("tubes")]
    public void Throttle_and_compressor_carry_one_flow_and_the_load_is_met(string name)
    {
        CoolerRating rating = Rating(name);
        CoolerState state = rating.Reached!;
        MassFlow again = rating.Cooler.Throttle.FlowTo(state.Loop.Single(p => p.Place == "throttle inlet").State, state.Loop.Single(p => p.Place == "throttle outlet").State.Pressure).MassFlow;
        Assert.InRange(again / state.Compression.MassFlow, 1 - 2e-5, 1 + 2e-5);
        Assert.Equal((double)rating.Load.Watts, (double)state.NetCooling.Watts, 1e-6);
        Assert.True(state.IsStable);
        Assert.True(rating.NoLoad!.ColdTemperature < state.ColdTemperature);
        Assert.Equal(0, (double)rating.NoLoad.NetCooling.Watts, 1e-6);
    }

    // The conductance by a march of its own: heat over temperature difference in 400 steps by Simpson's rule, every state by its own flash.
    [Fact]
    public void Recuperator_agrees_with_a_march()
    {
        CoolerState state = coolers.PlainRating.Reached!;
        WorkingFluid fluid = state.CirculatingFluid;
        State cold = state.Loop.Single(p => p.Place == "cold head outlet").State;
        State throttle = state.Loop.Single(p => p.Place == "throttle inlet").State;
        double flow = state.Compression.MolarFlow.MolesPerSecond;
        double duty = (state.Compression.Suction.MolarEnthalpy - cold.MolarEnthalpy).JoulesPerMole;
        const int Steps = 400;
        double sum = 0;
        for (int i = 0; i <= Steps; i++)
        {
            MolarEnergy heat = MolarEnergy.FromJoulesPerMole(duty * i / Steps);
            double difference = fluid.AtEnthalpy(throttle.Pressure, throttle.MolarEnthalpy + heat).Temperature.Kelvins - fluid.AtEnthalpy(cold.Pressure, cold.MolarEnthalpy + heat).Temperature.Kelvins;
            sum += (i is 0 or Steps ? 1 : i % 2 == 1 ? 4 : 2) / difference;
        }

        Assert.InRange(flow * duty / Steps / 3 * sum, 40 * 0.998, 40 * 1.002);
    }

    [Fact]
    public void Tubes_inside_the_rating_do_what_they_do_alone()
    {
        CoolerRating rating = coolers.TubeRating;
        CoolerState state = rating.Reached!;
        State warm = state.Loop.Single(p => p.Place == "after-cooler outlet").State;
        State cold = state.Loop.Single(p => p.Place == "cold head outlet").State;
        TubeRecuperatorRating alone = rating.Cooler.Recuperator.Tubes!.Rate(new(warm, state.Compression.MassFlow, cold, state.Compression.MassFlow));
        State throttle = state.Loop.Single(p => p.Place == "throttle inlet").State;
        Assert.Equal(alone.HotOutlet.Temperature.Kelvins, throttle.Temperature.Kelvins, 0.05);
        Assert.Equal(alone.HotOutlet.Pressure.Bars, throttle.Pressure.Bars, 1e-3);
        Assert.Equal(alone.ColdOutlet.Temperature.Kelvins, state.Compression.Suction.Temperature.Kelvins, 0.05);
        Assert.Equal(alone.ColdOutlet.Pressure.Bars, state.SuctionPressure.Bars, 1e-3);
    }

    // Heavy components stay behind as liquid, the circulating gas is lighter (cycle theory: held up in recuperator and evaporator); slip holds more than equal speeds.
    [Fact]
    public void Hold_up_makes_the_circulating_gas_lighter()
    {
        Composition circulating = coolers.PlainRating.Reached!.CirculatingFluid.Composition;
        Composition charged = RatedCoolers.Blend.Composition;
        Assert.True(circulating["nitrogen"] > charged["nitrogen"]);
        Assert.True(circulating["isobutane"] < charged["isobutane"]);
        Assert.True(circulating.MolarMass < charged.MolarMass);
        CoolerState least = coolers.HomogeneousRating.Reached!;
        double Liquid(CoolerState state) => state.Contents.Sum(c => c.Liquid.Moles);
        Assert.True(Liquid(least) < Liquid(coolers.PlainRating.Reached!));
        Assert.True(least.CirculatingFluid.Composition["nitrogen"] < circulating["nitrogen"]);

        // Without slip every place holds what flows, whatever its phases: the charge circulates as filled.
        Assert.All(charged.MoleFractions.Zip(least.CirculatingFluid.Composition.MoleFractions), p => Assert.Equal(p.First, p.Second, 1e-9));

        // Per volume the recuperator's low side holds heavier liquid than what circulates.
        SpaceContent low = coolers.PlainRating.Reached!.Contents.Single(c => c.Space == "recuperator, low side");
        Assert.True(low.Amounts[4].Moles / low.Total.Moles > circulating["isobutane"]);
    }

    // What is learned on the way to a load moves the cold temperature too; a search at a given one must not.
    [Fact]
    public void A_search_at_a_cold_temperature_stays_there()
    {
        CoolerPoint near = new CoolerRater(RatedCoolers.Plain, RatedCoolers.Charge(1), RatedCoolers.Room).PointAt(125, 2e-5);
        CoolerSolver solver = new(RatedCoolers.Plain, RatedCoolers.Charge(1), RatedCoolers.Room);
        CoolerPoint loaded = solver.SolveLoad(near.Cold, near.Guess, near, new(10, 0.5), isCoarse: true, 5e-4);
        Assert.Equal(124.0, loaded.Cold, 0.2);
        foreach (double cold in new[] { 126.0, 122 })
        {
            Assert.Equal(cold, solver.Solve(cold, loaded.Guess, loaded, isCoarse: true, 5e-4).Cold);
        }
    }

    // Common practice, no source: pre-cooling raises the cooling of a hydrocarbon blend.
    [Fact]
    public void Pre_cooling_raises_cooling()
    {
        CoolerState plain = coolers.PlainAt150;
        CoolerState cooled = coolers.PreCooledAt150;
        Assert.True(cooled.NetCooling.Watts > 1.2m * plain.NetCooling.Watts, $"{cooled.NetCooling} against {plain.NetCooling}");
        Assert.True(cooled.PreCoolerHeat!.Value.Watts > 0);

        // Computed here, as printed in docs/concepts/cooler-rating.md.
        Assert.Equal(20.4, (double)plain.NetCooling.Watts, 0.05);
        Assert.Equal(36.3, (double)cooled.NetCooling.Watts, 0.1);
        Assert.Equal(60.3, (double)cooled.PreCoolerHeat.Value.Watts, 0.5);
        CoolerRating rating = (RatedCoolers.Plain with { PreCooling = PreCooling.To(Temperature.FromKelvins(268)) }).Rate(RatedCoolers.Charge(1.0), RatedCoolers.Room, Power.FromWatts(10));
        Assert.Equal(114.1, rating.Reached!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(38, (double)rating.Reached.PreCoolerHeat!.Value.Watts, 0.5);
        Assert.Equal(92.3, rating.NoLoad!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(28, (double)rating.NoLoad.PreCoolerHeat!.Value.Watts, 0.5);
        Assert.True(rating.NoLoad.ColdTemperature < coolers.PlainRating.NoLoad!.ColdTemperature);
        Assert.Equal(268, cooled.Loop.Single(p => p.Place == "pre-cooler outlet").State.Temperature.Kelvins, 1e-9);
    }

    [Fact]
    public void Pre_cooler_with_a_bath_of_its_own_belongs_to_the_state()
    {
        BathPreCooler bath = new(WorkingFluid.Pure("propane").WithModel(FluidModel.PengRobinson), Pressure.FromBars(4), 25);
        CoolerState state = RatedCoolers.At150(RatedCoolers.Plain with { PreCooling = PreCooling.By(bath) });
        State stream = state.Loop.Single(p => p.Place == "after-cooler outlet").State;
        BathPreCoolerResult alone = bath.Cool(stream, state.Compression.MolarFlow);
        Assert.Equal(alone.Outlet.Temperature.Kelvins, state.Loop.Single(p => p.Place == "pre-cooler outlet").State.Temperature.Kelvins, 0.02);
        Assert.Equal((double)alone.Duty.Watts, (double)state.PreCoolerHeat!.Value.Watts, 0.01 * (double)alone.Duty.Watts);
    }

    [Fact]
    public void Oil_takes_up_what_dissolves_and_the_rest_fits()
    {
        OilCharge oil = new(Mass.FromGrams(200), MolarMass.FromGramsPerMole(320), [("isobutane", Pressure.FromBars(3.0)), ("propane", Pressure.FromBars(8.4))], Source.CommonPractice);
        CoolerState state = (RatedCoolers.Plain with { Oil = oil }).Rate(RatedCoolers.Charge(1.1), RatedCoolers.Room, Power.FromWatts(10)).Reached!;
        SpaceContent held = state.Contents.Single(c => c.Space == "oil");
        Assert.Equal(0, held.Amounts[0].Moles);
        double x4 = state.CirculatingFluid.Composition["isobutane"] * state.SuctionPressure.Bars / 3.0;
        double x3 = state.CirculatingFluid.Composition["propane"] * state.SuctionPressure.Bars / 8.4;
        double solvent = 0.2 / 0.320;
        Assert.Equal(solvent * x4 / (1 - x3 - x4), held.Amounts[4].Moles, 1e-9);
        Assert.Equal(1.1, state.Contents.Sum(c => c.Total.Moles), 1e-9);
    }

    // What is sized, rated, is what was asked for.
    [Fact]
    public void Sizes_give_the_demand_when_rated()
    {
        CoolerDemand demand = new(RatedCoolers.MethaneBlend, Pressure.FromBars(1.6), Pressure.FromBars(17), Temperature.FromKelvins(145), Power.FromWatts(12), RatedCoolers.Room, 0.7);
        CoolerSizing sizing = RatedCoolers.Plain.SizeFor(demand);
        CoolerState state = sizing.Cooler.Rate(sizing.Charge, RatedCoolers.Room, Power.FromWatts(12)).Reached!;
        Assert.Equal(145, state.ColdTemperature.Kelvins, 0.02);
        Assert.Equal(1.6, state.SuctionPressure.Bars, 0.003);
        Assert.Equal(17, state.DischargePressure.Bars, 0.03);
        Assert.Equal(sizing.ConductanceWattsPerKelvin!.Value, state.Recuperator!.ConductanceWattsPerKelvin, 0.003 * sizing.ConductanceWattsPerKelvin.Value);
        Assert.Equal(0.7, 16 / (double)sizing.GreatestCooling.Watts, 1e-6);
        Assert.All(RatedCoolers.MethaneBlend.Composition.MoleFractions.Zip(state.CirculatingFluid.Composition.MoleFractions), p => Assert.Equal(p.First, p.Second, 1e-4));
    }

    [Fact]
    public void Loads_beyond_reach_and_machines_that_cannot_run_are_told()
    {
        CoolerRating tooMuch = RatedCoolers.Plain.Rate(RatedCoolers.Charge(1.0), RatedCoolers.Room, Power.FromWatts(500));
        Assert.Equal(CoolerObstacle.LoadTooLarge, tooMuch.Obstacle);
        Assert.Null(tooMuch.Reached);
        Assert.NotNull(tooMuch.NoLoad);
        Assert.Contains("500 W", tooMuch.Remarks[^1], StringComparison.Ordinal);
        CoolerRefusedException empty = Assert.Throws<CoolerRefusedException>(() => RatedCoolers.Plain.Rate(RatedCoolers.Charge(0.0005), RatedCoolers.Room, Power.Zero));
        Assert.Equal(CoolerObstacle.ChargeTooSmall, empty.Obstacle);
        ArgumentException pure = Assert.Throws<ArgumentException>(() => RatedCoolers.Plain.Rate(new(WorkingFluid.Pure("methane"), AmountOfSubstance.FromMoles(1)), RatedCoolers.Room, Power.Zero));
        Assert.Contains("both pressures held", pure.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => RatedCoolers.Plain.Rate(new(WorkingFluid.Mixture(("oxygen", 0.5), ("methane", 0.5)), AmountOfSubstance.FromMoles(1)), RatedCoolers.Room, Power.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => RatedCoolers.Plain.Rate(RatedCoolers.Charge(1), Temperature.FromKelvins(400), Power.Zero));
    }

    // The insulation is known down to 150 K only: the curve ends there instead of the whole rating.
    [Fact]
    public void The_curve_ends_where_the_leak_is_no_longer_known()
    {
        HeatLeakItem foam = new("made-up foam", (cold, _) => cold.Kelvins < 150
            ? throw new ArgumentOutOfRangeException(nameof(cold), cold, $"cold is {cold.Kelvins:F1} K; the made-up foam is known from 150 to 300 K.")
            : new(4, 3, 6, [Source.CommonPractice], [], []));
        Cooler plain = RatedCoolers.Plain;
        CoolerRating rating = new Cooler(plain.Compressor, plain.AfterCooling, plain.Recuperator, plain.Throttle, plain.Spaces, [foam]).Rate(RatedCoolers.Charge(1), RatedCoolers.Room, Power.FromWatts(60));
        Assert.InRange(rating.Curve[^1].ColdTemperature.Kelvins, 150, 154);
        Assert.Contains(rating.Remarks, r => r.Contains("The heat leak is not known with the cold head at", StringComparison.Ordinal) && r.Contains("made-up foam is known from 150", StringComparison.Ordinal));
        Assert.NotNull(rating.Reached);
        Assert.Null(rating.NoLoad);
    }

    [Fact]
    public void A_leak_that_is_not_known_is_refused_with_its_limit()
    {
        HeatLeakItem foam = HeatLeakItem.Insulated("foam", new(InsulatedBody.Wall(Area.FromSquareCentimeters(200)), PorousInsulation.Named("rubber foam"), Length.FromMillimeters(80)));
        Cooler plain = RatedCoolers.Plain;
        Cooler cooler = new(plain.Compressor, plain.AfterCooling, plain.Recuperator, plain.Throttle, plain.Spaces, [foam]);
        CoolerSolver solver = new(cooler, RatedCoolers.Charge(1), RatedCoolers.Room);
        Assert.True(solver.Leak(78) > 0);
        CoolerRefusedException error = Assert.Throws<CoolerRefusedException>(() => solver.Leak(76));
        Assert.Equal(CoolerObstacle.LeakNotKnown, error.Obstacle);
        Assert.Contains("known from 77 to 300 K", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", error.Message, StringComparison.Ordinal);
        Assert.Equal(CoolerObstacle.LeakNotKnown, Assert.Throws<CoolerRefusedException>(() => cooler.Rate(RatedCoolers.Charge(1), Temperature.FromKelvins(310), Power.Zero)).Obstacle);
    }

    // At a point of the curve: flows from the reported figures, against the throttle asked again.
    [Fact]
    public void Points_of_the_curve_tell_how_far_the_flows_are_apart()
    {
        CoolerRating rating = coolers.PlainRating;
        Assert.All(rating.Curve, p => Assert.InRange(Math.Abs(p.FlowMismatch), 0, 3.1e-3));
        Assert.Contains(rating.Curve, p => p.FlowMismatch != 0);
        Assert.DoesNotContain(rating.Remarks, r => r.Contains("is off that of the compressor", StringComparison.Ordinal));
        CoolerCurvePoint[] curve = [.. rating.Curve.Select((p, i) => i == 2 ? p with { FlowMismatch = -0.0423 } : p)];
        CoolerRating passed = new(rating.Cooler, rating.Charge, rating.AmbientTemperature, rating.Load, rating.SteadyStates, rating.Reached, rating.NoLoad, curve, null, ["another"]);
        Assert.Equal(2, passed.Remarks.Count);
        Assert.Contains(FormattableString.Invariant($"At {curve[2].ColdTemperature.Kelvins:F1} K (-4.2 %) the throttle's computed flow is off"), passed.Remarks[0], StringComparison.Ordinal);
        Assert.Contains("-4.2", passed.ToTable().ToString(), StringComparison.Ordinal);
    }

    // Warm, the high side stands at 34 bar absolute; at rest in the room the whole machine at more than 5.
    [Fact]
    public void Ratings_of_the_sides_are_held_against_warm_start_and_standstill()
    {
        CoolerRating rating = coolers.PlainRating;
        Assert.DoesNotContain(rating.Cautions, c => c.Title == "Pressure above a rating");
        CoolerRating weak = new(
            rating.Cooler with { HighSideRating = Pressure.FromBars(30), LowSideRating = Pressure.FromBars(5), HighSideRelief = Pressure.FromBars(25) },
            rating.Charge, rating.AmbientTemperature, rating.Load, rating.SteadyStates, rating.Reached, rating.NoLoad, rating.Curve, null, []);
        string[] told = [.. weak.Cautions.Where(c => c.Title == "Pressure above a rating").Select(c => c.Figure)];
        Assert.Equal(2, told.Length);
        Assert.Contains(FormattableString.Invariant($"weakest part of the high side: {rating.Curve.Max(p => p.DischargePressure.Bars):G4} bar absolute, rated 30 bar absolute"), told);
        State standing = RatedCoolers.Blend.AtDensity(RatedCoolers.Room, Molarity.FromMolesPerCubicMeter(1 / rating.Cooler.TotalVolume));
        Assert.Contains(FormattableString.Invariant($"weakest part of the low side: {standing.Pressure.Bars:G4} bar absolute, rated 5 bar absolute"), told);

        // The relief is told where there is one, and is the limit of the high side.
        Assert.Contains(rating.Cautions, c => c.Title == "High-side relief" && c.Figure.Contains("no relief setting stated", StringComparison.Ordinal));
        Assert.DoesNotContain(weak.Cautions, c => c.Title == "High-side relief");
        Assert.Equal(25, weak.Cooler.AppliedLimits.HighPressureBars!.Far, 9);
        LimitReport limits = weak.Cooler.AppliedLimits.Assess(rating.Reached!.Compression.Suction is var suction ? weak.Cooler.Compressor.Compress(suction, Pressure.FromBars(26)) : null!);
        Caution caution = limits.Cautions.Single(c => c.Title == "High side above its stated limit");
        Assert.Equal(CautionSeverity.Danger, caution.Severity);
        Assert.DoesNotContain("no rating was stated", caution.Rule, StringComparison.Ordinal);
        Assert.Same(CompressorLimits.Usual, rating.Cooler.AppliedLimits);
        Assert.Throws<ArgumentOutOfRangeException>(() => rating.Cooler with { HighSideRating = Pressure.Zero });
    }

    // A rating that reaches nothing still tells what can hurt.
    [Fact]
    public void Cautions_do_not_ask_for_a_steady_state()
    {
        CoolerRating rating = coolers.PlainRating;
        CoolerRating none = new(rating.Cooler, rating.Charge, rating.AmbientTemperature, rating.Load, [], null, null, rating.Curve, CoolerObstacle.NoCooling, []);
        Assert.Contains(none.Cautions, c => c.Title == "Flammable charge");
    }

    // Computed here, as printed in docs/concepts/cooler-rating.md.
    [Fact]
    public void The_page_tells_what_is_computed()
    {
        CoolerState state = coolers.PlainRating.Reached!;
        Assert.Equal(124.0, state.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(1.62, state.SuctionPressure.Bars, 0.005);
        Assert.Equal(14.3, state.DischargePressure.Bars, 0.05);
        Assert.Equal(100.5, coolers.PlainRating.NoLoad!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(34, coolers.PlainRating.Curve[0].DischargePressure.Bars, 0.5);
        Assert.Equal(0.200, state.CirculatingFluid.Composition["nitrogen"], 0.0005);
        Assert.Equal(0.0793, state.CirculatingFluid.Composition["isobutane"], 0.0005);
        Assert.Equal([0.200, 0.337, 0.205, 0.178, 0.079], state.CirculatingFluid.Composition.MoleFractions.Select(z => Math.Round(z, 3)));
        Assert.Equal(0.500, state.Contents.Sum(c => c.Liquid.Moles), 0.0006);
        Assert.Equal(0.457, coolers.HomogeneousRating.Reached!.Contents.Sum(c => c.Liquid.Moles), 0.0006);
        Assert.Equal(122.9, coolers.HomogeneousRating.Reached!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(109.6, coolers.HomogeneousRating.NoLoad!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(4.5, state.PercentOfCarnot, 0.05);
        Assert.Equal([45, 6, 29, 13, 0, 2], state.ExergyLosses.Select(l => (int)Math.Round(l.SharePercent)));
        string page = File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "cooler-rating.md"));
        Assert.Contains("rests at 124.0 K (-149.2 degC) between 1.62 and 14.3 bar absolute, without load at 100.5 K", page, StringComparison.Ordinal);
    }

    private CoolerRating Rating(string name) => name == "conductance" ? coolers.PlainRating : coolers.TubeRating;

    private CoolerState Reached(string name) => name == "pre-cooled" ? coolers.PreCooledAt150 : Rating(name).Reached!;
}
