using CryoThermo.Coolers.Rating;
using CryoThermo.Design;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Rating;

/// <summary>Coolers with a phase separator, rated. Invented machines.</summary>
public sealed class SeparatorRatingTests(ITestOutputHelper output)
{
    private static WorkingFluid Blend { get; } =
        WorkingFluid.Mixture(("methane", 0.36), ("ethane", 0.24), ("propane", 0.14), ("n-pentane", 0.26)).WithModel(FluidModel.PengRobinson);

    private static CoolerCharge Charge { get; } = new(Blend, AmountOfSubstance.FromMoles(1.3));

    /// <summary>The example of docs/concepts/cooler-rating.md, run as it stands there.</summary>
    private static Lazy<(CoolerRating Parted, CoolerRating Without)> Page { get; } = new(() =>
    {
        Cooler cooler = RatedCoolers.Plain;
        Temperature room = RatedCoolers.Room;

        // Page:
        WorkingFluid heavy = WorkingFluid.Mixture(("methane", 0.36), ("ethane", 0.24), ("propane", 0.14), ("n-pentane", 0.26)).WithModel(FluidModel.PengRobinson);
        CoolerCharge more = new(heavy, AmountOfSubstance.FromMoles(1.3));
        Cooler parted = cooler with
        {
            Recuperator = CoolerRecuperator.OfConductance(20, highSide: Volume.FromLiters(0.08), lowSide: Volume.FromLiters(0.18), Pressure.FromBars(0.2), Pressure.FromBars(0.1)),
            Separator = new PhaseSeparator(Volume.FromLiters(0.03), liquidLevel: 0.4, CoolerRecuperator.OfConductance(20, highSide: Volume.FromLiters(0.07), lowSide: Volume.FromLiters(0.17))),
        };
        CoolerRating rating = parted.Rate(more, room, load: Power.FromWatts(10));
        CoolerRating without = cooler.Rate(more, room, load: Power.FromWatts(10));
        Console.WriteLine(rating.Reached?.ToTable());
        Console.WriteLine(rating.Reached?.Separation?.ToTable());     // what flows where
        Console.WriteLine(rating.Reached?.Separation?.LiquidValve);   // the valve that passes what settles
        // End.
        return (rating, without);
    });


    private static CoolerState Reached => Page.Value.Parted.Reached!;

    private static PhaseSeparation Separation => Reached.Separation!;

    // Every state again by temperature and pressure in a fluid made anew.
    [Fact]
    public void Balances_close_by_recomputation()
    {
        CoolerState state = Reached;
        Dictionary<string, double> again = state.Loop.ToDictionary(p => p.Place, p => Anew(p.State).At(p.State.Temperature, p.State.Pressure).MolarEnthalpy.JoulesPerMole);
        double flow = state.Compression.MolarFlow.MolesPerSecond;
        double vapor = flow * Separation.VaporShare;
        double liquid = Separation.LiquidThrottle.Flow.MolesPerSecond;
        double power = (double)state.Compression.Power.Watts;
        Assert.Equal(flow, vapor + liquid, 1e-12 * flow);
        Closes((flow * again["separator"]) - (vapor * again["vapour from the separator"]) - (liquid * again["liquid from the separator"]));
        Closes(flow * (again["separator"] - again["after-cooler outlet"]));
        Closes(
            (flow * (again["compressor suction"] - again["mixed return"]))
            - (vapor * (again["vapour from the separator"] - again["vapour stream between the exchangers"]))
            - (liquid * (again["liquid from the separator"] - again["liquid before its throttle"])));
        Closes(vapor * (again["return before mixing"] - again["cold head outlet"] - again["vapour stream between the exchangers"] + again["throttle inlet"]));
        Closes(liquid * (again["liquid behind its throttle"] - again["liquid before its throttle"]));
        Closes((flow * again["mixed return"]) - (vapor * again["return before mixing"]) - (liquid * again["liquid behind its throttle"]));
        Closes(vapor * (again["throttle outlet"] - again["throttle inlet"]));
        Closes((vapor * (again["cold head outlet"] - again["throttle outlet"])) - (double)(state.NetCooling + state.HeatLeak).Watts);
        double shell = (double)state.Compression.ShellHeat.Watts;
        Closes(power - shell + (double)(state.NetCooling + state.HeatLeak).Watts - (double)state.AfterCoolerHeat.Watts);

        // Both hot streams are at one temperature between the exchangers, but for what isobars and flashes differ by.
        Assert.Equal(Separation.VaporBetween.Temperature.Kelvins, Separation.LiquidThrottle.Inlet.Temperature.Kelvins, 0.05);
        Assert.Equal(10, (double)state.NetCooling.Watts, 1e-6);

        void Closes(double watts) => Assert.InRange(Math.Abs(watts) / power, 0, 1e-6);
    }

