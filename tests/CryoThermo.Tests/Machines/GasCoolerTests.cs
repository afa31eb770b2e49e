using CryoThermo.HeatTransfer;
using CryoThermo.Machines;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class GasCoolerTests
{
    private static readonly WorkingFluid Argon = WorkingFluid.Pure("argon");
    private static readonly Temperature Water = Temperature.FromDegreesCelsius(18);

    /// <summary>Dilute argon has a constant heat capacity (5/2 R within 1e-4): the formulas of W. M. Kays, A. L. London, from memory, hold.</summary>
    [Theory]
    [InlineData(0.3, 1.5)]
    [InlineData(2, 0.8)]
    [InlineData(2, 6)]
    public void ConstantHeatCapacityFollowsTheFormulas(double conductance, double mediumRate)
    {
        Isobar gas = Argon.Isobar(Pressure.FromPascals(1000), Temperature.FromKelvins(280), Temperature.FromKelvins(400));
        MolarFlow flow = MolarFlow.FromMolesPerSecond(1 / (2.5 * 8.314462618));
        Temperature inlet = Temperature.FromKelvins(390);
        double span = 390 - Water.Kelvins;
        WaterJacket jacket = new(conductance, MassFlow.FromKilogramsPerSecond(mediumRate / 4186), Water);
        GasCoolerResult inWater = GasCooler.InJacket(jacket, gas, flow, inlet);
        double lesser = Math.Min(1, mediumRate);
        double expected = ExchangerEffectiveness.Effectiveness(FlowArrangement.CounterFlow, conductance / lesser, lesser / Math.Max(1, mediumRate)) * lesser * span;
        Assert.Equal(1, (double)inWater.Duty.Watts / expected, 2e-4);
        Assert.Equal(Water.Kelvins + (expected / mediumRate), inWater.MediumOutlet.Kelvins, 0.03);
        Assert.Equal(390 - expected, inWater.Outlet.Temperature.Kelvins, 0.03);

        // A coil: what flows in it is mixed over the bore, the air is not.
        VolumeFlow air = VolumeFlow.FromCubicMetersPerSecond(mediumRate * 287.05 * Water.Kelvins / (101_325 * 1006));
        double toFresh = mediumRate * (1 - Math.Exp(-conductance / mediumRate));
        Radiator radiator = new(Power.FromWatts(toFresh * 20), Temperature.FromKelvins(Water.Kelvins + 20), Water, air);
        Assert.Equal(conductance, radiator.ConductanceWattsPerKelvin, 1e-9);
        GasCoolerResult inAir = GasCooler.InRadiator(radiator, air, Water, gas, flow, inlet);
        FlowArrangement mixed = mediumRate > 1 ? FlowArrangement.CrossFlowLesserMixed : FlowArrangement.CrossFlowGreaterMixed;
        double across = ExchangerEffectiveness.Effectiveness(mixed, conductance / lesser, lesser / Math.Max(1, mediumRate)) * lesser * span;
        Assert.Equal(1, (double)inAir.Duty.Watts / across, 2e-4);
    }

    [Fact]
    public void TheCataloguePointComesBack()
    {
        Temperature air = Temperature.FromDegreesCelsius(25);
        VolumeFlow fan = VolumeFlow.FromCubicMetersPerHour(600);

        // A condenser of 1.2 kW at 15 K, propane condensing within it.
        Radiator radiator = new(Power.FromKilowatts(1.2), Temperature.FromDegreesCelsius(40), air, fan);
        WorkingFluid propane = WorkingFluid.Pure("propane");
        Saturation condensing = propane.Saturation(Temperature.FromDegreesCelsius(40));
        Isobar stream = propane.Isobar(condensing.Pressure, Temperature.FromKelvins(290), Temperature.FromKelvins(340));
        MolarFlow flow = MolarFlow.FromMolesPerSecond(1300 / condensing.EnthalpyOfVaporization.JoulesPerMole);
        GasCoolerResult result = GasCooler.InRadiator(radiator, fan, air, stream, flow, Temperature.FromKelvins(condensing.Temperature.Kelvins + 1e-7));
        Assert.Equal(1200, (double)result.Duty.Watts, 0.5);
        Assert.Equal(condensing.Temperature.Kelvins, result.Outlet.Temperature.Kelvins, 1e-4);
        Assert.InRange(result.Outlet.VaporFraction, 0.05, 0.1);

        // And one given for a stream with a heat capacity.
        Radiator given = new(Power.FromWatts(300), Temperature.FromKelvins(390), Temperature.FromKelvins(290), fan, hotCapacityRateWattsPerKelvin: 4);
        Isobar gas = Argon.Isobar(Pressure.FromPascals(1000), Temperature.FromKelvins(280), Temperature.FromKelvins(400));
        GasCoolerResult back = GasCooler.InRadiator(given, fan, Temperature.FromKelvins(290), gas, MolarFlow.FromMolesPerSecond(4 / (2.5 * 8.314462618)), Temperature.FromKelvins(390));
        Assert.Equal(300, (double)back.Duty.Watts, 0.05);
    }

    [Fact]
    public void ABlendThatCondensesIsCooledWithItsOwnHeatCurve()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("methane", 0.4), ("ethane", 0.2), ("isobutane", 0.4));
        Pressure pressure = Pressure.FromBars(15);
        Isobar stream = blend.Isobar(pressure, Temperature.FromKelvins(285), Temperature.FromKelvins(400));
        MolarFlow flow = MolarFlow.FromMolesPerSecond(0.03);
        Temperature inlet = Temperature.FromKelvins(385);
        TubeWall tube = new(SolidMaterial.Named("copper"), Length.FromMillimeters(10), Length.FromMillimeters(1));
        double before = 0;
        foreach (double length in (double[])[0.1, 0.3, 1, 3])
        {
            WaterJacket jacket = WaterJacket.OnTube(
                tube,
                Length.FromMeters(length),
                HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(800),
                HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(1500),
                MassFlow.FromGramsPerSecond(30),
                Water,
                ThermalResistance.FromSquareMeterKelvinsPerWatt(2e-4));
            GasCoolerResult result = GasCooler.InJacket(jacket, stream, flow, inlet);
            double heat = 0.03 * (stream.MolarEnthalpy(inlet).JoulesPerMole - result.Outlet.MolarEnthalpy.JoulesPerMole);
            Assert.Equal(heat, (double)result.Duty.Watts, 0.05);
            Assert.True((double)result.Duty.Watts > before);
            Assert.True(result.LeastDifference.Kelvins >= -1e-9 && result.Outlet.Temperature.Kelvins >= Water.Kelvins - 1e-6);
            before = (double)result.Duty.Watts;
            if (length > 2)
            {
                Assert.InRange(result.Outlet.VaporFraction, 0.5, 1 - 1e-6);
            }
        }
    }

    [Fact]
    public void MoreAirCoolsMoreAndThinAirLess()
    {
        Radiator radiator = new(Power.FromWatts(900), Temperature.FromDegreesCelsius(45), Temperature.FromDegreesCelsius(25), VolumeFlow.FromCubicMetersPerHour(400));
        Temperature air = Temperature.FromDegreesCelsius(25);
        double before = 0;
        foreach (double share in (double[])[0.1, 0.5, 1, 2, 3])
        {
            double now = radiator.ToFreshAirWattsPerKelvin(share * radiator.Air, air);
            Assert.True(now > before);
            before = now;
        }

        Assert.Equal(45, radiator.ToFreshAirWattsPerKelvin(radiator.Air, air), 1e-9);
        Assert.InRange(radiator.ToFreshAirWattsPerKelvin(radiator.Air, air, Pressure.FromBars(0.8)), 30, 44.9);
    }

    [Fact]
    public void RandomCoolersKeepTheSecondLaw()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.2), ("methane", 0.3), ("ethane", 0.2), ("isobutane", 0.3));
        Isobar stream = blend.Isobar(Pressure.FromBars(18), Temperature.FromKelvins(265), Temperature.FromKelvins(410));
        Random random = new(9);
        for (int i = 0; i < 200; i++)
        {
            Temperature inlet = Temperature.FromKelvins(310 + (99 * random.NextDouble()));
            Temperature medium = Temperature.FromKelvins(274 + (35 * random.NextDouble()));
            MolarFlow flow = MolarFlow.FromMolesPerSecond(Math.Pow(10, (4 * random.NextDouble()) - 4));
            string where = $"case {i}: {inlet.Kelvins:R}, {medium.Kelvins:R} K, {flow.MolesPerSecond:R} mol/s";
            GasCoolerResult result;
            if (random.Next(2) == 0)
            {
                WaterJacket jacket = new(Math.Pow(10, (6 * random.NextDouble()) - 3), MassFlow.FromKilogramsPerSecond(Math.Pow(10, (4 * random.NextDouble()) - 4)), medium);
                result = GasCooler.InJacket(jacket, stream, flow, inlet);
            }
            else
            {
                VolumeFlow fan = VolumeFlow.FromCubicMetersPerSecond(Math.Pow(10, (3 * random.NextDouble()) - 3));
                Radiator radiator = new(Power.FromWatts(fan.CubicMetersPerSecond * 1.2e4 * random.NextDouble()), Temperature.FromKelvins(315), Temperature.FromKelvins(300), fan);
                result = GasCooler.InRadiator(radiator, (0.1 + (2.9 * random.NextDouble())) * fan, medium, stream, flow, inlet);
            }

            Assert.True(double.IsFinite((double)result.Duty.Watts) && (double)result.Duty.Watts >= 0, where);
            Assert.True(result.Outlet.Temperature.Kelvins >= medium.Kelvins - 0.01 && result.Outlet.Temperature.Kelvins <= inlet.Kelvins + 1e-6, where);
            Assert.True(result.MediumOutlet.Kelvins >= medium.Kelvins - 1e-9 && result.MediumOutlet.Kelvins <= inlet.Kelvins + 0.01, where);
        }
    }

    [Fact]
    public void WhatCannotBeIsRefused()
    {
        Temperature air = Temperature.FromDegreesCelsius(25);
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => new Radiator(Power.FromKilowatts(9), Temperature.FromDegreesCelsius(40), air, VolumeFlow.FromCubicMetersPerHour(600)));
        Assert.Equal("duty", refused.ParamName);
        Assert.Contains("air takes at most", refused.Message, StringComparison.Ordinal);
        Assert.Equal("hotInlet", Assert.Throws<ArgumentOutOfRangeException>(() => new Radiator(Power.FromKilowatts(1), air, air, VolumeFlow.FromCubicMetersPerHour(600))).ParamName);
        WaterJacket jacket = new(10, MassFlow.FromGramsPerSecond(10), Water);
        Isobar warm = Argon.Isobar(Pressure.FromBars(10), Temperature.FromKelvins(295), Temperature.FromKelvins(400));
        Assert.Equal("stream", Assert.Throws<ArgumentException>(() => GasCooler.InJacket(jacket, warm, MolarFlow.FromMolesPerSecond(1), Temperature.FromKelvins(390))).ParamName);
        Isobar gas = Argon.Isobar(Pressure.FromBars(10), Temperature.FromKelvins(280), Temperature.FromKelvins(400));
        Assert.Equal("inlet", Assert.Throws<ArgumentOutOfRangeException>(() => GasCooler.InJacket(jacket, gas, MolarFlow.FromMolesPerSecond(1), Temperature.FromKelvins(285))).ParamName);
        Assert.Equal("flow", Assert.Throws<ArgumentOutOfRangeException>(() => GasCooler.InJacket(jacket, gas, MolarFlow.Zero, Temperature.FromKelvins(390))).ParamName);
        Assert.Equal("conductanceWattsPerKelvin", Assert.Throws<ArgumentOutOfRangeException>(() => new WaterJacket(0, MassFlow.FromGramsPerSecond(10), Water)).ParamName);
    }
}
