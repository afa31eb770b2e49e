using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Safety;

public sealed class BlendFlammabilityTests(ITestOutputHelper output)
{
    private static readonly SubstanceShare[] Propane = [new("propane", 1)];
    private static readonly SubstanceShare[] Blend = [new("nitrogen", 0.4), new("methane", 0.3), new("ethane", 0.2), new("propane", 0.1)];

    [Fact]
    public void LimitsAreThoseOfTheRules()
    {
        BlendFlammability methane = new([new("methane", 1)]);

        // Zabetakis: 5.0 % of methane becomes 4.51 % at 423 K; the record's least limit is 4.4 %, of which the same subtraction is taken: 0.75 x 124.85/191.8.
        Assert.Equal(4.4 - (0.75 * 124.85 / (802.56 / 4.184)), methane.LowerLimitPercentAt(Temperature.FromKelvins(423)), 1e-3);
        Assert.Equal(0.49, methane.LowerLimitPercent!.Value - methane.LowerLimitPercentAt(Temperature.FromKelvins(423)), 0.005);
        Assert.Equal(4.4, methane.LowerLimitPercentAt(Temperature.FromKelvins(298.15)), 1e-12);

        // A decade of pressure widens the upper limit by 20.6 points.
        Assert.Equal(20.6, methane.UpperLimitPercentAt(Pressure.FromBars(10))!.Value - methane.UpperLimitPercentAt(Pressure.FromBars(1))!.Value, 1e-9);
        Assert.Equal(12, methane.LimitingOxygenPercent);

        // By hand: 1/(0.3/4.4 + 0.2/2.4 + 0.1/1.7).
        BlendFlammability blend = new(Blend);
        Assert.Equal(1 / ((0.3 / 4.4) + (0.2 / 2.4) + (0.1 / 1.7)), blend.LowerLimitPercent!.Value, 1e-12);
        Assert.Equal(0.6, blend.FuelFraction, 1e-12);
        Assert.True(blend.Burns);
        Assert.Equal(11, blend.LimitingOxygenPercent);
        Assert.Equal("propane", blend.FirstToIgnite);
        output.WriteLine($"{blend.LowerLimitPercent:F2} to {blend.UpperLimitPercent:F1} %, {blend.LowerLimitMass!.Value.KilogramsPerCubicMeter:F4} kg/m3");

        // ISO 817: R-32, 12.7 % and 9.4 MJ/kg, is 2L; methane, above 3.5 % but 50 MJ/kg, is 3; diluted until it does not burn it is 1 (from memory).
        Assert.Equal("2 or 2L", new BlendFlammability([new("R-32", 1)]).FlammabilityClass);
        Assert.Equal("3", methane.FlammabilityClass);
        Assert.Equal("3", blend.FlammabilityClass);
        Assert.Equal("1", new BlendFlammability([new("methane", 0.05), new("nitrogen", 0.95)]).FlammabilityClass);

        BlendFlammability inert = new([new("nitrogen", 0.5), new("argon", 0.5)]);
        Assert.False(inert.Burns);
        Assert.Null(inert.LowerLimitPercent);
        Assert.Throws<InvalidOperationException>(() => inert.ChargeFor(Volume.FromCubicMeters(30)));
        Assert.Throws<ArgumentException>(() => new BlendFlammability([new("unobtainium", 1)]));
    }

    [Fact]
    public void ARoomTakesSoMuchFuel()
    {
        // Propane in 30 m3: 0.228 kg with a limit of 0.038 kg/m3 (ISO 5149 practical limit 0.008 kg/m3, from memory); the least published limit of 1.7 % is 0.0306 kg/m3.
        BlendFlammability propane = new(Propane);
        Assert.Equal(0.0306, propane.LowerLimitMass!.Value.KilogramsPerCubicMeter, 5e-5);
        Assert.Equal(0.2 * 0.0306 * 30, propane.ChargeFor(Volume.FromCubicMeters(30)).Kilograms, 5e-4);
        Assert.Equal(2.5 * Math.Pow(0.03064, 1.25) * 0.6 * Math.Sqrt(12), propane.ChargeFor(Area.FromSquareMeters(12), Length.FromMeters(0.6)).Kilograms, 2e-4);
    }