    [Fact]
    public void Components_are_balanced_and_the_spaces_hold_the_charge()
    {
        CoolerState state = Reached;
        for (int i = 0; i < 4; i++)
        {
            Assert.InRange(Math.Abs(state.Contents.Sum(c => c.Amounts[i].Moles) - (1.3 * Blend.Composition.MoleFractions[i])) / 1.3, 0, 1e-9);
            double parted = (Separation.VaporShare * Separation.Vapor.Fluid.Composition.MoleFractions[i]) + ((1 - Separation.VaporShare) * Separation.Liquid.Fluid.Composition.MoleFractions[i]);
            Assert.Equal(state.CirculatingFluid.Composition.MoleFractions[i], parted, 1e-9);
        }

        // The vessel by densities of its own: 12 mL of liquid under 18 mL of vapour.
        State vapor = Anew(Separation.Vapor).At(Separation.Vapor.Temperature, Separation.Vapor.Pressure);
        State liquid = Anew(Separation.Liquid).At(Separation.Liquid.Temperature, Separation.Liquid.Pressure);
        Assert.Equal(0.4, Separation.LiquidLevel);
        SpaceContent vessel = state.Contents.Single(c => c.Space == "separator");
        Assert.Equal((18e-6 * vapor.MolarDensity.MolesPerCubicMeter) + (12e-6 * liquid.MolarDensity.MolesPerCubicMeter), vessel.Total.Moles, 1e-7);
        Assert.Equal(12e-6 * liquid.MolarDensity.MolesPerCubicMeter, vessel.Liquid.Moles, 1e-7);
        Assert.Equal(
            ["shell and buffer", "discharge line", "after-cooler and drier", "line before the valve", "cold head", "separator", "warm exchanger, vapour stream", "warm exchanger, liquid stream", "warm exchanger, return", "cold exchanger, high side", "cold exchanger, low side"],
            state.Contents.Select(c => c.Space));
    }

    [Fact]
    public void Each_throttle_passes_its_stream()
    {
        CoolerState state = Reached;
        State inlet = state.Loop.Single(p => p.Place == "throttle inlet").State;
        State outlet = state.Loop.Single(p => p.Place == "throttle outlet").State;
        double vapor = state.Cooler.Throttle.FlowTo(inlet, outlet.Pressure).MassFlow.KilogramsPerSecond;
        double liquid = Separation.LiquidValve!.FlowTo(Separation.LiquidThrottle.Inlet, outlet.Pressure).MassFlow.KilogramsPerSecond;
        double whole = state.Compression.MassFlow.KilogramsPerSecond;
        double ofVapor = state.Compression.MolarFlow.MolesPerSecond * Separation.VaporShare * Separation.Vapor.Fluid.Composition.MolarMass.KilogramsPerMole;
        Assert.InRange(vapor / ofVapor, 1 - 2e-5, 1 + 2e-5);
        Assert.InRange((vapor + liquid) / whole, 1 - 2e-5, 1 + 2e-5);
        Assert.Equal(Separation.LiquidThrottle.MassFlow.KilogramsPerSecond, liquid, 1e-6 * liquid);
    }

    // The cold box alone, at the pressures, flow and composition found, on isobars of its own.
    [Fact]
    public void The_cold_box_alone_does_the_same()
    {
        CoolerState state = Reached;
        SeparatorCycleResult alone = new SeparatorCycle(
            Anew(Separation.Arriving), Separation.MixedReturn.Pressure, Separation.Arriving.Pressure, Separation.Arriving.Temperature, Temperature.FromKelvins(110), 20, 20, state.Compression.MolarFlow)
            .At(state.ColdTemperature);
        output.WriteLine($"{alone.Cooling.Watts} {state.GrossCooling.Watts} {alone.MiddleTemperature.Kelvins} {Separation.VaporBetween.Temperature.Kelvins}");
        output.WriteLine($"{state.Recuperator!.ConductanceWattsPerKelvin} {Separation.ColdExchanger!.ConductanceWattsPerKelvin}");
        Assert.Equal((double)alone.Cooling.Watts, (double)state.GrossCooling.Watts, 0.005);
        Assert.Equal(alone.MiddleTemperature.Kelvins, Separation.VaporBetween.Temperature.Kelvins, 0.05);
        Assert.Equal(alone.WarmExchanger.Pinch.Approach.Kelvins, state.Recuperator.Pinch.Approach.Kelvins, 0.05);
        Assert.Equal(20, state.Recuperator.ConductanceWattsPerKelvin, 0.05);
        Assert.Equal(20, Separation.ColdExchanger!.ConductanceWattsPerKelvin, 0.05);
        Assert.Equal((double)alone.ColdExchanger!.Duty.Watts, (double)Separation.ColdExchanger.Duty.Watts, 0.02);
        Assert.False(Separation.ColdExchangerRunsBackwards);
    }

