using CryoThermo.Coolers.Charging;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Charging;

public sealed class LeakPathTests(ITestOutputHelper output)
{
    private static readonly Temperature Ambient = Temperature.FromDegreesCelsius(20);
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("propane", 0.5), ("isobutane", 0.5));

    private static LeakPath Follow(LeakKind kind, int steps, double lost = 0.5) =>
        LeakPath.Follow(kind, Blend, AmountOfSubstance.FromMoles(10), Volume.FromLiters(3), Ambient, lost, steps);

    [Fact]
    public void ALeakOfTheWholeKeepsTheComposition()
    {
        LeakPath path = LeakPath.Follow(
            LeakKind.WholeCharge, BenchCharge.Blend, AmountOfSubstance.FromMoles(1.6), Volume.FromLiters(6.65), Ambient, 0.4, 4);
        Assert.All(path.Points, p => Assert.Equal(0.14, p.Remaining.Composition["nitrogen"], 1e-14));
        Assert.Equal(0.6 * 1.6, path.Points[^1].Left.Moles, 1e-12);
        Assert.True(path.Points[^1].LeakPressure < path.Points[0].LeakPressure);
    }

    [Fact]
    public void VaporTakesTheLightAndLiquidTheHeavy()
    {
        LeakPath vapor = Follow(LeakKind.VaporAboveLiquid, 5);
        LeakPath liquid = Follow(LeakKind.LiquidBelowVapor, 5);
        output.WriteLine(vapor.ToTable().ToString());
        Assert.True(vapor.Points[^1].Remaining.Composition["propane"] < 0.47);
        Assert.True(liquid.Points[^1].Remaining.Composition["propane"] > 0.5);
        Assert.True(vapor.Points[^1].LeakPressure < liquid.Points[^1].LeakPressure);

        // What is left and what is lost make the charge: to rounding.
        LeakPoint end = vapor.Points[^1];
        double lost = end.LostFraction * 10;
        Assert.Equal(5, (end.Left.Moles * end.Remaining.Composition["propane"]) + (lost * end.Lost!["propane"]), 1e-10);
        Assert.True(end.Lost!["propane"] > 0.5);
    }

    [Fact]
    public void StepsConvergeWithTheFourthOrder()
    {
        double fine = Follow(LeakKind.VaporAboveLiquid, 12, 0.4).Points[^1].Remaining.Composition["propane"];
        double two = Math.Abs(Follow(LeakKind.VaporAboveLiquid, 2, 0.4).Points[^1].Remaining.Composition["propane"] - fine);
        double four = Math.Abs(Follow(LeakKind.VaporAboveLiquid, 4, 0.4).Points[^1].Remaining.Composition["propane"] - fine);
        output.WriteLine($"2 steps {two:E2}, 4 steps {four:E2}");
        Assert.InRange(two, 0, 1e-4);
        Assert.True(four < two / 8);
    }

    /// <summary>Almost all liquid, hardly any vapour space: Rayleigh's rule with a constant relative volatility.</summary>
    [Fact]
    public void WithLittleVaporItIsRayleighsRule()
    {
        // dn_p/dn_i = alpha n_p/n_i integrates to ln(n_p/n_p0) = alpha ln(n_i/n_i0); alpha of propane over isobutane changes little over this stretch.
        WorkingFluid liquid = WorkingFluid.Mixture(("propane", 0.3), ("isobutane", 0.7));
        LeakPath path = LeakPath.Follow(LeakKind.VaporAboveLiquid, liquid, AmountOfSubstance.FromMoles(10), Volume.FromLiters(1), Ambient, 0.05, 2);
        State first = liquid.AtDensity(Ambient, Molarity.FromMolesPerCubicMeter(10 / 0.001));
        Phase gas = first.Phases.Single(p => p.Kind == PhaseKind.Vapor);
        Phase drops = first.Phases.Single(p => p.Kind == PhaseKind.Liquid);
        Assert.True(gas.Fraction < 0.01);
        double alpha = gas.Composition["propane"] / drops.Composition["propane"] / (gas.Composition["isobutane"] / drops.Composition["isobutane"]);
        LeakPoint end = path.Points[^1];
        double propane = Math.Log(end.Left.Moles * end.Remaining.Composition["propane"] / 3);
        double isobutane = Math.Log(end.Left.Moles * end.Remaining.Composition["isobutane"] / 7);
        Assert.Equal(alpha, propane / isobutane, 0.03 * alpha);
    }

    [Fact]
    public void AMeasuredPressureFindsItsPlaceOnThePath()
    {
        MachineVolume[] machine = [new("all", Volume.FromLiters(60), Temperature.FromDegreesCelsius(22))];
        LeakPath path = Follow(LeakKind.VaporAboveLiquid, 6, 0.6);
        LeakPoint? full = path.AtPressure(machine, Pressure.FromBars(6));
        Assert.Null(full);
        LeakPoint found = path.AtPressure(machine, Pressure.FromBars(2.5))!;
        double held = LeakPath.Held(found.Remaining, machine, 2.5e5);
        Assert.Equal(1, held / found.Left.Moles, 1e-9);
        Assert.InRange(found.LostFraction, 0.05, 0.6);
    }

    [Fact]
    public void OnePhaseHasNoLeakOfTwo()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => LeakPath.Follow(LeakKind.VaporAboveLiquid, Blend, AmountOfSubstance.FromMoles(1), Volume.FromLiters(30), Ambient));
        Assert.Contains("one phase", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Follow(LeakKind.WholeCharge, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Follow((LeakKind)9, 10));
    }
}
