using System.Xml.Linq;
using CryoThermo.Charts;

namespace CryoThermo.Tests.Charts;

public sealed class CoolingCurveChartTests
{
    // Made up.
    private static readonly CoolingCurveData Data = new([80, 90, 100, 120, 160], [-1, 3, 6, 9, 10])
    {
        WithConductanceWatts = [-2, 1, 4, 6.5, 7],
        ConductanceWattsPerKelvin = 6.5,
        Demand = new CoolingDemand(105, 4),
        LowestIdealKelvins = 82.5,
        LowestWithConductanceKelvins = 86.7,
        Title = "Bench cooler",
    };

    [Fact]
    public void SvgIsOneElementWithTheLabels()
    {
        string svg = new CoolingCurveChart(Data).ToSvg();

        Assert.StartsWith("<svg", svg, StringComparison.Ordinal);
        string[] texts = ChartFiles.Texts(XElement.Parse(svg));
        Assert.Contains("cold temperature, K", texts);
        Assert.Contains("cold temperature, °C", texts);
        Assert.Contains("cooling, W", texts);
        Assert.Contains("perfect recuperator", texts);
        Assert.Contains("conductance 6.5 W/K", texts);
        Assert.Contains("demand: 4 W at 105 K", texts);
        Assert.Contains("lowest, perfect: 82.5 K", texts);
        Assert.Contains("lowest, with 6.5 W/K: 86.7 K", texts);
        Assert.Contains("Bench cooler", texts);
    }

    [Fact]
    public void OptionalPartsAreLeftOut()
    {
        string[] texts = ChartFiles.Texts(XElement.Parse(new CoolingCurveChart(new CoolingCurveData(Data.ColdKelvins, Data.IdealWatts)).ToSvg()));

        Assert.Contains("perfect recuperator", texts);
        Assert.DoesNotContain(texts, static t => t.StartsWith("conductance", StringComparison.Ordinal)
            || t.StartsWith("demand", StringComparison.Ordinal) || t.StartsWith("lowest", StringComparison.Ordinal));
    }

    [Fact]
    public void FilesHaveTheSizeAskedFor()
    {
        var chart = new CoolingCurveChart(Data);

        ChartFiles.CheckPng(path => chart.SavePng(path), 800, 500);
        ChartFiles.CheckSvg(path => chart.SaveSvg(path), 800, 500);
    }

    [Fact]
    public void BadDataAreNamed()
    {
        Assert.Contains("ColdKelvins[1]", Message(Data with { ColdKelvins = [80, 80, 100, 120, 160] }), StringComparison.Ordinal);
        Assert.Contains("IdealWatts has 2", Message(Data with { IdealWatts = [1, 2] }), StringComparison.Ordinal);
        Assert.Contains("Demand.LoadWatts", Message(Data with { Demand = new CoolingDemand(100, double.NaN) }), StringComparison.Ordinal);
        Assert.Contains("LowestIdealKelvins is 0 K", Message(Data with { LowestIdealKelvins = 0 }), StringComparison.Ordinal);
    }

    [Fact]
    public void WhereNoCoolingIsLeftWhatIsMissingIsShown()
    {
        XElement svg = XElement.Parse(new CoolingCurveChart(new CoolingCurveData([80, 90], [-2, -1])).ToSvg());
        Assert.Contains("cooling, mW", ChartFiles.Texts(svg));
        Assert.Contains(ChartFiles.Texts(svg), static t => t.StartsWith('-') || t.StartsWith('\u2212'));
    }

    private static string Message(CoolingCurveData data) => Assert.ThrowsAny<ArgumentException>(() => new CoolingCurveChart(data)).Message;
}
