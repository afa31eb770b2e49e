using CryoThermo.Checks.Soak;
using CryoThermo.Equilibrium;
using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class PhaseChangeTests
{
    private static readonly Temperature Cold = Temperature.FromKelvins(75);
    private static readonly Temperature Warm = Temperature.FromKelvins(300);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void TheFirstVaporOfTwoLiquidsIsTheBubblePoint(bool recommended)
    {
        (string, double)[] blend = [("nitrogen", 0.30), ("methane", 0.30), ("ethane", 0.20), ("propane", 0.20)];
        WorkingFluid fluid = Of(blend, recommended);
        Pressure pressure = Pressure.FromBars(6);
        State bubble = fluid.BubblePoint(pressure);
        double t = bubble.Temperature.Kelvins;

        // Its two liquids and the vapour, as told.
        Assert.False(bubble.HasUnresolvedPhase);
        Assert.Equal("two liquids + vapor", bubble.PhaseDescription);
        Assert.Equal([true, false, false], bubble.Phases.Select(p => p.IsIncipient));
        Assert.Equal(0, bubble.VaporFraction);
        Assert.Equal(1, bubble.Phases.Sum(p => p.Fraction), 1e-14);
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(fluid.Composition.MoleFractions[i], bubble.Phases.Sum(p => p.Fraction * p.Composition.MoleFractions[i]), 1e-12);
        }

        // Flashes just beside it, which know nothing of it.
        Assert.Equal("two liquids", fluid.At(Temperature.FromKelvins(t * (1 - 1e-6)), pressure).PhaseDescription);
        State above = fluid.At(Temperature.FromKelvins(t * (1 + 1e-6)), pressure);
        Assert.Equal("two liquids + vapor", above.PhaseDescription);
        Assert.InRange(above.VaporFraction, 1e-12, 1e-3);
        Assert.Equal(above.Phases[0].Composition["nitrogen"], bubble.Phases[0].Composition["nitrogen"], 1e-5);
        Assert.Equal(above.MolarEnthalpy.JoulesPerMole, bubble.MolarEnthalpy.JoulesPerMole, 1.0);

        // By temperature, by vapour fraction, and with the components in another order the same.
        Assert.Equal(6, fluid.BubblePoint(bubble.Temperature).Pressure.Bars, 6e-9);
        Assert.Equal(t, fluid.AtVaporFraction(pressure, 0).Temperature.Kelvins, 1e-9 * t);
        Assert.Equal(t, Of([.. blend.Reverse()], recommended).BubblePoint(pressure).Temperature.Kelvins, 1e-9 * t);

        // The bubble point of the liquid taken as one phase lies elsewhere and is not stable.
        EnvelopePoint unsplit = fluid.PhaseEnvelope().PointsAt(pressure).Single(p => p.Branch == EnvelopeBranch.Bubble);
        Assert.False(unsplit.IsStable);
        Assert.True(unsplit.Temperature.Kelvins < t - 1, $"{unsplit.Temperature.Kelvins} K and {t} K");
    }

    [Fact]
    public void TheChangesAlongAnIsobarAreTheEndsOfItsStretches()
    {
        Pressure pressure = Pressure.FromBars(6);
        IReadOnlyList<PhaseChange> changes = Blends.TwoLiquids.PhaseChanges(pressure, Cold, Warm);
        Isobar isobar = Blends.TwoLiquids.Isobar(pressure, Cold, Warm);
        Assert.Equal(isobar.Stretches.Count - 1, changes.Count);
        for (int i = 0; i < changes.Count; i++)
        {
            PhaseChange change = changes[i];
            Assert.Equal(isobar.Stretches[i].Region, change.Below);
            Assert.Equal(isobar.Stretches[i + 1].Region, change.Above);
            Assert.Equal(isobar.Stretches[i].To.Kelvins, change.Temperature.Kelvins, 1e-6);
            Assert.True(change.IsResolved);
            Assert.True(change.Phase.IsIncipient);
            Assert.Equal(6, change.Pressure.Bars, 1e-12);
        }

        Assert.Equal(["vapor appears", "liquid vanishes", "liquid vanishes"], changes.TakeLast(3).Select(c => c.ToString().Split(": ")[1].Split(',')[0]));
        Assert.Equal(Blends.TwoLiquids.BubblePoint(pressure).Temperature.Kelvins, changes[^3].Temperature.Kelvins, 1e-9);
        Assert.Equal(Blends.TwoLiquids.DewPoint(pressure).Temperature.Kelvins, changes[^1].Temperature.Kelvins, 1e-9);
    }

    [Fact]
    public void TheSameChangesAreMetAlongTheIsothermsThroughThem()
    {
        Pressure pressure = Pressure.FromBars(6);
        foreach (PhaseChange change in Blends.TwoLiquids.PhaseChanges(pressure, Cold, Warm))
        {
            IReadOnlyList<PhaseChange> along = Blends.TwoLiquids.PhaseChanges(change.Temperature, Pressure.FromBars(1), Pressure.FromBars(30));
            PhaseChange same = along.Single(c => Math.Abs((c.Pressure.Bars / 6) - 1) < 1e-8);
            Assert.Equal(change.Phase.Kind, same.Phase.Kind);
            Assert.Equal(change.Phase.Composition["methane"], same.Phase.Composition["methane"], 1e-8);
        }
    }

    [Fact]
    public void TwoComponentsBoilFromTwoLiquidsAtTheirThreePhasePressure()
    {
        // At the pressure of the three-phase line nitrogen and ethane boil from two liquids at its temperature, whatever there is of each.
        ThreePhaseLine line = Blends.NitrogenEthane.FindThreePhaseLine()!;
        ThreePhaseLinePoint point = line.Points[line.Points.Count / 2];
        PhaseChange change = Blends.NitrogenEthane.PhaseChanges(point.Pressure, point.Temperature - TemperatureDelta.FromKelvins(5), point.Temperature + TemperatureDelta.FromKelvins(5)).First(c => c.Phase.Kind == PhaseKind.Vapor);
        Assert.Equal(point.Temperature.Kelvins, change.Temperature.Kelvins, 1e-7);
        Assert.Equal((PhaseRegion.TwoLiquids, PhaseRegion.LiquidVapor), (change.Below, change.Above));
        Assert.Equal(3, change.State.Phases.Count);
        Assert.Equal(change.Temperature.Kelvins, Blends.NitrogenEthane.BubblePoint(point.Pressure).Temperature.Kelvins, 1e-9);
        Assert.Equal(point.Pressure.Bars, Blends.NitrogenEthane.BubblePoint(change.Temperature).Pressure.Bars, 1e-7);
    }

    [Fact]
    public void APureFluidChangesOnceAndASupercriticalOneNever()
    {
        foreach (FluidModel model in (FluidModel[])[FluidModel.PengRobinson, FluidModel.Recommended])
        {
            WorkingFluid methane = WorkingFluid.Pure("methane").WithModel(model);
            PhaseChange only = Assert.Single(methane.PhaseChanges(Pressure.FromBars(5), Temperature.FromKelvins(95), Warm));
            Assert.Equal(methane.Saturation(Pressure.FromBars(5)).Temperature.Kelvins, only.Temperature.Kelvins, 1e-9);
            Assert.Equal((PhaseRegion.Liquid, PhaseRegion.Vapor), (only.Below, only.Above));
            Assert.Equal(methane.Saturation(Pressure.FromBars(5)).Vapor.MolarDensity.MolesPerCubicMeter, only.Phase.MolarDensity.MolesPerCubicMeter, 1e-6);
            Assert.Empty(methane.PhaseChanges(Pressure.FromBars(80), Temperature.FromKelvins(95), Warm));
        }

        Assert.Empty(Blends.FiveParts.PhaseChanges(Pressure.FromBars(400), Temperature.FromKelvins(150), Warm));
    }

    [Theory]
    [InlineData("split-phase-changes", 12)]
    [InlineData("phase-changes", 12)]
    public void ASliceOfTheSoakHasNoFailure(string kind, int count)
    {
        using StringWriter output = new();
        Assert.True(SoakCommand.Run(kind, ["--count", $"{count}", "--seed", "7"], output, TextWriter.Null) == 0, output.ToString());
    }

    [Fact]
    public void ArgumentsAreChecked()
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.PhaseChanges(Pressure.FromBars(5), Warm, Cold));
        Assert.Contains("highest is 75 K", error.Message, StringComparison.Ordinal);
        Assert.Contains("pressure", Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.PhaseChanges(Pressure.FromBars(-1), Cold, Warm)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.PhaseChanges(Warm, Pressure.FromBars(5), Pressure.FromBars(5)));
        Assert.Throws<InvalidOperationException>(() => WorkingFluid.Pure("air").PhaseChanges(Pressure.FromBars(5), Cold, Warm));
    }

    private static WorkingFluid Of((string, double)[] blend, bool recommended) =>
        recommended ? WorkingFluid.Mixture(blend) : WorkingFluid.Mixture(blend).WithModel(FluidModel.PengRobinson);
}
