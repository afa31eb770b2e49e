using CryoThermo.Checks.Fitting;
using CryoThermo.Fitting;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Fitting;

/// <summary>The pairs of the cubics fitted to measured sets, against the measured points that were not used in their fits.</summary>
public sealed class ShippedCubicPairTests
{
    private static readonly SubstanceCatalog Shipped = SubstanceCatalog.Default;

    private static IEnumerable<(PairPlan Plan, FluidModel Model, CubicPair Pair)> Fitted =>
        from plan in CubicFitCommand.Plans()
        from model in new[] { FluidModel.PengRobinson, FluidModel.SoaveRedlichKwong }
        let pair = CubicFitCommand.PairOf(Shipped, plan, model)
        where pair.Tier == PairTier.FittedHere && pair.Source.Publication == "fitted with this library"
        select (plan, model, pair);

    [Fact]
    public void EachIsBetterOnThePointsHeldOut()
    {
        int judged = 0;
        foreach ((PairPlan plan, FluidModel model, CubicPair pair) in Fitted)
        {
            Assert.NotEmpty(plan.HeldOut);
            IReadOnlyList<SetDeviations> rows = PairFit.Compare(plan.HeldOut, model, CubicFitCommand.Start, Shipped, true);
            Assert.True(FitCommand.Score(rows, true) < FitCommand.Score(rows, false), $"{pair.First.Name} + {pair.Second.Name}, {model}");
            judged++;
        }

        Assert.Equal(35, judged);
    }

    [Fact]
    public void EachNamesItsMeasurementsAndStandardErrorsAndStaysBounded()
    {
        foreach ((_, _, CubicPair pair) in Fitted)
        {
            Assert.Contains("points", pair.FittedTo, StringComparison.Ordinal);
            Assert.NotNull(pair.Source.Verified);
            Assert.InRange(pair.StandardError!.Value, 1e-6, 0.05);
            Assert.Equal(pair.InverseTemperatureCoefficient != 0, pair.InverseTemperatureStandardError is > 0);
            Assert.Equal(pair.InverseTemperatureCoefficient != 0, pair.Source.Verified.Contains("extrapolated", StringComparison.Ordinal));
            for (double kelvins = ScanCounts.Coldest; kelvins <= ScanCounts.Warmest; kelvins += ScanCounts.Step)
            {
                Assert.InRange(Math.Abs(pair.InteractionAt(kelvins)), 0, CubicFitCommand.LargestInteraction);
            }
        }
    }

    /// <summary>What is published stays what it was, and no pair stands in both files: superseded ones are gone.</summary>
    [Fact]
    public void NoneStandsOverAPublishedValueOrBesideASupersededOne()
    {
        Dictionary<(string, string, CubicModelKind), CubicPair> without = SubstanceCatalog.Default.WithoutFittedCubicFile().KnownPairs.ToDictionary(Key);
        int fitted = 0;
        foreach (CubicPair pair in Shipped.KnownPairs)
        {
            if (without.TryGetValue(Key(pair), out CubicPair? other))
            {
                Assert.Equal(other, pair);
            }
            else
            {
                fitted++;
            }
        }

        Assert.Equal(35, fitted);
        Assert.Equal(fitted + without.Count, Shipped.KnownPairs.Count());
        Assert.All(CubicFitCommand.Start.KnownPairs, p => Assert.Equal(PairTier.Published, p.Tier));

        static (string, string, CubicModelKind) Key(CubicPair pair)
        {
            (string low, string high) = CubicPairTable.KeyOf(pair.First.Key, pair.Second.Key);
            return (low, high, pair.Model);
        }
    }

    /// <summary>A fit of the plan by the rule of the command gives what is shipped: the file is not written by hand.</summary>
    [Theory]
    [InlineData("propylene", "pentafluoroethane", false)]
    [InlineData("ethane", "trifluoromethane", true)]
    public void AFitDoneAgainGivesTheShippedValue(string first, string second, bool sloped)
    {
        PairPlan plan = CubicFitCommand.Plans().Single(p => p.First == first && p.Second == second);
        PairFitResult again = new PairFit(first, second, FluidModel.PengRobinson, CubicFitCommand.Start).Fit(
            sloped ? [PairParameter.Interaction, PairParameter.InverseTemperatureCoefficient] : [PairParameter.Interaction], plan.Fitted);
        CubicPair shipped = CubicFitCommand.PairOf(Shipped, plan, FluidModel.PengRobinson);
        Assert.Equal(PairTier.FittedHere, shipped.Tier);
        Assert.Equal(shipped.InteractionParameter, again.Parameters[0].Value, 2e-6);
        Assert.Equal(shipped.InverseTemperatureCoefficient, sloped ? again.Parameters[1].Value : 0, 2e-6);
    }
}