    [Fact]
    public void ALostChargeIsToldWithItsFigures()
    {
        RoomAir room = new(Volume.FromCubicMeters(20));
        LostCharge small = new(Propane, AmountOfSubstance.FromMoles(1), room);
        Assert.Empty(small.Cautions);
        LostCharge large = new(Propane, AmountOfSubstance.FromMoles(25), room);
        double percent = 100 * (1 - Math.Exp(-25 * 8.314462618 * 293.15 / 101325 / 20));
        Assert.Equal(percent, large.GasPercent, 1e-9);
        Assert.Equal(CautionSeverity.Danger, large.Cautions[0].Severity);
        Assert.Contains("makes the room flammable", large.Cautions[0].Title, StringComparison.Ordinal);
        Assert.EndsWith("Local codes and licensed practice decide.", large.Cautions[0].Advice, StringComparison.Ordinal);

        // In the lowest tenth of the room the small one burns as well.
        Assert.Contains(new LostCharge(Propane, AmountOfSubstance.FromMoles(15), room, 0.1).Cautions, c => c.Severity == CautionSeverity.Danger);

        // An inert charge takes the oxygen instead.
        LostCharge nitrogen = new([new("nitrogen", 1)], AmountOfSubstance.FromMoles(200), room);
        Assert.Null(nitrogen.ShareOfLowerLimit);
        Caution only = Assert.Single(nitrogen.Cautions);
        Assert.Equal("Room short of oxygen", only.Title);
        Assert.Equal("Room enriched in oxygen", Assert.Single(new LostCharge([new("oxygen", 1)], AmountOfSubstance.FromMoles(200), room).Cautions).Title);
    }

    [Fact]
    public void AirDrawnInComesToBurn()
    {
        // 1e-4 Pa m3/s from a test with 5 bar inside becomes less at 0.5 bar: (1.01325^2 - 0.5^2)/(5^2 - 1.01325^2).
        double rate = AirIngress.Rate(1e-4, Pressure.FromBars(5), Pressure.FromBars(0.5));
        Assert.Equal(1e-4 * ((1.01325 * 1.01325) - 0.25) / (25 - (1.01325 * 1.01325)), rate, 1e-12);
        AirIngress leak = new(Blend, AmountOfSubstance.FromMoles(8), 1e-2);
        Assert.Equal(9, leak.OxygenAlarmPercent);
        Assert.Equal(9, leak.OxygenPercentAfter(leak.TimeToAlarm!.Value), 1e-9);
        Assert.Equal(11, leak.OxygenPercentAfter(leak.TimeToFlammable!.Value), 1e-9);
        output.WriteLine(leak.Caution.Figure);
        Assert.Equal(CautionSeverity.Danger, leak.Caution.Severity);
        Assert.Contains("9.0 % oxygen after", leak.Caution.Figure, StringComparison.Ordinal);
        Assert.Equal(3, new AirIngress([new("hydrogen", 1)], AmountOfSubstance.FromMoles(8), 1e-2).OxygenAlarmPercent!.Value, 1e-12);

        // Half of the water that saturates air at 20 degC, 2339 Pa (IAPWS, from memory): moles of water per mole of dry air 0.01168.
        double water = leak.Water(RelativeHumidity.FromPercent(50)).KilogramsPerSecond / 0.018015268 / leak.MolesPerSecond;
        Assert.Equal(0.01168, water, 1e-4);
        AirIngress inert = new([new("nitrogen", 1)], AmountOfSubstance.FromMoles(8), 1e-2);
        Assert.Null(inert.TimeToFlammable);
        Assert.Equal(CautionSeverity.Warning, inert.Caution.Severity);
        Assert.Throws<ArgumentOutOfRangeException>(() => AirIngress.Rate(1e-4, Pressure.FromBars(5), Pressure.FromBars(1.2)));
        Assert.Throws<ArgumentOutOfRangeException>(() => AirIngress.Rate(1e-4, Pressure.FromBars(0.9), Pressure.FromBars(0.5)));
    }
}
