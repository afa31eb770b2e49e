using BenchCooler;
using CryoThermo.Coolers;

namespace CryoThermo.Tests.Coolers;

/// <summary>Freezing round the loop of the shipped bench cooler.</summary>
public sealed class CoolerFreezingTests
{
    private static readonly CoolerDesign Design = CoolerDesign.Evaluate(CoolerDescriptionReader.Read(BenchCoolerFile.Path));

    [Fact]
    public void EveryPlaceOfTheLoopIsJudgedAndAgreesWithTheFluidAsked()
    {
        FreezingRisk risk = Design.AssessFreezing(new TraceImpurity("water", 1), new TraceImpurity("carbon dioxide", 5));
        Assert.All(Design.Loop, place => Assert.Contains(risk.Points, p => p.Place == place.Place && p.Temperature.Kelvins.Equals(place.State.Temperature.Kelvins) && p.Pressure.Pascals.Equals(place.State.Pressure.Pascals)));
        Assert.Equal(Design.Loop.Count + 5, risk.Points.Count);

        // The charge alone, asked for at one place, gives the margins of the charge within the table.
        FreezingRiskPoint outlet = risk.Points.Single(p => p.Place == "throttle outlet");
        FreezingAssessment alone = Design.Fluid.FreezeOut.At(outlet.Temperature, outlet.Pressure);
        Assert.All(alone.Margins, m => Assert.Equal(
            m.LnSaturationRatio, outlet.Margins.Single(o => o.Component.Name == m.Component.Name).LnSaturationRatio, 1e-9));
        Assert.True(outlet.Margins.Single(m => m.Component.Name == "water").Freezes);
        Assert.False(risk.Points.Single(p => p.Place == "compressor suction").Margins.Single(m => m.Component.Name == "water").Freezes);
    }

    [Fact]
    public void TheReportPrintsTheTable()
    {
        FreezingRisk risk = Design.AssessFreezing(new TraceImpurity("water", 1));
        using StringWriter text = new();
        DesignReport.Write(text, Design, null, [], risk);
        string table = text.ToString().Split("What freezes first, where")[1];
        Assert.Contains("gauge", table, StringComparison.Ordinal);
        Assert.Contains("water 1 ppm", table, StringComparison.Ordinal);
        string line = table.Split('\n').First(l => l.Contains("throttle outlet", StringComparison.Ordinal));
        Assert.Contains("FREEZES", line, StringComparison.Ordinal);
        Assert.Contains("isobutane", table, StringComparison.Ordinal);
        Assert.Contains($"{risk.Points.Single(p => p.Place == "throttle outlet").Nearest!.Margin!.Value.Kelvins:0.0}", line, StringComparison.Ordinal);

        using StringWriter without = new();
        DesignReport.Write(without, Design, null, []);
        Assert.DoesNotContain("What freezes first", without.ToString(), StringComparison.Ordinal);
    }

    /// <summary>What the remark says about the charge is what the margins at the coldest place say.</summary>
    [Fact]
    public void TheRemarkAgreesWithTheMarginsAtTheThrottleOutlet()
    {
        LoopPoint outlet = Design.Loop.Single(p => p.Place == "throttle outlet");
        IReadOnlyList<FreezingMargin> margins = Design.Fluid.FreezeOut.At(outlet.State.Temperature, outlet.State.Pressure).Margins;
        FreezingMargin isobutane = margins.Single(m => m.Component.Name == "isobutane");
        Assert.True(isobutane.CanFreeze);
        foreach (FreezingMargin margin in margins.Where(m => m.CanFreeze))
        {
            string start = margin.Freezes ? "FREEZES" : "Pure, these would be solid";
            string remark = Assert.Single(Design.Remarks, r => r.StartsWith(start, StringComparison.Ordinal));
            Assert.Contains($"{margin.Component.Name} ({margin.SaturationRatio.ToString(margin.Freezes ? "G3" : "0.00")})", remark, StringComparison.Ordinal);
        }
    }
}
