using CryoThermo.HeatTransfer;
using CryoThermo.Machines;
using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Machines;

public sealed class TubeRecuperatorTests(ITestOutputHelper output)
{
    private static readonly SolidMaterial Copper = SolidMaterial.Named("copper RRR 50");
    private static readonly SolidMaterial Steel = SolidMaterial.Named("stainless steel 304");
    private static readonly MassFlow Flow = MassFlow.FromGramsPerSecond(1.6);

    private static readonly WorkingFluid Blend = WorkingFluid
        .Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18))
        .WithModel(FluidModel.PengRobinson);

    private static readonly RecuperatorStreams Bench = StreamsOf(Blend);

    /// <summary>Inner tube outside, outer tube outside (walls 0.8 mm), length; straight or coiled, one tube or several.</summary>
    public static TheoryData<double, double, double, int, bool> Exchangers() => new()
    {
        { 6, 12.7, 3, 1, true },
        { 6, 12.7, 20, 1, true },
        { 4, 9.5, 15, 1, false },
        { 3, 15, 6, 7, true },
    };

    // Heun's method in 400 steps over the length, every state by its own flash, every film from the front of the passages. Without conduction along the
    // metal, so of steel, where that is 0.1 W.
    [Theory]
    [MemberData(nameof(Exchangers))]
    public void AFineMarchAgrees(double tube, double shell, double length, int count, bool isCoiled)
    {
        TubeRecuperator exchanger = Of(tube, shell, length, count, isCoiled, Steel);
        TubeRecuperatorRating rating = exchanger.Rate(Bench);
        const int Steps = 400;
        double dz = length / Steps;
        double flow = Flow.KilogramsPerSecond;
        double hotFlux = flow / (exchanger.HotTubes * exchanger.HotPassage.FlowArea.SquareMeters);
        double coldFlux = flow / exchanger.ColdPassage.FlowArea.SquareMeters;
        double[] now =
        [
            Bench.HotInlet.SpecificEnthalpy.JoulesPerKilogram, Bench.HotInlet.Pressure.Pascals,
            rating.ColdOutlet.SpecificEnthalpy.JoulesPerKilogram, rating.ColdOutlet.Pressure.Pascals,
        ];
        (double Heat, double HotFriction, double ColdFriction, double HotVolume, double ColdVolume) here = At(now);
        double exchanged = 0;
        for (int i = 0; i < Steps; i++)
        {
            var next = At([now[0] - (here.Heat * dz / flow), now[1] - (here.HotFriction * dz), now[2] - (here.Heat * dz / flow), now[3] + (here.ColdFriction * dz)]);
            double heat = 0.5 * (here.Heat + next.Heat) * dz;
            exchanged += heat;
            now =
            [
                now[0] - (heat / flow),
                now[1] - (0.5 * (here.HotFriction + next.HotFriction) * dz) - (hotFlux * hotFlux * (next.HotVolume - here.HotVolume)),
                now[2] - (heat / flow),
                now[3] + (0.5 * (here.ColdFriction + next.ColdFriction) * dz) - (coldFlux * coldFlux * (next.ColdVolume - here.ColdVolume)),
            ];
            here = At(now);
        }

        double duty = (double)rating.Duty.Nominal.Watts;
        double missed = flow * (now[2] - Bench.ColdInlet.SpecificEnthalpy.JoulesPerKilogram);
        double hotDrop = Bench.HotInlet.Pressure.Pascals - now[1];
        double coldDrop = now[3] - rating.ColdOutlet.Pressure.Pascals;
        output.WriteLine($"duty {duty:F3} W, march {exchanged:F3} W, cold inlet missed by {missed:F3} W; drops {rating.HotPressureDrop.Nominal.Pascals:F0} and {rating.ColdPressureDrop.Nominal.Pascals:F0} Pa, march {hotDrop:F0} and {coldDrop:F0} Pa");
        Assert.Equal(1, exchanged / duty, 1e-3);
        Assert.True(Math.Abs(missed) < 1e-3 * duty);
        Assert.Equal(1, rating.HotPressureDrop.Nominal.Pascals / hotDrop, 2e-3);
        Assert.Equal(1, rating.ColdPressureDrop.Nominal.Pascals / coldDrop, 2e-3);

        (double Heat, double HotFriction, double ColdFriction, double HotVolume, double ColdVolume) At(double[] x)
        {
            State hot = StateAt(x[0], x[1]);
            State cold = StateAt(x[2], x[3]);
            PassageFilm hotFilm = exchanger.HotPassage.Film(hot, Flow / exchanger.HotTubes, HeatDirection.Cooled, exchanger.Length);
            PassageFilm coldFilm = exchanger.ColdPassage.Film(cold, Flow, HeatDirection.Heated, exchanger.Length);
            double bore = tube - 1.6;
            double wall = Math.Log(tube / bore) / (2 * Math.PI * count * Steel.ConductivityAt(Temperature.FromKelvins(0.5 * (hot.Temperature.Kelvins + cold.Temperature.Kelvins))).WattsPerMeterKelvin);
            double resistance = (1 / (hotFilm.Coefficient.WattsPerSquareMeterKelvin * count * exchanger.HotPassage.HeatedPerimeter.Meters))
                + wall
                + (1 / (coldFilm.Coefficient.WattsPerSquareMeterKelvin * exchanger.ColdPassage.HeatedPerimeter.Meters));
            return (
                (hot.Temperature.Kelvins - cold.Temperature.Kelvins) / resistance,
                hotFilm.FrictionPascalsPerMeter,
                coldFilm.FrictionPascalsPerMeter,
                1 / hot.Density.KilogramsPerCubicMeter,
                1 / cold.Density.KilogramsPerCubicMeter);
        }
    }

    [Fact]
    public void ItsConductanceOnIsobarsExchangesTheSame()
    {
        // Wide passages, so that the pressures hardly fall; whatever the films do along it, the integral of dq over the difference is UA.
        TubeRecuperatorRating rating = Of(10, 22, 12).Rate(Bench);
        MolarFlow moles = MolarFlow.FromMolesPerSecond(Flow.KilogramsPerSecond / Blend.Composition.MolarMass.KilogramsPerMole);
        Recuperator onIsobars = new(
            Blend.Isobar(Bench.HotInlet.Pressure, Temperature.FromKelvins(100), Temperature.FromKelvins(299)),
            moles,
            Bench.HotInlet.Temperature,
            Blend.Isobar(Bench.ColdInlet.Pressure, Temperature.FromKelvins(100), Temperature.FromKelvins(299)),
            moles,
            Bench.ColdInlet.Temperature);
        RecuperatorResult same = onIsobars.WithConductance(rating.ConductanceWattsPerKelvin.Nominal);
        output.WriteLine($"{rating.Duty.Nominal.Watts:F3} W, on isobars {same.Duty.Watts:F3} W; drops {rating.HotPressureDrop.Nominal.Millibars:F2} and {rating.ColdPressureDrop.Nominal.Millibars:F2} mbar");
        Assert.Equal(1, (double)(rating.Duty.Nominal.Watts / same.Duty.Watts), 1e-3);
        Assert.Equal(same.Pinch.Approach.Kelvins, rating.Pinch.Approach.Kelvins, 0.5);
        Assert.True(rating.Duty.Nominal < onIsobars.GreatestDuty);
    }

    [Fact]
    public void BothLawsHoldByStatesOfTheirOwn()
    {
        RecuperatorStreams leaky = new(Bench.HotInlet, Flow, Bench.ColdInlet, Flow, new(Temperature.FromKelvins(298), 0.02));
        TubeRecuperatorRating rating = Of(6, 12.7, 10).Rate(leaky);
        double flow = Flow.KilogramsPerSecond;
        State hotOutlet = Blend.AtEnthalpy(rating.HotOutlet.Pressure, rating.HotOutlet.MolarEnthalpy);
        double given = flow * (leaky.HotInlet.SpecificEnthalpy - hotOutlet.SpecificEnthalpy).JoulesPerKilogram;
        double taken = flow * (rating.ColdOutlet.SpecificEnthalpy - leaky.ColdInlet.SpecificEnthalpy).JoulesPerKilogram;
        double leak = (double)rating.HeatFromSurroundings.Watts;
        double produced = flow * (hotOutlet.SpecificEntropy - leaky.HotInlet.SpecificEntropy + rating.ColdOutlet.SpecificEntropy - leaky.ColdInlet.SpecificEntropy).JoulesPerKilogramKelvin;
        output.WriteLine($"given {given:F4}, taken {taken:F4}, leak {leak:F4} W, entropy {produced:F5} W/K");
        Assert.InRange(leak, 5, 40);
        Assert.Equal(0, (taken - given - leak) / given, 1e-5);
        Assert.Equal(1, (double)rating.Duty.Nominal.Watts / given, 1e-6);
        Assert.True(produced - (leak / 298) > 0);
        Assert.Equal(rating.Points[^1].HotTemperature.Kelvins, hotOutlet.Temperature.Kelvins, 0.05);
        Assert.Equal(rating.Points[0].ColdTemperature.Kelvins, rating.ColdOutlet.Temperature.Kelvins, 0.05);
    }

    [Fact]
    public void LeastAndGreatestEncloseAndALengthForADutyExchangesIt()
    {
        TubeRecuperator exchanger = Of(6, 12.7, 10);
        TubeRecuperatorRating rating = exchanger.Rate(Bench);
        output.WriteLine(rating.ToTable().ToString());
        Assert.True(rating.Duty.Least < rating.Duty.Nominal && rating.Duty.Nominal < rating.Duty.Greatest);
        Assert.True(rating.ConductanceWattsPerKelvin.Least < 0.75 * rating.ConductanceWattsPerKelvin.Nominal);
        Assert.True(rating.ConductanceWattsPerKelvin.Greatest > 1.2 * rating.ConductanceWattsPerKelvin.Nominal);
        Assert.True(rating.ColdPressureDrop.Least < rating.ColdPressureDrop.Nominal && rating.ColdPressureDrop.Nominal < rating.ColdPressureDrop.Greatest);
        Assert.Equal(1, rating.Points.Count / 201.0);

        TubeRecuperatorSizing sizing = exchanger.LengthFor(Power.FromWatts(1000), Bench);
        output.WriteLine($"{sizing.Length.Least?.Meters:F3} to {sizing.Length.Nominal?.Meters:F3} to {sizing.Length.Greatest?.Meters:F3} m");
        Assert.True(sizing.Length.Least < sizing.Length.Nominal && sizing.Length.Nominal < sizing.Length.Greatest);
        Assert.Equal(1000, (double)exchanger.WithLength(sizing.Length.Nominal!.Value).Rate(Bench).Duty.Nominal.Watts, 0.2);
        Assert.Equal(1000, (double)sizing.Rating.Duty.Nominal.Watts, 0.01);
    }

    [Fact]
    public void WhatCannotBeIsRefusedWithTheReason()
    {
        ArgumentOutOfRangeException pinched = Assert.Throws<ArgumentOutOfRangeException>(() => Of(6, 12.7, 10).LengthFor(Power.FromWatts(1200), Bench));
        Assert.Contains("come together", pinched.Message, StringComparison.Ordinal);
        ArgumentOutOfRangeException narrow = Assert.Throws<ArgumentOutOfRangeException>(() => Of(2, 12.7, 30).Rate(Bench));
        Assert.Contains("pressure of the stream that is cooled", narrow.Message, StringComparison.Ordinal);
        ArgumentOutOfRangeException swapped = Assert.Throws<ArgumentOutOfRangeException>(() => new RecuperatorStreams(Bench.ColdInlet, Flow, Bench.HotInlet, Flow));
        Assert.Contains("warmer", swapped.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Of(6, 12.7, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Of(6, 6, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RecuperatorSurroundings(Temperature.FromKelvins(300), -1));
    }

    [Fact]
    public void UnequalFlowCostsTheMoreTheMoreUnequalItIs()
    {
        TubeRecuperator exchanger = Of(3, 15, 6, 7);
        FlowMaldistribution none = exchanger.Maldistribution(Bench, 0);
        FlowMaldistribution some = exchanger.Maldistribution(Bench, 0.1);
        FlowMaldistribution much = exchanger.Maldistribution(Bench, 0.3);
        output.WriteLine($"{none.Loss:E2}, {some.Loss:P3}, {much.Loss:P3}; {much.RichOutlet.Kelvins:F1} and {much.PoorOutlet.Kelvins:F1} K");
        Assert.Equal(0, none.Loss, 1e-9);
        Assert.True(some.Loss > 1e-4 && much.Loss > 2 * some.Loss);
        Assert.True(much.RichOutlet > much.PoorOutlet);
    }

    [Fact]
    public void TubesSideBySideAreTheWorseTheWorseTheirJoint()
    {
        TubeWall suction = new(Copper, Length.FromMillimeters(10), Length.FromMillimeters(0.8));
        TubeWall high = new(Copper, Length.FromMillimeters(5), Length.FromMillimeters(0.8));
        double[] duties = [.. new[] { 60, 6, 1.5 }.Select(k => (double)TubeRecuperator.SideBySide(
            Length.FromMeters(12), high, suction, Length.FromMillimeters(2), Length.FromMillimeters(0.5), ThermalConductivity.FromWattsPerMeterKelvin(k)).Rate(Bench).Duty.Nominal.Watts)];
        output.WriteLine(string.Join(", ", duties.Select(d => $"{d:F1} W")));
        Assert.True(duties[0] > duties[1] && duties[1] > duties[2]);

        // As good as an ideal joint: between the same two passages as coaxial tubes with a wall of no resistance it could be no more.
        Assert.True(duties[0] < 1150);
    }

    [Fact]
    public void MetalHasItsMassAndHeat()
    {
        TubeRecuperator exchanger = Of(6, 12.7, 10);

        // Copper 8940 kg/m3 (materials data of this library): pi (6 - 0.8) 0.8 mm2 and pi (12.7 - 0.8) 0.8 mm2 over 10 m.
        double expected = Copper.Density.KilogramsPerCubicMeter * Math.PI * 0.8e-6 * (5.2 + 11.9) * 10;
        Assert.Equal(expected, exchanger.MetalMass.Kilograms, 1e-9);
        Temperature cold = Temperature.FromKelvins(110);
        Temperature warm = Temperature.FromKelvins(290);
        double heat = exchanger.MetalEnthalpy(cold, warm).Joules;
        double mean = 0.5 * (exchanger.MetalHeatCapacityJoulesPerKelvin(cold) + exchanger.MetalHeatCapacityJoulesPerKelvin(warm));
        output.WriteLine($"{exchanger.MetalMass.Kilograms:F3} kg, {heat / 1e3:F1} kJ");
        Assert.InRange(heat / (mean * 180), 1, 1.15);
        Assert.Equal(2 * exchanger.MetalMass.Kilograms, exchanger.WithLength(Length.FromMeters(20)).MetalMass.Kilograms, 1e-9);
    }

    [Fact]
    public void APureGasAtHighPressureIsRatedByItsReferenceEquation()
    {
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");
        State hot = nitrogen.At(Temperature.FromKelvins(300), Pressure.FromBars(150));
        State boiling = nitrogen.Saturation(Pressure.FromBars(1.2)).Vapor is { } vapor
            ? nitrogen.AtEnthalpy(Pressure.FromBars(1.2), vapor.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(50))
            : throw new InvalidOperationException();
        RecuperatorStreams streams = new(hot, MassFlow.FromGramsPerSecond(1), boiling, MassFlow.FromGramsPerSecond(0.93));
        TubeRecuperatorRating rating = Of(3.2, 12, 8).Rate(streams);
        output.WriteLine(rating.ToTable().ToString());
        double given = 1e-3 * (hot.SpecificEnthalpy - rating.HotOutlet.SpecificEnthalpy).JoulesPerKilogram;
        double taken = 0.93e-3 * (rating.ColdOutlet.SpecificEnthalpy - boiling.SpecificEnthalpy).JoulesPerKilogram;
        Assert.Equal(1, taken / given, 1e-5);
        Assert.InRange(rating.Pinch.Approach.Kelvins, 0.1, 40);
    }

    private static TubeRecuperator Of(double tube, double shell, double length, int count = 1, bool isCoiled = true, SolidMaterial? metal = null) => TubeRecuperator.TubesInTube(
        Length.FromMeters(length),
        new TubeWall(metal ?? Copper, Length.FromMillimeters(tube), Length.FromMillimeters(0.8)),
        new TubeWall(metal ?? Copper, Length.FromMillimeters(shell), Length.FromMillimeters(0.8)),
        count,
        isCoiled ? Length.FromMillimeters(250) : null);

    private static RecuperatorStreams StreamsOf(WorkingFluid blend)
    {
        State hot = blend.At(Temperature.FromKelvins(298), Pressure.FromBars(15));
        State throttled = blend.AtEnthalpy(Pressure.FromBars(1.8), blend.At(Temperature.FromKelvins(115), Pressure.FromBars(15)).MolarEnthalpy);
        State cold = blend.AtEnthalpy(Pressure.FromBars(1.8), throttled.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(400));
        return new(hot, Flow, cold, Flow);
    }

    private static State StateAt(double enthalpy, double pressure) => Blend.AtEnthalpy(
        Pressure.FromPascals(pressure), MolarEnergy.FromJoulesPerMole(enthalpy * Blend.Composition.MolarMass.KilogramsPerMole));
}
