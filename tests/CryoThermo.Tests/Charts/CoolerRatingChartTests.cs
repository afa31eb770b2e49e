using System.Xml.Linq;
using CryoThermo.Charts;
using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Design;
using CryoThermo.Tests.Coolers;
using UnitsNet;

namespace CryoThermo.Tests.Charts;

public sealed class CoolerRatingChartTests
{
    private static readonly CoolerDescription Bench = BenchCoolerFile.Describe(BenchCoolerFile.With(c => c["model"] = "peng-robinson"));

    private static readonly CoolerRating Loaded = Rate(10);

    private static CoolerRating Rate(double watts) =>
        Bench.Machine!.ToCooler().Rate(Bench.Machine.ToCharge(), Bench.AmbientTemperature, Power.FromWatts(watts));

    [Fact]
    public void SvgIsOneElementWithTheLabels()
    {
        string svg = Loaded.CoolingCurve().ToSvg();
        Assert.StartsWith("<svg", svg, StringComparison.Ordinal);
        string[] texts = ChartFiles.Texts(XElement.Parse(svg));
        Assert.Contains("cold temperature, K", texts);
        Assert.Contains("cold temperature, °C", texts);
        Assert.Contains("cooling left, W", texts);
        Assert.Contains("cooling left after the leak", texts);
        Assert.Contains("load 10 W", texts);
        Assert.Contains(FormattableString.Invariant($"reached: {Loaded.Reached!.ColdTemperature.Kelvins:F1} K"), texts);
        Assert.Contains(FormattableString.Invariant($"without load: {Loaded.NoLoad!.ColdTemperature.Kelvins:F1} K"), texts);
        Assert.Contains(texts, t => t.Contains(FormattableString.Invariant($"{Loaded.Charge.Mass.Grams:0.#} g charged"), StringComparison.Ordinal));
    }

    [Fact]
    public void ALoadBeyondTheCoolerHasALineAndNoState()
    {
        CoolerRating rating = Rate(500);
        Assert.Null(rating.Reached);
        Assert.Equal(CoolerObstacle.LoadTooLarge, rating.Obstacle);
        string[] texts = ChartFiles.Texts(XElement.Parse(rating.CoolingCurve().ToSvg()));
        Assert.Contains("load 500 W", texts);
        Assert.DoesNotContain(texts, static t => t.StartsWith("reached", StringComparison.Ordinal));
    }

    [Fact]
    public void ContributionsAreNamedAndRanked()
    {
        RestConfidence band = RestConfidence.Of(Loaded, Bench.Load.ColdTemperature, [CoolerUncertainty.Filling("nitrogen"), CoolerUncertainty.Leak()]);
        RestConfidenceChart chart = band.Contributions();
        string[] texts = ChartFiles.Texts(XElement.Parse(chart.ToSvg()));
        Assert.Contains("cold temperature, K", texts);
        Assert.Contains("cold temperature, °C", texts);
        Assert.Contains("heat leak times or over 2", texts);
        Assert.Contains("amount of nitrogen +-2 %", texts);
        Assert.Contains("wanted 105 K", texts);
        Assert.Contains(FormattableString.Invariant($"nominal {Loaded.Reached!.ColdTemperature.Kelvins:F1} K"), texts);
        ChartFiles.CheckPng(path => chart.SavePng(path), 800, 500);
        Assert.Throws<ArgumentOutOfRangeException>(() => chart.ToSvg(100));
    }

    [Fact]
    public void FilesHaveTheSizeAskedFor()
    {
        CoolerRatingChart chart = Loaded.CoolingCurve();
        ChartFiles.CheckPng(path => chart.SavePng(path), 800, 500);
        ChartFiles.CheckSvg(path => chart.SaveSvg(path), 800, 500);
    }
}
