using System.Xml.Linq;
using CryoThermo.Charts;
using CryoThermo.Coolers;
using CryoThermo.Tests.Coolers;

namespace CryoThermo.Tests.Charts;

public sealed class DesignChartsTests
{
    private static readonly CoolerDesign Bench = BenchCoolerFile.Design(static _ => { });

    [Fact]
    public void TheRecuperatorChartTellsAxesUnitsAndPinch()
    {
        string[] texts = ChartFiles.Texts(XElement.Parse(Bench.TemperatureDuty()!.ToSvg()));
        Assert.Contains("duty from the cold end, W", texts);
        Assert.Contains("temperature, K", texts);
        Assert.Contains("temperature, \u00b0C", texts);
        Assert.Contains("Recuperator at 105 K cold end", texts);
        Assert.Contains(texts, t => t.StartsWith(FormattableString.Invariant($"pinch {Bench.Recuperator.Pinch.Approach.Kelvins:F1} K"), StringComparison.Ordinal));
        Assert.Contains("hot, two phases", texts);
        Assert.Contains("cold, two phases", texts);
    }

    [Fact]
    public void TheCoolingChartTellsAxesUnitsAndDemand()
    {
        string[] texts = ChartFiles.Texts(XElement.Parse(Bench.CoolingCurve().ToSvg()));
        Assert.Contains("cooling, W", texts);
        Assert.Contains("cold temperature, K", texts);
        Assert.Contains("cold temperature, \u00b0C", texts);
        Assert.Contains("perfect recuperator", texts);
        Assert.Contains("conductance 40 W/K", texts);
        Assert.Contains("demand: 10 W at 105 K", texts);
        Assert.Contains(texts, static t => t.Contains("4 W leak", StringComparison.Ordinal));
        Assert.DoesNotContain(texts, static t => t.Contains("model error", StringComparison.Ordinal));
        Assert.Contains(
            ChartFiles.Texts(XElement.Parse(BenchCoolerFile.Design(c => c["model"] = "peng-robinson").CoolingCurve().ToSvg())),
            static t => t.Contains("model error -20 to +21 %", StringComparison.Ordinal));
        Assert.Contains(FormattableString.Invariant($"lowest, perfect: {Bench.IdealLowestTemperature!.Temperature.Kelvins:F1} K"), texts);
    }

    [Theory]
    [InlineData(800, 500)]
    [InlineData(1024, 700)]
    public void FilesHaveTheSizeAskedFor(int width, int height)
    {
        ChartFiles.CheckSvg(path => Bench.TemperatureDuty()!.SaveSvg(path, width, height), width, height);
        ChartFiles.CheckPng(path => Bench.TemperatureDuty()!.SavePng(path, width, height), width, height);
        ChartFiles.CheckSvg(path => Bench.CoolingCurve().SaveSvg(path, width, height), width, height);
        ChartFiles.CheckPng(path => Bench.CoolingCurve().SavePng(path, width, height), width, height);
    }

    [Fact]
    public void WithHardlyAnyHeatExchangedTheChartsStillDraw()
    {
        CoolerDesign design = BenchCoolerFile.Design(c => c.SetValue("recuperator", "conductance", 1e-18));
        Assert.True((double)design.Recuperator.Duty.Watts < 1e-12);
        if (design.TemperatureDuty() is { } chart)
        {
            Assert.NotEmpty(ChartFiles.Texts(XElement.Parse(chart.ToSvg())));
        }

        Assert.NotNull(design.CoolingCurve().ToSvg());
    }

    [Fact]
    public void WhereNothingIsCooledTheChartShowsWhatIsMissing()
    {
        CoolerDesign design = BenchCoolerFile.Design(c =>
        {
            c.SetValue("load", "temperature", 66);
            c.SetValue("load", "power", 0);
            c["coolingCurve"] = System.Text.Json.Nodes.JsonNode.Parse("""{ "lowest": { "value": 62, "unit": "K" }, "highest": { "value": 75, "unit": "K" } }""");
        });
        Assert.All(design.Curve, static p => Assert.True((double)p.GreatestCooling.Watts < 0));
        Assert.NotEmpty(ChartFiles.Texts(XElement.Parse(design.CoolingCurve().ToSvg())));
    }
}
