using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

public sealed class SubstanceCatalogTests
{
    private static readonly SubstanceCatalog Catalog = SubstanceCatalog.Default;

    [Fact]
    public void DefaultHoldsThe47SubstancesEachUnderItsOwnFileName()
    {
        Assert.Equal(47, Catalog.All.Count);
        foreach (Substance substance in Catalog.All)
        {
            Assert.Equal(substance.Name.Replace(' ', '-').Replace(',', '-') + ".json", substance.FileName);
            Assert.Same(substance, Catalog.Find(substance.Identity.Key));
        }
    }

    /// <summary>A file is found by the chemical name; a file that belongs to no name would never be read.</summary>
    [Fact]
    public void EveryShippedFileBelongsToAnIdentity() =>
        Assert.Equal(DataFiles.Substances, Catalog.Identities.All.Select(DataFiles.FileOf).Intersect(DataFiles.Substances).Order(StringComparer.Ordinal));

    [Fact]
    public void AFileIsReadWhenItsSubstanceIsFirstAskedFor()
    {
        SubstanceCatalog catalog = SubstanceCatalog.OpenShipped();
        Assert.True(catalog.Contains("nitrogen"));
        Assert.Equal(0, catalog.ReadCount);
        Substance nitrogen = catalog.Find("nitrogen");
        Assert.Same(nitrogen, catalog.Find("N2"));
        Assert.Equal(1, catalog.ReadCount);
        SubstanceCatalog extended = catalog.With(Substance.FromJson(Example.Json(), Example.File));
        Assert.Same(nitrogen, extended.Find("nitrogen"));
        Assert.Equal(2, extended.ReadCount);
        Assert.Equal(47, catalog.All.Count);
        Assert.Equal(47, catalog.ReadCount);
    }

    [Fact]
    public void ASubstanceIsReadOnceHoweverManyThreadsAsk()
    {
        SubstanceCatalog catalog = SubstanceCatalog.OpenShipped();
        Substance[] found = new Substance[64];
        Parallel.For(0, found.Length, i => found[i] = catalog.Find(i % 2 == 0 ? "methane" : "propane"));
        Assert.Equal(2, found.Distinct().Count());
        Assert.Equal(2, catalog.ReadCount);
    }

    [Theory]
    [InlineData("R-290", "propane")]
    [InlineData("r290", "propane")]
    [InlineData("C3H8", "propane")]
    [InlineData("Carbon-Dioxide", "carbon dioxide")]
    [InlineData("h2", "hydrogen")]
    [InlineData("1333-74-0/para", "parahydrogen")]
    public void FindsByAnySpelling(string spelling, string name)
    {
        Assert.Equal(name, Catalog.Find(spelling).Name);
        Assert.True(Catalog.Contains(spelling));
        Assert.True(Catalog.TryFind(spelling, out Substance? found));
        Assert.Equal(name, found.Name);
    }

    /// <summary>Critical point of propane: Lemmon, McLinden, Wagner, J. Chem. Eng. Data 54 (2009) 3141, from memory.</summary>
    [Fact]
    public void PropaneCarriesItsConstantsAndTheirSource()
    {
        Substance propane = Catalog.Find("propane");
        Assert.Equal(369.89, propane.CriticalTemperature);
        Assert.Equal(4.2512e6, propane.CriticalPressure);
        Assert.Equal(5000, propane.CriticalMolarDensity, 1.0);
        Assert.Equal(0.04409562, propane.MolarMass, 1e-6);
        Assert.Equal(0.1521, propane.AcentricFactor);
        Assert.Equal(231.036, propane.NormalBoilingTemperature);
        Assert.Equal(85.525, propane.TripleTemperature);
        Assert.Null(propane.TriplePressure);
        Assert.Equal(0.03136, propane.StryjekVeraKappa1);
        Assert.Contains("J. Chem. Eng. Data 54 (2009) 3141", propane.CriticalPointProvenance.Source.Publication, StringComparison.Ordinal);
        Assert.True(propane.CriticalPointProvenance.Source.FromMemory);
        Assert.NotNull(propane.CriticalPointProvenance.Source.Verified);
        Assert.NotNull(propane.VolumeTranslation);
        Assert.Equal(5, propane.IdealGasHeatCapacity.Terms.Count);
    }

    [Fact]
    public void OnlyHeliumNeonAndHydrogenCarryQuantumCorrectionParameters()
    {
        Assert.Equal(
            ["helium", "hydrogen", "neon"],
            Catalog.All.Where(s => s.QuantumCorrection is not null).Select(s => s.Name).Order(StringComparer.Ordinal));
        Assert.Equal(1.4912, Catalog.Find("helium").QuantumCorrection!.CovolumeNumerator);
    }

    [Fact]
    public void SubstancesThatDoNotBoilAtOneAtmosphereCarryASublimationTemperature()
    {
        Assert.Equal(
            ["acetylene", "carbon dioxide", "sulfur hexafluoride"],
            Catalog.All.Where(s => s.NormalBoilingTemperature is null).Select(s => s.Name).Order(StringComparer.Ordinal));
        Assert.All(
            Catalog.All.Where(s => s.NormalBoilingTemperature is null),
            s => Assert.True(s.SublimationTemperature < s.TripleTemperature && s.TriplePressure > 101325));
    }

    [Fact]
    public void AnUnknownNameListsNearMatches()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => Catalog.Find("propan"));
        Assert.Contains("propane (74-98-6)", error.Message, StringComparison.Ordinal);
        Assert.False(Catalog.TryFind("propan", out _));
        Assert.False(Catalog.Contains(null));
    }

    [Fact]
    public void AKnownSubstanceWithoutDataSaysSo()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => Catalog.Find("ozone"));
        Assert.Contains("holds no data", error.Message, StringComparison.Ordinal);
        Assert.False(Catalog.Contains("O3"));
    }

    [Fact]
    public void WithGivesANewCatalogueAndLeavesTheOldOneAlone()
    {
        Substance own = Substance.FromJson(Example.Json(), Example.File);
        SubstanceCatalog extended = Catalog.With(own);
        Assert.Equal(48, extended.All.Count);
        Assert.Same(own, extended.Find("bench fluid"));
        Assert.Equal(47, Catalog.All.Count);
        Assert.False(Catalog.Contains("bench fluid"));
    }

    [Fact]
    public void AnAddedSubstanceReplacesOneWithTheSameKey()
    {
        string text = Example.Json(("\"own/bench-fluid\"", "\"74-98-6\""), ("\"bench fluid\"", "\"propan\""));
        SubstanceCatalog extended = Catalog.With(Substance.FromJson(text, "propan.json"));
        Assert.Equal(47, extended.All.Count);
        Assert.Equal(370, extended.Find("propane").CriticalTemperature);
        Assert.Equal(370, extended.Find("propan").CriticalTemperature);
        Assert.Equal("propane", extended.Find("propan").Name);
        Assert.Equal(369.89, Catalog.Find("propane").CriticalTemperature);
    }

    [Fact]
    public void FilesAreReadFromDisk()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".json");
        try
        {
            File.WriteAllText(path, Example.Json());
            Assert.Equal("bench fluid", Substance.FromFile(path).Name);
            SubstanceCatalog extended = Catalog.WithFile(path);
            Assert.Equal(Path.GetFileName(path), extended.Find("own/bench-fluid").FileName);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
