using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Tests.Safety;

public sealed class CautionRulesTests
{
    private static readonly SubstanceShare[] Inert = [new("nitrogen", 0.6), new("argon", 0.4)];

    private static readonly SubstanceShare[] Hydrocarbons =
        [new("nitrogen", 0.14), new("methane", 0.30), new("ethane", 0.24), new("propane", 0.14), new("isobutane", 0.18)];

    private static Circuit CircuitOf(
        SubstanceShare[] contents,
        double lowBars = 1.5,
        double atmosphereBars = 1.0,
        double? dischargeCelsius = null,
        double? limitCelsius = null,
        double? reliefBars = 25,
        bool shutIn = false,
        FeedGas[]? feeds = null,
        ExposedSurface[]? open = null)
        => new()
        {
            Contents = contents,
            LowPressure = Pressure.FromBars(lowBars),
            HighPressure = Pressure.FromBars(17),
            LocalAtmosphere = Pressure.FromBars(atmosphereBars),
            ColdestSurface = Temperature.FromKelvins(105),
            DischargeTemperature = dischargeCelsius is { } t ? Temperature.FromDegreesCelsius(t) : null,
            DischargeTemperatureLimit = limitCelsius is { } limit ? Temperature.FromDegreesCelsius(limit) : null,
            HighPressureReliefSetting = reliefBars is { } bars ? Pressure.FromBars(bars) : null,
            ColdLiquidCanBeShutIn = shutIn,
            Feeds = feeds ?? [],
            SurfacesOpenToRoomAir = open ?? [],
        };

    private static Caution? Find(Circuit circuit, string title) =>
        CautionRules.Assess(circuit).SingleOrDefault(caution => caution.Title == title);

    private static FeedGas Feed(string name, bool condenses, params SubstanceShare[] composition) =>
        new(name, composition, Pressure.FromBars(3), condenses);

    [Fact]
    public void AHarmlessCircuitCarriesNoCaution() => Assert.Empty(CautionRules.Assess(CircuitOf(Inert, dischargeCelsius: 90)));

    [Fact]
    public void PartsThatCannotStandItAreNamed()
    {
        static Circuit With(params CircuitPart[] parts) => new()
        {
            Contents = Inert,
            LowPressure = Pressure.FromBars(1.5),
            HighPressure = Pressure.FromBars(17),
            LocalAtmosphere = Pressure.FromBars(1),
            ColdestSurface = Temperature.FromKelvins(105),
            ColdLiquidCanBeShutIn = false,
            HighPressureReliefSetting = Pressure.FromBars(25),
            Parts = parts,
        };
        Temperature cold = Temperature.FromKelvins(105);
        ColdService steel = ColdService.All.First(s => s.Name.StartsWith("carbon", StringComparison.Ordinal));
        ColdService austenitic = ColdService.All.First(s => s.Name.Contains("304", StringComparison.Ordinal));
        Assert.Empty(CautionRules.Assess(With(new CircuitPart("dewar neck", cold, Pressure.FromBars(17), austenitic, Pressure.FromBars(30)))));
        Caution brittle = Assert.Single(CautionRules.Assess(With(new CircuitPart("bracket", cold, Pressure.FromBars(17), steel))));
        Assert.StartsWith("bracket: ", brittle.Figure, StringComparison.Ordinal);
        Caution over = Assert.Single(CautionRules.Assess(With(new CircuitPart("sight glass", Temperature.FromKelvins(290), Pressure.FromBars(17), null, Pressure.FromBars(15)))));
        Assert.Equal("Pressure above a rating", over.Title);
        Assert.Equal(CautionSeverity.Danger, over.Severity);
        Assert.Throws<ArgumentOutOfRangeException>(() => With(new CircuitPart("valve", Temperature.Zero, Pressure.FromBars(1))));
    }

