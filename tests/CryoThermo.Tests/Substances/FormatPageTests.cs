using System.Text.Json;
using CryoThermo.Fitting;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

/// <summary>The examples of the format pages are read as they stand there.</summary>
public sealed class FormatPageTests
{
    [Fact]
    public void TheExampleOfTheSubstancePageLoads()
    {
        Substance fluid = Substance.FromJson(ExampleOf("substance-file.md"), "bench-fluid.json");
        SubstanceCatalog catalog = SubstanceCatalog.Default.With(fluid);
        Assert.Same(fluid, catalog.Find("BF"));
        Assert.Equal(370, fluid.CriticalTemperature);
        Assert.Equal("0.5 K, 1 %, 3 %", fluid.CriticalPointProvenance.Uncertainty);
        Assert.Equal("freezes to a glass on fast cooling", fluid.TriplePointProvenance!.Note);
        Assert.Equal("liquid density at 231 K within 2 % of a weighing", fluid.AcentricFactorProvenance.Source.Verified);
        Assert.Equal(4, fluid.IdealGasHeatCapacity.Terms.Count);
        Assert.Equal(3500, fluid.Solid!.FusionEnthalpy);
        Assert.Equal("2 %", fluid.Solid.FusionProvenance.Uncertainty);
        Assert.Equal(3.8e-6, fluid.Solid.VolumeChange);
        Assert.Equal("II to I", Assert.Single(fluid.Solid.Transitions).Phases);
        Assert.Equal(1.7e-4, Assert.Single(fluid.Solid.SublimationPressures).At(85.5), 1e-12);
        Assert.Equal(8.2e-6, fluid.Transport!.DiluteViscosityFunction!.At(300, 0, 0), 5e-8);
        Assert.Equal(-0.084, fluid.Transport.CorrespondingStates!.ViscositySlope);
        Assert.Equal(152, fluid.Transport.Parachor);
        HelmholtzEquation equation = Assert.Single(fluid.Equations);
        Assert.Equal(3, equation.DensityTerms.Count);
        Assert.Equal(4950, equation.CriticalPoint.MolarDensity);
        Assert.Equal(new TwoLevelTerm(0.5, 900, 1), equation.IdealGas.HeatCapacity.Terms[3]);
        Assert.Equal(4.26e6, equation.VaporPressure!.At(370.2));
        Assert.True(StructuralValidator.Validate(fluid).IsValid);
        Assert.Equal(PairTier.Estimated, catalog.PairOf(fluid, catalog.Find("nitrogen"), CubicModelKind.PengRobinson).Tier);
    }

    [Fact]
    public void TheExampleOfThePairPageLoads()
    {
        SubstanceCatalog catalog = SubstanceCatalog.Default.WithPairs(ExampleOf("pair-file.md"), "own-pairs.json");
        CubicPair fitted = catalog.PairOf(catalog.Find("R-14"), catalog.Find("nitrogen"), CubicModelKind.PengRobinson);
        Assert.Equal(0.035, fitted.InteractionParameter);
        Assert.Equal(0.004, fitted.StandardError);
        CubicPair sloped = catalog.PairOf(catalog.Find("propane"), catalog.Find("R-14"), CubicModelKind.PengRobinson);
        Assert.Equal(0.08, sloped.InteractionParameter);
        Assert.Equal(0.02, sloped.InverseTemperatureCoefficient);
        Assert.Equal(0.004, sloped.InverseTemperatureStandardError);
        CubicPair published = catalog.PairOf(catalog.Find("R-14"), catalog.Find("R-23"), CubicModelKind.SoaveRedlichKwong);
        Assert.Equal(0.11, published.InteractionParameter);
        Assert.Equal(PairTier.Published, published.Tier);
        Assert.Equal("bubble pressure at 200 K within 2 %", published.Source.Verified);

        MultiFluidPair multi = catalog.MultiFluidPairOf(catalog.Find("R-14"), catalog.Find("nitrogen"));
        Assert.Equal(1 / 1.002, multi.Temperature.Beta, 1e-15);
        Assert.Equal(0.955, multi.Temperature.Gamma);
        Assert.Equal(1.01, multi.Volume.Gamma);
        Assert.Equal(0.5, multi.DepartureWeight);
        Assert.Equal(2, multi.Departure!.DensityTerms.Count);
        Assert.Equal(new SkewedTerm(0.03, 0.5, 1, 1, 0.5, 1, 0.5), Assert.Single(multi.Departure.SkewedTerms));
        Assert.Equal(0.002, multi.StandardErrors!.TemperatureGamma);
        Assert.Equal(0, multi.StandardErrors.VolumeGamma);
        Assert.Equal("dew pressures at 120 K within 3 %", multi.Source.Verified);
        Assert.Equal("generalised", catalog.MultiFluidPairOf(catalog.Find("propane"), catalog.Find("R-14")).Departure!.Name);
    }

    [Fact]
    public void TheExampleOfTheMeasurementPageLoads()
    {
        MeasurementSet set = MeasurementSet.FromText(ExampleOf("measurement-file.md", "csv"), "own-points.csv");
        Assert.Equal("bench bubble points", set.Name);
        Assert.StartsWith("own bubble points", set.Source.Publication, StringComparison.Ordinal);
        Assert.Equal(["nitrogen", "tetrafluoromethane"], set.Components.Select(c => c.Name));
        Assert.Equal(3, set.Points.Count);
        Assert.All(set.Points, p => Assert.Equal(MeasurementKind.BubblePressure, p.Kind));
        Assert.Equal(652000, set.Points[0].Pressure.Pascals, 1e-6);
        Assert.Equal([0.941, 0.059], set.Points[0].VaporFractions!.Select(f => Math.Round(f, 12)));
        Assert.Null(set.Points[1].VaporFractions);
        Assert.Equal([0.015, 0.03, 0.015], set.Points.Select(p => p.Uncertainty.PressureRelative));
        Assert.Equal(0.01, set.Points[2].Uncertainty.VaporFraction);
    }

