using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

public sealed class CubicPairTests
{
    private static readonly SubstanceCatalog Catalog = SubstanceCatalog.Default;

    private static CubicPair Pair(string first, string second, CubicModelKind model = CubicModelKind.PengRobinson) =>
        Catalog.PairOf(Catalog.Find(first), Catalog.Find(second), model);

    /// <summary>Knapp et al., DECHEMA Chemistry Data Series VI (1982), from memory.</summary>
    [Theory]
    [InlineData("nitrogen", "methane", 0.0311, 0.0278)]
    [InlineData("methane", "ethane", -0.0026, -0.0078)]
    [InlineData("carbon dioxide", "propane", 0.1241, 0.1289)]
    [InlineData("argon", "oxygen", 0.0104, 0.0178)]
    public void PublishedValuesComeFirstInEitherOrder(string first, string second, double pengRobinson, double soave)
    {
        foreach (CubicPair pair in new[] { Pair(first, second), Pair(second, first) })
        {
            Assert.Equal(pengRobinson, pair.InteractionParameter);
            Assert.Equal(PairTier.Published, pair.Tier);
            Assert.Contains("DECHEMA", pair.Source.Publication, StringComparison.Ordinal);
            Assert.True(pair.Source.FromMemory);
            Assert.Null(pair.HalfWidth95);
        }

        Assert.Equal(soave, Pair(first, second, CubicModelKind.SoaveRedlichKwong).InteractionParameter);
    }

    [Fact]
    public void DoubtfulPublishedValuesAreMarked()
    {
        Assert.Equal(PairConfidence.Low, Pair("nitrogen", "hydrogen").Confidence);
        Assert.Equal(PairConfidence.Good, Pair("nitrogen", "methane").Confidence);
        Assert.StartsWith("equimolar GE at 90.7 K", Pair("nitrogen", "methane").Source.Verified, StringComparison.Ordinal);
    }

    /// <summary>Fitted here to equimolar excess Gibbs energies; computed with this project's data.</summary>
    [Fact]
    public void AFittedValueIsTakenWhereNoneIsPublished()
    {
        CubicPair pair = Pair("krypton", "xenon");
        Assert.Equal(0.0183, pair.InteractionParameter);
        Assert.Equal(PairTier.FittedHere, pair.Tier);
        Assert.Contains("114 J/mol at 161.4 K", pair.FittedTo, StringComparison.Ordinal);

        // Published for Peng-Robinson only, fitted for both.
        Assert.Equal(0.012, Pair("nitrogen", "carbon monoxide").InteractionParameter);
        CubicPair soave = Pair("nitrogen", "carbon monoxide", CubicModelKind.SoaveRedlichKwong);
        Assert.Equal(0.0118, soave.InteractionParameter);
        Assert.Equal(PairTier.FittedHere, soave.Tier);
    }

    [Fact]
    public void AnyPairOfTheCatalogueHasAValue()
    {
        foreach (CubicModelKind model in Enum.GetValues<CubicModelKind>())
        {
            foreach (Substance first in Catalog.All)
            {
                foreach (Substance second in Catalog.All.Where(s => s != first))
                {
                    CubicPair pair = Catalog.PairOf(first, second, model);
                    Assert.InRange(pair.InteractionParameter, -1, 1);
                    Assert.Equal(pair.Tier == PairTier.Estimated, pair.HalfWidth95 is not null);
                    if (pair.Tier == PairTier.Estimated)
                    {
                        Assert.True(pair.HalfWidth95 > 0 && pair.StandardError > 0);
                        bool hydrocarbons = first.Identity.Molecule?.IsHydrocarbon == true && second.Identity.Molecule?.IsHydrocarbon == true;
                        Assert.True(hydrocarbons ? pair.InteractionParameter > 0 || first.CriticalMolarDensity == second.CriticalMolarDensity : pair.InteractionParameter == 0);
                    }
                }
            }
        }
    }