    [Fact]
    public void EveryCautionIsCompleteAndDefers()
    {
        Circuit worst = CircuitOf(
            [.. Hydrocarbons.Select(share => share with { MoleFraction = share.MoleFraction * 0.9 }), new("oxygen", 0.05), new("unobtainium", 0.05)],
            lowBars: 0.8,
            dischargeCelsius: 400,
            reliefBars: null,
            shutIn: true,
            feeds: [Feed("air", true, new SubstanceShare("air", 1)), Feed("methane", true, new SubstanceShare("methane", 1))],
            open: [new("transfer line", Temperature.FromKelvins(78))]);
        IReadOnlyList<Caution> cautions = CautionRules.Assess(worst);
        Assert.Equal(
            [
                "Air condenses on an open surface", "Cold liquid can be shut in", "Discharge near autoignition", "Discharge too hot",
                "Flammability not known", "Flammable charge", "Flammable feed", "Fuel and oxidiser in one charge", "High-side relief",
                "Low side below the atmosphere", "Opening or brazing a charged circuit", "Oxygen-rich feed at the cold end",
            ],
            cautions.Select(caution => caution.Title).Order(StringComparer.Ordinal));
        Assert.All(cautions, caution =>
        {
            Assert.NotEmpty(caution.Figure);
            Assert.NotEmpty(caution.Source.Publication);
            Assert.EndsWith("Local codes and licensed practice decide.", caution.Advice, StringComparison.Ordinal);
        });
        Assert.Equal(
            cautions.OrderByDescending(caution => caution.Severity).Select(caution => caution.Severity),
            cautions.Select(caution => caution.Severity));
    }

    [Fact]
    public void AFlammableChargeIsADanger()
    {
        Caution caution = Find(CircuitOf(Hydrocarbons), "Flammable charge")!;
        Assert.Equal(CautionSeverity.Danger, caution.Severity);
        Assert.Contains("86.0 % mol flammable", caution.Figure, StringComparison.Ordinal);

        // By hand: 1/(0.30/4.4 + 0.24/2.4 + 0.14/1.7 + 0.18/1.3) = 1/0.38899 = 2.57 %.
        Assert.Contains("2.57 % by volume", caution.Figure, StringComparison.Ordinal);
        Assert.Contains("A3 (methane)", caution.Figure, StringComparison.Ordinal);
        Assert.Contains("IEC 60335-2-40, ISO 5149, EN 378", caution.Advice, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0, null, null)]
    [InlineData(0.08, "Charge with flammable components", CautionSeverity.Warning)]
    [InlineData(0.09, "Flammable charge", CautionSeverity.Danger)]
    public void TheGravityFollowsWhetherTheBlendBurns(double methane, string? title, CautionSeverity? severity)
    {
        Caution[] cautions = [.. CautionRules.Assess(CircuitOf([new("methane", methane), new("nitrogen", 1 - methane)])).Where(c => c.Title != "Opening or brazing a charged circuit")];
        Assert.Equal(title, cautions.SingleOrDefault()?.Title);
        Assert.Equal(severity, cautions.SingleOrDefault()?.Severity);
    }

    [Fact]
    public void AnUnreachableLimitIsNotPrintedAsANumber() =>
        Assert.Contains(
            "no lower flammability limit below 100 %",
            Find(CircuitOf([new("methane", 0.01), new("nitrogen", 0.99)]), "Charge with flammable components")!.Figure,
            StringComparison.Ordinal);

    [Fact]
    public void FuelBesideOxidiserIsADangerEvenWhenDiluted()
    {
        SubstanceShare[] contents = [new("nitrogen", 0.94), new("methane", 0.05), new("oxygen", 0.01)];
        Assert.Equal(CautionSeverity.Danger, Find(CircuitOf(contents), "Fuel and oxidiser in one charge")!.Severity);
        Assert.Equal(CautionSeverity.Danger, Find(CircuitOf(contents), "Flammable charge")!.Severity);
        Assert.Null(Find(CircuitOf([new("nitrogen", 0.95), new("oxygen", 0.05)]), "Fuel and oxidiser in one charge"));
        Assert.Null(Find(CircuitOf(Hydrocarbons), "Fuel and oxidiser in one charge"));
    }

    [Fact]
    public void AnUnknownSubstanceIsNamed()
    {
        Caution caution = Find(CircuitOf([new("nitrogen", 0.5), new("unobtainium", 0.5)]), "Flammability not known")!;
        Assert.Contains("unobtainium", caution.Figure, StringComparison.Ordinal);
        Assert.Null(Find(CircuitOf(Hydrocarbons), "Flammability not known"));
    }

