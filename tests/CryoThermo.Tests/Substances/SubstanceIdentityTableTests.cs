using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

public sealed class SubstanceIdentityTableTests
{
    private static readonly SubstanceIdentityTable Table = SubstanceIdentityTable.Default;

    /// <summary>Every spelling met in the data the project was assembled from resolves to the substance meant there.</summary>
    [Fact]
    public void EverySpellingOfTheListResolves()
    {
        List<string> wrong = [];
        int count = 0;
        foreach (string line in File.ReadLines(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Substances", "spellings.txt")))
        {
            if (line.StartsWith('#'))
            {
                continue;
            }

            string[] fields = line.Split('\t');
            count++;
            if (!Table.TryFind(fields[0], out SubstanceIdentity? found) || found.Key != fields[1] || found.Name != fields[2])
            {
                wrong.Add($"{line} -> {found?.Key ?? "unknown"}");
            }
        }

        Assert.Empty(wrong);
        Assert.True(count > 200, $"only {count} spellings were read");
    }

    [Fact]
    public void EveryNameDesignationSpellingAndKeyFindsItsOwner()
    {
        foreach (SubstanceIdentity identity in Table.All)
        {
            foreach (string spelling in identity.Spellings.Append(identity.Name).Append(identity.Key).Append(identity.Designation ?? identity.Name))
            {
                Assert.Same(identity, Table.Find(spelling));
                Assert.Same(identity, Table.Find(spelling.ToUpperInvariant()));
            }
        }
    }

    [Theory]
    [InlineData("C4H10", "isobutane (75-28-5), n-butane (106-97-8)")]
    [InlineData("C5H12", "isopentane (78-78-4), n-pentane (109-66-0), neopentane (463-82-1)")]
    [InlineData("C4H8", "1-butene (106-98-9), isobutene (115-11-7)")]
    public void TheFormulaOfIsomersIsRefusedAndTheIsomersAreNamed(string formula, string isomers)
    {
        Assert.False(Table.TryFind(formula, out _));
        ArgumentException error = Assert.Throws<ArgumentException>(() => Table.Find(formula));
        Assert.Contains("is the formula of several substances; name one of: " + isomers, error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nitrogn", "nitrogen")]
    [InlineData("R-135a", "1,1,1,2-tetrafluoroethane")]
    [InlineData("izobutane", "isobutane")]
    [InlineData("carbon dioxid", "carbon dioxide")]
    public void AMisspeltNameListsTheNearMatch(string misspelt, string meant)
    {
        Assert.Contains(Table.NearMatches(misspelt), i => i.Name == meant);
        ArgumentException error = Assert.Throws<ArgumentException>(() => Table.Find(misspelt));
        Assert.Contains(meant, error.Message, StringComparison.Ordinal);
        Assert.Equal("name", error.ParamName);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("xyzzyquux")]
    public void NonsenseFindsNothing(string text)
    {
        Assert.False(Table.TryFind(text, out _));
        Assert.Contains("Nothing known resembles it", Assert.Throws<ArgumentException>(() => Table.Find(text)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void SpinFormsAreDifferentSubstances()
    {
        Assert.Equal("1333-74-0", Table.Find("H2").Key);
        Assert.Equal("1333-74-0/para", Table.Find("p-H2").Key);
        Assert.Equal("1333-74-0/ortho", Table.Find("orthohydrogen").Key);
    }

    [Fact]
    public void IdentitiesAreEqualByKey()
    {
        SubstanceIdentity other = Substance.FromJson(
            Example.Json(("\"own/bench-fluid\"", "\"74-98-6\""), ("\"bench fluid\"", "\"propan\"")), "propan.json").Identity;
        Assert.NotSame(Table.Find("propane"), other);
        Assert.Equal(Table.Find("propane"), other);
        Assert.Equal(Table.Find("propane").GetHashCode(), other.GetHashCode());
        Assert.NotEqual(Table.Find("ethane"), other);
    }

    /// <summary>Published registry numbers with correct and wrong check digits.</summary>
    [Theory]
    [InlineData("7732-18-5", true)]
    [InlineData("7732-18-4", false)]
    [InlineData("132259-10-0", true)]
    [InlineData("1333-74-0/para", true)]
    [InlineData("1333-74-0/", false)]
    [InlineData("1333-74-0/Para", false)]
    [InlineData("own/lab-oil", true)]
    [InlineData("own/", false)]
    [InlineData("74-986", false)]
    [InlineData("74986", false)]
    [InlineData("7-4986-", false)]
    [InlineData("", false)]
    public void RegistryNumbersAreChecked(string text, bool valid) => Assert.Equal(valid, CasNumber.BrokenRule(text) is null);

    [Theory]
    [InlineData("C2H2F4", 0.10203, 8)]
    [InlineData("CCl2F2", 0.12091, 5)]
    [InlineData("CH2FCF3", 0.10203, 8)]
    [InlineData("C10H22", 0.14228, 32)]
    public void FormulasGiveTheMolarMassAndTheNumberOfAtoms(string formula, double expected, int atoms)
    {
        Assert.True(MolecularFormula.TryParse(formula, out MolecularFormula? molecule));
        Assert.Equal(expected, molecule.MolarMass, 2e-5);
        Assert.Equal(atoms, molecule.AtomCount);
    }

    [Theory]
    [InlineData("")]
    [InlineData("Zz2")]
    [InlineData("C0H4")]
    [InlineData("c2h6")]
    [InlineData(null)]
    public void WhatIsNoFormulaIsRefused(string? text) => Assert.False(MolecularFormula.TryParse(text, out _));
}
