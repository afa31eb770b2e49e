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
        ReliefFlow boiling = ReliefEstimate.FlowFor(WorkingFluid.Pure("nitrogen"), Pressure.FromBars(3), Power.FromWatts(60));
        Area hole = ReliefEstimate.HomogeneousArea(boiling.MassFlow, boiling.Inlet, Pressure.FromBars(1));
        // End.
        output.WriteLine($"{fire.LowerLimitPercent:F2} to {fire.UpperLimitPercent:F1} %, {fire.LowerLimitMass!.Value.KilogramsPerCubicMeter:F4} kg/m3, {fire.FirstToIgnite} {fire.Autoignition!.Value.DegreesCelsius} degC, room {fire.ChargeFor(workshop.Volume).Grams:F0} g; floor {fire.ChargeFor(Area.FromSquareMeters(12), Length.FromMeters(0.6)).Grams:F0} g");
        output.WriteLine($"lost {lost.GasPercent:F2} %, {lost.ShareOfLowerLimit:F3} of the limit, {lost.OxygenPercent:F1} % oxygen; {string.Join(" / ", lost.Cautions.Select(c => c.Title))}");
        output.WriteLine($"{leak.Caution.Figure}; {leak.TimeToAlarm!.Value.Days:F1} {leak.TimeToFlammable!.Value.Days:F1} days");
        output.WriteLine($"{bursts!.Value.Kelvins:F2} K; {shut.CautionAt(Temperature.FromKelvins(293)).Figure}");
        output.WriteLine($"{boiling.MassFlow.KilogramsPerHour:F2} kg/h, {hole.SquareMillimeters:F3} mm2");
        output.WriteLine($"10 L: {new RoomAir(Volume.FromCubicMeters(30)).OxygenPercentAfter(Volume.FromLiters(10 * RoomAir.ExpansionRatio(WorkingFluid.Pure("nitrogen"), Temperature.FromKelvins(293.15))))}; last tenth {AirCondensate.OxygenLeft(0.1):F3}");
    }
}