    [Theory]
    [InlineData(0.999, true)]
    [InlineData(1.0, false)]
    [InlineData(1.001, false)]
    public void TheLowSideIsJudgedAgainstTheLocalAtmosphere(double lowBars, bool fires)
    {
        Caution? inert = Find(CircuitOf(Inert, lowBars), "Low side below the atmosphere");
        Caution? flammable = Find(CircuitOf(Hydrocarbons, lowBars), "Low side below the atmosphere");
        Assert.Equal(fires ? CautionSeverity.Warning : null, inert?.Severity);
        Assert.Equal(fires ? CautionSeverity.Danger : null, flammable?.Severity);
        if (fires)
        {
            Assert.Contains("0.999 bar absolute (-0.001 bar gauge)", inert!.Figure, StringComparison.Ordinal);
            Assert.Contains("explosive", flammable!.Advice, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void ShutInLiquidIsADanger()
    {
        Caution caution = Find(CircuitOf(Inert, shutIn: true), "Cold liquid can be shut in")!;
        Assert.Equal(CautionSeverity.Danger, caution.Severity);
        Assert.Contains("105.0 K (-168.", caution.Figure, StringComparison.Ordinal);
        Assert.Contains("hundreds of bar", caution.Figure, StringComparison.Ordinal);
        Assert.Contains("25 bar absolute, does not protect", caution.Advice, StringComparison.Ordinal);
        Assert.Null(Find(CircuitOf(Inert, shutIn: false), "Cold liquid can be shut in"));
    }

    [Fact]
    public void LiquidCountsAsShutInUnlessStatedOtherwise() =>
        Assert.NotNull(Find(
            new Circuit
            {
                Contents = Inert,
                LowPressure = Pressure.FromBars(1.5),
                HighPressure = Pressure.FromBars(17),
                LocalAtmosphere = Pressure.FromBars(1),
                ColdestSurface = Temperature.FromKelvins(105),
            },
            "Cold liquid can be shut in"));

    [Theory]
    [InlineData(81.0, true)]
    [InlineData(82.3, false)]
    [InlineData(90.0, false)]
    public void AnOpenSurfaceBelowTheDewPointOfAirFires(double kelvins, bool fires)
    {
        ExposedSurface[] open = [new("dewar neck", Temperature.FromKelvins(kelvins))];
        Caution? inert = Find(CircuitOf(Inert, open: open), "Air condenses on an open surface");
        Assert.Equal(fires ? CautionSeverity.Warning : null, inert?.Severity);
        Assert.Equal(
            fires ? CautionSeverity.Danger : null,
            Find(CircuitOf(Hydrocarbons, open: open), "Air condenses on an open surface")?.Severity);
        if (fires)
        {
            Assert.Contains("dewar neck open to room air at 81.0 K", inert!.Figure, StringComparison.Ordinal);
            Assert.Matches("condenses first is 5[12] % oxygen", inert.Figure);
            Assert.Matches("dew point of air, 81.[0-9] K", inert.Rule);
        }
    }

    [Fact]
    public void AnOxygenFeedIsADangerOnlyBesideFuel()
    {
        FeedGas oxygen = Feed("oxygen", true, new SubstanceShare("oxygen", 1));
        FeedGas methane = Feed("methane", true, new SubstanceShare("methane", 1));
        const string Title = "Oxygen-rich feed at the cold end";
        Assert.Equal(CautionSeverity.Warning, Find(CircuitOf(Inert, feeds: [oxygen]), Title)!.Severity);
        Assert.Equal(CautionSeverity.Danger, Find(CircuitOf(Hydrocarbons, feeds: [oxygen]), Title)!.Severity);
        Caution shared = Find(CircuitOf(Inert, feeds: [oxygen, methane]), Title)!;
        Assert.Equal(CautionSeverity.Danger, shared.Severity);
        Assert.Contains("Never share passages or vessels between this feed and methane", shared.Advice, StringComparison.Ordinal);
        Assert.Contains("oxygen into the charge", Find(CircuitOf(Hydrocarbons, feeds: [oxygen]), Title)!.Advice, StringComparison.Ordinal);
        Assert.Contains("feed oxygen at 3 bar absolute: 100.0 % mol oxygen", shared.Figure, StringComparison.Ordinal);
    }

    // First liquid of air about 51.8 % oxygen (recomputed from vapour pressures; often quoted 47 to 52 %).
    [Fact]
    public void CondensingAirIsOxygenRich()
    {
        Caution caution = Find(
            CircuitOf(Inert, feeds: [Feed("air", true, new SubstanceShare("air", 1))]), "Oxygen-rich feed at the cold end")!;
        Assert.Contains("21.0 % mol oxygen, about 51.8 % in the first liquid", caution.Figure, StringComparison.Ordinal);
        Assert.Null(Find(
            CircuitOf(Inert, feeds: [Feed("air", false, new SubstanceShare("air", 1))]), "Oxygen-rich feed at the cold end"));
    }

    // With the odds gain of air, 0.518/0.482/(0.2096/0.7904) = 4.0526: 7.0 % gives 23.37 %, 7.1 % gives 23.65 % in the liquid (by hand).
    [Theory]
    [InlineData(0.235, false, false)]
    [InlineData(0.236, false, true)]
    [InlineData(0.070, true, false)]
    [InlineData(0.071, true, true)]
    public void TheOxygenThresholdIsTakenInTheLiquidWhenTheFeedCondenses(double oxygen, bool condenses, bool fires) =>
        Assert.Equal(
            fires,
            Find(
                CircuitOf(Inert, feeds: [Feed("blend", condenses, new("oxygen", oxygen), new("nitrogen", 1 - oxygen))]),
                "Oxygen-rich feed at the cold end") is not null);

    [Fact]
    public void AFlammableFeedIsNamed()
    {
        Caution caution = Find(CircuitOf(Inert, feeds: [Feed("methane", true, new SubstanceShare("methane", 1))]), "Flammable feed")!;
        Assert.Contains("4.40 % by volume", caution.Figure, StringComparison.Ordinal);
        Assert.Null(Find(CircuitOf(Inert, feeds: [Feed("argon", true, new SubstanceShare("argon", 1))]), "Flammable feed"));
    }

    [Theory]
    [InlineData(109.9, null, false)]
    [InlineData(110.1, null, true)]
    [InlineData(129.9, 130.0, false)]
    [InlineData(130.1, 130.0, true)]
    public void TheDischargeIsJudgedAgainstItsLimit(double celsius, double? limit, bool fires)
    {
        Caution? caution = Find(CircuitOf(Inert, dischargeCelsius: celsius, limitCelsius: limit), "Discharge too hot");
        Assert.Equal(fires, caution is not null);
        if (fires)
        {
            Assert.Contains($"({celsius:F1} degC)", caution!.Figure, StringComparison.Ordinal);
            Assert.Contains($"({limit ?? 110:F1} degC)", caution.Rule, StringComparison.Ordinal);
            Assert.Equal(limit is null ? "common practice, no source" : "limit as stated for the compressor", caution.Source.Publication);
        }
    }

    // n-Pentane: least published autoignition 243 degC (IEC 60079-20-1, from memory), hence 143 degC with the margin of 100 K.
    [Theory]
    [InlineData(142.9, null)]
    [InlineData(143.1, CautionSeverity.Warning)]
    [InlineData(242.9, CautionSeverity.Warning)]
    [InlineData(243.1, CautionSeverity.Danger)]
    public void TheDischargeIsJudgedAgainstAutoignition(double celsius, CautionSeverity? severity)
    {
        SubstanceShare[] contents = [new("methane", 0.8), new("n-pentane", 0.2)];
        Caution? caution = Find(CircuitOf(contents, dischargeCelsius: celsius, limitCelsius: 300), "Discharge near autoignition");
        Assert.Equal(severity, caution?.Severity);
        if (severity is not null)
        {
            Assert.Contains("n-pentane from 243 degC", caution!.Figure, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(null, CautionSeverity.Notice)]
    [InlineData(16.9, CautionSeverity.Warning)]
    [InlineData(17.0, CautionSeverity.Warning)]
    [InlineData(17.1, null)]
    public void TheReliefOpensAboveTheHighPressure(double? reliefBars, CautionSeverity? severity) =>
        Assert.Equal(severity, Find(CircuitOf(Inert, reliefBars: reliefBars), "High-side relief")?.Severity);

    [Fact]
    public void PressuresTheWrongWayRoundAreRefused()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => CautionRules.Assess(CircuitOf(Inert, lowBars: 17)));
        Assert.Contains("17 bar absolute", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FractionsAreNeverRenormalised()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => CircuitOf([new("nitrogen", 0.6), new("argon", 0.39)]));
        Assert.Contains("sum to 0.99", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => CircuitOf([]));
        Assert.Throws<ArgumentOutOfRangeException>(() => CircuitOf([new("nitrogen", 1.2), new("argon", -0.2)]));
        Assert.Throws<ArgumentException>(
            () => CircuitOf(Inert, feeds: [Feed("air", true, new("nitrogen", 0.5), new("oxygen", 0.2))]));
    }

    [Fact]
    public void AbsoluteZeroIsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => CircuitOf(Inert, open: [new("nothing", Temperature.FromKelvins(0))]));
}
