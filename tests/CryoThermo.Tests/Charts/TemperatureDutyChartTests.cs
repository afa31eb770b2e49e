using System.Xml.Linq;
using CryoThermo.Charts;

namespace CryoThermo.Tests.Charts;

public sealed class TemperatureDutyChartTests
{
    // Made up: the streams come closest, 5 K apart, at 400 W.
    private static readonly TemperatureDutyData Data = new(
        [0, 200, 400, 600, 800], [120, 160, 195, 250, 300], [90, 150, 190, 235, 285])
    {
        HotTwoPhase = [new DutySpan(100, 700)],
        ColdTwoPhase = [new DutySpan(0, 500)],
        Title = "Recuperator of the bench cooler",
    };

    [Fact]
    public void SvgIsOneElementWithTheLabels()
    {
        string svg = new TemperatureDutyChart(Data).ToSvg();

        XElement root = XElement.Parse(svg);
        Assert.StartsWith("<svg", svg, StringComparison.Ordinal);
        Assert.Equal("svg", root.Name.LocalName);
        Assert.Equal("800", root.Attribute("width")?.Value);
        Assert.Equal("500", root.Attribute("height")?.Value);
        string[] texts = ChartFiles.Texts(root);
        Assert.Contains("duty from the cold end, W", texts);
        Assert.Contains("temperature, K", texts);
        Assert.Contains("temperature, °C", texts);
        Assert.Contains("pinch 5.0 K at 400 W", texts);
        Assert.Contains("hot stream", texts);
        Assert.Contains("cold stream", texts);
        Assert.Contains("hot, two phases", texts);
        Assert.Contains("cold, two phases", texts);
        Assert.Contains("Recuperator of the bench cooler", texts);
    }

    [Fact]
    public void ShadingIsLeftOutWhenNotGiven()
    {
        string[] texts = ChartFiles.Texts(XElement.Parse(new TemperatureDutyChart(Data with { HotTwoPhase = [] }).ToSvg()));

        Assert.DoesNotContain("hot, two phases", texts);
        Assert.Contains("cold, two phases", texts);
    }

    [Fact]
    public void PinchIsTheLeastDifference()
    {
        var chart = new TemperatureDutyChart(Data);

        Assert.Equal(5, chart.PinchKelvins, 1e-12);
        Assert.Equal(400, chart.PinchDutyWatts, 1e-12);
    }

    [Theory]
    [InlineData(1e-3, "duty from the cold end, mW", "pinch 5.0 K at 400 mW")]
    [InlineData(1, "duty from the cold end, W", "pinch 5.0 K at 400 W")]
    [InlineData(3.0851, "duty from the cold end, W", "pinch 5.0 K at 1234 W")]
    [InlineData(100, "duty from the cold end, kW", "pinch 5.0 K at 40 kW")]
    public void DutyTakesAReadableUnit(double factor, string label, string pinch)
    {
        var data = new TemperatureDutyData([.. Data.DutyWatts.Select(d => d * factor)], Data.HotKelvins, Data.ColdKelvins);

        string[] texts = ChartFiles.Texts(XElement.Parse(new TemperatureDutyChart(data).ToSvg()));
        Assert.Contains(label, texts);
        Assert.Contains(pinch, texts);
    }

    [Fact]
    public void FilesHaveTheSizeAskedFor()
    {
        var chart = new TemperatureDutyChart(Data);

        ChartFiles.CheckPng(path => chart.SavePng(path, 640, 400), 640, 400);
        ChartFiles.CheckSvg(path => chart.SaveSvg(path, 640, 400), 640, 400);
    }

    [Fact]
    public void BadDataAreNamed()
    {
        Assert.Contains("DutyWatts[2]", Message(Data with { DutyWatts = [0, 200, 200, 600, 800] }), StringComparison.Ordinal);
        Assert.Contains("HotKelvins has 4", Message(Data with { HotKelvins = [120, 160, 195, 250] }), StringComparison.Ordinal);
        Assert.Contains("ColdKelvins[0] is -1 K", Message(Data with { ColdKelvins = [-1, 150, 190, 235, 285] }), StringComparison.Ordinal);
        Assert.Contains("HotKelvins[1] is NaN K", Message(Data with { HotKelvins = [120, double.NaN, 195, 250, 300] }), StringComparison.Ordinal);
        Assert.Contains("ColdTwoPhase holds 500 to 900 W", Message(Data with { ColdTwoPhase = [new DutySpan(500, 900)] }), StringComparison.Ordinal);
        Assert.Contains(
            "199 pixels", Assert.Throws<ArgumentOutOfRangeException>(() => new TemperatureDutyChart(Data).ToSvg(widthPixels: 199)).Message, StringComparison.Ordinal);
    }

    private static string Message(TemperatureDutyData data) => Assert.ThrowsAny<ArgumentException>(() => new TemperatureDutyChart(data)).Message;
}
