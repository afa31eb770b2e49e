using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Machines;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Machines;

public sealed class ThrottleSizingTests(ITestOutputHelper output)
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18))
        .WithModel(FluidModel.PengRobinson);

    private static readonly OpeningCurve Curve = new(
        new(0, 0), new(30, 0), new(100, 0.004), new(200, 0.012), new(300, 0.025), new(400, 0.045), new(500, 0.07));

    private static readonly ThrottleDuty Start = new(
        "start", Blend.At(Temperature.FromKelvins(298), Pressure.FromBars(15)), Pressure.FromBars(2.5), MolarFlow.FromMolesPerSecond(0.05));

    private static readonly ThrottleDuty Cold = new(
        "cold", Blend.At(Temperature.FromKelvins(115), Pressure.FromBars(15)), Pressure.FromBars(1.5), MolarFlow.FromMolesPerSecond(0.05));

    [Fact]
    public void TheBuilderLearnsHowManyStepsToOpenAndWhatAFixedOpeningDoes()
    {
        ThrottleSizing sizing = ThrottleSizing.Of(
            [Start, Cold], Curve, ValveStyle.Needle, Pressure.FromPascals(97000), Pressure.FromBars(25), Pressure.FromBars(25));
        output.WriteLine(sizing.ToTable().ToString());
        foreach (Caution caution in sizing.Cautions)
        {
            output.WriteLine($"{caution.Severity}: {caution.Title}: {caution.Figure}");
        }

        DutyOpening start = sizing.Openings[0];
        DutyOpening cold = sizing.Openings[1];

        // Cold liquid is several times denser than warm gas at the same pressure: the theory of throttle coolers gives a flow 2.6 to 4 times larger.
        Assert.InRange(start.Opening.FlowCoefficientKv / cold.Opening.FlowCoefficientKv, 2.6, 8);
        Assert.True(start.Opening.Steps > cold.Opening.Steps);
        Assert.Equal(start.Opening.FlowCoefficientKv, Curve.KvAt(start.Opening.Steps).FlowCoefficientKv, 1e-9);
        Assert.Equal(Start.Flow.MolesPerSecond, start.Flow.MolarFlow.MolesPerSecond, 1e-12);
        Assert.Equal(Cold.Inlet.Pressure, cold.PressureAtLeastOpening);
        Assert.True(start.PressureAtLeastOpening is null || start.PressureAtLeastOpening.Value.Bars > 25);
        Caution danger = sizing.Cautions.Single(c => c.Title == "Opening too small for another duty");
        Assert.Equal(CautionSeverity.Danger, danger.Severity);
        Assert.Contains(Caution.Deference, danger.Advice, StringComparison.Ordinal);
        Assert.Contains(sizing.Cautions, c => c.Title == "Flammable charge");
        Assert.Contains("steps", sizing.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void AnOpeningBeyondTheCurveIsFlagged()
    {
        OpeningCurve small = new(new(30, 0), new(100, 0.001), new(500, 0.01));
        ThrottleSizing sizing = ThrottleSizing.Of([Start], small, ValveStyle.Needle, Pressure.FromPascals(97000));
        Assert.True(sizing.Openings[0].Opening.IsExtrapolated);
        Assert.Contains(sizing.Cautions, c => c.Title == "Opening beyond the curve of the valve");

        // A curve that ends level reaches no further.
        OpeningCurve level = new(new(30, 0), new(100, 0.01), new(500, 0.01));
        Assert.True(ThrottleSizing.Of([Start], level, ValveStyle.Needle, Pressure.FromPascals(97000)).Openings[0].Opening.IsExtrapolated);
        OpeningCurve wide = new(new(30, 0), new(100, 0.5), new(500, 5));
        Assert.Contains(
            ThrottleSizing.Of([Cold], wide, ValveStyle.Needle, Pressure.FromPascals(97000)).Cautions, c => c.Title == "Valve nearly closed" && c.Severity == CautionSeverity.Notice);
    }

    [Fact]
    public void BadInputIsRefused()
    {
        Assert.Throws<ArgumentException>(() => ThrottleSizing.Of([], Curve, ValveStyle.Needle, Pressure.FromPascals(97000)));
        Assert.Throws<ArgumentException>(() => ThrottleSizing.Of([Cold, Cold], Curve, ValveStyle.Needle, Pressure.FromPascals(97000)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ThrottleSizing.Of([Cold], Curve, ValveStyle.Needle, Pressure.FromPascals(9700)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ThrottleDuty("x", Cold.Inlet, Pressure.FromBars(20), Cold.Flow));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ThrottleDuty("x", Cold.Inlet, Pressure.FromBars(2), MolarFlow.Zero));
    }
}
