using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Tests.Flow;

public sealed class CapillaryTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("methane", 0.4), ("ethane", 0.3), ("propane", 0.3));

    public static TheoryData<double, double, double> Cases => new()
    {
        { 0.7, 1.5, 300 },
        { 1.2, 2.5, 300 },
        { 0.7, 1.5, 220 },
        { 1.2, 2.5, 220 },
        { 0.7, 1.5, 150 },
        { 1.2, 2.5, 150 },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void EnergyMomentumAndChokeHoldByStatesOfTheirOwn(double bore, double length, double temperature)
    {
        State inlet = Blend.At(Temperature.FromKelvins(temperature), Pressure.FromBars(20));
        CapillaryFlow flow = new Capillary(Length.FromMillimeters(bore), Length.FromMeters(length)).FlowTo(inlet, Pressure.FromBars(2));
        double area = 0.25e-6 * Math.PI * bore * bore;
        double flux = flow.MassFlow.KilogramsPerSecond / area;

        // Every point: h + V^2/2 is that of the inlet at the pressure and temperature told, and the continuity holds.
        double[] force = new double[flow.Profile.Count];
        for (int i = 0; i < flow.Profile.Count; i++)
        {
            CapillaryPoint point = flow.Profile[i];
            State state = Blend.At(point.Temperature, point.Pressure);
            double v = point.Velocity.MetersPerSecond;
            Assert.Equal(inlet.SpecificEnthalpy.JoulesPerKilogram, state.SpecificEnthalpy.JoulesPerKilogram + (0.5 * v * v), 60.0);
            Assert.Equal(1, state.Density.KilogramsPerCubicMeter * v / flux, 3e-3);
            double whole = Blend.Composition.MolarMass.KilogramsPerMole;
            double viscosity = 1 / state.Phases.Sum(p => p.Fraction * p.Composition.MolarMass.KilogramsPerMole / whole / Viscosity(p, state.Temperature));
            force[i] = FrictionFactor.Churchill(flux * bore * 1e-3 / viscosity, 1e-6 / (bore * 1e-3)) * flux * v / (2e-3 * bore);
        }

        // Over the whole tube: pressure drop = friction + acceleration, the friction summed by trapezia over the states told.
        double friction = 0;
        for (int i = 1; i < flow.Profile.Count; i++)
        {
            friction += 0.5 * (force[i] + force[i - 1]) * (flow.Profile[i].Position - flow.Profile[i - 1].Position).Meters;
        }

        CapillaryPoint first = flow.Profile[0];
        CapillaryPoint last = flow.Profile[^1];
        double drop = first.Pressure.Pascals - last.Pressure.Pascals;
        double acceleration = flux * (last.Velocity.MetersPerSecond - first.Velocity.MetersPerSecond);
        Assert.Equal(1, (friction + acceleration) / drop, 0.01);
        Assert.Equal(length, last.Position.Meters, 1e-9);

        Assert.True(flow.IsChoked);
        Assert.True(flow.Exit.Pressure > flow.OutletPressure);
        Assert.Equal(1, last.Velocity.MetersPerSecond / flow.Exit.EquilibriumSpeedOfSound!.Value.MetersPerSecond, 5e-3);
        Assert.Equal(inlet.MolarEnthalpy.JoulesPerMole, flow.Outlet.MolarEnthalpy.JoulesPerMole, 0.01);
        Assert.True(flow.Exit.MolarEntropy.JoulesPerMoleKelvin > inlet.MolarEntropy.JoulesPerMoleKelvin);
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void FlowIsOrderedByBoreLengthAndPressure(double bore, double length, double temperature)
    {
        double flow = Of(bore, length, temperature, 20, 2);
        Assert.True(Of(bore * 1.05, length, temperature, 20, 2) > flow * 1.08);
        Assert.True(Of(bore, length * 1.1, temperature, 20, 2) < flow * 0.99);
        Assert.True(Of(bore, length, temperature, 21, 2) > flow * 1.01);

        // Choked at 2 bar: a higher outlet pressure brings less, a lower one no more.
        Assert.Equal(1, Of(bore, length, temperature, 20, 1) / flow, 1e-5);
        Assert.True(Of(bore, length, temperature, 20, 12) < flow);

        // Friction only takes away: never more than a nozzle of the bore passes at most.
        State inlet = Blend.At(Temperature.FromKelvins(temperature), Pressure.FromBars(20));
        double most = new HomogeneousNozzle(inlet).Choked.Flux.KilogramsPerSecondPerSquareMeter * 0.25e-6 * Math.PI * bore * bore * 1e3;
        Assert.True(flow < most);
        Assert.InRange(Of(bore, 1e-3, temperature, 20, 2) / most, 0.6, 1);
    }

    [Fact]
    public void EachOfFlowLengthBoreAndPressuresFollowsFromTheOthers()
    {
        State inlet = Blend.At(Temperature.FromKelvins(240), Pressure.FromBars(20));
        Pressure outlet = Pressure.FromBars(4);
        Capillary capillary = new(Length.FromMillimeters(0.7), Length.FromMeters(1.5));
        MassFlow flow = capillary.FlowTo(inlet, outlet).MassFlow;
        Assert.Equal(4, capillary.OutletPressureFor(inlet, flow).OutletPressure.Bars, 1e-3);
        Assert.Equal(1.5, new Capillary(Length.FromMillimeters(0.7), Length.FromMeters(4)).LengthFor(inlet, outlet, flow).Capillary.Length.Meters, 1e-5);
        Assert.Equal(0.7, new Capillary(Length.FromMillimeters(1.1), Length.FromMeters(1.5)).BoreFor(inlet, outlet, flow).Capillary.Sections[0].Bore.Millimeters, 1e-5);
        CapillaryFlow pressed = capillary.InletPressureFor(Blend, Temperature.FromKelvins(240), outlet, flow, Pressure.FromBars(30));
        Assert.Equal(20, pressed.Inlet.Pressure.Bars, 1e-4);
    }

    [Fact]
    public void StretchesInSeriesPassLessThanEachAndAsMuchAsOneOfTheirSum()
    {
        State inlet = Blend.At(Temperature.FromKelvins(240), Pressure.FromBars(20));
        Pressure outlet = Pressure.FromBars(4);
        double whole = new Capillary(Length.FromMillimeters(0.7), Length.FromMeters(1.5)).FlowTo(inlet, outlet).MassFlow.GramsPerSecond;
        double cut = new Capillary([Stretch(0.7, 0.5), Stretch(0.7, 1)]).FlowTo(inlet, outlet).MassFlow.GramsPerSecond;
        Assert.Equal(1, cut / whole, 1e-5);

        double narrow = new Capillary([Stretch(0.6, 1)]).FlowTo(inlet, Pressure.FromBars(1.5)).MassFlow.GramsPerSecond;
        CapillaryFlow widened = new Capillary([Stretch(0.6, 1), Stretch(1.2, 0.2)]).FlowTo(inlet, Pressure.FromBars(1.5));
        CapillaryFlow narrowed = new Capillary([Stretch(1.2, 0.2), Stretch(0.6, 1)]).FlowTo(inlet, Pressure.FromBars(1.5));

        // The wide stretch behind chokes nothing: the narrow one chokes at its own end. Before it, it takes a little.
        Assert.Equal(0, widened.ChokedSection);
        Assert.Equal(1, widened.MassFlow.GramsPerSecond / narrow, 1e-5);
        Assert.Equal(1, narrowed.ChokedSection);
        Assert.InRange(narrowed.MassFlow.GramsPerSecond / narrow, 0.97, 0.9999);
    }

    [Fact]
    public void LiquidBoilsWhereItsPressureComesToTheBubblePoint()
    {
        State inlet = Blend.At(Temperature.FromKelvins(150), Pressure.FromBars(20));
        CapillaryFlow flow = new Capillary(Length.FromMillimeters(0.7), Length.FromMeters(1.5)).FlowTo(inlet, Pressure.FromBars(2));
        Assert.InRange(flow.LiquidLength!.Value.Meters, 1.3, 1.5);
        CapillaryPoint boiling = flow.Profile.Last(p => p.VaporMassFraction == 0);
        Assert.Equal(1, boiling.Pressure / Blend.BubblePoint(boiling.Temperature).Pressure, 1e-3);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void HeatToAStreamAlongsideIsWhatThatStreamTakesUp(bool isCounterFlow)
    {
        State inlet = Blend.At(Temperature.FromKelvins(240), Pressure.FromBars(20));
        State stream = Blend.At(Temperature.FromKelvins(130), Pressure.FromBars(2));
        MassFlow streamFlow = MassFlow.FromGramsPerSecond(0.6);
        Capillary alone = new(Length.FromMillimeters(0.7), Length.FromMeters(1.5));
        Capillary beside = new(alone.Sections, exchange: new(stream, streamFlow, 0.5, isCounterFlow));
        CapillaryFlow flow = beside.FlowTo(inlet, Pressure.FromBars(4));
        double taken = (flow.StreamOutlet!.SpecificEnthalpy - stream.SpecificEnthalpy).JoulesPerKilogram * streamFlow.KilogramsPerSecond;
        Assert.Equal(-(double)flow.HeatTakenUp.Watts, taken, 0.02 * taken);
        Assert.InRange(taken, 30, 100);
        Assert.True(flow.StreamOutlet.Temperature.Kelvins < 240);

        // Colder in it is denser, and more passes.
        Assert.True(flow.MassFlow > alone.FlowTo(inlet, Pressure.FromBars(4)).MassFlow);
        Assert.Throws<ConvergenceException>(() => new Capillary(alone.Sections, exchange: new(stream, streamFlow, 500, isCounterFlow)).FlowTo(inlet, Pressure.FromBars(4)));
    }

    [Fact]
    public void HeatAlongsideIsFollowedWhereThePressureHardlyFalls()
    {
        WorkingFluid argon = WorkingFluid.Pure("argon").WithModel(FluidModel.PengRobinson);
        State inlet = argon.At(Temperature.FromKelvins(177.85), Pressure.FromBars(2.398));
        Pressure outlet = Pressure.FromBars(1.50484);
        CapillaryExchange stream = new(argon.At(Temperature.FromKelvins(120), outlet), MassFlow.FromGramsPerSecond(1), 0.1);
        CapillaryFlow flow = new Capillary([Stretch(1.99287, 2.41766), Stretch(3.12814, 1.20883)], exchange: stream).FlowTo(inlet, outlet);
        Assert.Equal(flow.Exit.Temperature.Kelvins, flow.Profile[^1].Temperature.Kelvins, 0.3);
    }

    [Fact]
    public void FiguresOutOfRangeAreNamed()
    {
        State inlet = Blend.At(Temperature.FromKelvins(240), Pressure.FromBars(20));
        Capillary capillary = new(Length.FromMillimeters(0.7), Length.FromMeters(1.5));
        Assert.Contains("outletPressure is 2100000 Pa", Assert.Throws<ArgumentOutOfRangeException>(() => capillary.FlowTo(inlet, Pressure.FromBars(21))).Message, StringComparison.Ordinal);
        Assert.Contains("bore is 0.01 mm", Assert.Throws<ArgumentOutOfRangeException>(() => new Capillary(Length.FromMillimeters(0.01), Length.FromMeters(1))).Message, StringComparison.Ordinal);
        Assert.Contains("sections holds 0", Assert.Throws<ArgumentException>(() => new Capillary([])).Message, StringComparison.Ordinal);
        ArgumentOutOfRangeException more = Assert.Throws<ArgumentOutOfRangeException>(() => capillary.OutletPressureFor(inlet, MassFlow.FromGramsPerSecond(5)));
        Assert.Contains("at most 0.5", more.Message, StringComparison.Ordinal);
        Assert.Contains("a wider bore", Assert.Throws<ArgumentOutOfRangeException>(() => capillary.LengthFor(inlet, Pressure.FromBars(2), MassFlow.FromGramsPerSecond(500))).Message, StringComparison.Ordinal);
    }

    private static CapillarySection Stretch(double bore, double length) => new(Length.FromMillimeters(bore), Length.FromMeters(length));

    private static double Of(double bore, double length, double temperature, double high, double low) =>
        new Capillary(Length.FromMillimeters(bore), Length.FromMeters(length))
            .FlowTo(Blend.At(Temperature.FromKelvins(temperature), Pressure.FromBars(high)), Pressure.FromBars(low)).MassFlow.GramsPerSecond;

    private static double Viscosity(Phase phase, Temperature temperature) =>
        Blend.TransportKernel.Viscosity(temperature.Kelvins, phase.MolarDensity.MolesPerCubicMeter, phase.Composition.Fractions);
}
