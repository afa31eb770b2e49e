using CryoThermo.HeatTransfer;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class AmbientCoolerTests
{
    private static readonly VolumeFlow Fan = VolumeFlow.FromCubicMetersPerHour(600);
    private static readonly Radiator Coil = new(Power.FromKilowatts(1.2), Temperature.FromDegreesCelsius(40), Temperature.FromDegreesCelsius(25), Fan);
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));

    [Fact]
    public void AirAndWaterAgreeWithTheGasCooler()
    {
        State inlet = Blend.At(Temperature.FromKelvins(370), Pressure.FromBars(17));
        MolarFlow flow = MolarFlow.FromMolesPerSecond(0.03);
        Temperature medium = Temperature.FromDegreesCelsius(30);
        Isobar isobar = Blend.Isobar(Pressure.FromBars(17), Temperature.FromKelvins(290), Temperature.FromKelvins(380));
        AmbientCoolerResult air = AmbientCooler.ByAir(Coil, Fan).Cool(inlet, flow, medium);
        GasCoolerResult airThere = GasCooler.InRadiator(Coil, Fan, medium, isobar, flow, inlet.Temperature);
        Assert.Equal((double)airThere.Duty.Watts, (double)air.Duty.Watts, 0.05);
        Assert.Equal(airThere.Outlet.Temperature.Kelvins, air.Outlet.Temperature.Kelvins, 0.05);
        Assert.Equal(airThere.MediumOutlet.Kelvins, air.MediumOutlet.Kelvins, 0.01);
        AmbientCoolerResult water = AmbientCooler.ByWater(20, MassFlow.FromGramsPerSecond(30)).Cool(inlet, flow, medium);
        GasCoolerResult waterThere = GasCooler.InJacket(new(20, MassFlow.FromGramsPerSecond(30), medium), isobar, flow, inlet.Temperature);
        Assert.Equal((double)waterThere.Duty.Watts, (double)water.Duty.Watts, 0.05);
        Assert.Equal(waterThere.MediumOutlet.Kelvins, water.MediumOutlet.Kelvins, 0.01);
        Assert.True(AmbientCooler.ByWater(20, MassFlow.FromGramsPerSecond(30)).IsWaterCooled);
    }

    [Fact]
    public void SummerAndWinterAreComparedAndTheDewPointTold()
    {
        State inlet = Blend.At(Temperature.FromKelvins(370), Pressure.FromBars(20));
        State dew = Blend.DewPoint(Pressure.FromBars(20));
        AmbientCoolerSeasons seasons = AmbientCooler.ByAir(Coil, Fan).CoolInSummerAndWinter(
            inlet, MolarFlow.FromMolesPerSecond(0.03), Temperature.FromDegreesCelsius(35), Temperature.FromDegreesCelsius(5));
        Assert.Equal(dew.Temperature.Kelvins, seasons.Summer.DewPoint!.Value.Kelvins, 1e-6);
        Assert.Equal(seasons.Winter.Outlet.Temperature.Kelvins - dew.Temperature.Kelvins, seasons.Winter.AboveDewPoint!.Value.Kelvins, 1e-6);
        Assert.True(seasons.Winter.IsTwoPhase && seasons.Winter.LiquidFraction > 0 && seasons.Winter.AboveDewPoint.Value.Kelvins < 0);
        Assert.True(!seasons.Summer.IsTwoPhase && seasons.Summer.AboveDewPoint!.Value.Kelvins > 0);
        Assert.True(seasons.ChangesPhase);
        Assert.True(seasons.Winter.Duty > seasons.Summer.Duty);
        Assert.Equal(7, seasons.ToTable().Rows.Count);

        // First law by states of their own.
        foreach (AmbientCoolerResult r in (AmbientCoolerResult[])[seasons.Summer, seasons.Winter])
        {
            State outlet = Blend.At(r.Outlet.Temperature, r.Outlet.Pressure);
            Assert.Equal((double)r.Duty.Watts, 0.03 * (inlet.MolarEnthalpy - outlet.MolarEnthalpy).JoulesPerMole, 1e-6 * (double)r.Duty.Watts);
            Assert.True(r.EntropyProductionPerSecond.JoulesPerKelvin > 0);
        }
    }

    [Fact]
    public void APureFluidCondensesAtItsTemperature()
    {
        // 15 K of difference and 1.2 kW by the catalogue: 80 W/K, a percent less in air of 30 degC, which is thinner.
        WorkingFluid propane = WorkingFluid.Pure("propane");
        Saturation at = propane.Saturation(Temperature.FromDegreesCelsius(45));
        AmbientCoolerResult r = AmbientCooler.ByAir(Coil, Fan).Cool(
            propane.At(Temperature.FromDegreesCelsius(45.01), at.Pressure), MolarFlow.FromMolesPerSecond(1500 / at.EnthalpyOfVaporization.JoulesPerMole), Temperature.FromDegreesCelsius(30));
        double expected = 15 * Coil.ToFreshAirWattsPerKelvin(Fan, Temperature.FromDegreesCelsius(30));
        Assert.Equal(1190, expected, 10.0);
        Assert.Equal(expected, (double)r.Duty.Watts, 1e-3 * expected);
        Assert.Equal(at.Temperature.Kelvins, r.Outlet.Temperature.Kelvins, 1e-6);
        Assert.Equal(0, r.AboveDewPoint!.Value.Kelvins, 1e-6);
        Assert.Equal(expected / 1500, r.LiquidFraction, 1e-3);
    }

    [Fact]
    public void RandomCoolersKeepBothLaws()
    {
        Random random = new(8);
        WorkingFluid[] fluids = [Blend, WorkingFluid.Pure("propane"), WorkingFluid.Pure("argon"), WorkingFluid.Mixture(("methane", 0.4), ("isobutane", 0.6))];
        for (int i = 0; i < 60; i++)
        {
            WorkingFluid fluid = fluids[random.Next(fluids.Length)];
            Pressure pressure = Pressure.FromBars(4 + (16 * random.NextDouble()));
            Pressure loss = random.Next(2) * random.NextDouble() * Pressure.FromBars(1);
            State inlet = fluid.At(Temperature.FromKelvins(345 + (55 * random.NextDouble())), pressure);
            double moles = Math.Pow(10, (3 * random.NextDouble()) - 3);
            Temperature medium = Temperature.FromKelvins(275 + (35 * random.NextDouble()));
            AmbientCooler cooler = random.Next(2) == 0
                ? AmbientCooler.ByAir(Coil, (0.2 + random.NextDouble()) * Fan, loss)
                : AmbientCooler.ByWater(Math.Pow(10, (4 * random.NextDouble()) - 2), MassFlow.FromGramsPerSecond(Math.Pow(10, (3 * random.NextDouble()) - 1)), loss);
            AmbientCoolerResult r = cooler.Cool(inlet, MolarFlow.FromMolesPerSecond(moles), medium);
            string where = $"case {i}: {fluid.Composition}, {inlet}, {moles:R} mol/s, {medium.Kelvins:R} K";
            Assert.Equal(pressure.Pascals - loss.Pascals, r.Outlet.Pressure.Pascals, 1e-6 * pressure.Pascals);
            double given = moles * (inlet.MolarEnthalpy - r.Outlet.MolarEnthalpy).JoulesPerMole;
            Assert.True(Math.Abs(given - (double)r.Duty.Watts) <= 1e-6 * Math.Max(given, 1e-3), where);
            Assert.True(r.EntropyProductionPerSecond.JoulesPerKelvin >= -1e-6 * moles * 8.314, where);
            Assert.True(r.Outlet.Temperature.Kelvins >= medium.Kelvins - 0.02, where);
        }
    }

    [Fact]
    public void WhatCannotBeIsToldPlainly()
    {
        State inlet = Blend.At(Temperature.FromKelvins(300), Pressure.FromBars(17));
        AmbientCooler cooler = AmbientCooler.ByWater(20, MassFlow.FromGramsPerSecond(30), Pressure.FromBars(18));
        Assert.Contains("loses 18 bar", Assert.Throws<ArgumentException>(() => cooler.Cool(inlet, MolarFlow.FromMolesPerSecond(0.1), Temperature.FromKelvins(290))).Message, StringComparison.Ordinal);
        Assert.Equal("inlet", Assert.Throws<ArgumentOutOfRangeException>(() => AmbientCooler.ByAir(Coil, Fan).Cool(
            inlet, MolarFlow.FromMolesPerSecond(0.1), Temperature.FromKelvins(305))).ParamName);
        Assert.Equal("flow", Assert.Throws<ArgumentOutOfRangeException>(() => AmbientCooler.ByAir(Coil, Fan).Cool(inlet, MolarFlow.Zero, Temperature.FromKelvins(290))).ParamName);
        Assert.Throws<ArgumentOutOfRangeException>(() => AmbientCooler.ByAir(Coil, 10 * Fan));
        Assert.Throws<ArgumentOutOfRangeException>(() => AmbientCooler.ByWater(0, MassFlow.FromGramsPerSecond(30)));
    }
}
