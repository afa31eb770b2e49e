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
        Assert.Equal(PairTier.Estimated, catalog.PairOf(fluid, catalog.Find("nitrogen"), CubicModelKind.PengRobinson).Tier);
    }

    [Fact]
    public void TheExampleOfThePairPageLoads()
    {
        SubstanceCatalog catalog = SubstanceCatalog.Default.WithPairs(ExampleOf("pair-file.md"), "own-pairs.json");
        CubicPair fitted = catalog.PairOf(catalog.Find("R-14"), catalog.Find("nitrogen"), CubicModelKind.PengRobinson);
        Assert.Equal(0.035, fitted.InteractionParameter);
        Assert.Equal(0.004, fitted.StandardError);
        CubicPair published = catalog.PairOf(catalog.Find("R-14"), catalog.Find("R-23"), CubicModelKind.SoaveRedlichKwong);
        Assert.Equal(0.11, published.InteractionParameter);
        Assert.Equal(PairTier.Published, published.Tier);
        Assert.Equal("bubble pressure at 200 K within 2 %", published.Source.Verified);
    }

    [Theory]
    [InlineData("substance-file.md", typeof(SubstanceDocument))]
    [InlineData("pair-file.md", typeof(PairDocument))]
    public void ThePageNamesEveryFieldOfItsFormat(string page, Type document)
    {
        string text = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", page));
        foreach (System.Reflection.PropertyInfo member in document.GetProperties())
        {
            Assert.Contains(char.ToLowerInvariant(member.Name[0]) + member.Name[1..], text, StringComparison.Ordinal);
        }
    }

    private static string ExampleOf(string page)
    {
        string[] parts = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", page)).Split("```json");
        Assert.Equal(2, parts.Length);
        return parts[1][..parts[1].IndexOf("```", StringComparison.Ordinal)];
    }
}
