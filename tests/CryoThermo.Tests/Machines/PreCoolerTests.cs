using CryoThermo.Checks.Soak;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class PreCoolerTests
{
    private static readonly WorkingFluid Propane = WorkingFluid.Pure("propane");
    private static readonly WorkingFluid Glide = WorkingFluid.Mixture(("propane", 0.5), ("isobutane", 0.5));
    private static readonly WorkingFluid Charge = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));
    private static readonly Temperature Room = Temperature.FromDegreesCelsius(25);
    private static readonly VolumeFlow Fan = VolumeFlow.FromCubicMetersPerHour(600);

    private static AmbientCooler Condenser(double wattsPerKelvin) => AmbientCooler.ByAir(
        new(Power.FromWatts(15 * wattsPerKelvin), Temperature.FromDegreesCelsius(40), Temperature.FromDegreesCelsius(25), Fan), Fan);

    private static Compressor Small(double litersPerSecond = 0.4) =>
        new(VolumeFlow.FromLitersPerSecond(litersPerSecond), new(0.03, 0.02, 0.9), CompressorClass.SmallHermeticReciprocating.Efficiency, 0.2);

    private static PreCooler Machine(WorkingFluid refrigerant, double evaporator = 40, double condenser = 60, double litersPerSecond = 0.4) =>
        new(refrigerant, Small(litersPerSecond), Condenser(condenser), evaporator, TemperatureDelta.FromKelvins(5), TemperatureDelta.FromKelvins(2));

    private static State Stream() => Charge.At(Temperature.FromKelvins(300), Pressure.FromBars(17));

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void ItClosesByStatesOfTheirOwn(bool isBlend)
    {
        WorkingFluid refrigerant = isBlend ? Glide : Propane;
        PreCooler machine = Machine(refrigerant);
        PreCoolerResult result = machine.Cool(Stream(), MolarFlow.FromMolesPerSecond(0.15), Room);
        PreCoolerProof.Hold(machine, result, 0.15, Room);
        Assert.True(result.StreamOutlet.Temperature.Kelvins < 285);

        // The superheat and subcooling asked for.
        Assert.Equal(5, (result.Compression.Suction.Temperature - refrigerant.DewPoint(result.EvaporatingPressure).Temperature).Kelvins, 1e-6);
        Assert.Equal(2, (refrigerant.BubblePoint(result.CondensingPressure).Temperature - result.Condensing.Outlet.Temperature).Kelvins, 1e-6);
        Assert.Equal(11, result.ToTable().Rows.Count);
        Assert.Equal(
            ["Cold liquid can be shut in", "Flammable charge", "High-side relief", "Opening or brazing a charged circuit"], result.Cautions.Select(c => c.Title).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void BiggerPartsDoWhatBiggerPartsDo()
    {
        PreCoolerResult plain = Machine(Propane).Cool(Stream(), MolarFlow.FromMolesPerSecond(0.15), Room);
        PreCoolerResult evaporator = Machine(Propane, evaporator: 80).Cool(Stream(), MolarFlow.FromMolesPerSecond(0.15), Room);
        PreCoolerResult condenser = Machine(Propane, condenser: 120).Cool(Stream(), MolarFlow.FromMolesPerSecond(0.15), Room);
        PreCoolerResult compressor = Machine(Propane, litersPerSecond: 0.6).Cool(Stream(), MolarFlow.FromMolesPerSecond(0.15), Room);
        PreCoolerResult winter = Machine(Propane).Cool(Stream(), MolarFlow.FromMolesPerSecond(0.15), Temperature.FromDegreesCelsius(5));
        Assert.True(evaporator.EvaporatingPressure > plain.EvaporatingPressure && evaporator.Duty > plain.Duty);
        Assert.True(condenser.CondensingPressure < plain.CondensingPressure && condenser.Duty > plain.Duty);
        Assert.True(compressor.EvaporatingPressure < plain.EvaporatingPressure && compressor.Duty > plain.Duty);
        Assert.True(winter.CondensingPressure < plain.CondensingPressure && winter.CoefficientOfPerformance > plain.CoefficientOfPerformance);
    }

    [Fact]
    public void TheChargeIsBetweenItsBoundsAndFollowsTheVolumes()
    {
        PreCoolerResult result = Machine(Propane).Cool(Stream(), MolarFlow.FromMolesPerSecond(0.15), Room);
        Volume liter = Volume.FromLiters(0.2);
        PreCoolerCharge charge = result.Charge(new(liter, Volume.FromLiters(0.05), liter, Volume.FromLiters(1.5)));
        Assert.True(charge.Total.Least < charge.Total.Nominal && charge.Total.Nominal < charge.Total.Greatest);
        Assert.Equal(0.05e-3 * result.Condensing.Outlet.Density.KilogramsPerCubicMeter, charge.LiquidLine.Kilograms, 1e-9);
        Assert.Equal(1.5e-3 * result.Compression.Suction.Density.KilogramsPerCubicMeter, charge.Vapor.Kilograms, 1e-9);
        Assert.Equal(charge.Total.Nominal.Kilograms, (charge.Condenser + charge.Evaporator + charge.LiquidLine + charge.Vapor).Kilograms, 1e-9);

        // Neither all vapour nor all liquid.
        Assert.InRange(charge.Evaporator.Kilograms, 0.2e-3 * result.Compression.Suction.Density.KilogramsPerCubicMeter, 0.2e-3 * 600);
        Assert.InRange(charge.Condenser.Kilograms, 0.2e-3 * result.Compression.Discharge.Density.KilogramsPerCubicMeter, 0.2e-3 * 600);
        Assert.Equal("evaporator", Assert.Throws<ArgumentOutOfRangeException>(() => new PreCoolerVolumes(liter, liter, -liter, liter)).ParamName);
    }

    [Fact]
    public void EachObstacleIsNamed()
    {
        MolarFlow flow = MolarFlow.FromMolesPerSecond(0.15);
        Assert.Equal(PreCoolerObstacle.CondenserTooSmall, Refused(Machine(Propane, condenser: 1), Stream(), flow, Room));
        Assert.Equal(PreCoolerObstacle.CondenserTooSmall, Refused(Machine(WorkingFluid.Pure("ethane")), Stream(), flow, Temperature.FromDegreesCelsius(35)));
        State cold = Charge.At(Temperature.FromKelvins(160), Pressure.FromBars(17));
        Assert.Equal(PreCoolerObstacle.StreamTooCold, Refused(Machine(Propane), cold, flow, Room));
        State warm = Charge.At(Temperature.FromKelvins(330), Pressure.FromBars(17));
        Assert.Equal(PreCoolerObstacle.MediumTooCold, Refused(Machine(Propane, evaporator: 2000, litersPerSecond: 0.01), warm, MolarFlow.FromMolesPerSecond(10), Temperature.FromDegreesCelsius(0)));
        Assert.Equal("superheat", Assert.Throws<ArgumentOutOfRangeException>(() => new PreCooler(Propane, Small(), Condenser(60), 40, TemperatureDelta.FromKelvins(-1))).ParamName);
        Assert.Equal("flow", Assert.Throws<ArgumentOutOfRangeException>(() => Machine(Propane).Cool(Stream(), MolarFlow.Zero, Room)).ParamName);
    }

    /// <summary>The first cases of the soak, and those that failed once.</summary>
    [Fact]
    public void RandomPreCoolersCloseOrTellWhyNot()
    {
        SoakOutcome[] outcomes =
        [
            .. Enumerable.Range(0, 25).Select(i => PreCoolerSoak.Run(1, i)),

            // An evaporator of 470 transfer units, and one beside a condenser with a pinch inside: rounding decided about them.
            PreCoolerSoak.Run(2, 39),
            PreCoolerSoak.Run(2, 23),
        ];
        Assert.Empty(outcomes.Select(o => o.Failure).OfType<string>());
        Assert.True(outcomes.Count(o => o.Phases > 0) >= 8);
    }

    [Fact]
    public void PartsFarTooLargeReachWhatTheyCan()
    {
        // More conductance than counts: the liquid leaves at the water's temperature, the stream at that of the boiling refrigerant.
        AmbientCooler water = AmbientCooler.ByWater(3000, MassFlow.FromKilogramsPerSecond(1));
        PreCoolerResult large = Cooled(1e5);
        Assert.True(large.Evaporator.Pinch.Approach.Kelvins < 0.02);
        Assert.True(large.Evaporator.ConductanceWattsPerKelvin <= 1e5 * 1.001);
        Assert.Equal(Room.Kelvins, large.Condensing.Outlet.Temperature.Kelvins, 0.011);
        Assert.Equal(1, (double)(large.Duty.Watts / Cooled(1000).Duty.Watts), 1e-3);

        PreCoolerResult Cooled(double evaporator) => new PreCooler(Propane, Small(), water, evaporator, TemperatureDelta.FromKelvins(5), TemperatureDelta.FromKelvins(2))
            .Cool(Stream(), MolarFlow.FromMolesPerSecond(0.01), Room);
    }

    [Fact]
    public void ABathBoilsOffWhatTheStreamGives()
    {
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");
        BathPreCooler bath = new(nitrogen, Pressure.FromBars(1.05), 8, Power.FromWatts(5));
        State stream = WorkingFluid.Pure("methane").At(Temperature.FromKelvins(295), Pressure.FromBars(5));
        BathPreCooler warmer = new(WorkingFluid.Pure("ethylene"), Pressure.FromBars(1.05), 8);
        BathPreCoolerResult methane = warmer.Cool(stream, MolarFlow.FromMolesPerSecond(0.05));
        Assert.Contains(methane.Cautions, c => c.Title == "Flammable gas boils off");

        State argon = WorkingFluid.Pure("argon").At(Temperature.FromKelvins(295), Pressure.FromBars(2));
        BathPreCoolerResult result = bath.Cool(argon, MolarFlow.FromMolesPerSecond(0.02));
        Saturation boiling = nitrogen.Saturation(Pressure.FromBars(1.05));
        Assert.Equal(boiling.Temperature.Kelvins, result.BathTemperature.Kelvins, 1e-9);
        State outlet = result.Outlet.Fluid.AtEnthalpy(Pressure.FromBars(2), result.Outlet.MolarEnthalpy);
        double heat = 0.02 * (argon.MolarEnthalpy - outlet.MolarEnthalpy).JoulesPerMole;
        Assert.Equal(heat, (double)result.Duty.Watts, 1e-6 * heat);
        double boiled = (heat + 5) / (boiling.EnthalpyOfVaporization.JoulesPerMole / 28.0134e-3);
        Assert.Equal(boiled, result.BoilOff.KilogramsPerSecond, 1e-4 * boiled);

        // 1 L of liquid nitrogen gives 0.68 to 0.70 m3 of gas at 20 degC (any table: 808 and 1.165 kg/m3).
        Assert.InRange(result.GasVented / result.LiquidUse, 680, 700);
        Assert.True(result.EntropyProductionPerSecond.JoulesPerKelvin > 0);
        Assert.Equal(2e-3 / result.LiquidUse.CubicMetersPerSecond, result.LastsFor(Volume.FromLiters(2)).Seconds, 1e-6);
        Assert.Contains(result.Cautions, c => c.Title == "Gas from the bath fills the room");

        // A conductance without end brings the gas to the bath's temperature.
        BathPreCoolerResult perfect = new BathPreCooler(nitrogen, Pressure.FromBars(1.05), 1e5).Cool(nitrogen.At(Temperature.FromKelvins(295), Pressure.FromBars(0.9)), MolarFlow.FromMolesPerSecond(0.02));
        Assert.Equal(boiling.Temperature.Kelvins, perfect.Outlet.Temperature.Kelvins, 0.02);
        Assert.Throws<InvalidOperationException>(() => new BathPreCooler(Charge, Pressure.FromBars(1), 8));
        Assert.Equal("stream", Assert.Throws<ArgumentOutOfRangeException>(() => bath.Cool(nitrogen.At(Temperature.FromKelvins(70), Pressure.FromBars(2)), MolarFlow.FromMolesPerSecond(1))).ParamName);
    }

    private static PreCoolerObstacle Refused(PreCooler machine, State stream, MolarFlow flow, Temperature medium) =>
        Assert.Throws<PreCoolerRefusedException>(() => machine.Cool(stream, flow, medium)).Obstacle;
}
