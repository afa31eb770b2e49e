using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Insulation;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Coolers.Rating;

/// <summary>A cascade at two temperatures, and a vapour-compression stage, inside the rating of a cooler. Invented machines.</summary>
public sealed class CoolerCascadeTests(CoolerCascadeTests.Cascades cascades) : IClassFixture<CoolerCascadeTests.Cascades>
{
    private static readonly WorkingFluid UpperBlend = WorkingFluid.Mixture(("ethane", 0.35), ("propane", 0.35), ("isobutane", 0.30)).WithModel(FluidModel.PengRobinson);
    private static readonly CoolerCharge UpperCharge = new(UpperBlend, AmountOfSubstance.FromMoles(0.8));
    private static readonly TemperatureDelta Approach = TemperatureDelta.FromKelvins(5);

    // The lower cooler as on the page, with a leak that ends its curve before states with more than two liquids.
    private static Cooler Lower { get; } = new(
        RatedCoolers.Plain.Compressor, RatedCoolers.Plain.AfterCooling, RatedCoolers.Plain.Recuperator, RatedCoolers.Plain.Throttle, RatedCoolers.Spaces, [Leak(25)]);

    private static HeatLeakItem Leak(double watts) => HeatLeakItem.Known("box", new(Power.FromWatts(watts), Power.FromWatts(watts), Power.FromWatts(watts)), Source.CommonPractice);

    private static Cooler Upper(double cubicCentimeters = 5, double kv = 0.006) => new(
        new Compressor(VolumeFlow.FromCubicMetersPerSecond(cubicCentimeters * 1e-6 * 2900 / 60), 0.60, 0.75, 0.6),
        AfterCooling.WithApproach(TemperatureDelta.FromKelvins(4)),
        CoolerRecuperator.OfConductance(15, Volume.FromLiters(0.1), Volume.FromLiters(0.2), Pressure.FromBars(0.2), Pressure.FromBars(0.1)),
        new ControlValve(kv, ValveStyle.Needle),
        RatedCoolers.Spaces,
        [RatedCoolers.Leak]);