    [Fact]
    public void Losses_add_up_to_the_power_and_none_is_a_gain()
    {
        CoolerState state = Reached;
        double power = (double)state.Compression.Power.Watts;
        double useful = (double)state.NetCooling.Watts * ((RatedCoolers.Room.Kelvins / state.ColdTemperature.Kelvins) - 1);
        Assert.Equal(power, useful + state.ExergyLosses.Sum(l => (double)l.Loss.Watts), 1e-6 * power);
        Assert.All(state.ExergyLosses, l => Assert.True(l.Loss.Watts > -1e-6m * (decimal)power, $"{l.Part}: {l.Loss.Watts} W"));
        Assert.Equal(["compressor", "after-cooler", "warm exchanger", "liquid's throttle", "mixing", "cold exchanger", "throttle", "cold head", "heat leak"], state.ExergyLosses.Select(l => l.Part));

        // Those of the cold box by the entropies of its own result.
        SeparatorEntropyProduction made = new SeparatorCycle(
            Anew(Separation.Arriving), Separation.MixedReturn.Pressure, Separation.Arriving.Pressure, Separation.Arriving.Temperature, Temperature.FromKelvins(110), 20, 20, state.Compression.MolarFlow)
            .At(state.ColdTemperature).EntropyProductionPerSecond;
        double room = RatedCoolers.Room.Kelvins;
        double Loss(string part) => (double)state.ExergyLosses.Single(l => l.Part == part).Loss.Watts;
        Assert.Equal(room * made.LiquidThrottle.JoulesPerKelvin, Loss("liquid's throttle"), 2e-3);
        Assert.Equal(room * made.Mixing.JoulesPerKelvin, Loss("mixing"), 5e-3);
        Assert.Equal(room * made.ColdExchanger.JoulesPerKelvin, Loss("cold exchanger"), 0.02);
        Assert.Equal(room * made.VaporThrottle.JoulesPerKelvin, Loss("throttle"), 5e-3);
    }

    // The liquid kept in the vessel is missing from what circulates, most of it the heaviest component (mass balance alone).
    [Fact]
    public void More_liquid_in_the_vessel_makes_the_circulating_gas_lighter()
    {
        CoolerPoint low = At150(Parted(level: 0.2));
        CoolerPoint high = At150(Parted(level: 0.5));
        Assert.True(high.Fluid.Composition.MolarMass < low.Fluid.Composition.MolarMass);
        Assert.True(high.Fluid.Composition["n-pentane"] < low.Fluid.Composition["n-pentane"]);
        Assert.True(high.Fluid.Composition["methane"] > low.Fluid.Composition["methane"]);
    }

    [Fact]
    public void The_heaviest_component_is_kept_from_the_cold_head()
    {
        double whole = Reached.CirculatingFluid.Composition["n-pentane"];
        Assert.True(Separation.Vapor.Fluid.Composition["n-pentane"] < whole);
        Assert.True(Separation.Liquid.Fluid.Composition["n-pentane"] > whole);
        Assert.Equal(Separation.Vapor.Fluid.Composition["n-pentane"], Reached.Loop.Single(p => p.Place == "cold head outlet").State.Fluid.Composition["n-pentane"]);
        Assert.Contains("n-pentane", Separation.ToTable().ToString(), StringComparison.Ordinal);
        Assert.Contains("liquid in the separator, mol %", Reached.ToTable().ToString(), StringComparison.Ordinal);
    }

