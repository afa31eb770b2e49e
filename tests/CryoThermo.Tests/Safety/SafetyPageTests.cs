using CryoThermo.Safety;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Safety;

/// <summary>The example of docs/concepts/safety.md, run as it stands there.</summary>
public sealed class SafetyPageTests(ITestOutputHelper output)
{
    [Fact]
    public void TheFiguresAreThoseOfThePage()
    {
        // Page:
        SubstanceShare[] charge = [new("nitrogen", 0.14), new("methane", 0.30), new("ethane", 0.24), new("propane", 0.22), new("isobutane", 0.10)];
        BlendFlammability fire = new(charge);
        RoomAir workshop = new(Volume.FromCubicMeters(30));
        LostCharge lost = new(charge, AmountOfSubstance.FromMoles(9), workshop, mixedShare: 0.25);

        AirIngress leak = new(charge, AmountOfSubstance.FromMoles(9), AirIngress.Rate(0.1, testPressure: Pressure.FromBars(10), lowPressure: Pressure.FromBars(0.7)));
        TrappedLiquid shut = new(WorkingFluid.Pure("nitrogen").Saturation(Temperature.FromKelvins(77.36)).Liquid);
        Temperature? bursts = shut.ReachesAt(Pressure.FromBars(40), warmest: Temperature.FromKelvins(293));

        ReliefFlow boiling = ReliefEstimate.FlowFor(WorkingFluid.Pure("nitrogen"), Pressure.FromBars(3), Power.FromWatts(60));
        Area hole = ReliefEstimate.HomogeneousArea(boiling.MassFlow, boiling.Inlet, Pressure.FromBars(1));
        // End.
        output.WriteLine(leak.Caution.Figure);
        output.WriteLine(shut.CautionAt(Temperature.FromKelvins(293)).Figure);
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "safety.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Safety", "SafetyPageTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        // Computed here, as printed on the page.
        Assert.Equal(2.7, fire.LowerLimitPercent!.Value, 0.05);
        Assert.Equal(16, fire.UpperLimitPercent!.Value, 0.5);
        Assert.Equal(180, fire.ChargeFor(workshop.Volume).Grams, 1.0);
        Assert.Equal(65, fire.ChargeFor(Area.FromSquareMeters(12), Length.FromMeters(0.6)).Grams, 0.5);
        Assert.Equal(2.8, lost.GasPercent, 0.05);
        Assert.True(lost.ShareOfLowerLimit > 1);
        Assert.Equal(20.3, lost.OxygenPercent, 0.05);
        Assert.Equal(353, leak.TimeToAlarm!.Value.Days, 1.0);
        Assert.Equal(518, leak.TimeToFlammable!.Value.Days, 1.0);
        Assert.Equal(9, leak.OxygenAlarmPercent);
        Assert.Equal(79.6, bursts!.Value.Kelvins, 0.05);
        Assert.Equal(2850, shut.At(Temperature.FromKelvins(293)).Pressure.Bars, 10.0);
        Assert.Equal(1.15, boiling.MassFlow.KilogramsPerHour, 0.005);
        Assert.Equal(0.26, hole.SquareMillimeters, 0.005);
        Assert.Equal(16.6, new RoomAir(Volume.FromCubicMeters(30)).OxygenPercentAfter(Volume.FromLiters(10 * RoomAir.ExpansionRatio(WorkingFluid.Pure("nitrogen"), Temperature.FromKelvins(293.15)))), 0.05);
        Assert.Equal(0.81, AirCondensate.OxygenLeft(0.1), 0.005);
        Assert.Equal(283, 9 * WorkingFluid.Mixture([.. charge.Select(s => (s.Substance, s.MoleFraction))]).Composition.MolarMass.GramsPerMole, 2.0);

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
