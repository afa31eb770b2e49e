using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Safety;

public sealed class RoomAirTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("nitrogen", 692.0)]
    [InlineData("oxygen", 857.3)]
    [InlineData("argon", 839.7)]
    [InlineData("methane", 632.1)]
    [InlineData("hydrogen", 845.9)]
    [InlineData("helium", 750.0)]
    [InlineData("neon", 1439)]
    [InlineData("carbon monoxide", 680.9)]
    [InlineData("krypton", 692.1)]
    [InlineData("ethylene", 483.9)]
    [InlineData("ethane", 431.3)]
    [InlineData("propane", 311.2)]
    public void LiquidBecomesSoMuchGas(string name, double expected)
    {
        // At 293.15 K and one atmosphere, recomputed from liquid densities and Z of the reference equations (from memory), four digits.
        double found = RoomAir.ExpansionRatio(WorkingFluid.Pure(name), Temperature.FromKelvins(293.15));
        output.WriteLine($"{name} {found:F1} against {expected}");
        Assert.Equal(1, found / expected, 2e-3);
    }

    [Fact]
    public void SpillsAndBoilOffFollowTheBalance()
    {
        // 10 L of liquid nitrogen, 6.92 m3 of gas, in 30 m3: 16.6 % mixed; 5 L/h with two air changes: 19.69 % by exhaust, 19.76 % by supply (arithmetic of the same balance).
        RoomAir still = new(Volume.FromCubicMeters(30));
        Assert.Equal(16.6, still.OxygenPercentAfter(Volume.FromCubicMeters(6.92)), 0.05);
        RoomAir exhaust = new(Volume.FromCubicMeters(30), VolumeFlow.FromCubicMetersPerHour(60));
        RoomAir supply = new(Volume.FromCubicMeters(30), VolumeFlow.FromCubicMetersPerHour(60), VentilationKind.Supply);
        VolumeFlow boilOff = VolumeFlow.FromCubicMetersPerHour(3.46);
        Assert.Equal(19.69, exhaust.OxygenPercentDuring(boilOff), 0.006);
        Assert.Equal(19.76, supply.OxygenPercentDuring(boilOff), 0.006);
        Assert.Equal(20.9, supply.OxygenPercentDuring(VolumeFlow.Zero), 1e-12);
        Assert.Equal(20.9, exhaust.OxygenPercentDuring(boilOff, Duration.Zero), 1e-12);

        // Nothing but gas enters: in the end nothing but gas is left.
        Assert.Equal(0, still.OxygenPercentDuring(boilOff), 1e-12);

        // Against small steps of the balance, V dC/dt = fresh air in x 20.9 - what leaves x C.
        foreach (RoomAir room in new[] { still, exhaust, supply })
        {
            double air = room.AirFlow.CubicMetersPerHour;
            double leaving = room.Ventilation == VentilationKind.Supply ? air + 3.46 : Math.Max(air, 3.46);
            double c = 20.9;
            const int Steps = 20000;
            for (int i = 0; i < Steps; i++)
            {
                c += 2.0 / Steps / 30 * (((leaving - 3.46) * 20.9) - (leaving * c));
            }

            Assert.Equal(c, room.OxygenPercentDuring(boilOff, Duration.FromHours(2)), 1e-3);
        }

        Duration alarm = still.TimeTo(19.5, boilOff)!.Value;
        Assert.Equal(19.5, still.OxygenPercentDuring(boilOff, alarm), 1e-9);
        Assert.Null(supply.TimeTo(19.5, boilOff));
        foreach (VentilationKind kind in Enum.GetValues<VentilationKind>())
        {
            VolumeFlow needed = new RoomAir(Volume.FromCubicMeters(30), default, kind).AirFlowFor(19.5, boilOff);
            Assert.Equal(19.5, new RoomAir(Volume.FromCubicMeters(30), needed, kind).OxygenPercentDuring(boilOff), 1e-9);
        }
    }

    [Fact]
    public void ThresholdsTellWhatHappensToPeople()
    {
        Assert.Null(RoomAir.CautionFor(20.9, "nothing"));
        Assert.Equal(CautionSeverity.Warning, RoomAir.CautionFor(19, "boil-off")!.Severity);
        Assert.Equal(CautionSeverity.Danger, RoomAir.CautionFor(15, "spill")!.Severity);
        Assert.Contains("one or two breaths", RoomAir.CautionFor(3, "spill")!.Rule, StringComparison.Ordinal);
        Assert.Equal("Room enriched in oxygen", RoomAir.CautionFor(25, "oxygen vent")!.Title);
        Assert.EndsWith("Local codes and licensed practice decide.", RoomAir.CautionFor(15, "spill")!.Advice, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => RoomAir.CautionFor(101, "spill"));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoomAir(Volume.Zero));
    }

    [Fact]
    public void AirThatCondensesIsHalfOxygen()
    {
        // About 52 % oxygen; the dew point of air at one atmosphere is 81.6 to 82.0 K (from memory).
        CondensedAir first = AirCondensate.First();
        output.WriteLine($"{first.DewPoint.Kelvins:F2} K, {100 * first.OxygenFraction:F2} % oxygen, {100 * first.ArgonFraction:F2} % argon");
        Assert.InRange(first.DewPoint.Kelvins, 81.6, 82.0);
        Assert.InRange(first.OxygenFraction, 0.505, 0.535);
        Assert.True(AirCondensate.First(Pressure.FromBars(0.8)).DewPoint < first.DewPoint);

        // Boiling off enriches: every step conserves oxygen, sum of what left and what is left; the last tenth is mostly oxygen.
        double before = 0.2095;
        double lost = 0;
        double shareBefore = 1;
        foreach (double left in new[] { 0.7, 0.5, 0.3, 0.1 })
        {
            double now = AirCondensate.OxygenLeft(left);
            Assert.True(now > before);
            lost += (shareBefore * before) - (left * now);
            (before, shareBefore) = (now, left);
            output.WriteLine($"{100 * left:F0} % left: {100 * now:F1} % oxygen");
        }

        // Rayleigh's closed form for two components lies about it with relative volatilities of nitrogen over oxygen at the ends of their range here, 3.3 and 4.6.
        Assert.True(LeftAt(before, 3.3) < 0.1 && LeftAt(before, 4.6) > 0.1, $"{LeftAt(before, 3.3)} and {LeftAt(before, 4.6)}");
        Assert.Equal(0.2095, lost + (0.1 * before), 1e-12);
        Assert.Equal(0.4, AirCondensate.OxygenLeft(1, first: 0.4));

        static double LeftAt(double oxygen, double volatility)
        {
            const double First = 1 - 0.2095;
            double now = 1 - oxygen;
            return Math.Exp((Math.Log(now / First) + (volatility * Math.Log((1 - First) / (1 - now)))) / (volatility - 1));
        }
    }
}