    [Fact]
    public void AnEstimatedHydrocarbonPairFollowsTheCriticalVolumeRule()
    {
        CubicPair pair = Pair("methane", "1-butene");
        double v1 = 1 / Catalog.Find("methane").CriticalMolarDensity;
        double v2 = 1 / Catalog.Find("1-butene").CriticalMolarDensity;
        double expected = 1 - (2 * Math.Pow(v1 * v2, 1.0 / 6) / (Math.Pow(v1, 1.0 / 3) + Math.Pow(v2, 1.0 / 3)));
        Assert.Equal(PairTier.Estimated, pair.Tier);
        Assert.Equal(expected, pair.InteractionParameter, 1e-15);
        Assert.Contains("Chueh, Prausnitz", pair.Source.Publication, StringComparison.Ordinal);
    }

    [Fact]
    public void TheErrorBandIsTheResidualSpreadOfTheKnownPairs()
    {
        List<double> residuals = [];
        foreach (CubicPair pair in Catalog.KnownPairs.Where(p => p.Model == CubicModelKind.PengRobinson))
        {
            Substance first = Catalog.Find(pair.First.Key);
            Substance second = Catalog.Find(pair.Second.Key);
            if (first.Identity.Molecule!.IsHydrocarbon && second.Identity.Molecule!.IsHydrocarbon)
            {
                residuals.Add(Math.Abs(pair.InteractionParameter - CubicPairEstimator.FromCriticalVolumes(first, second)));
            }
        }

        CubicPairEstimator.ErrorBand band = Catalog.Estimator.Band(CubicPairClass.Hydrocarbons, CubicModelKind.PengRobinson);
        Assert.Equal(residuals.Count, band.Count);
        Assert.Equal(Math.Sqrt(residuals.Average(r => r * r)), band.RootMeanSquare, 1e-15);
        Assert.True(residuals.Count >= 19);
        int inside = residuals.Count(r => r <= band.HalfWidth95);
        Assert.True(inside >= 0.95 * residuals.Count);
        Assert.Contains(band.HalfWidth95, residuals);
        Assert.Equal(band.HalfWidth95, Pair("methane", "1-butene").HalfWidth95);
    }

    [Fact]
    public void EachClassAndModelHasItsOwnBand()
    {
        Assert.Equal(CubicPairClass.Hydrocarbons, CubicPairEstimator.ClassOf(Catalog.Find("methane").Identity, Catalog.Find("1-butene").Identity));
        Assert.Equal(CubicPairClass.WithQuantumGas, CubicPairEstimator.ClassOf(Catalog.Find("methane").Identity, Catalog.Find("neon").Identity));
        Assert.Equal(CubicPairClass.Other, CubicPairEstimator.ClassOf(Catalog.Find("methane").Identity, Catalog.Find("R-14").Identity));
        double[] widths =
            [.. from kind in Enum.GetValues<CubicPairClass>() from model in Enum.GetValues<CubicModelKind>() select Catalog.Estimator.Band(kind, model).HalfWidth95];
        Assert.Equal(6, widths.Distinct().Count());

        // With quantum corrections the pairs with a quantum gas have three more residuals, all others are those of Peng-Robinson.
        CubicPairEstimator.ErrorBand plain = Catalog.Estimator.Band(CubicPairClass.WithQuantumGas, CubicModelKind.PengRobinson);
        CubicPairEstimator.ErrorBand corrected = Catalog.Estimator.Band(CubicPairClass.WithQuantumGas, CubicModelKind.PengRobinsonQuantumCorrected);
        Assert.Equal(plain.Count + 3, corrected.Count);
        Assert.Equal(
            Math.Sqrt(((plain.Count * plain.RootMeanSquare * plain.RootMeanSquare) + (0.17 * 0.17) + (0.17 * 0.17) + (0.18 * 0.18)) / corrected.Count),
            corrected.RootMeanSquare,
            1e-15);
        Assert.Same(
            Catalog.Estimator.Band(CubicPairClass.Other, CubicModelKind.PengRobinson),
            Catalog.Estimator.Band(CubicPairClass.Other, CubicModelKind.PengRobinsonQuantumCorrected));
    }

