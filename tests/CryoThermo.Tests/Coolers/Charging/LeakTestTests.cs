using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Charging;

public sealed class LeakTestTests(ITestOutputHelper output)
{
    private static readonly WorkingFluid Nitrogen = WorkingFluid.Pure("nitrogen");
    private static readonly Pressure Atmosphere = Pressure.FromPascals(101325);

    private static PressureDecayTest Test(double pascals = 500, double kelvins = 0.1) => new(
        Nitrogen, Volume.FromLiters(6.65), Pressure.FromPascals(pascals), TemperatureDelta.FromKelvins(kelvins));

    private static PressureDecayReading Reading(double bars, double kelvins) =>
        new(GaugePressure.FromAbsolute(Pressure.FromBars(bars), Atmosphere), Temperature.FromKelvins(kelvins));

    [Fact]
    public void ATightMachineThatCoolsHasNoLeak()
    {
        // The same density at both temperatures: the pressure falls by 6.9 kPa a kelvin and nothing is lost.
        State warm = Nitrogen.At(Temperature.FromKelvins(298), Pressure.FromBars(20));
        State cool = Nitrogen.AtDensity(Temperature.FromKelvins(293), warm.MolarDensity);
        LeakRateResult result = Test().Evaluate(Reading(20, 298), Reading(cool.Pressure.Bars, 293), Duration.FromHours(12));
        Assert.InRange(Math.Abs(result.LeakRatePascalCubicMetersPerSecond), 0, 1e-12);
        Assert.False(result.IsResolved);
        Assert.Equal(cool.Pressure.Pascals - 2e6, result.ChangeByTemperature.Pascals, 1);
        Assert.True(result.UncorrectedPascalCubicMetersPerSecond > 4e-3);

        // The ideal gas strays by the change of Z between the temperatures.
        Assert.InRange(Math.Abs(result.IdealGasPascalCubicMetersPerSecond), 1e-6, 1e-3);
        output.WriteLine(result.ToTable().ToString());
    }

    [Fact]
    public void ALossIsFoundAsALeakRate()
    {
        // 1 % of the amount lost in a day at one temperature.
        Temperature t = Temperature.FromKelvins(293.15);
        State full = Nitrogen.At(t, Pressure.FromBars(20));
        State left = Nitrogen.AtDensity(t, full.MolarDensity * 0.99);
        LeakRateResult result = Test().Evaluate(Reading(20, 293.15), Reading(left.Pressure.Bars, 293.15), Duration.FromHours(24));
        double expected = 0.01 * full.MolarDensity.MolesPerCubicMeter * 0.00665 * 8.314462618 * 293.15 / 86400;
        Assert.Equal(1, result.LeakRatePascalCubicMetersPerSecond / expected, 1e-8);
        Assert.Equal(10 * result.LeakRatePascalCubicMetersPerSecond, result.LeakRateMillibarLitersPerSecond);
        Assert.True(result.IsResolved);
    }

    [Fact]
    public void TheStatedUncertaintyIsThatOfRandomReadings()
    {
        PressureDecayTest test = Test(800, 0.2);
        Random random = new(5);
        double Normal() => NormalDeviate.Next(random);
        List<double> rates = [];
        double stated = 0;
        for (int i = 0; i < 1000; i++)
        {
            LeakRateResult result = test.Evaluate(
                Reading(20 + (0.008 * Normal()), 293.15 + (0.2 * Normal())), Reading(19.9 + (0.008 * Normal()), 293.15 + (0.2 * Normal())), Duration.FromHours(24));
            rates.Add(result.LeakRatePascalCubicMetersPerSecond);
            stated = result.StandardUncertaintyPascalCubicMetersPerSecond;
        }

        double mean = rates.Average();
        double deviation = Math.Sqrt(rates.Sum(r => (r - mean) * (r - mean)) / (rates.Count - 1));

        // 1 000 draws give a standard deviation within 2.2 %: four of these.
        Assert.Equal(1, deviation / stated, 0.09);
    }

    [Fact]
    public void TheWaitingTimeIsWhenTheLossIsTwiceTheUncertainty()
    {
        PressureDecayTest test = Test();
        PressureDecayReading start = Reading(20, 293.15);
        Duration wait = test.TimeToResolve(start, 1e-4);
        LeakRateResult nothing = test.Evaluate(start, start, wait);
        Assert.Equal(0.5e-4, nothing.StandardUncertaintyPascalCubicMetersPerSecond, 1e-12);
        Assert.Equal(2 * test.TimeToResolve(start, 1e-4).Seconds, test.TimeToResolve(start, 0.5e-4).Seconds, 1e-6);
        output.WriteLine($"{wait.Hours:F1} h");
    }

    [Fact]
    public void TestGasesThatBurnAreToldAndWrongFiguresRefused()
    {
        Assert.DoesNotContain(Test().Cautions, c => c.Severity == CautionSeverity.Danger);
        PressureDecayTest air = new(
            WorkingFluid.Mixture(("nitrogen", 0.79), ("oxygen", 0.21)), Volume.FromLiters(1), Pressure.FromPascals(100), TemperatureDelta.FromKelvins(0.1));
        Assert.Contains(air.Cautions, c => c.Title == "Test gas that burns or feeds a fire");
        Assert.Throws<ArgumentOutOfRangeException>(() => Test().Evaluate(Reading(20, 293), Reading(19, 293), Duration.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => Test().TimeToResolve(Reading(20, 293), 0));
        PressureDecayTest propane = new(WorkingFluid.Pure("propane"), Volume.FromLiters(1), Pressure.FromPascals(100), TemperatureDelta.FromKelvins(0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => propane.Evaluate(Reading(20, 293), Reading(19, 293), Duration.FromHours(1)));
    }
}