    // Where less than 2 % settles the level falls, without a step.
    [Fact]
    public void The_level_falls_with_what_settles()
    {
        PhaseSeparator separator = new(Volume.FromLiters(0.1), 0.5, CoolerRecuperator.OfConductance(1, Volume.Zero, Volume.Zero));
        Assert.Equal(0.5, separator.LevelAt(0.3));
        Assert.Equal(0.5, separator.LevelAt(0.02));
        Assert.Equal(0.5, separator.LevelAt(0.02 - 1e-7), 1e-9);
        Assert.Equal(0, separator.LevelAt(0));
        Assert.InRange(separator.LevelAt(0.005), 0.1, 0.4);
    }

    [Fact]
    public void Pre_cooled_the_separator_stands_behind_the_pre_cooler()
    {
        Cooler cooler = Parted() with { PreCooling = PreCooling.To(Temperature.FromKelvins(280)) };
        CoolerPoint point = At150(cooler);
        Assert.Equal(280, point.Separated!.Arriving.Temperature.Kelvins, 0.3);
        CoolerPoint plain = At150(Parted());
        Assert.True(point.Separated.VaporShare < plain.Separated!.VaporShare);
        CoolerSolver solver = new(cooler, Charge, RatedCoolers.Room);
        CoolerState state = new(cooler, solver, solver.Polish(point, null, 1e-10), RatedCoolers.Room.Kelvins, true);
        Assert.Equal("pre-cooler outlet", state.Loop[3].Place);
        double supplied = state.ExergyLosses.Sum(l => (double)l.Loss.Watts) + ((double)state.NetCooling.Watts * ((RatedCoolers.Room.Kelvins / 150) - 1));
        Assert.True(supplied > (double)state.TotalPower.Watts);
    }