    [Fact]
    public void QuantumCorrectedPairsAreKeptApart()
    {
        Assert.Equal(3, Catalog.KnownPairs.Count(p => p.Model == CubicModelKind.PengRobinsonQuantumCorrected));
        CubicPair pair = Pair("helium", "neon");
        Assert.Equal(PairTier.Estimated, pair.Tier);
        Assert.Equal(0, pair.InteractionParameter);
    }

    /// <summary>Aasen et al., Fluid Phase Equilib. 524 (2020) 112790, from memory.</summary>
    [Theory]
    [InlineData("helium", "neon", -0.17)]
    [InlineData("hydrogen", "helium", 0.17)]
    [InlineData("neon", "hydrogen", 0.18)]
    [InlineData("parahydrogen", "neon", 0.18)]
    public void QuantumCorrectedPairsArePublished(string first, string second, double expected)
    {
        CubicPair pair = Pair(first, second, CubicModelKind.PengRobinsonQuantumCorrected);
        Assert.Equal(expected, pair.InteractionParameter);
        Assert.Equal(PairTier.Published, pair.Tier);
        Assert.Equal(CubicModelKind.PengRobinsonQuantumCorrected, pair.Model);
        Assert.Contains("112790", pair.Source.Publication, StringComparison.Ordinal);
        Assert.True(pair.Source.FromMemory);
    }

    [Fact]
    public void WithQuantumCorrectionsOtherPairsAreThoseOfPengRobinsonAndMixedOnesEstimated()
    {
        Assert.Equal(Pair("nitrogen", "methane"), Pair("nitrogen", "methane", CubicModelKind.PengRobinsonQuantumCorrected));
        Assert.Equal(Pair("methane", "1-butene"), Pair("methane", "1-butene", CubicModelKind.PengRobinsonQuantumCorrected));

        // Published for Peng-Robinson, but with another temperature function of hydrogen.
        Assert.Equal(0.0156, Pair("methane", "hydrogen").InteractionParameter);
        CubicPair mixed = Pair("methane", "hydrogen", CubicModelKind.PengRobinsonQuantumCorrected);
        Assert.Equal(PairTier.Estimated, mixed.Tier);
        Assert.Equal(0, mixed.InteractionParameter);
        Assert.Equal(CubicModelKind.PengRobinsonQuantumCorrected, mixed.Model);
        int known = Catalog.KnownPairs.Count(p =>
            p.Model is CubicModelKind.PengRobinsonQuantumCorrected or CubicModelKind.PengRobinson
            && CubicPairEstimator.ClassOf(p.First, p.Second) == CubicPairClass.WithQuantumGas);
        Assert.Contains($"{known} known pairs of its class", mixed.Source.Verified, StringComparison.Ordinal);
    }

    [Fact]
    public void AUsersQuantumCorrectedPairGoesBeforeTheEstimateAndIsRefusedTwice()
    {
        const string One = "{ \"first\": \"H2\", \"second\": \"methane\", \"interaction\": -0.05, \"source\": \"bench\" }";
        SubstanceCatalog own = Catalog.WithPairs(With(One), "mine.json");
        CubicPair pair = own.PairOf(own.Find("methane"), own.Find("hydrogen"), CubicModelKind.PengRobinsonQuantumCorrected);
        Assert.Equal(-0.05, pair.InteractionParameter);
        Assert.Equal(0.0156, own.PairOf(own.Find("methane"), own.Find("hydrogen"), CubicModelKind.PengRobinson).InteractionParameter);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Catalog.WithPairs(With($"{One}, {One}"), "mine.json"));
        Assert.Equal("quantumCorrectedPairs[1].interaction", error.Field);
        Assert.Contains("already have a value", error.Rule, StringComparison.Ordinal);

