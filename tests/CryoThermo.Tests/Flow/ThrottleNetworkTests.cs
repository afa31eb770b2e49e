using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Tests.Flow;

public sealed class ThrottleNetworkTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("methane", 0.4), ("ethane", 0.3), ("propane", 0.3)).WithModel(FluidModel.PengRobinson);

    private static readonly State Cold = Blend.At(Temperature.FromKelvins(160), Pressure.FromBars(20));
    private static readonly State Warm = Blend.At(Temperature.FromKelvins(300), Pressure.FromBars(20));
    private static readonly Pressure Low = Pressure.FromBars(2);

    [Fact]
    public void PartsInSeriesPassTheSameFlowAndShareTheDrop()
    {
        Capillary capillary = Tube(0.7, 1.5);
        ControlValve valve = new(0.01, ValveStyle.Needle);
        SeriesFlow flow = new ThrottleSeries(valve, capillary).FlowTo(Cold, Low);
        State between = flow.Parts[1].Inlet;
        Assert.Equal(1, valve.FlowTo(Cold, between.Pressure).MassFlow / flow.MassFlow, 1e-6);
        Assert.Equal(1, capillary.FlowTo(between, Low).MassFlow / flow.MassFlow, 1e-6);
        Assert.Equal(Cold.MolarEnthalpy.JoulesPerMole, between.MolarEnthalpy.JoulesPerMole, 1e-3);
        Assert.Equal(1, flow.DropShare(0) + flow.DropShare(1), 1e-12);
        Assert.True(flow.MassFlow < valve.FlowTo(Cold, Low).MassFlow);
        Assert.True(flow.MassFlow < capillary.FlowTo(Cold, Low).MassFlow);
        Assert.Equal(1, flow.ChokedPart);

        // Opening the valve shifts the drop to the capillary and brings more flow.
        SeriesFlow opened = new ThrottleSeries(new ControlValve(0.03, ValveStyle.Needle), capillary).FlowTo(Cold, Low);
        Assert.True(opened.DropShare(0) < flow.DropShare(0));
        Assert.True(opened.MassFlow > flow.MassFlow);
        Assert.Contains("share of the drop", flow.ToTable().ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void TwoCapillariesInSeriesAreOneWithAJunctionAtRest()
    {
        double joined = new Capillary([new(Length.FromMillimeters(0.7), Length.FromMeters(1)), new(Length.FromMillimeters(0.7), Length.FromMeters(1))])
            .FlowTo(Warm, Low).MassFlow.GramsPerSecond;
        double apart = new ThrottleSeries(Tube(0.7, 1), Tube(0.7, 1)).FlowTo(Warm, Low).MassFlow.GramsPerSecond;

        // At rest between them the velocity head is lost: one and a half heads of a tube of some forty.
        Assert.InRange(apart / joined, 0.95, 0.9999);
    }

    [Fact]
    public void BranchesAddUp()
    {
        ControlValve valve = new(0.01, ValveStyle.Needle);
        BranchFlow flow = new ThrottleBranches(valve, Tube(0.5, 2)).FlowTo(Cold, Low);
        Assert.Equal(1, (valve.FlowTo(Cold, Low).MassFlow + Tube(0.5, 2).FlowTo(Cold, Low).MassFlow) / flow.MassFlow, 1e-12);
        Assert.Equal(1, flow.FlowShare(0) + flow.FlowShare(1), 1e-12);
        Assert.Throws<ArgumentException>(() => new ThrottleBranches(valve));
        Assert.Throws<ArgumentException>(() => new ThrottleSeries(valve));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ThrottleSeries(valve, valve).FlowTo(Cold, Pressure.FromBars(21)));
    }

    [Fact]
    public void AnOilReturnStarvesOrStealsAsItsBoreSays()
    {
        State separator = Blend.At(Temperature.FromDegreesCelsius(60), Pressure.FromBars(18));
        MassFlow delivered = MassFlow.FromGramsPerSecond(1);
        MassFlow oil = MassFlow.FromGramsPerSecond(0.02);
        OilReturn wide = new(Tube(0.8, 1), Density.FromKilogramsPerCubicMeter(950), DynamicViscosity.FromMillipascalSeconds(10));
        OilReturnResult much = wide.Evaluate(separator, Low, delivered, oil);
        Assert.False(much.IsStarving);
        Assert.InRange(much.StolenShare, 0.1, 1);

        // Hagen and Poiseuille, with the heads at the inlet and of the velocity left out.
        double laminar = Math.PI * 950 * Math.Pow(0.8e-3, 4) * 16e5 / (128 * 0.01 * 1);
        Assert.InRange(much.OilCapacity.KilogramsPerSecond / laminar, 0.9, 1);
        Assert.Equal(oil / much.OilCapacity, much.OilTimeShare, 1e-9);
        Assert.Equal((1 - much.OilTimeShare) * much.GasFlow.MassFlow.KilogramsPerSecond, much.StolenFlow.KilogramsPerSecond, 1e-12);

        OilReturn narrow = new(Tube(0.15, 1), wide.OilDensity, wide.OilViscosity);
        Assert.True(narrow.Evaluate(separator, Low, delivered, oil).IsStarving);
        OilReturn fitting = wide.WithBoreFor(separator.Pressure - Low, oil, margin: 2);
        OilReturnResult little = fitting.Evaluate(separator, Low, delivered, oil);
        Assert.Equal(2, little.OilCapacity / oil, 1e-6);
        Assert.Equal(0.5, little.OilTimeShare, 1e-6);
        Assert.True(little.StolenShare < much.StolenShare);

        // Open for a tenth of the time the same bore steals a tenth of the gas and brings back a tenth of the oil.
        OilReturnResult timed = new OilReturn(wide.Line, wide.OilDensity, wide.OilViscosity, 0.1).Evaluate(separator, Low, delivered, MassFlow.Zero);
        Assert.Equal(0.1, timed.StolenFlow / much.GasFlow.MassFlow, 1e-9);
        Assert.Equal(0.1, timed.OilCapacity / much.OilCapacity, 1e-9);
        Assert.Throws<ArgumentOutOfRangeException>(() => wide.WithBoreFor(Pressure.FromBars(16), MassFlow.FromKilogramsPerSecond(50)));
    }

    [Fact]
    public void ASizedCapillaryCarriesItsTolerancesAndTheWarmStart()
    {
        MassFlow flow = MassFlow.FromGramsPerSecond(0.4);
        State inlet = Blend.At(Temperature.FromKelvins(230), Pressure.FromBars(20));
        CapillarySizing sizing = CapillarySizing.ForLength(
            Length.FromMillimeters(0.7), inlet, Low, flow, warmInlet: Warm, warmDelivery: MassFlow.FromGramsPerSecond(0.9), greatestPressure: Pressure.FromBars(25));
        Assert.Equal(1, sizing.Nominal.Capillary.FlowTo(inlet, Low).MassFlow / flow, 2e-5);
        Assert.Equal(0.02, sizing.BoreTolerance.Millimeters, 1e-12);

        // The flow goes about with the 2.5th power of the bore.
        Assert.InRange(Math.Log(sizing.GreatestFlow / sizing.LeastFlow) / Math.Log(0.72 / 0.68), 2.2, 3);
        Assert.True(sizing.LeastLength < sizing.Nominal.Capillary.Length && sizing.Nominal.Capillary.Length < sizing.GreatestLength);
        Assert.Equal(3, sizing.FlowsByViscosityRule.Count);
        Assert.All(sizing.FlowsByViscosityRule, m => Assert.InRange(m / flow, 0.7, 1.2));

        WarmStart warm = sizing.WarmStart!;
        Assert.InRange(warm.FlowShare, 0.2, 0.9);
        Assert.True(warm.IsWarmMachineChoked);
        Assert.Contains(warm.Cautions, c => c.Title == "The throttle chokes the warm machine" && c.Advice.EndsWith(Caution.Deference, StringComparison.Ordinal));
        Assert.Contains("chokes the warm machine", sizing.ToTable().ToString(), StringComparison.Ordinal);

        WarmStart eased = WarmStart.Of(Tube(2, 0.5), inlet, Warm, Low, MassFlow.FromGramsPerSecond(0.9));
        Assert.False(eased.IsWarmMachineChoked);
        State pressed = Blend.At(Warm.Temperature, eased.PressureNeeded!.Value);
        Assert.Equal(0.9, Tube(2, 0.5).FlowTo(pressed, Low).MassFlow.GramsPerSecond, 0.9 * 5e-4);
    }

    private static Capillary Tube(double bore, double length) => new(Length.FromMillimeters(bore), Length.FromMeters(length));
}
