using CryoThermo.Substances;
using CryoThermo.Tests.Substances;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class CompositionTests
{
    [Fact]
    public void MoleFractionsAreKeptInTheirOrder()
    {
        Composition c = Composition.FromMoleFractions(("propane", 0.25), ("R-50", 0.35), ("N2", 0.4));
        Assert.Equal(["propane", "methane", "nitrogen"], c.Components.Select(s => s.Name));
        Assert.Equal([0.25, 0.35, 0.4], c.MoleFractions);
        Assert.Equal(0.35, c["methane"]);
        Assert.Equal(0.35, c["CH4"]);
        Assert.Equal(0, c["argon"]);
        Assert.Throws<ArgumentException>(() => c["unobtainium"]);
        Assert.Equal("propane 0.25, methane 0.35, nitrogen 0.4", c.ToString());
    }

    [Theory]
    [InlineData(0.5 + 2e-6)]
    [InlineData(0.5 - 2e-6)]
    [InlineData(0.9)]
    [InlineData(50)]
    public void AWrongSumIsAnErrorNotANormalisation(double second)
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => Composition.FromMoleFractions(("methane", 0.5), ("ethane", second)));
        Assert.Equal("parts", error.ParamName);
        Assert.Contains((0.5 + second).ToString("R"), error.Message, StringComparison.Ordinal);
        Assert.Contains("1E-06", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void RoundingOfTheSumIsTakenOut()
    {
        Composition c = Composition.FromMoleFractions(("methane", 0.3333333), ("ethane", 0.3333333), ("propane", 0.3333333));
        Assert.Equal(1, c.MoleFractions.Sum(), 1e-15);
    }

    [Fact]
    public void PercentIsAHundredth()
    {
        Composition c = Composition.FromMolePercent(("methane", 30), ("ethane", 70));
        Assert.Equal(0.3, c["methane"], 1e-15);
        ArgumentException error = Assert.Throws<ArgumentException>(() => Composition.FromMolePercent(("methane", 0.3), ("ethane", 0.7)));
        Assert.Contains("100", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MassesAreDividedByMolarMasses()
    {
        // Molar masses of methane and nitrogen: 16.043 and 28.013 g/mol (IUPAC standard atomic weights, conventional values).
        Composition c = Composition.FromMasses(("methane", Mass.FromGrams(16.043)), ("nitrogen", Mass.FromKilograms(0.028013)));
        Assert.Equal(0.5, c["methane"], 1e-4);
        IReadOnlyList<double> back = c.ToMassFractions();
        Assert.Equal(16.043 / (16.043 + 28.013), back[0], 1e-12);
        Assert.Equal(0.5 * (16.043 + 28.013) / 1000, c.MolarMass.KilogramsPerMole, 1e-6);
    }

    [Fact]
    public void AmountsAndPartialPressuresShareTheSameRatios()
    {
        Composition moles = Composition.FromMoles(("argon", AmountOfSubstance.FromMoles(2)), ("neon", AmountOfSubstance.FromMillimoles(6000)));
        Composition pressures = Composition.FromPartialPressures(("argon", Pressure.FromBars(2)), ("neon", Pressure.FromKilopascals(600)));
        Assert.Equal(0.25, moles["argon"], 1e-15);
        Assert.Equal(0.25, pressures["argon"], 1e-15);
    }

    [Property]
    public void FractionsFromAmountsAddUpWhateverTheirSize(PositiveInt a, PositiveInt b, NonNegativeInt c)
    {
        Composition x = Composition.FromMoles(
            ("methane", AmountOfSubstance.FromMoles(a.Get * 1e-9)), ("ethane", AmountOfSubstance.FromMoles(b.Get)), ("propane", AmountOfSubstance.FromMoles(c.Get * 1e9)));
        Assert.Equal(1, x.MoleFractions.Sum(), 4e-16);
        Assert.Equal(a.Get * 1e-9 / b.Get, x["methane"] / x["ethane"], 1e-12 * a.Get / b.Get);
    }

    [Fact]
    public void BadSharesNameTheSubstanceAndTheValue()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => Composition.FromMoleFractions(("methane", 1.1), ("ethane", -0.1)));
        Assert.Contains("ethane is -0.1", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentException>(() => Composition.FromMoleFractions(("methane", double.NaN)));
        Assert.Contains("methane is NaN", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentException>(() => Composition.FromMasses(("methane", Mass.FromGrams(-1)), ("ethane", Mass.FromGrams(2))));
        Assert.Contains("-0.001 (kg)", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentException>(() => Composition.FromMasses(("methane", Mass.Zero)));
        Assert.Contains("more than zero", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentException>(() => Composition.FromMoleFractions(("methane", 0.5), ("R-50", 0.5)));
        Assert.Contains("given twice", error.Message, StringComparison.Ordinal);
        Assert.Contains("R-50", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentException>(() => Composition.FromMoleFractions());
        Assert.Contains("1 to 25", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Composition.FromMoleFractions([.. SubstanceCatalog.Default.All.Take(26).Select(s => (s.Name, 1 / 26.0))]));
        Assert.Throws<ArgumentNullException>(() => Composition.FromMoleFractions(null!, ("methane", 1)));
        Assert.Throws<ArgumentNullException>(() => Composition.FromMasses(null!, ("methane", Mass.FromGrams(1))));
    }

    [Fact]
    public void AnOwnSubstanceIsFoundByItsOwnName()
    {
        SubstanceCatalog catalog = SubstanceCatalog.Default.With(Substance.FromJson(Example.Json(), Example.File));
        Composition c = Composition.FromMoleFractions(catalog, ("bench fluid", 0.4), ("methane", 0.6));
        Assert.Equal(0.4, c["bench fluid"]);
        State s = catalog.Mixture(c).At(Temperature.FromKelvins(180), Pressure.FromBars(3));
        Assert.True(s.Phases[^1].Composition["bench fluid"] > 0.8);
    }
}
