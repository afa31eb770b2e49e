using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Charging;

/// <summary>Purge cycles, drier, strength test, bottles and electrolyser.</summary>
public sealed class PreparationTests(ITestOutputHelper output)
{
    private static readonly Temperature Room = Temperature.FromKelvins(295.15);
    private static readonly Pressure Atmosphere = Pressure.FromPascals(101325);

    private static PurgeCycles Purged(int purges, double purgeWater = 0) => PurgeCycles.FromRoomAir(
        Room, Atmosphere, 0.5, Pressure.FromMillibars(1), Pressure.FromBars(1.5), purges, Pressure.FromBars(6), purgeWater);

    [Fact]
    public void EachPurgeDilutesByThePressureRatio()
    {
        double ratio = 100 / 1.5e5;
        PurgeCycles none = Purged(0);
        Assert.Equal(100, none.ResidualAir.Pascals + none.ResidualWater.Pascals, 1e-9);
        for (int n = 1; n < 4; n++)
        {
            PurgeCycles cycles = Purged(n);
            Assert.Equal(1, cycles.ResidualAir.Pascals / (none.ResidualAir.Pascals * Math.Pow(ratio, n)), 1e-12);
            Assert.Equal(1, cycles.ResidualWater.Pascals / (none.ResidualWater.Pascals * Math.Pow(ratio, n)), 1e-12);
        }

        // Half of the vapour pressure at 22 degC, 2645 Pa (IAPWS-95, from memory), in 101325 Pa of moist air.
        Assert.Equal(100 * 0.5 * 2645 / 101325, none.ResidualWater.Pascals, 0.01);
        TraceImpurity water = none.Traces.Single(t => t.Substance == "water");
        Assert.Equal(1e6 * none.ResidualWater.Pascals / 6e5, water.MolePartsPerMillion, 1e-9);

        // Wet purge gas sets a floor: its water at the evacuated pressure.
        Assert.Equal(100 * 5e-6, Purged(5, 5).ResidualWater.Pascals, 1e-6);
        output.WriteLine(none.ToTable().ToString());
    }

    [Fact]
    public void TheVapourPressureOfWaterMeetsItsCheckValues()
    {
        // IAPWS supplementary release on saturation properties, table 1 (from memory).
        Assert.Equal(611.657, WaterVapor.Pressure(273.16), 0.01);
        Assert.Equal(101325, WaterVapor.Pressure(373.1243), 3.0);
        Assert.Equal(2645, WaterVapor.Pressure(295.15), 3.0);
    }

    [Fact]
    public void TheTracesMeanAFrostPointAndAPluggingTime()
    {
        IReadOnlyList<TraceMeaning> meanings = Purged(0).MeaningIn(
            BenchCharge.Blend, Pressure.FromBars(1.6), Temperature.FromKelvins(105), MolarFlow.FromMolesPerSecond(0.05), Length.FromMillimeters(0.6), Length.FromMillimeters(6));
        TraceMeaning water = meanings.Single(m => m.Trace.Substance == "water");
        Assert.InRange(water.FrostPoint!.Temperature.Kelvins, 180, 230);
        Assert.NotNull(water.Plugging.TimeToClose);
        output.WriteLine($"{water.Trace}: frost at {water.FrostPoint.Temperature.Kelvins:F1} K, closes in {water.Plugging.TimeToClose!.Value.Hours:F2} h");
    }

    [Fact]
    public void ADrierIsWeighedAgainstItsWater()
    {
        DrierCapacity drier = DrierCapacity.Of(
            Mass.FromGrams(15), 0.12, Mass.FromGrams(250), 300, Mass.FromGrams(60), 20, Mass.FromGrams(0.4));
        Assert.Equal(1.8, drier.Capacity.Grams, 1e-12);
        Assert.Equal(0.075 + 0.0012 + 0.4, drier.Load.Grams, 1e-12);
        Assert.True(drier.Suffices);
        Assert.False(DrierCapacity.Of(Mass.FromGrams(3), 0.1, Mass.Zero, 0, Mass.Zero, 0, Mass.FromGrams(0.4)).Suffices);
        Assert.Throws<ArgumentOutOfRangeException>(() => DrierCapacity.Of(Mass.FromGrams(3), 12, Mass.Zero, 0, Mass.Zero, 0, Mass.Zero));
        output.WriteLine(drier.ToTable().ToString());
    }