        static string With(string entries) =>
            PairFile().Replace("\"pairs\": [", $"\"quantumCorrectedPairs\": [ {entries} ], \"pairs\": [", StringComparison.Ordinal);
    }

    [Fact]
    public void ParahydrogenTakesTheValueOfNormalHydrogen()
    {
        CubicPair pair = Pair("parahydrogen", "methane");
        Assert.Equal(Pair("hydrogen", "methane").InteractionParameter, pair.InteractionParameter);
        Assert.Equal("hydrogen", new[] { pair.First.Name, pair.Second.Name }.Single(n => n != "methane"));
        Assert.Equal(PairTier.Estimated, Pair("parahydrogen", "hydrogen").Tier);
    }

    [Fact]
    public void OneSubstanceMakesNoPair() => Assert.Throws<ArgumentException>(() => Pair("propane", "R-290"));

    [Fact]
    public void AUsersFileGoesBeforeTheShippedOneWhateverItsTier()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".json");
        try
        {
            File.WriteAllText(path, PairFile());
            SubstanceCatalog own = Catalog.WithPairFile(path);
            CubicPair pair = own.PairOf(own.Find("N2"), own.Find("CH4"), CubicModelKind.PengRobinson);
            Assert.Equal(0.034, pair.InteractionParameter);
            Assert.Equal(PairTier.FittedHere, pair.Tier);
            Assert.Equal(0.002, pair.StandardError);
            Assert.Equal(0.0278, own.PairOf(own.Find("N2"), own.Find("CH4"), CubicModelKind.SoaveRedlichKwong).InteractionParameter);
            Assert.Equal(0.0311, Pair("nitrogen", "methane").InteractionParameter);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Theory]
    [InlineData("\"first\": \"N2\", ", "", "pairs[0].first", "is missing")]
    [InlineData("\"N2\"", "\"nitrogn\"", "pairs[0].first", "nitrogen (7727-37-9)")]
    [InlineData("\"N2\"", "\"methane\"", "pairs[0].second", "another substance")]
    [InlineData("\"fitted here\"", "\"guessed\"", "pairs[0].tier", "'published' or 'fitted here'")]
    [InlineData(", \"fittedTo\": \"my own bubble pressures\"", "", "pairs[0].fittedTo", "is missing")]
    [InlineData("\"fitted here\"", "\"published\"", "pairs[0].fittedTo", "'fitted here' only")]
    [InlineData("0.034", "3.4", "pairs[0].pengRobinson.interaction", "-1 to 1")]
    [InlineData("\"interaction\": 0.034, ", "", "pairs[0].pengRobinson.interaction", "is missing")]
    [InlineData("0.002", "-0.002", "pairs[0].pengRobinson.standardError", "greater than zero")]
    [InlineData("0.002", "0.002, \"inverseTemperatureCoefficient\": 1.2", "pairs[0].pengRobinson.inverseTemperatureCoefficient", "-1 to 1")]
    [InlineData("0.002", "0.002, \"inverseTemperatureStandardError\": 0.1", "pairs[0].pengRobinson.inverseTemperatureStandardError", "is missing")]
    [InlineData("0.002", "0.002, \"inverseTemperatureCoefficient\": 0.1, \"inverseTemperatureStandardError\": 0", "pairs[0].pengRobinson.inverseTemperatureStandardError", "greater than zero")]
    [InlineData("\"standardError\"", "\"confidence\": \"so-so\", \"standardError\"", "pairs[0].pengRobinson.confidence", "'good' or 'low'")]
    [InlineData("\"source\": \"bench\"", "\"source\": \"desk\"", "pairs[0].source", "'desk' is not among")]
    [InlineData("\"pengRobinson\": { \"interaction\": 0.034, \"standardError\": 0.002 }", "\"soaveRedlichKwong\": null", "pairs[0].pengRobinson", "or soaveRedlichKwong")]
    [InlineData("\"pairs\": [", "\"quantumCorrectedPairs\": [ { \"first\": \"He\", \"second\": \"Ne\", \"source\": \"bench\" } ], \"pairs\": [", "quantumCorrectedPairs[0].interaction", "is missing")]
    [InlineData("\"pairs\"", "\"pears\"", "pears", "is not a field of the format")]
    public void ABrokenRuleNamesFileFieldAndRule(string old, string replacement, string field, string rule)
    {
        Assert.Contains(old, PairFile(), StringComparison.Ordinal);
        string text = PairFile().Replace(old, replacement, StringComparison.Ordinal);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Catalog.WithPairs(text, "mine.json"));
        Assert.Equal("mine.json", error.File);
        Assert.Equal(field, error.Field);
        Assert.Contains(rule, error.Rule, StringComparison.Ordinal);
    }

    /// <summary>k + c (298.15 K/T - 1): 0.034 + 0.01 at half of 298.15 K.</summary>
    [Fact]
    public void AParameterLinearInTheInverseTemperatureIsReadToldAndComputedWith()
    {
        string text = PairFile().Replace("0.002", "0.002, \"inverseTemperatureCoefficient\": 0.01, \"inverseTemperatureStandardError\": 0.003", StringComparison.Ordinal);
        SubstanceCatalog own = Catalog.WithPairs(text, "mine.json");
        CubicPair pair = own.PairOf(own.Find("N2"), own.Find("CH4"), CubicModelKind.PengRobinson);
        Assert.Equal(0.034, pair.InteractionAt(298.15));
        Assert.Equal(0.044, pair.InteractionAt(298.15 / 2), 1e-15);
        Assert.Equal(0.003, pair.InverseTemperatureStandardError);
        Assert.Equal("k = 0.0340 + 0.0100 (298.15 K/T - 1)", pair.Parameters);
        Assert.Equal("k = 0.0340 - 0.0100 (298.15 K/T - 1)", (pair with { InverseTemperatureCoefficient = -0.01 }).Parameters);
        Assert.Equal("k = 0.0340", (pair with { InverseTemperatureCoefficient = 0 }).Parameters);
        Assert.Throws<ArgumentOutOfRangeException>(() => pair.InteractionAt(0));

        // At 120 K the fluid is the one of the constant k that stands there, in each cubic that takes plain pairs.
        CubicPair constant = pair with { InteractionParameter = pair.InteractionAt(120), InverseTemperatureCoefficient = 0 };
        foreach (FluidModel model in new[] { FluidModel.PengRobinson, FluidModel.PengRobinson.WithVolumeTranslation(), FluidModel.PengRobinsonQuantumCorrected })
        {
            double with = Bubble(own, model, 120);
            Assert.Equal(Bubble(own.With(constant), model, 120), with, 1e-9 * with);
            Assert.NotEqual(Bubble(own.With(pair with { InverseTemperatureCoefficient = 0 }), model, 120), with, 1e-3 * with);
        }

        static double Bubble(SubstanceCatalog catalog, FluidModel model, double kelvins) =>
            catalog.Mixture(("nitrogen", 0.3), ("methane", 0.7)).WithModel(model).BubblePoint(UnitsNet.Temperature.FromKelvins(kelvins)).Pressure.Pascals;
    }

    [Fact]
    public void APairGivenTwiceInOneFileIsRefused()
    {
        string entry = "{ \"first\": \"CH4\", \"second\": \"nitrogen\", \"tier\": \"fitted here\", \"source\": \"bench\", \"fittedTo\": \"more\", "
            + "\"pengRobinson\": { \"interaction\": 0.03 } }, ";
        string text = PairFile().Replace("\"pairs\": [", "\"pairs\": [" + entry, StringComparison.Ordinal);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Catalog.WithPairs(text, "mine.json"));
        Assert.Equal("pairs[1].pengRobinson", error.Field);
        Assert.Contains("already have a value", error.Rule, StringComparison.Ordinal);
    }

    private static string PairFile() =>
        """
        {
          "sources": { "bench": { "publication": "own measurement", "fromMemory": false } },
          "pairs": [
            { "first": "N2", "second": "methane", "tier": "fitted here", "source": "bench", "fittedTo": "my own bubble pressures",
              "pengRobinson": { "interaction": 0.034, "standardError": 0.002 } }
          ]
        }
        """;
}
