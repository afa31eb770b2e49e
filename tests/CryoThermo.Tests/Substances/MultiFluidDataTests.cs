using System.Globalization;
using System.Text.Json.Nodes;
using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests.Substances;

public sealed class MultiFluidDataTests
{
    private static readonly SubstanceCatalog Catalog = SubstanceCatalog.Default;

    /// <summary>Path in the shipped file, the value planted there (null: removed), the field that must be named and a part of the rule.</summary>
    public static TheoryData<string, string?, string, string> FaultsOfTheStandard => new()
    {
        { "multiFluidPairs/0/first", "\"methan\"", "multiFluidPairs[0].first", "methane (74-82-8)" },
        { "multiFluidPairs/0/second", null, "multiFluidPairs[0].second", "is missing" },
        { "multiFluidPairs/0/second", "\"CH4\"", "multiFluidPairs[0].second", "another substance" },
        { "multiFluidPairs/1/second", "\"nitrogen\"", "multiFluidPairs[1].second", "already are a multi-fluid pair" },
        { "multiFluidPairs/0/departure", "\"methane-argon\"", "multiFluidPairs[0].departure", "no departure function" },
        { "multiFluidPairs/0/departure", null, "multiFluidPairs[0].departureWeight", "give 'departure'" },
        { "multiFluidPairs/0/departureWeight", null, "multiFluidPairs[0].departureWeight", "is missing" },
        { "multiFluidPairs/0/departureWeight", "11", "multiFluidPairs[0].departureWeight", "-10 to 10" },
        { "multiFluidPairs/0/volumeReducing/beta", "0", "multiFluidPairs[0].volumeReducing.beta", "0.2 to 5" },
        { "multiFluidPairs/0/volumeReducing/beta", "-0.998", "multiFluidPairs[0].volumeReducing.beta", "0.2 to 5" },
        { "multiFluidPairs/0/temperatureReducing/beta", "5.1", "multiFluidPairs[0].temperatureReducing.beta", "0.2 to 5" },
        { "multiFluidPairs/0/temperatureReducing/gamma", "0.1", "multiFluidPairs[0].temperatureReducing.gamma", "0.2 to 5" },
        { "multiFluidPairs/0/temperatureReducing/gamma", "\"1\"", "multiFluidPairs[0].temperatureReducing.gamma", "must be a number" },
        { "multiFluidPairs/0/volumeReducing", null, "multiFluidPairs[0].volumeReducing", "is missing" },
        { "multiFluidPairs/0/volumeReducing/delta", "1", "multiFluidPairs[0].volumeReducing.delta", "not a field" },
        { "multiFluidPairs/0/tier", "\"estimated\"", "multiFluidPairs[0].tier", "'published' or 'fitted here'" },
        { "multiFluidPairs/0/fittedTo", "\"bubble pressures\"", "multiFluidPairs[0].fittedTo", "'fitted here' only" },
        { "multiFluidPairs/0/standardErrors", "{ \"volumeBeta\": 0.01 }", "multiFluidPairs[0].standardErrors", "'fitted here' only" },
        { "multiFluidPairs/0/source", "\"hearsay\"", "multiFluidPairs[0].source", "'hearsay' is not among" },
        { "departureFunctions/1/name", "\"methane-nitrogen\"", "departureFunctions[1].name", "already names" },
        { "departureFunctions/0/densityTerms/0/densityExponent", "0.9", "departureFunctions[0].densityTerms[0].densityExponent", "at least 1" },
        { "departureFunctions/0/densityTerms/0/decayExponent", "1.5", "departureFunctions[0].densityTerms[0].decayExponent", "whole number" },
        { "departureFunctions/0/densityTerms/0/coefficient", null, "departureFunctions[0].densityTerms[0].coefficient", "is missing" },
        { "departureFunctions/0/skewedTerms/0/densityExponent", "0.9", "departureFunctions[0].skewedTerms[0].densityExponent", "1 to 30" },
        { "departureFunctions/0/skewedTerms/0/densitySharpness", "-1", "departureFunctions[0].skewedTerms[0].densitySharpness", "0 to 100" },
        { "departureFunctions/0/skewedTerms/0/temperatureCenter", "1", "departureFunctions[0].skewedTerms[0].temperatureCenter", "not a field" },
        { "standardEquations/1/substance", "\"methane\"", "standardEquations[1].substance", "already has an equation" },
        { "standardEquations/0/substance", "\"unobtainium\"", "standardEquations[0].substance", "unobtainium" },
        { "standardEquations/0/equation/standard", "\"reference\"", "standardEquations[0].equation.standard", "'mixture standard'" },
        { "standardEquations/0/equation", null, "standardEquations[0].equation", "is missing" },
        { "standardEquations/0/equation/reducing/temperature", "0", "standardEquations[0].equation.reducing.temperature", "greater than zero" },
        { "sources/departure functions", null, "departureFunctions[0].source", "'departure functions' is not among" },
        { "sources/spare", "{ \"publication\": \"none\", \"fromMemory\": true }", "sources.spare", "not used" },
        { "pairs", "[]", "pairs", "not a field" },
    };

