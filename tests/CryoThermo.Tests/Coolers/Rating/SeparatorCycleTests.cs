using CryoThermo.Checks.Soak;
using CryoThermo.Coolers.Rating;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Rating;

public sealed class SeparatorCycleTests(ITestOutputHelper output)
{
    private static readonly WorkingFluid Blend = WorkingFluid
        .Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.20), ("propane", 0.06), ("isobutane", 0.30))
        .WithModel(FluidModel.PengRobinson);

    private static readonly SeparatorCycle Cycle = new(Blend, Pressure.FromBars(1.5), Pressure.FromBars(18), K(298), K(85), 15, 15, MolarFlow.FromMolesPerSecond(0.03));

    [Theory]
    [InlineData(105)]
    [InlineData(160)]
    [InlineData(290)]
    public void EveryBalanceClosesByStatesOfItsOwn(double cold)
    {
        SeparatorCycleResult result = Cycle.At(K(cold));
        double worst = 0;
        Assert.Null(SeparatorSoak.Wrong(result, ref worst));
        output.WriteLine($"worst balance {worst:E2}; {result.EntropyProductionPerSecond}");
        Assert.Equal(cold > 280, result.ColdExchangerRunsBackwards);
        Assert.Equal(12, result.ToTable().Rows.Count);
        Assert.Equal(6, result.CompositionTable().Rows.Count);
        Assert.Equal(
            result.VaporThrottle.MassFlow.GramsPerSecond + result.LiquidThrottle.MassFlow.GramsPerSecond,
            Cycle.Flow.MolesPerSecond * Blend.Composition.MolarMass.GramsPerMole,
            1e-9);
        Assert.Equal(result.MiddleTemperature.Kelvins, result.LiquidThrottle.Inlet.Temperature.Kelvins, 1e-9);
        Assert.Contains(result.Cautions, c => c.Title == "Flammable charge");
    }

    /// <summary>The whole box: cooling times what a reversible refrigerator would need, and the entropy made, is what the streams bring.</summary>
    [Fact]
    public void TheEntropyMadeIsThatOfTheWhole()
    {
        SeparatorCycleResult result = Cycle.At(K(130));
        double streams = Cycle.Flow.MolesPerSecond * (result.Suction.MolarEntropy - result.Arriving.MolarEntropy).JoulesPerMoleKelvin;
        double coldHead = result.VaporThrottle.Flow.MolesPerSecond * (result.ColdHeadOutlet.MolarEntropy - result.BehindVaporThrottle.MolarEntropy).JoulesPerMoleKelvin;
        Assert.Equal(streams - coldHead, result.EntropyProductionPerSecond.Total.JoulesPerKelvin, 1e-9);
    }

    [Fact]
    public void TheCurveRisesAndMeetsItsPoints()
    {
        IReadOnlyList<SeparatorCoolingPoint> curve = Cycle.Curve(K(95), K(195), 11);
        Assert.Equal(11, curve.Count);
        Assert.All(curve.Zip(curve.Skip(1)), pair => Assert.True(pair.Second.Cooling > pair.First.Cooling));

        // Isobar and flash differ by up to 1 J/mol.
        Assert.Equal((double)Cycle.At(K(145)).Cooling.Watts, (double)curve[5].Cooling.Watts, 0.06);
        Assert.All(curve, p => Assert.True(p.Cooling <= Cycle.GreatestCooling(p.ColdTemperature)));
        CryoThermo.Coolers.LowestTemperature lowest = Cycle.LowestTemperature(Power.FromWatts(8))!;
        Assert.False(lowest.EndOfSearch);
        Assert.Equal(8, (double)Cycle.At(lowest.Temperature).Cooling.Watts, 0.06);
        Assert.Null(Cycle.LowestTemperature(Power.FromWatts(1000)));
    }

    [Fact]
    public void WrongFiguresAreNamed()
    {
        Assert.Equal("cold", Assert.Throws<ArgumentOutOfRangeException>(() => Cycle.At(K(84))).ParamName);
        Assert.Equal("warmest", Assert.Throws<ArgumentOutOfRangeException>(() => Cycle.Curve(K(100), K(100))).ParamName);
        Assert.Equal("points", Assert.Throws<ArgumentOutOfRangeException>(() => Cycle.Curve(K(100), K(110), 1)).ParamName);
        ArgumentOutOfRangeException order = Assert.Throws<ArgumentOutOfRangeException>(() =>
            new SeparatorCycle(Blend, Pressure.FromBars(5), Pressure.FromBars(5), K(298), K(85), 1, 1, MolarFlow.FromMolesPerSecond(1)));
        Assert.Contains("highPressure is 5 bar", order.Message, StringComparison.Ordinal);
        Assert.Equal("lowest", Assert.Throws<ArgumentOutOfRangeException>(() =>
            new SeparatorCycle(Blend, Pressure.FromBars(1), Pressure.FromBars(5), K(298), K(299), 1, 1, MolarFlow.FromMolesPerSecond(1))).ParamName);
        Assert.Equal("warmConductanceWattsPerKelvin", Assert.Throws<ArgumentOutOfRangeException>(() =>
            new SeparatorCycle(Blend, Pressure.FromBars(1), Pressure.FromBars(18), K(298), K(85), 0, 1, MolarFlow.FromMolesPerSecond(1))).ParamName);
        Assert.Equal("flow", Assert.Throws<ArgumentOutOfRangeException>(() =>
            new SeparatorCycle(Blend, Pressure.FromBars(1), Pressure.FromBars(18), K(298), K(85), 1, 1, MolarFlow.Zero)).ParamName);
    }

    [Fact]
    public void RandomColdBoxesCloseOrTellWhyNot()
    {
        // The last one runs backwards: once more conductance was thought to give more there.
        SoakOutcome[] outcomes = [.. Enumerable.Range(0, 14).Append(32).Select(i => SeparatorSoak.Run(1, i))];
        output.WriteLine($"{outcomes.Count(o => o.Phases == 1)} as drawn, {outcomes.Count(o => o.Phases == 2)} backwards, {outcomes.Count(o => o.Unresolved)} refused, worst {outcomes.Max(o => o.Worst):E2}");
        Assert.Empty(outcomes.Select(o => o.Failure).OfType<string>());
        Assert.True(outcomes.Count(o => o.Phases > 0) >= 5);
    }

    private static Temperature K(double kelvins) => Temperature.FromKelvins(kelvins);
}
