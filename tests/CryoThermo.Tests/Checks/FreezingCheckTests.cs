using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Values;

namespace CryoThermo.Tests.Checks;

/// <summary>Freezing against measured sets.</summary>
public sealed class FreezingCheckTests
{
    [Fact]
    public void LimitsAreKeptOrTheMissIsKnown()
    {
        FreezingCheck[] missed = [.. FreezingCheck.All.Where(c => !c.IsMet)];
        Assert.Equal(
            string.Join('\n', CheckValues.KnownFreezingMisses.Select(m => m.Subject).Order()),
            string.Join('\n', missed.Select(c => c.Subject).Order()));
        Assert.All(CheckValues.KnownFreezingMisses, known =>
        {
            FreezingCheck now = missed.Single(c => c.Subject == known.Subject);
            Assert.Equal(known.Limit, now.Limit);
            Assert.True(now.Value <= 1.01 * known.Reached, $"{known.Subject}: {now.Value:G4}, {known.Reached} when it was noted");
            Assert.NotEmpty(known.Reason);
        });
        Assert.Equal(18, FreezingCheck.All.Count);
    }

    [Fact]
    public void TheListsAreWhole()
    {
        Assert.Equal(7, CheckValues.SolidSets.Count);
        Assert.Equal(50 + 50 + 27 + 17, CheckValues.SolidSets.Where(s => s.Kind != SolidKind.Sublimation).Sum(s => s.Points.Count));
        Assert.All(CheckValues.SolidSets, s => Assert.NotEmpty(s.Source));
    }
}
