using CryoThermo.Checks.Soak;

namespace CryoThermo.Tests.Coolers.Rating;

/// <summary>Machines that a search at given cold temperatures does not find, each for a reason of its own. Random ones; balances, contents and load are held by states of their own.</summary>
public sealed class HardCoolersTests
{
    // Flow through the throttle with a kink where its inlet begins to boil; a curve that turns back; a high side flooded at the start; a cylinder with a large clearance on a wet
    // suction; a pre-cooler behind which the recuperator has two states; a discharge colder than the after-cooler's outlet; nearly one substance.
    [Theory]
    [InlineData(4, 4)]
    [InlineData(4, 11)]
    [InlineData(4, 68)]
    [InlineData(4, 28)]
    [InlineData(5, 17)]
    [InlineData(5, 61)]
    [InlineData(4, 50)]
    public void Is_solved(int seed, int number)
    {
        SoakOutcome outcome = CoolerSoak.Run(seed, number);
        Assert.Null(outcome.Failure);
        Assert.Equal(1, outcome.Phases);
        Assert.InRange(outcome.Worst, 0, 1e-8);
    }
}
