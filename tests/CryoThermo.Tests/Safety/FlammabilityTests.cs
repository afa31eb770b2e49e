using CryoThermo.Safety;

namespace CryoThermo.Tests.Safety;

public sealed class FlammabilityTests
{
    private static readonly SubstanceShare[] NaturalGas =
        [new("methane", 0.80), new("ethane", 0.15), new("propane", 0.04), new("n-butane", 0.01)];

    private static readonly SubstanceShare[] Blend =
        [new("nitrogen", 0.40), new("methane", 0.30), new("ethane", 0.20), new("propane", 0.10)];

    // Coward and Jones, US Bureau of Mines Bulletin 503 (1952), natural-gas example: 4.3 % (printed with two digits); from memory.
    [Fact]
    public void LeChatelierReproducesTheNaturalGasExample() =>
        Assert.Equal(4.3, Flammability.WithGreatestLimits(NaturalGas).LowerLimitPercent!.Value, 0.05);

    // Hand sum with the least published limits: 80/4.4 + 15/2.4 + 4/1.7 + 1/1.4 = 27.498, 100/27.498 = 3.637; computed here.
    [Fact]
    public void TheUnfavourableLimitsAreUsed() => Assert.Equal(3.637, Flammability.Of(NaturalGas).LowerLimitPercent!.Value, 0.001);

    // ISO 10156 with its tabulated T (methane 8.7, ethane 4.5, propane 3.7), from memory; arithmetic by hand:
    // 30/8.7 + 20/4.5 + 10/3.7 = 10.595; 5/8.7 = 0.575; 9/8.7 = 1.034.
    [Fact]
    public void TheSumOfIso10156AgreesWithHandArithmetic()
    {
        Assert.Equal(10.595, Flammability.Of(Blend).Index!.Value, 0.001);
        Assert.Equal(0.575, Flammability.Of([new("methane", 0.05), new("nitrogen", 0.95)]).Index!.Value, 0.001);
        Assert.Equal(1.034, Flammability.Of([new("methane", 0.09), new("nitrogen", 0.91)]).Index!.Value, 0.001);
    }

    [Theory]
    [InlineData(0.086, false)]
    [InlineData(0.088, true)]
    public void ABlendBurnsOnlyAboveItsThreshold(double methane, bool burns)
    {
        Flammability result = Flammability.Of([new("methane", methane), new("nitrogen", 1 - methane)]);
        Assert.Equal(burns, result.Burns);
        Assert.True(result.HasFuel);
    }

    // Argon counts 0.55 of nitrogen in ISO 10156 (from memory): by hand 100 * 0.06/(0.06 + 0.55 * 0.94)/8.7 = 1.1952.
    [Fact]
    public void ArgonInertsLessThanNitrogen()
    {
        Assert.False(Flammability.Of([new("methane", 0.06), new("nitrogen", 0.94)]).Burns);
        Assert.Equal(1.1952, Flammability.Of([new("methane", 0.06), new("argon", 0.94)]).Index!.Value, 0.0001);
    }

    [Fact]
    public void NamesFormulasAndDesignationsMeanTheSame()
    {
        foreach (string name in (string[])["propane", "C3H8", "R-290", "Propane", " r-290 "])
        {
            Assert.True(HazardTable.TryFind(name, out SubstanceHazard? hazard));
            Assert.Equal("propane", hazard.Name);
        }
    }

    [Fact]
    public void EveryRecordSaysWhereItComesFrom() =>
        Assert.All(HazardTable.All, hazard => Assert.True(hazard is { Source.Length: > 10, FromMemory: true }, hazard.Name));

    // Where no T is tabulated the lower limit stands for it; that is cautious only if every T lies above the lower limit.
    [Fact]
    public void EveryTabulatedInertingShareLiesAboveTheLowerLimit() =>
        Assert.All(
            HazardTable.All.Where(hazard => hazard.GreatestNonFlammableShareInNitrogenPercent is not null),
            hazard => Assert.True(
                hazard.GreatestNonFlammableShareInNitrogenPercent > hazard.LowerFlammabilityLimitPercent!.Least, hazard.Name));

    [Fact]
    public void TheWorstGroupIsByFlammabilityFirst()
    {
        Assert.Equal("A3 (propane)", Flammability.Of([new("ammonia", 0.9), new("propane", 0.1)]).WorstGroup);
        Assert.Equal("B2L (ammonia)", Flammability.Of([new("ammonia", 0.5), new("R-32", 0.5)]).WorstGroup);
        Assert.Null(Flammability.Of([new("argon", 1)]).WorstGroup);
    }

    [Fact]
    public void AnUnknownSubstanceIsListedAndTreatedAsFuel()
    {
        Flammability result = Flammability.Of([new("nitrogen", 0.5), new("unobtainium", 0.5)]);
        Assert.Equal(["unobtainium"], result.Unknown);
        Assert.True(result.MustBeTreatedAsFuel);
        Assert.False(result.HasFuel);
    }

    [Fact]
    public void AComponentWithZeroShareDoesNotCount() =>
        Assert.False(Flammability.Of([new("nitrogen", 1), new("propane", 0), new("unobtainium", 0)]).MustBeTreatedAsFuel);
}