    // Computed here, as printed in docs/concepts/cooler-rating.md.
    [Fact]
    public void The_page_tells_what_is_computed()
    {
        CoolerState alone = cascades.PlainRating.NoLoad!;
        CoolerState state = cascades.Rating.Reached!;
        CoolerState upper = state.UpperCooler!;
        Assert.Equal(151.5, alone.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(139.3, state.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(10, (double)state.NetCooling.Watts, 1e-6);
        Assert.Equal(111.2, cascades.Rating.NoLoad!.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(0.88, state.SuctionPressure.Bars, 0.005);
        Assert.Equal(11.2, state.DischargePressure.Bars, 0.05);
        Assert.Equal(248.6, upper.ColdTemperature.Kelvins, 0.05);
        Assert.Equal(72.8, (double)state.PreCoolerHeat!.Value.Watts, 0.05);
        Assert.Equal(82.8, (double)upper.NetCooling.Watts, 0.05);
        Assert.Equal(205, (double)state.Compression.Power.Watts, 0.5);
        Assert.Equal(109, (double)upper.Compression.Power.Watts, 0.5);
        Assert.Equal(4.1, state.TotalPercentOfCarnot, 0.05);
        Assert.Contains(cascades.Rating.Cautions, c => c.Title.Contains("below the atmosphere", StringComparison.OrdinalIgnoreCase));
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "cooler-rating.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Coolers", "Rating", "CoolerCascadeTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }

    // The stream by states in a fluid made anew; the upper cooler by a rating of its own at the load found.
    [Fact]
    public void The_upper_cooler_carries_what_the_lower_stream_gives()
    {
        CoolerState state = cascades.Rating.Reached!;
        CoolerState upper = state.UpperCooler!;
        Composition composition = state.CirculatingFluid.Composition;
        WorkingFluid fluid = WorkingFluid.Mixture([.. composition.Components.Select((c, i) => (c.Name, composition.MoleFractions[i]))]).WithModel(FluidModel.PengRobinson);
        State Again(string place) => fluid.At(state.Loop.Single(p => p.Place == place).State.Temperature, state.Loop.Single(p => p.Place == place).State.Pressure);
        State entering = Again("after-cooler outlet");
        State leaving = Again("pre-cooler outlet");
        double heat = state.Compression.MolarFlow.MolesPerSecond * (entering.MolarEnthalpy - leaving.MolarEnthalpy).JoulesPerMole;
        double extra = (double)Cascades.ExtraLoad.Watts;
        Assert.True(heat > 20, $"{heat} W");
        Assert.Equal(heat, (double)state.PreCoolerHeat!.Value.Watts, 1e-6 * heat);
        Assert.Equal(heat + extra, (double)upper.NetCooling.Watts, 1e-4 * heat);
        Assert.Equal(Approach.Kelvins, leaving.Temperature.Kelvins - upper.ColdTemperature.Kelvins, 1e-9);
        CoolerState alone = Upper().Rate(UpperCharge, RatedCoolers.Room, Power.FromWatts(heat + extra)).Reached!;
        Assert.Equal(alone.ColdTemperature.Kelvins, upper.ColdTemperature.Kelvins, 0.01);
        Assert.Equal(alone.DischargePressure.Bars, upper.DischargePressure.Bars, 1e-3 * alone.DischargePressure.Bars);
        Assert.Equal((double)alone.Compression.Power.Watts, (double)upper.Compression.Power.Watts, 1e-3 * (double)alone.Compression.Power.Watts);
        Assert.Equal(alone.Limits.Checks.Count, upper.Limits.Checks.Count);
    }

    [Fact]
    public void Power_and_losses_of_both_are_counted()
    {
        CoolerState state = cascades.Rating.Reached!;
        CoolerState upper = state.UpperCooler!;
        double room = RatedCoolers.Room.Kelvins;
        double power = (double)(state.Compression.Power + upper.Compression.Power).Watts;
        Assert.Equal(power, (double)state.TotalPower.Watts, 1e-9 * power);
        Assert.Equal((double)state.NetCooling.Watts / power, state.TotalCoefficientOfPerformance, 1e-9);
        double useful = ((double)state.NetCooling.Watts * ((room / state.ColdTemperature.Kelvins) - 1)) + ((double)Cascades.ExtraLoad.Watts * ((room / upper.ColdTemperature.Kelvins) - 1));
        Assert.Equal(100 * useful / power, state.TotalPercentOfCarnot, 1e-6);
        Assert.Equal(power, useful + state.ExergyLosses.Sum(l => (double)l.Loss.Watts), 1e-4 * power);
        Assert.All(state.ExergyLosses, l => Assert.True(l.Loss.Watts >= -1e-6m * (decimal)power, $"{l.Part}: {l.Loss.Watts} W"));
        Assert.Contains(state.ExergyLosses, l => l.Part == "upper cooler, compressor");
        Assert.True(upper.Compression.Power.Watts > 20);
        Assert.Equal(upper.TotalPower, upper.Compression.Power);
        Assert.Contains(cascades.Rating.Cautions, c => c.Title == "Upper cooler: Flammable charge");
    }

    // Whatever cools the stream: at the same outlet temperature the lower cooler is in the same state.
    [Fact]
    public void The_lower_cooler_is_as_pre_cooled_to_the_same_temperature()
    {
        CoolerState state = cascades.Rating.Reached!;
        Temperature outlet = state.Loop.Single(p => p.Place == "pre-cooler outlet").State.Temperature;
        CoolerPoint given = new CoolerRater(Lower with { PreCooling = PreCooling.To(outlet) }, RatedCoolers.Charge(1), RatedCoolers.Room).PointAt(state.ColdTemperature.Kelvins, 2e-5);
        Assert.Equal((double)Cascades.Load.Watts, given.Gross - (double)state.HeatLeak.Watts, 0.02);
        Assert.Equal(given.Guess.High / 1e5, state.DischargePressure.Bars, 1e-3 * state.DischargePressure.Bars);
        Assert.Equal(given.Flow, state.Compression.MolarFlow.MolesPerSecond, 1e-3 * given.Flow);
    }

    [Fact]
    public void An_upper_cooler_that_cannot_is_named()
    {
        CoolerRefusedException empty = Refused(new(Upper(), new(UpperBlend, AmountOfSubstance.FromMoles(0.0005)), Approach));
        Assert.Equal(CoolerObstacle.PreCooler, empty.Obstacle);
        Assert.Contains("upper cooler", empty.Message, StringComparison.Ordinal);
        Assert.Contains("Fill more", empty.Message, StringComparison.Ordinal);
        CoolerRefusedException loaded = Refused(new(Upper(), UpperCharge, Approach, Power.FromWatts(5000)));
        Assert.Equal(CoolerObstacle.PreCooler, loaded.Obstacle);
        Assert.Contains("5000 W", loaded.Message, StringComparison.Ordinal);

        // Far too small for the stream.
        CoolerRating overloaded = (Lower with { PreCooling = PreCooling.By(new UpperCooler(Upper(0.3, 0.0004), UpperCharge, Approach)) }).Rate(RatedCoolers.Charge(1), RatedCoolers.Room, Cascades.Load);
        Assert.Null(overloaded.Reached);
        Assert.Equal(CoolerObstacle.PreCooler, overloaded.Obstacle);
        Assert.Contains(overloaded.Remarks, r => r.Contains("overloaded", StringComparison.Ordinal));
        Assert.Throws<ArgumentOutOfRangeException>(() => new UpperCooler(Upper(), UpperCharge, TemperatureDelta.FromKelvins(0.05)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new UpperCooler(Upper(), UpperCharge, TemperatureDelta.FromKelvins(61)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new UpperCooler(Upper(), UpperCharge, Approach, Power.FromWatts(-1)));
        Assert.Throws<ArgumentException>(() => new UpperCooler(Upper(), new(WorkingFluid.Pure("propane"), AmountOfSubstance.FromMoles(1)), Approach));

        static CoolerRefusedException Refused(UpperCooler upper) =>
            Assert.Throws<CoolerRefusedException>(() => (Lower with { PreCooling = PreCooling.By(upper) }).Rate(RatedCoolers.Charge(1), RatedCoolers.Room, Cascades.Load));
    }

    // Its duty is carried over from stream to stream; what is told is its own computation.
    [Fact]
    public void A_stage_of_its_own_is_told_as_computed()
    {
        VolumeFlow fan = VolumeFlow.FromCubicMetersPerHour(600);
        PreCooler machine = new(
            WorkingFluid.Pure("propane").WithModel(FluidModel.PengRobinson),
            new Compressor(VolumeFlow.FromLitersPerSecond(0.04), new(0.03, 0.02, 0.9), CompressorClass.SmallHermeticReciprocating.Efficiency, 0.2),
            AmbientCooler.ByAir(new(Power.FromWatts(300), Temperature.FromDegreesCelsius(40), Temperature.FromDegreesCelsius(25), fan), fan),
            15,
            TemperatureDelta.FromKelvins(5),
            TemperatureDelta.FromKelvins(2));
        CoolerState state = RatedCoolers.At150(RatedCoolers.Plain with { PreCooling = PreCooling.By(machine) });
        State stream = state.Loop.Single(p => p.Place == "after-cooler outlet").State;
        PreCoolerResult alone = machine.Cool(stream, state.Compression.MolarFlow, RatedCoolers.Room);
        Assert.Equal(alone.StreamOutlet.Temperature.Kelvins, state.Loop.Single(p => p.Place == "pre-cooler outlet").State.Temperature.Kelvins, 0.01);
        Assert.Equal((double)alone.Duty.Watts, (double)state.PreCoolerHeat!.Value.Watts, 1e-4 * (double)alone.Duty.Watts);
        Assert.Equal((double)alone.Compression.Power.Watts, (double)state.PreCooler!.Compression.Power.Watts, 1e-3 * (double)alone.Compression.Power.Watts);
        Assert.True(alone.StreamOutlet.Temperature.Kelvins < 285);
        Assert.Equal((double)(state.Compression.Power + state.PreCooler.Compression.Power).Watts, (double)state.TotalPower.Watts, 1e-9);
    }

    /// <summary>Rated once for all tests.</summary>
    public sealed class Cascades
    {
        private readonly Lazy<CoolerRating> alone = new(() => Lower.Rate(RatedCoolers.Charge(1), RatedCoolers.Room, Power.Zero));
        private readonly Lazy<CoolerRating> both = new(() => Cascade(Lower, RatedCoolers.Charge(1), RatedCoolers.Room));

        /// <summary>Load on the lower cold head.</summary>
        public static Power Load { get; } = Power.FromWatts(10);

        /// <summary>Load on the upper cold head besides the stream.</summary>
        public static Power ExtraLoad { get; } = Power.FromWatts(10);

        /// <summary>The lower cooler alone.</summary>
        public CoolerRating PlainRating => alone.Value;

        /// <summary>Both.</summary>
        public CoolerRating Rating => both.Value;

        private static CoolerRating Cascade(Cooler lower, CoolerCharge charge, Temperature room)
        {
            // Page:
            WorkingFluid upperBlend = WorkingFluid.Mixture(("ethane", 0.35), ("propane", 0.35), ("isobutane", 0.30)).WithModel(FluidModel.PengRobinson);
            Cooler upper = new(
                new Compressor(VolumeFlow.FromCubicMetersPerSecond(5e-6 * 2900 / 60), isentropicEfficiency: 0.60, volumetricEfficiency: 0.75, shellHeatLossFraction: 0.6),
                AfterCooling.WithApproach(TemperatureDelta.FromKelvins(4)),
                CoolerRecuperator.OfConductance(15, highSide: Volume.FromLiters(0.1), lowSide: Volume.FromLiters(0.2), Pressure.FromBars(0.2), Pressure.FromBars(0.1)),
                new ControlValve(0.006, ValveStyle.Needle),
                lower.Spaces,
                [HeatLeakItem.Known("box", new(Power.FromWatts(4), Power.FromWatts(3), Power.FromWatts(6)), Source.CommonPractice)]);
            UpperCooler head = new(upper, new(upperBlend, AmountOfSubstance.FromMoles(0.8)), approach: TemperatureDelta.FromKelvins(5), extraLoad: Power.FromWatts(10));

            CoolerRating rating = (lower with { PreCooling = PreCooling.By(head) }).Rate(charge, room, load: Power.FromWatts(10));
            Console.WriteLine(rating.Reached?.ToTable());                 // both pressures of both, what the upper cold head carries, the power of all
            Console.WriteLine(rating.Reached?.UpperCooler?.ToTable());    // the upper cooler as a state of its own, with its limits
            // End.
            return rating;
        }
    }
}
