using CryoThermo.Coolers.Charging;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Charging;

public sealed class TopUpAdviceTests(ITestOutputHelper output)
{
    private static Composition Shifted(double nitrogen) => Composition.FromMoles(
        [.. BenchCharge.Blend.Composition.Components.Select((c, i) =>
            (c.Name, AmountOfSubstance.FromMoles(BenchCharge.Blend.Composition.MoleFractions[i] * (c.Name == "nitrogen" ? nitrogen : 1))))]);

    [Fact]
    public void ALeakOfTheWholeIsToppedUpInProportion()
    {
        TopUpAdvice advice = TopUpAdvice.ForPressure(BenchCharge.Request(), Pressure.FromBars(4.5));
        output.WriteLine(advice.ToTable().ToString());
        Assert.Equal(TopUpAction.Add, advice.Action);
        Assert.Equal(6e5, advice.FinalPressure.Pascals, 6e5 * 1e-8);
        double[] shares = [.. advice.Additions.Select(a => a.Amount.Moles / BenchCharge.Blend.Composition[a.Component.Name])];
        Assert.All(shares, s => Assert.Equal(1, s / shares[0], 1e-8));
        Assert.Equal(advice.FinalPressure.Pascals, advice.Additions[^1].AbsolutePressure.Pascals, 1e-6);
    }

    [Fact]
    public void WhatIsMissingIsAddedAndNothingElse()
    {
        // Two thirds of the nitrogen are left: adding nitrogen alone restores the charge.
        ChargeRequest request = BenchCharge.Request();
        ChargeRecipe whole = ChargeRecipe.Solve(request);
        double left = 0.14 * whole.TotalAmount.Moles * 2 / 3;
        Composition present = Shifted(2.0 / 3);
        double total = whole.TotalAmount.Moles - (left / 2);
        double pressure = PressureOf(present, total);
        TopUpAdvice advice = TopUpAdvice.ForComposition(request, present, Pressure.FromPascals(pressure));
        TopUpAddition only = Assert.Single(advice.Additions);
        Assert.Equal("nitrogen", only.Component.Name);
        Assert.Equal(left / 2, only.Amount.Moles, 1e-8);
        Assert.Equal(6e5, advice.FinalPressure.Pascals, 1e-2);
    }

    [Fact]
    public void TooMuchOfOneIsDilutedWhereThePressureAllowsIt()
    {
        ChargeRequest request = BenchCharge.Request();
        TopUpAdvice diluted = TopUpAdvice.ForComposition(request, Shifted(2), Pressure.FromBars(5.9), 0.01);
        output.WriteLine(diluted.ToTable().ToString());
        Assert.Equal(TopUpAction.Add, diluted.Action);
        Assert.InRange(diluted.FinalPressure.Bars, 6.1, 12);
        Assert.DoesNotContain(diluted.Additions, a => a.Component.Name == "nitrogen");
        Assert.All(
            BenchCharge.Blend.Composition.Components,
            c => Assert.InRange(diluted.Result.Composition[c.Name] - BenchCharge.Blend.Composition[c.Name], -0.01 - 1e-9, 0.01 + 1e-9));

        ChargeRequest tight = new()
        {
            Wanted = request.Wanted,
            Volumes = request.Volumes,
            LocalAtmosphere = request.LocalAtmosphere,
            FinalPressure = request.FinalPressure,
            AllowedPressure = Pressure.FromBars(6.5),
        };
        TopUpAdvice refill = TopUpAdvice.ForComposition(tight, Shifted(2), Pressure.FromBars(5.9), 0.01);
        Assert.Equal(TopUpAction.RecoverAndRefill, refill.Action);
        Assert.Empty(refill.Additions);
        Assert.Contains("nitrogen", refill.Reason, StringComparison.Ordinal);
        Assert.True(refill.FinalPressure.Bars > 6.5);
    }

    [Fact]
    public void AChargeAsWantedIsLeftAlone() =>
        Assert.Equal(TopUpAction.Leave, TopUpAdvice.ForPressure(BenchCharge.Request(), Pressure.FromBars(6)).Action);

    [Fact]
    public void ALeakOfVaporAsksForMoreOfTheLight()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("propane", 0.5), ("isobutane", 0.5));
        MachineVolume[] machine = [new("all", Volume.FromLiters(80), Temperature.FromDegreesCelsius(22))];
        LeakPath leak = LeakPath.Follow(
            LeakKind.VaporAboveLiquid, blend, AmountOfSubstance.FromMoles(7.1), Volume.FromLiters(2), Temperature.FromDegreesCelsius(5), 0.5, 4);
        ChargeRequest request = new()
        {
            Wanted = blend,
            Volumes = machine,
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(2.1),
        };
        TopUpAdvice guess = TopUpAdvice.ForPressure(request, Pressure.FromBars(1.5));
        TopUpAdvice rayleigh = TopUpAdvice.ForPressure(request, Pressure.FromBars(1.5), leak);
        double Share(TopUpAdvice advice) => advice.Additions.Single(a => a.Component.Name == "propane").Amount.Moles / advice.Additions.Sum(a => a.Amount.Moles);
        Assert.Equal(0.5, Share(guess), 1e-8);
        Assert.True(Share(rayleigh) > 0.55);
        Assert.Throws<ArgumentOutOfRangeException>(() => TopUpAdvice.ForPressure(request, Pressure.FromBars(0.2), leak));
    }

    [Fact]
    public void LeastTotalAndNearestKeepTheirBounds()
    {
        Random random = new(3);
        for (int trial = 0; trial < 1000; trial++)
        {
            int n = 2 + random.Next(5);
            double[] z = [.. Enumerable.Range(0, n).Select(_ => random.NextDouble() + 0.01)];
            double sum = z.Sum();
            z = [.. z.Select(x => x / sum)];
            double[] a = [.. Enumerable.Range(0, n).Select(_ => 2 * random.NextDouble())];
            double tolerance = 0.001 + (0.05 * random.NextDouble());
            double least = TopUpAdvice.LeastTotal(a, z, tolerance);
            double[] contents = TopUpAdvice.Nearest(a, z, least);
            Assert.Equal(least, contents.Sum(), 1e-9 * least);
            Assert.All(Enumerable.Range(0, n), i => Assert.True(contents[i] >= a[i]));
            double worst = Enumerable.Range(0, n).Max(i => Math.Abs((contents[i] / least) - z[i]));
            Assert.InRange(worst, 0, tolerance * (1 + 1e-6));

            // The least: with one per cent less there is no room within the tolerance.
            double less = Math.Max(a.Sum(), 0.99 * least);
            double[] tight = TopUpAdvice.Nearest(a, z, less);
            Assert.True(less > 0.99 * least || Enumerable.Range(0, n).Max(i => Math.Abs((tight[i] / less) - z[i])) > tolerance);
        }
    }

    private static double PressureOf(Composition composition, double moles)
    {
        WorkingFluid gas = WorkingFluid.Mixture(composition);
        double low = 1e5;
        double high = 1e6;
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = LeakPath.Held(gas, BenchCharge.Machine, middle) < moles ? (middle, high) : (low, middle);
        }

        return 0.5 * (low + high);
    }
}
