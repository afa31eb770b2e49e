using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Charging;

public sealed class StandingChargeTests(ITestOutputHelper output)
{
    private static readonly Temperature Ambient = Temperature.FromDegreesCelsius(22);

    private static readonly StandingCharge Bench = StandingCharge.Of(ChargeRecipe.Solve(BenchCharge.Request()));

    [Fact]
    public void AtRestTheVolumesAreOne()
    {
        StandingState standing = Bench.At(Ambient);
        double density = Bench.Amount.Moles / (BenchCharge.Machine.Sum(v => v.Volume.Liters) / 1000);
        Assert.Equal(density, Bench.Fluid.At(Ambient, standing.AbsolutePressure).MolarDensity.MolesPerCubicMeter, density * 1e-10);
        Assert.True(standing.IsGas);

        // The shell was warmer than the rest when the machine was charged: at rest the pressure is a little lower.
        Assert.InRange(standing.AbsolutePressure.Bars, 5.8, 6);
        output.WriteLine(Bench.ToTable(Ambient, Temperature.FromDegreesCelsius(43), Temperature.FromDegreesCelsius(55)).ToString());
        Assert.True(Bench.At(Temperature.FromDegreesCelsius(55)).AbsolutePressure > standing.AbsolutePressure);
        Assert.Equal(standing.AbsolutePressure.Pascals, standing.Gauge.Absolute.Pascals, 1e-6);
    }

    [Fact]
    public void TheBufferBringsThePressureDownToWhatIsAllowed()
    {
        Pressure allowed = Pressure.FromBars(4);
        Volume buffer = Bench.BufferVolumeFor(allowed, Ambient);
        StandingCharge with = new(Bench.Fluid, Bench.Amount, [.. Bench.Volumes, new("more", buffer, Ambient)], Bench.LocalAtmosphere);
        Assert.Equal(4e5, with.At(Ambient).AbsolutePressure.Pascals, 4e5 * 1e-10);
        Assert.Equal(0, Bench.BufferVolumeFor(Pressure.FromBars(7), Ambient).Liters);

        // Theory: V >= N R T/p - V in an ideal gas; real gas needs less.
        double ideal = (Bench.Amount.Moles * 8.314462618 * Ambient.Kelvins / 4e5 * 1000) - BenchCharge.Machine.Sum(v => v.Volume.Liters);
        Assert.InRange(buffer.Liters / ideal, 0.85, 1);
    }

    [Fact]
    public void AMotorThatCannotStartIsToldWithTheBufferItNeeds()
    {
        StartCheck good = Bench.CheckStart(Ambient, Pressure.FromBars(7));
        Assert.True(good.CanStart);
        Assert.Empty(good.Cautions);
        StartCheck bad = Bench.CheckStart(Ambient, Pressure.FromBars(4));
        Assert.False(bad.CanStart);
        Assert.True(bad.Margin.Pascals < 0);
        Assert.Contains("buffer", Assert.Single(bad.Cautions).Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void ACondensedChargeIsFlagged()
    {
        StandingCharge heavy = new(WorkingFluid.Pure("isobutane"), AmountOfSubstance.FromMoles(5), BenchCharge.Machine, BenchCharge.Atmosphere);
        StandingState standing = heavy.At(Ambient);
        Assert.False(standing.IsGas);
        Assert.InRange(standing.LiquidFraction, 0.1, 0.9);
        Assert.Equal(WorkingFluid.Pure("isobutane").Saturation(Ambient).Pressure.Pascals, standing.AbsolutePressure.Pascals, 1e-3);
        Assert.Contains(heavy.CheckStart(Ambient, Pressure.FromBars(8)).Cautions, c => c.Title == "Liquid in the machine at rest");
    }

    [Fact]
    public void AHotDayAboveTheRatingIsADanger()
    {
        Temperature hot = Temperature.FromDegreesCelsius(55);
        Assert.DoesNotContain(Bench.AssessOverPressure(hot, Pressure.FromBars(10)), c => c.Title == "Standing pressure above what is allowed");
        IReadOnlyList<Caution> cautions = Bench.AssessOverPressure(hot, Pressure.FromBars(6));
        Assert.Contains(cautions, c => c.Title == "Standing pressure above what is allowed" && c.Severity == CautionSeverity.Danger);
        Assert.Contains(cautions, c => c.Title == "Flammable charge");
        Assert.Throws<ArgumentOutOfRangeException>(() => Bench.At(Temperature.FromKelvins(150)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Bench.CheckStart(Ambient, Pressure.FromBars(-1)));
    }
}
