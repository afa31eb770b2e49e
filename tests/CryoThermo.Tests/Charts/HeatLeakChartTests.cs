using System.Xml.Linq;
using CryoThermo.Charts;
using CryoThermo.Insulation;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Tests.Charts;

public sealed class HeatLeakChartTests
{
    private static readonly SolidMaterial Steel = SolidMaterial.Named("stainless steel 304");

    private static HeatLeakBudget Budget(bool anchored) => HeatLeakBudget.Of(
        Temperature.FromKelvins(90),
        Temperature.FromKelvins(295),
        [
            HeatLeakItem.Bars("supports", [new(SolidMaterial.Named("G-10"), Length.FromMillimeters(60), Area.FromSquareMillimeters(40))], 3),
            .. anchored
                ? HeatLeakItem.Anchored("neck", new(Steel, Length.FromMillimeters(100), Area.FromSquareMillimeters(60)), Length.FromMillimeters(50), Temperature.FromKelvins(180))
                : [HeatLeakItem.Bars("neck", [new(Steel, Length.FromMillimeters(100), Area.FromSquareMillimeters(60))])],
        ],
        Ratio.FromPercent(10));

    [Fact]
    public void EveryItemIsNamedAndAxesHaveUnits()
    {
        HeatLeakBudget budget = Budget(anchored: true);
        string[] texts = ChartFiles.Texts(XElement.Parse(new HeatLeakChart(budget).ToSvg()));
        Assert.All(budget.Items, i => Assert.Contains(i.Name, texts));
        Assert.Contains("heat, W; line: least to greatest", texts);
        Assert.Contains("into the cold", texts);
        Assert.Contains("into an intercept", texts);
        Assert.Contains(texts, t => t.StartsWith("Heat into 90 K from 295 K: ", StringComparison.Ordinal));
        Assert.DoesNotContain("into an intercept", ChartFiles.Texts(XElement.Parse(new HeatLeakChart(Budget(anchored: false)).ToSvg())));
    }

    [Fact]
    public void FilesAreWritten()
    {
        HeatLeakChart chart = new(Budget(anchored: false));
        ChartFiles.CheckPng(path => chart.SavePng(path, 640, 400), 640, 400);
        ChartFiles.CheckSvg(path => chart.SaveSvg(path, 640, 400), 640, 400);
    }
}
