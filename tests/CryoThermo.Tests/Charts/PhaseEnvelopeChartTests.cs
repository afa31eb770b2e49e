using System.Xml.Linq;
using CryoThermo.Charts;
using CryoThermo.Tests.Equilibrium;

namespace CryoThermo.Tests.Charts;

public sealed class PhaseEnvelopeChartTests
{
    [Fact]
    public void SvgHasAxesWithUnitsAndTheMarkedPoints()
    {
        WorkingFluid fluid = Blends.FiveParts;
        PhaseEnvelope envelope = fluid.PhaseEnvelope();
        string svg = envelope.PressureTemperature(fluid.PhaseEnvelope(0.25)).ToSvg();
        string[] texts = ChartFiles.Texts(XElement.Parse(svg));
        CriticalPoint critical = envelope.CriticalPoints[0];
        Assert.Contains("pressure, bar absolute", texts);
        Assert.Contains("temperature, K", texts);
        Assert.Contains("temperature, °C", texts);
        Assert.Contains("dew line", texts);
        Assert.Contains("bubble line", texts);
        Assert.Contains("vapor fraction 0.25 and 0.75", texts);
        Assert.Contains(FormattableString.Invariant($"critical point: {critical.Temperature.Kelvins:F1} K, {critical.Pressure.Bars:F1} bar"), texts);
        Assert.Contains(texts, t => t.StartsWith("hottest point of two phases: ", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("highest pressure of two phases: ", StringComparison.Ordinal));
    }

    [Fact]
    public void FilesHaveTheSizeAskedForAlsoOfOpenEnvelopes()
    {
        PhaseEnvelopeChart chart = WorkingFluid.Mixture(("nitrogen", 0.6), ("propane", 0.4)).WithModel(FluidModel.PengRobinson).PhaseEnvelope().PressureTemperature();
        ChartFiles.CheckPng(path => chart.SavePng(path), 800, 500);
        ChartFiles.CheckSvg(path => chart.SaveSvg(path), 800, 500);
    }

    [Fact]
    public void AQualityLineOfAnotherFluidIsRefused() =>
        Assert.Throws<ArgumentException>(() => Blends.FiveParts.PhaseEnvelope().PressureTemperature(Blends.Wide.PhaseEnvelope(0.5)));
}