    [Fact]
    public void TheEnergyOfAStrengthTestComesNearTheIdealExpression()
    {
        StrengthTestEnergy low = StrengthTestEnergy.Of(WorkingFluid.Pure("nitrogen"), Volume.FromLiters(6.65), Pressure.FromBars(2), Room, Atmosphere);
        Assert.Equal(1, low.StoredEnergy.Joules / low.IdealGasEnergy.Joules, 0.02);
        StrengthTestEnergy test = StrengthTestEnergy.Of(WorkingFluid.Pure("nitrogen"), Volume.FromLiters(6.65), Pressure.FromBars(30), Room, Atmosphere);
        output.WriteLine(test.ToTable().ToString());

        // By hand with k = 1.4, p V/(k - 1) [1 - (p0/p)^((k - 1)/k)]: 30e5 x 0.00665/0.4 x (1 - 0.03378^0.2857) = 30.92 kJ.
        Assert.Equal(30.92, test.IdealGasEnergy.Kilojoules, 0.15);

        // (30 - 1.01325) bar x 6.65 L/0.4 = 48.19 kJ; k of real nitrogen at the atmosphere is 1.4013.
        Assert.Equal(48.19, test.BareEnergy.Kilojoules, 0.25);
        Assert.InRange(test.StoredEnergy.Joules / test.IdealGasEnergy.Joules, 0.95, 1.08);
        Assert.Equal(test.StoredEnergy.Joules / 4.184e6, test.TrinitrotolueneEquivalent.Kilograms, 1e-12);
        Assert.Contains(test.Cautions, c => c.Severity == CautionSeverity.Danger);

        // First law on its own: the closed gas gives u1 - u0, the same as the integral of p dv along the isentrope.
        WorkingFluid gas = WorkingFluid.Pure("nitrogen");
        State at = gas.At(Room, Pressure.FromBars(30));
        double work = 0;
        const int Steps = 400;
        double v0 = 1 / at.MolarDensity.MolesPerCubicMeter;
        double v1 = 1 / gas.AtEntropy(Atmosphere, at.MolarEntropy).MolarDensity.MolesPerCubicMeter;
        for (int i = 0; i < Steps; i++)
        {
            // Midpoint rule in ln v.
            double v = v0 * Math.Pow(v1 / v0, (i + 0.5) / Steps);
            work += gas.AtEntropy(at.MolarEntropy, Molarity.FromMolesPerCubicMeter(1 / v)).Pressure.Pascals * v * Math.Log(v1 / v0) / Steps;
        }

        Assert.Equal(1, work * 0.00665 / v0 / test.StoredEnergy.Joules, 1e-4);
        Assert.Throws<ArgumentOutOfRangeException>(() => StrengthTestEnergy.Of(gas, Volume.FromLiters(1), Pressure.FromBars(0.9), Room, Atmosphere));
    }

    [Fact]
    public void ABottleLastsItsContents()
    {
        GasBottle bottle = GasBottle.Compressed("nitrogen", Room, Pressure.FromBars(200), Volume.FromLiters(10));
        MolarFlow flow = MolarFlow.FromMolesPerSecond(1e-3);
        BottleEndurance lasts = BottleEndurance.OfCompressed(bottle, Pressure.FromBars(5), flow);
        output.WriteLine(lasts.ToTable().ToString());
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");
        double expected = 0.01 * (nitrogen.At(Room, Pressure.FromBars(200)).MolarDensity - nitrogen.At(Room, Pressure.FromBars(5)).MolarDensity).MolesPerCubicMeter;
        Assert.Equal(expected, lasts.Usable.Moles, 1e-9);
        Assert.Equal(expected * 1000, lasts.Lasts.Seconds, 1e-6);
        Assert.InRange(lasts.IdealLasts.Seconds / lasts.Lasts.Seconds, 1.02, 1.12);

        // What is drawn and what is left are one bottle.
        Assert.Equal(5e5, bottle.PressureAfter(lasts.Usable)!.Value.Pascals, 1e-3);
        Assert.Null(bottle.PressureAfter(AmountOfSubstance.FromMoles(1000)));

        GasBottle propane = GasBottle.Liquefied("propane", Room);
        BottleEndurance liquid = BottleEndurance.OfLiquefied(propane, Mass.FromKilograms(5), flow);
        Assert.Equal(5 / 0.04409562 * 1000, liquid.Lasts.Seconds, 1);
        Assert.Throws<ArgumentException>(() => BottleEndurance.OfCompressed(propane, Pressure.FromBars(1), flow));
        Assert.Throws<ArgumentException>(() => BottleEndurance.OfLiquefied(bottle, Mass.FromKilograms(1), flow));
        Assert.Throws<ArgumentOutOfRangeException>(() => BottleEndurance.OfCompressed(bottle, Pressure.FromBars(300), flow));
    }

    [Fact]
    public void TheElectrolyserFollowsFaraday()
    {
        // 5.18213e-6 mol/s and 0.41815 L/h (0 degC, 1 atm) of hydrogen for an ampere and cell: recomputed from F.
        ElectrolyticFeed feed = ElectrolyticFeed.Of(ElectricCurrent.FromAmperes(20), 10, 0.95);
        Assert.Equal(5.18213e-6 * 190, feed.Hydrogen.MolesPerSecond, 1e-8);
        Assert.Equal(feed.Hydrogen.MolesPerSecond / 2, feed.Oxygen.MolesPerSecond, 15);
        Assert.Equal(0.41815 * 190, feed.Hydrogen.MolesPerSecond * 3600 * 22.413969545, 0.01);
        Assert.Equal(8.937, feed.Water.MolesPerSecond * 18.01527 / (feed.Hydrogen.MolesPerSecond * 2.01588), 0.001);
        Assert.Contains(feed.Cautions, c => c.Severity == CautionSeverity.Danger);
        Assert.Throws<ArgumentOutOfRangeException>(() => ElectrolyticFeed.Of(ElectricCurrent.FromAmperes(20), 10, 1.2));
    }
}
