using BenchCooler;
using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Values;
using CryoThermo.Coolers;
using UnitsNet;

namespace CryoThermo.Tests.Checks;

/// <summary>The default model against the others: where it is the worst, which limits it keeps, what capacity it moves.</summary>
public sealed class ModelComparisonTests
{
    [Fact]
    public void EveryCaseWhereTheDefaultIsTheWorstIsListedWithAReason()
    {
        WorstCase[] listed = [.. WorstCase.All];
        string page = File.ReadAllText(RepositoryFiles.PathOf("docs", "accuracy.md"));
        int start = page.IndexOf("## Where the default is the worst", StringComparison.Ordinal);
        string section = page[start..page.IndexOf("\n## ", start, StringComparison.Ordinal)];
        int compared = 0;
        foreach (MeasuredSet set in CheckValues.Measured)
        {
            foreach (Deviations own in ComparedModels.Of(set, FluidModel.Recommended)!.Figures.Where(f => f.Count > 0 && WorstCase.IsIndependent(set, f)))
            {
                compared++;
                double[] others =
                [
                    .. ComparedModels.All.Where(m => m != FluidModel.Recommended)
                        .Select(m => ComparedModels.Of(set, m)?.Of(own.Quantity, own.Of)).Where(d => d is { Count: > 0 }).Select(d => d!.MeanAbsolute),
                ];
                if (own.MeanAbsolute > others.Min() * (1 + 1e-6) && others.All(o => own.MeanAbsolute >= o * (1 - 1e-12)))
                {
                    Assert.Contains(listed, w => w.Set == set && w.Recommended.Quantity == own.Quantity && w.Recommended.Of == own.Of);
                    Assert.Contains($"| {set.Name} |", section, StringComparison.Ordinal);
                }
            }
        }

        Assert.True(compared > 90);
        Assert.All(listed, w => Assert.True(w.Reasons.Count > 0 && w.Reasons.All(r => r.Length > 10), $"{w.Set.Name}, {w.Recommended.Quantity}: no reason"));
        Assert.DoesNotContain("not known", section, StringComparison.Ordinal);
    }

    [Fact]
    public void LimitsAreKeptOrTheMissIsKnown()
    {
        LimitCheck[] missed = [.. LimitCheck.All.Where(c => !c.IsMet)];
        Assert.Equal(
            string.Join('\n', CheckValues.KnownMisses.Select(m => m.Subject).Order()),
            string.Join('\n', missed.Select(c => c.Subject).Order()));
        Assert.All(CheckValues.KnownMisses, known =>
        {
            LimitCheck now = missed.Single(c => c.Subject == known.Subject);
            Assert.Equal(known.Limit, now.Limit);
            Assert.True(now.Value <= 1.01 * known.Reached, $"{known.Subject}: {now.Value:G4} %, {known.Reached} % when it was noted");
            Assert.NotEmpty(known.Reason);
        });
        Assert.True(LimitCheck.LiquidDensities.Count >= 8);
        Assert.True(LimitCheck.EnthalpyDifferences.Count >= 40);
    }

    [Fact]
    public void EveryNotedDeviationOfTheStandardIsMetOrItsDifferenceExplained()
    {
        Assert.Equal(53, MultiFluidNotedComparison.Everything.Count);
        Assert.Empty(MultiFluidNotedComparison.Everything.Where(c => !c.IsMet && c.Reason is null).Select(c => $"{c.Set.Name} {c.Noted.Quantity}: noted {c.Noted.MeanAbsolute}, here {c.Here?.MeanAbsolute}"));
        Assert.Equal(49, MultiFluidNotedComparison.Everything.Count(c => c.IsMet));
    }

    [Fact]
    public void TheDemoReportTellsByHowMuchTheModelMovesTheCapacity()
    {
        CoolerDesign recommended = CapacitySection.DesignOf("recommended");
        CoolerDesign cubic = CapacitySection.DesignOf("peng-robinson");
        using StringWriter text = new();
        DesignReport.Write(text, recommended, cubic, []);
        Power moved = cubic.GrossCooling - recommended.GrossCooling;
        string line = text.ToString().Split('\n').Single(l => l.Contains("cooling with the described recuperator", StringComparison.Ordinal) && l.Contains("there", StringComparison.Ordinal));
        Assert.Contains($"{(double)moved.Watts:+0.0;-0.0} W ({100 * (double)(moved / recommended.GrossCooling):+0;-0} %)", line, StringComparison.Ordinal);

        using StringWriter alone = new();
        DesignReport.Write(alone, recommended, recommended, []);
        Assert.DoesNotContain("How much the model matters", alone.ToString(), StringComparison.Ordinal);
    }
}
