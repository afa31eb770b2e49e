using CryoThermo.Checks.Fitting;
using CryoThermo.Fitting;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Fitting;

/// <summary>The further pairs of the library against the measured points that were not used in their fits.</summary>
public sealed class ShippedPairTests
{
    private static readonly SubstanceCatalog Shipped = SubstanceCatalog.Default;
    private static readonly SubstanceCatalog Standard = SubstanceCatalog.Default.WithStandardPairsOnly();

    [Fact]
    public void NoneIsWorseOnThePointsHeldOut()
    {
        int judged = 0;
        foreach (PairPlan plan in PairPlan.Of(Standard))
        {
            if (plan.HeldOut.Count == 0 || !Holds(plan))
            {
                continue;
            }

            SetDeviations[] rows =
            [
                .. PairFit.Compare(plan.HeldOut, FluidModel.Recommended, Standard, Shipped, true)
                    .Where(r => r.Kind is not (MeasurementKind.Density or MeasurementKind.SpeedOfSound)),
            ];
            Assert.True(FitCommand.Score(rows, true) < FitCommand.Score(rows, false), $"{plan.First} + {plan.Second}");
            judged++;
        }

        Assert.True(judged >= 5);

        static bool Holds(PairPlan plan) => Shipped.MultiFluid.FurtherPairs.Any(p =>
            (p.First.Name == plan.First && p.Second.Name == plan.Second) || (p.First.Name == plan.Second && p.Second.Name == plan.First));
    }

    [Fact]
    public void EachNamesItsMeasurementsAndStandardErrors()
    {
        foreach (MultiFluidPair pair in Shipped.MultiFluid.FurtherPairs)
        {
            Assert.Equal(PairTier.FittedHere, pair.Tier);
            Assert.Contains("points", pair.FittedTo, StringComparison.Ordinal);
            Assert.NotNull(pair.Source.Verified);
            Assert.InRange(pair.StandardErrors!.TemperatureGamma + pair.StandardErrors.DepartureWeight, 1e-6, 0.5);
            if (pair.StandardErrors.TemperatureGamma > 0)
            {
                double before = Standard.MultiFluidPairOf(Standard.Find(pair.First.Key), Standard.Find(pair.Second.Key)).Temperature.Gamma;
                Assert.InRange(pair.Temperature.Gamma, Math.Min(0.8, 0.9 * before), Math.Max(1.25, 1.1 * before));
            }
        }
    }

    /// <summary>A fit of the plan by the rule of the command gives what is shipped: the file is not written by hand.</summary>
    [Fact]
    public void AFitDoneAgainGivesTheShippedValue()
    {
        PairPlan plan = PairPlan.Of(Standard).Single(p => p.First == "krypton" && p.Second == "xenon");
        PairFitResult again = new PairFit(plan.First, plan.Second, null, Standard).Fit([PairParameter.TemperatureGamma], plan.Fitted);
        MultiFluidPair shipped = Shipped.MultiFluidPairOf(Shipped.Find("krypton"), Shipped.Find("xenon"));
        Assert.Equal(PairTier.FittedHere, shipped.Tier);
        Assert.Equal(shipped.Temperature.Gamma, again.Parameters[0].Value, 2e-6);
        Assert.InRange(Math.Abs(again.Sets[0].After.MeanAbsolute), 0, 0.1);
    }
}