    [Fact]
    public void Nothing_to_separate_is_refused()
    {
        CoolerCharge light = new(WorkingFluid.Mixture(("nitrogen", 0.4), ("methane", 0.4), ("ethane", 0.2)).WithModel(FluidModel.PengRobinson), AmountOfSubstance.FromMoles(1));
        CoolerRefusedException error = Assert.Throws<CoolerRefusedException>(() => Parted().Rate(light, RatedCoolers.Room, Power.FromWatts(10)));
        Assert.Equal(CoolerObstacle.NothingToSeparate, error.Obstacle);
        Assert.Contains("all vapour", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_does_not_fit_is_refused_with_its_reason()
    {
        Volume some = Volume.FromLiters(0.1);
        CoolerRecuperator cold = CoolerRecuperator.OfConductance(20, some, some);
        Assert.Throws<ArgumentOutOfRangeException>(() => new PhaseSeparator(Volume.Zero, 0.4, cold));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PhaseSeparator(some, 1.1, cold));
        Assert.Contains("0.2", Assert.Throws<ArgumentException>(() => new PhaseSeparator(some, 0.4, CoolerRecuperator.OfConductance(20, some, some, Pressure.FromBars(0.2)))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new PhaseSeparator(some, 0.4, RatedCoolers.OfTubes.Recuperator));
        Assert.Throws<ArgumentException>(() => RatedCoolers.OfTubes with { Separator = new(some, 0.4, cold) });
        Assert.Throws<ArgumentException>(() => Parted() with { Recuperator = RatedCoolers.OfTubes.Recuperator });
        ArgumentException unsized = Assert.Throws<ArgumentException>(() => Parted().SizeFor(
            new(Blend, Pressure.FromBars(1.6), Pressure.FromBars(17), Temperature.FromKelvins(145), Power.FromWatts(12), RatedCoolers.Room, 0.7)));
        Assert.Contains("phase separator", unsized.Message, StringComparison.Ordinal);
    }

    // Both exchangers are as uncertain as one another.
    [Fact]
    public void The_band_of_where_it_rests_counts_both_exchangers()
    {
        CoolerUncertainty conductance = CoolerUncertainty.Conductance();
        Cooler moved = conductance.Moved(new(Parted(), Charge, RatedCoolers.Room), 1).Cooler;
        Assert.Equal(26, moved.Recuperator.ConductanceWattsPerKelvin, 1e-9);
        Assert.Equal(26, moved.Separator!.ColdExchanger.ConductanceWattsPerKelvin, 1e-9);
        RestConfidence band = RestConfidence.Of(Page.Value.Parted, Temperature.FromKelvins(130), [conductance]);
        output.WriteLine(band.ToString());
        RestContribution only = Assert.Single(band.Contributions);
        Assert.True(only.AtUpperBound.Kelvins < 0);
        Assert.True(only.AtLowerBound.Kelvins > 0);
    }

    // Computed here, as printed in docs/concepts/cooler-rating.md.
    [Fact]
    public void The_page_tells_what_is_computed()
    {
        (CoolerRating rating, CoolerRating without) = Page.Value;
        output.WriteLine(rating.ToTable().ToString());
        output.WriteLine(Reached.ToTable().ToString());
        output.WriteLine(without.ToTable().ToString());
        Assert.Empty(rating.Remarks);
        Assert.Equal(129.7, Reached.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(132.2, without.Reached!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(127.1, rating.NoLoad!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(129.0, without.NoLoad!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(182, (double)Reached.Compression.Power.Watts, 0.5);
        Assert.Equal(192, (double)without.Reached.Compression.Power.Watts, 0.5);
        CoolerSolver solver = new(Parted(), Charge, RatedCoolers.Room);
        Assert.Equal(52.9, solver.Net(At150(Parted())), 0.05);
        Assert.Equal(47.5, solver.Net(At150(RatedCoolers.Plain)), 0.05);
        Assert.Equal(102, (double)rating.Curve[0].NetCooling.Watts, 0.5);
        Assert.Equal(193, (double)without.Curve[0].NetCooling.Watts, 0.5);
        Assert.Equal(24.9, rating.Curve[0].DischargePressure.Bars, 0.05);
        Assert.Equal(32.3, without.Curve[0].DischargePressure.Bars, 0.05);
        Assert.Equal(97.9, 100 * Reached.Compression.Suction.VaporFraction, 0.05);
        Assert.Equal(94.4, 100 * without.Reached.Compression.Suction.VaporFraction, 0.05);

        // What flows through the cold head, and from where on it freezes there.
        Pressure behind = Reached.Loop.Single(p => p.Place == "throttle outlet").State.Pressure;
        Assert.Equal(9.9, 100 * Separation.Vapor.Fluid.Composition["n-pentane"], 0.05);
        Assert.Equal(19.0, 100 * without.Reached.CirculatingFluid.Composition["n-pentane"], 0.05);
        Assert.Equal(114.8, Separation.Vapor.Fluid.FreezeOut.FirstSolid(behind)!.Temperature.Kelvins, 0.05);
        Assert.Equal(120.9, without.Reached.CirculatingFluid.FreezeOut.FirstSolid(behind)!.Temperature.Kelvins, 0.05);
        Assert.Equal("n-pentane", Separation.Vapor.Fluid.FreezeOut.FirstSolid(behind)!.Component.Name);

        Assert.Equal(9.0, 100 * (1 - Separation.VaporShare), 0.05);
        Assert.Equal(84.8, 100 * Separation.Liquid.Fluid.Composition["n-pentane"], 0.05);
        Assert.Equal(223.2, Separation.LiquidThrottle.Inlet.Temperature.Kelvins, 0.05);
        Assert.Equal(0.00046, Separation.LiquidValve!.FlowCoefficientKv, 0.000005);
        Assert.Equal(0.118, Reached.Contents.Single(c => c.Space == "separator").Total.Moles, 0.0005);
        Assert.Equal([42, 2, 14, 0, 1, 26, 6, 0, 3], Reached.ExergyLosses.Select(l => (int)Math.Round(l.SharePercent)));
        Assert.Equal([41, 2, 41, 7, 0, 3], without.Reached.ExergyLosses.Select(l => (int)Math.Round(l.SharePercent)));

        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "cooler-rating.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Coolers", "Rating", "SeparatorRatingTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }

    private static Cooler Parted(double level = 0.4) => RatedCoolers.Plain with
    {
        Recuperator = CoolerRecuperator.OfConductance(20, Volume.FromLiters(0.08), Volume.FromLiters(0.18), Pressure.FromBars(0.2), Pressure.FromBars(0.1)),
        Separator = new(Volume.FromLiters(0.03), level, CoolerRecuperator.OfConductance(20, Volume.FromLiters(0.07), Volume.FromLiters(0.17))),
    };

    private static CoolerPoint At150(Cooler cooler) => new CoolerRater(cooler, Charge, RatedCoolers.Room).PointAt(150, 2e-5);

    private static WorkingFluid Anew(State state) => WorkingFluid.Mixture([.. state.Fluid.Composition.Components.Select((c, i) => (c.Name, state.Fluid.Composition.MoleFractions[i]))]).WithModel(FluidModel.PengRobinson);
}