    [Theory]
    [MemberData(nameof(FaultsOfTheStandard))]
    public void AFaultPlantedInTheStandardIsNamed(string path, string? value, string field, string rule)
    {
        JsonNode file = JsonNode.Parse(DataFiles.ReadText(DataFiles.MixtureStandard))!;
        Plant(file, path, value);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(
            () => MultiFluidReader.ReadStandard(file.ToJsonString(), "planted.json", SubstanceIdentityTable.Default));
        Assert.Equal("planted.json", error.File);
        Assert.Equal(field, error.Field);
        Assert.Contains(rule, error.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void ADepartureFunctionWithoutTermsIsRefused()
    {
        JsonNode file = JsonNode.Parse(DataFiles.ReadText(DataFiles.MixtureStandard))!;
        Plant(file, "departureFunctions/0/densityTerms", null);
        Plant(file, "departureFunctions/0/skewedTerms", "[]");
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(
            () => MultiFluidReader.ReadStandard(file.ToJsonString(), "planted.json", SubstanceIdentityTable.Default));
        Assert.Equal("departureFunctions[0].densityTerms", error.Field);
    }

    [Fact]
    public void TheShippedFileIsReadWithoutAPlantedFault()
    {
        MultiFluidFile file = MultiFluidReader.ReadStandard(
            JsonNode.Parse(DataFiles.ReadText(DataFiles.MixtureStandard))!.ToJsonString(), "same.json", SubstanceIdentityTable.Default);
        Assert.Equal(21, file.Equations.Count);
        Assert.Equal(8, file.Departures.Count);
        Assert.Equal(210, file.Pairs.Count);
    }

    [Fact]
    public void EveryPairOfTheComponentsExistsOnce()
    {
        string[] keys = [.. Catalog.MultiFluid.Equations.Keys.Order(StringComparer.Ordinal)];
        Assert.Equal(21, keys.Length);
        HashSet<string> found = [];
        foreach (MultiFluidPair pair in Catalog.MultiFluid.StandardPairs)
        {
            Assert.Contains(pair.First.Key, keys);
            Assert.Contains(pair.Second.Key, keys);
            Assert.Equal(PairTier.Published, pair.Tier);
            Assert.True(found.Add(string.Join(" ", new[] { pair.First.Key, pair.Second.Key }.Order(StringComparer.Ordinal))), pair.ToString());
        }

        Assert.Equal(210, found.Count);
        Assert.Equal(21 * 20 / 2, found.Count);
    }

    [Fact]
    public void DepartureFunctionsBelongToFifteenPairs()
    {
        // Kunz, Wagner, J. Chem. Eng. Data 57 (2012) 3032: seven pairs with functions of their own, eight with the generalised one; from memory.
        MultiFluidPair[] with = [.. Catalog.MultiFluid.StandardPairs.Where(p => p.Departure is not null)];
        Assert.Equal(15, with.Length);
        Assert.Equal(8, with.Count(p => p.Departure!.Name == "generalised"));
        Assert.All(with.Where(p => p.Departure!.Name != "generalised"), p => Assert.Equal(1, p.DepartureWeight));
        Assert.All(with, p => Assert.NotEqual(0, p.DepartureWeight));
    }

    /// <summary>
    /// One rule is broken: the ideal gas of hydrogen, stated from 60 K, falls to cp/R = 2.479 at 14 K, where 2.5 is the least a gas can have.
    /// </summary>
    [Fact]
    public void TheEquationsOfTheStandardKeepTheRulesOfSubstanceFilesButForColdHydrogen()
    {
        List<string> messages = [];
        foreach ((string key, HelmholtzEquation equation) in Catalog.MultiFluid.Equations)
        {
            Substance own = Catalog.All.Single(s => s.Identity.Key == key);
            Substance with = new(own.Identity, own.FileName)
            {
                MolarMass = own.MolarMass,
                CriticalTemperature = own.CriticalTemperature,
                CriticalPressure = own.CriticalPressure,
                CriticalMolarDensity = own.CriticalMolarDensity,
                TripleTemperature = own.TripleTemperature,
                IdealGasHeatCapacity = own.IdealGasHeatCapacity,
                Equations = [equation],
            };
            Assert.Equal(EquationStandard.MixtureStandard, equation.Standard);
            messages.AddRange(EquationRules.Broken(with).Select(b => $"{own.Name}: {b.Message}"));
            Assert.Equal(8.314472, equation.GasConstant);
        }

        Assert.StartsWith("hydrogen: equations[0].idealGas.terms give cp/R = 2.479", Assert.Single(messages), StringComparison.Ordinal);
    }

    [Fact]
    public void APairIsTheSameInEitherOrder()
    {
        foreach (MultiFluidPair pair in Catalog.MultiFluid.StandardPairs)
        {
            MultiFluidPair forward = Catalog.MultiFluid.FindStandard(pair.First, pair.Second)!;
            MultiFluidPair back = Catalog.MultiFluid.FindStandard(pair.Second, pair.First)!;
            Assert.Same(pair, forward);
            Assert.Equal(pair.First, back.Second);
            Assert.Equal(pair.Second, back.First);
            Assert.Equal(1 / pair.Volume.Beta, back.Volume.Beta);
            Assert.Equal(1 / pair.Temperature.Beta, back.Temperature.Beta);
            Assert.Equal(pair.Volume.Gamma, back.Volume.Gamma);
            Assert.Equal(pair.Temperature.Gamma, back.Temperature.Gamma);
            Assert.Same(pair.Departure, back.Departure);
            Assert.Equal(pair.DepartureWeight, back.DepartureWeight);
        }
    }

    [Theory]
    [InlineData("N2", "methane")]
    [InlineData("methane", "N2")]
    public void AUsersPairChangesTheRecommendedModelAndNeverTheStandard(string first, string second)
    {
        SubstanceCatalog own = Catalog.WithPairs(PairFile(first, second), "mine.json");
        MultiFluidPair pair = own.MultiFluidPairOf(own.Find(first), own.Find(second));
        Assert.Equal(PairTier.FittedHere, pair.Tier);
        Assert.Equal(1.02, pair.Temperature.Beta);
        Assert.Equal(0.002, pair.StandardErrors!.TemperatureBeta);
        Assert.Equal(1 / 1.02, own.MultiFluidPairOf(own.Find(second), own.Find(first)).Temperature.Beta);
        Assert.Equal("mine", pair.Departure!.Name);
        Assert.Equal(PairTier.Published, Catalog.MultiFluidPairOf(Catalog.Find(first), Catalog.Find(second)).Tier);

        Temperature temperature = Temperature.FromKelvins(110);
        double Bubble(SubstanceCatalog catalog, FluidModel model) => catalog.Mixture(("nitrogen", 0.3), ("methane", 0.5), ("ethane", 0.2))
            .WithModel(model).BubblePoint(temperature).Pressure.Pascals;
        Assert.Equal(Bubble(Catalog, FluidModel.MultiFluid), Bubble(own, FluidModel.MultiFluid));
        Assert.Equal(1, Bubble(Catalog, FluidModel.Recommended) / Bubble(Catalog, FluidModel.MultiFluid), 1e-12);
        Assert.True(Math.Abs((Bubble(own, FluidModel.Recommended) / Bubble(Catalog, FluidModel.Recommended)) - 1) > 1e-5);
    }

    [Theory]
    [InlineData("\"first\": \"N2\", ", "", "multiFluidPairs[0].first", "is missing")]
    [InlineData(", \"fittedTo\": \"bench\"", "", "multiFluidPairs[0].fittedTo", "is missing")]
    [InlineData("\"name\": \"mine\"", "\"name\": \"generalised\"", "departureFunctions[0].name", "already names")]
    [InlineData("\"departure\": \"mine\"", "\"departure\": \"yours\"", "multiFluidPairs[0].departure", "mine")]
    [InlineData("\"temperatureBeta\": 0.002", "\"temperatureBeta\": -0.002", "multiFluidPairs[0].standardErrors.temperatureBeta", "0 to 10")]
    [InlineData("\"temperatureBeta\": 0.002", "\"temperature\": 0.002", "multiFluidPairs[0].standardErrors.temperature", "not a field")]
    [InlineData("\"multiFluidPairs\"", "\"standardEquations\": [], \"multiFluidPairs\"", "standardEquations", "not a field")]
    public void ABrokenRuleOfAUsersFileNamesFileFieldAndRule(string old, string replacement, string field, string rule)
    {
        string text = PairFile("N2", "methane");
        Assert.Contains(old, text, StringComparison.Ordinal);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(
            () => Catalog.WithPairs(text.Replace(old, replacement, StringComparison.Ordinal), "mine.json"));
        Assert.Equal("mine.json", error.File);
        Assert.Equal(field, error.Field);
        Assert.Contains(rule, error.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void AUsersPairMayTakeADepartureFunctionOfTheStandard()
    {
        SubstanceCatalog own = Catalog.WithPairs(
            PairFile("N2", "methane").Replace("\"departure\": \"mine\"", "\"departure\": \"generalised\"", StringComparison.Ordinal), "mine.json");
        Assert.Same(Catalog.MultiFluid.Departures["generalised"], own.MultiFluidPairOf(own.Find("N2"), own.Find("CH4")).Departure);
    }

    [Fact]
    public void TheStandardRefusesAFurtherComponentAndNamesIt()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => WorkingFluid.Mixture(("methane", 0.5), ("xenon", 0.5)).WithModel(FluidModel.MultiFluid));
        Assert.Contains("xenon", error.Message, StringComparison.Ordinal);
        WorkingFluid fluid = WorkingFluid.Mixture(("methane", 0.5), ("xenon", 0.5));
        Assert.Contains(fluid.Pedigree.EstimatedPairs, p => p.First.Name == "methane" && p.Second.Name == "xenon");
    }

    private static string PairFile(string first, string second) =>
        $$"""
        {
          "sources": { "bench": { "publication": "own measurement", "fromMemory": false } },
          "departureFunctions": [
            { "name": "mine", "source": "bench", "densityTerms": [ { "coefficient": 0.01, "temperatureExponent": 1, "densityExponent": 1, "decayExponent": 0 } ] }
          ],
          "multiFluidPairs": [
            { "first": "{{first}}", "second": "{{second}}", "tier": "fitted here", "source": "bench", "fittedTo": "bench",
              "volumeReducing": { "beta": 1, "gamma": 1.01 }, "temperatureReducing": { "beta": 1.02, "gamma": 0.97 },
              "departure": "mine", "departureWeight": 0.5, "standardErrors": { "temperatureBeta": 0.002 } }
          ]
        }
        """;

    private static void Plant(JsonNode file, string path, string? value)
    {
        string[] steps = path.Split('/');
        JsonNode node = file;
        foreach (string step in steps[..^1])
        {
            node = node is JsonArray list ? list[int.Parse(step, CultureInfo.InvariantCulture)]! : node[step]!;
        }

        if (value is null)
        {
            Assert.True(node.AsObject().Remove(steps[^1]));
        }
        else
        {
            node[steps[^1]] = JsonNode.Parse(value);
        }
    }
}
