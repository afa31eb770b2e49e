using CryoThermo.Checks.Accuracy;
using CryoThermo.Flow;

namespace CryoThermo.Tests.Checks;

public sealed class CapillaryComparisonTests
{
    /// <summary>An order check: of a correlation from memory and a homogeneous model neither is known to be better than this.</summary>
    [Fact]
    public void FlowsAreOfTheOrderOfThePublishedCorrelation()
    {
        Assert.Equal(48, CapillaryComparison.All.Count);
        foreach (CapillaryComparison comparison in CapillaryComparison.All)
        {
            double ratio = comparison.Computed(TwoPhaseViscosity.McAdams) / comparison.Correlated();
            Assert.True(ratio is > 0.6 and < 1.6, $"{comparison}: {ratio:F3}");
        }
    }
}
