using System.Text.Json.Nodes;
using CryoThermo.Coolers;
using CryoThermo.Diagnostics;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers;

/// <summary>The cautions of the demo's report, for the charge it has and for others: all that apply and none that does not.</summary>
public sealed class DemoCautionsTests(ITestOutputHelper output)
{
    private const string Liquid = "Cold liquid can be shut in";
    private const string Burns = "Flammable charge";
    private const string Opening = "Opening or brazing a charged circuit";
    private const string Hot = "Discharge too hot";

    [Fact]
    public void AHydrocarbonBlendWithoutFeeds() => Only(Titles(Demo(feeds: false)), Burns, Liquid, Opening);

    [Fact]
    public void TheDemoAsItIs() => Only(Titles(Demo()), Burns, Liquid, Opening, "Flammable feed", "Oxygen-rich feed at the cold end", "Feed condenses below the atmosphere");

    [Fact]
    public void AnInertBlend()
    {
        JsonObject demo = Demo(feeds: false);
        demo["charge"]!["components"] = new JsonObject { ["nitrogen"] = 0.3, ["argon"] = 0.3, ["krypton"] = 0.2, ["xenon"] = 0.2 };
        Only(Titles(demo), Liquid, Hot);
    }

    [Fact]
    public void AFluorinatedBlend()
    {
        JsonObject demo = Demo(feeds: false);
        demo["charge"]!["components"] = new JsonObject { ["nitrogen"] = 0.2, ["tetrafluoromethane"] = 0.3, ["trifluoromethane"] = 0.2, ["octafluoropropane"] = 0.3 };
        Only(Titles(demo), Liquid, Opening);
    }

    [Fact]
    public void ALowSideBelowTheAtmosphere()
    {
        JsonObject demo = Demo(feeds: false);
        demo["lowPressure"]!["value"] = -0.2;
        Only(Titles(demo), Burns, Liquid, Opening, "Low side below the atmosphere", Hot);
    }

    [Fact]
    public void LiquidAir()
    {
        JsonObject demo = Demo(feeds: false);
        demo["feeds"] = new JsonArray(new JsonObject
        {
            ["name"] = "air",
            ["letDownPressure"] = new JsonObject { ["value"] = 0.1, ["unit"] = "bar", ["reference"] = "gauge" },
            ["condensingApproach"] = new JsonObject { ["value"] = 2, ["unit"] = "K" },
        });
        CoolerDesign design = Design(demo);
        Only([.. design.Cautions.Select(c => c.Title)], Burns, Liquid, Opening, "Oxygen-rich feed at the cold end");
        Caution oxygen = design.Cautions.Single(c => c.Title == "Oxygen-rich feed at the cold end");
        Assert.Equal(CautionSeverity.Danger, oxygen.Severity);
        Assert.Contains("leak", oxygen.Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void HydrogenInTheCharge()
    {
        JsonObject demo = Demo(feeds: false);
        demo["charge"]!["components"] = new JsonObject { ["hydrogen"] = 0.1, ["nitrogen"] = 0.1, ["methane"] = 0.3, ["ethane"] = 0.25, ["propane"] = 0.25 };
        Only(Titles(demo), Burns, Liquid, Opening, "Hydrogen", Hot);
    }

    [Fact]
    public void PartsThatCannotStandItAreNamed()
    {
        JsonObject demo = Demo(feeds: false);
        demo["parts"]![0]!["material"] = "NBR seal";
        demo["parts"]![1]!["rating"]!["value"] = 0.1;
        Only(Titles(demo), Burns, Liquid, Opening, "NBR seal in the cold", "Pressure above a rating");
        demo["parts"]![1]!.AsObject().Remove("rating");
        demo["parts"]![0]!["material"] = "gold";
        CoolerDescriptionException error = Assert.Throws<CoolerDescriptionException>(() => BenchCoolerFile.Describe(demo));
        Assert.Contains(error.Faults, f => f.ToString().Contains("parts[0].material", StringComparison.Ordinal) && f.ToString().Contains("NBR seal", StringComparison.Ordinal));
        Assert.Contains(error.Faults, f => f.ToString().Contains("parts[1]", StringComparison.Ordinal) && f.ToString().Contains("neither material nor rating", StringComparison.Ordinal));
    }

    [Fact]
    public void OxygenBesideFuelIsRefused()
    {
        JsonObject demo = Demo(feeds: false);
        demo["charge"]!["components"] = new JsonObject { ["oxygen"] = 0.14, ["methane"] = 0.30, ["ethane"] = 0.24, ["propane"] = 0.32 };
        Exception refused = Assert.ThrowsAny<ArgumentException>(() => Design(demo));
        Assert.Contains("14 % mol oxygen beside fuel", refused.Message, StringComparison.Ordinal);
        Assert.Contains("can explode without any air", refused.Message, StringComparison.Ordinal);

        // Its properties may be asked for.
        Assert.True(WorkingFluid.Mixture(("oxygen", 0.14), ("methane", 0.86)).At(UnitsNet.Temperature.FromKelvins(300), UnitsNet.Pressure.FromBars(1)).Density.KilogramsPerCubicMeter > 0);
    }

    private static CoolerDesign Design(JsonObject demo) => BenchCoolerFile.Design(demo);

    private static string[] Titles(JsonObject demo) => [.. Design(demo).Cautions.Select(c => c.Title)];

    private void Only(string[] found, params string[] expected)
    {
        output.WriteLine(string.Join(", ", found));
        Assert.Equal(expected.Order(StringComparer.Ordinal), found.Order(StringComparer.Ordinal).Distinct());
    }

    private static JsonObject Demo(bool feeds = true)
    {
        JsonObject demo = BenchCoolerFile.Read();
        if (!feeds)
        {
            demo.Remove("feeds");
        }

        return demo;
    }
}