    /// <summary>The fields of the multi-fluid part that occur in the shipped files; those of equations belong to another page.</summary>
    [Theory]
    [InlineData(DataFiles.MixtureStandard)]
    [InlineData(DataFiles.MultiFluidPairs)]
    public void ThePairPageNamesEveryFieldOfTheMultiFluidPart(string file)
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "pair-file.md"));
        using JsonDocument document = JsonDocument.Parse(DataFiles.ReadText(file));
        HashSet<string> fields = new(StringComparer.Ordinal);
        foreach (string list in new[] { "departureFunctions", "multiFluidPairs" })
        {
            if (document.RootElement.TryGetProperty(list, out JsonElement entries))
            {
                fields.Add(list);
                Collect(entries, fields);
            }
        }

        Assert.True(fields.Count > 10);
        Assert.All(fields, field => Assert.Contains($"`{field}`", text, StringComparison.Ordinal));
    }

    [Fact]
    public void ThePairPageNamesEveryFieldOfItsFormat()
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "pair-file.md"));

        // What is true or false there is no field: it tells whether another reader has work to do.
        foreach (System.Reflection.PropertyInfo member in typeof(PairDocument).GetProperties().Where(p => p.PropertyType != typeof(bool)))
        {
            Assert.Contains(char.ToLowerInvariant(member.Name[0]) + member.Name[1..], text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void ThePairPageNamesEveryFieldOfAnInteraction()
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "pair-file.md"));
        Assert.All(
            typeof(InteractionEntry).GetProperties(),
            member => Assert.Contains($"`{char.ToLowerInvariant(member.Name[0])}{member.Name[1..]}`", text, StringComparison.Ordinal));
    }

    /// <summary>The shipped files use all fields but one.</summary>
    [Fact]
    public void TheSubstancePageNamesEveryFieldOfAFile()
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "substance-file.md"));
        HashSet<string> fields = new(StringComparer.Ordinal) { "spellings" };
        foreach (string file in DataFiles.Substances)
        {
            using JsonDocument document = JsonDocument.Parse(DataFiles.ReadText(file));
            fields.UnionWith(document.RootElement.EnumerateObject().Select(member => member.Name));
        }

        Assert.Equal(19, fields.Count);
        Assert.All(fields, field => Assert.Contains(field, text, StringComparison.Ordinal));
    }

    [Fact]
    public void ThePageNamesEveryFieldOfTransport()
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "substance-file.md"));
        HashSet<string> fields = new(StringComparer.Ordinal);
        foreach (string file in DataFiles.Substances)
        {
            using JsonDocument document = JsonDocument.Parse(DataFiles.ReadText(file));
            if (document.RootElement.TryGetProperty("transport", out JsonElement transport))
            {
                Collect(transport, fields);
            }
        }

        Assert.True(fields.Count > 50);
        Assert.All(fields, field => Assert.Contains(field, text, StringComparison.Ordinal));
    }

    [Fact]
    public void ThePageNamesEveryFieldOfASolid()
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "substance-file.md"));
        HashSet<string> fields = new(StringComparer.Ordinal);
        foreach (string file in DataFiles.Substances)
        {
            using JsonDocument document = JsonDocument.Parse(DataFiles.ReadText(file));
            if (document.RootElement.TryGetProperty("solid", out JsonElement solid))
            {
                Collect(solid, fields);
            }
        }

        Assert.True(fields.Count > 15);
        Assert.All(fields, field => Assert.Contains(field, text, StringComparison.Ordinal));
    }

    /// <summary>The fields that occur in the shipped files, which use all but those of the kinds named below.</summary>
    [Fact]
    public void ThePageNamesEveryFieldOfAnEquation()
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "substance-file.md"));
        HashSet<string> fields = new(StringComparer.Ordinal)
        {
            "squaredHyperbolicSine", "squaredHyperbolicCosine", "logarithmOfHyperbolicSine", "logarithmOfHyperbolicCosine",
        };
        foreach (string file in DataFiles.Substances)
        {
            using JsonDocument document = JsonDocument.Parse(DataFiles.ReadText(file));
            if (document.RootElement.TryGetProperty("equations", out JsonElement equations))
            {
                Collect(equations, fields);
            }
        }

        Assert.True(fields.Count > 60);
        Assert.All(fields, field => Assert.Contains($"`{field}`", text, StringComparison.Ordinal));
    }

    private static void Collect(JsonElement element, HashSet<string> fields)
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            foreach (JsonElement item in element.EnumerateArray())
            {
                Collect(item, fields);
            }
        }
        else if (element.ValueKind == JsonValueKind.Object)
        {
            foreach (JsonProperty member in element.EnumerateObject())
            {
                fields.Add(member.Name);
                if (member.Name is "kind" or "form")
                {
                    fields.Add(member.Value.GetString()!);
                }

                Collect(member.Value, fields);
            }
        }
    }

    private static string ExampleOf(string page, string language = "json")
    {
        string[] parts = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", page)).Split("```" + language);
        Assert.Equal(2, parts.Length);
        return parts[1][..parts[1].IndexOf("```", StringComparison.Ordinal)];
    }
}
