using CryoThermo.Coolers;

namespace CryoThermo.Tests.Coolers;

public sealed class MixtureDescriptionTests
{
    [Theory]
    [InlineData(MixtureBasis.MoleFraction, 0.25, 0.75)]
    [InlineData(MixtureBasis.MolePercent, 25, 75)]
    [InlineData(MixtureBasis.PartialPressure, 1.3, 3.9)]
    public void OfOneMoleToThree(MixtureBasis basis, double first, double second)
    {
        Composition composition = Two(basis, first, second).ToComposition();
        Assert.Equal(0.25, composition["nitrogen"], 1e-14);
        Assert.Equal(0.75, composition["methane"], 1e-14);
    }

    [Fact]
    public void MassFractionsGoOverMolarMasses()
    {
        // Molar masses of nitrogen and methane, g/mol: 28.0134 and 16.0425 (IUPAC standard atomic weights).
        double nitrogen = 0.5 / 28.0134;
        double methane = 0.5 / 16.0425;
        Assert.Equal(nitrogen / (nitrogen + methane), Two(MixtureBasis.MassFraction, 0.5, 0.5).ToComposition()["nitrogen"], 1e-4);
    }

    [Theory]
    [InlineData("air")]
    [InlineData("Air")]
    public void AirAloneIsDryAir(string name)
    {
        Composition air = new MixtureDescription(MixtureBasis.MoleFraction, [new ComponentAmount(name, 1)]).ToComposition();
        Assert.Equal(0.7812, air["nitrogen"], 1e-14);
        Assert.Equal(0.2096, air["oxygen"], 1e-14);
        Assert.Equal(0.0092, air["argon"], 1e-14);
        Assert.Equal(28.96, air.MolarMass.GramsPerMole, 0.01);
    }

    [Fact]
    public void AFormulaAndADesignationNameTheSameSubstance()
    {
        MixtureDescription spelt = new(MixtureBasis.MoleFraction, [new("CH4", 0.6), new("R-290", 0.4)]);
        Composition composition = spelt.ToComposition();
        Assert.Equal(0.6, composition["methane"], 1e-14);
        Assert.Equal(0.4, composition["propane"], 1e-14);
    }

    [Fact]
    public void AmountsThatDoNotSumToTheWholeAreRefused()
    {
        Assert.Contains("must sum to 1", Assert.Throws<ArgumentException>(() => Two(MixtureBasis.MoleFraction, 0.5, 0.4).ToComposition()).Message, StringComparison.Ordinal);
        Assert.Contains("must sum to 100", Assert.Throws<ArgumentException>(() => Two(MixtureBasis.MolePercent, 0.5, 0.5).ToComposition()).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new MixtureDescription(MixtureBasis.MoleFraction, [new("unobtainium", 1)]).ToComposition());
    }

    [Theory]
    [InlineData(0.9)]
    [InlineData(1.1)]
    public void MassFractionsThatDoNotSumToOneAreRefused(double sum) =>
        Assert.Contains("sum", Assert.Throws<ArgumentException>(() => Two(MixtureBasis.MassFraction, 0.5, sum - 0.5).ToComposition()).Message, StringComparison.Ordinal);

    private static MixtureDescription Two(MixtureBasis basis, double nitrogen, double methane) =>
        new(basis, [new ComponentAmount("nitrogen", nitrogen), new ComponentAmount("methane", methane)]);
}
