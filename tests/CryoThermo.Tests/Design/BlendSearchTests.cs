using CryoThermo.Checks.Blends;
using CryoThermo.Checks.Soak;
using CryoThermo.Coolers.Charging;
using CryoThermo.Design;
using UnitsNet;

namespace CryoThermo.Tests.Design;

/// <summary>Short searches by Peng-Robinson; the long ones are commands of the checks (blends grid, blends published, soak blends).</summary>
public sealed class BlendSearchTests
{
    [Fact]
    public void TheSearchFindsWhatADenseGridFinds()
    {
        StringWriter output = new();

        // The margin asked for is 0.2 %; ten problems and five seeds: the command.
        Assert.True(BlendCommands.AgainstGrid(1, 2, output) <= 0.2, output.ToString());
    }

    [Fact]
    public void AnOxidiserAtHandTakesNothingFromBlendsOfFuels()
    {
        string[] fuels = ["nitrogen", "methane", "ethane", "propane"];
        BlendEvaluation without = BlendSearch.Run(BlendTestProblems.Of(fuels, 100, 300, 1.2, 20), BlendTestProblems.Brief).Best;
        BlendSearchResult found = BlendSearch.Run(BlendTestProblems.Of(["oxygen", .. fuels], 100, 300, 1.2, 20), BlendTestProblems.Brief);
        Assert.True(found.IsFeasible);
        Assert.All(found.Ranked, e => Assert.True(e.Candidate.MoleFractions[0] == 0 || e.Candidate.MoleFractions.Skip(2).Sum() == 0));
        Assert.True(found.Best.CapacityPerMole.JoulesPerMole > 0.99 * without.CapacityPerMole.JoulesPerMole);
    }

    [Fact]
    public void TheSameSeedGivesTheSameAnswerOnAnyNumberOfCores()
    {
        BlendSearchResult one = BlendSearch.Run(BlendTestProblems.Ternary, BlendTestProblems.Brief with { MostThreads = 1 });
        BlendSearchResult many = BlendSearch.Run(BlendTestProblems.Ternary, BlendTestProblems.Brief with { MostThreads = 4 });
        BlendSearchResult other = BlendSearch.Run(BlendTestProblems.Ternary, BlendTestProblems.Brief with { Seed = 2 });
        Assert.Equal(one.Ranked.Select(r => r.ToJson()), many.Ranked.Select(r => r.ToJson()));
        Assert.Equal(one.Agreement.Values, many.Agreement.Values);
        Assert.Equal(one.Best.CapacityPerMole.JoulesPerMole, other.Best.CapacityPerMole.JoulesPerMole, 0.002 * one.Best.CapacityPerMole.JoulesPerMole);
        Assert.NotEqual(one.Ranked.Select(r => r.ToJson()), other.Ranked.Select(r => r.ToJson()));

        // Better than the published composition by the same objective.
        BlendEvaluation published = BlendEvaluation.Of(BlendTestProblems.Ternary, BlendTestProblems.TernaryAsPublished, FluidModel.PengRobinson);
        Assert.True(one.Best.CapacityPerMole > published.CapacityPerMole);
        Assert.Contains("2304.", one.ToTable().ToString(), StringComparison.Ordinal); // computed here
    }

    [Fact]
    public void LimitsAreKept()
    {
        BlendLimits limits = new() { LeastSuctionSuperheat = TemperatureDelta.FromKelvins(35), MostComponents = 2 };
        BlendProblem problem = BlendTestProblems.Of(["methane", "ethane", "isobutane"], 150, 295, 1.3, 9.4, limits);
        BlendSearchResult found = BlendSearch.Run(problem, BlendTestProblems.Brief);
        Assert.True(found.IsFeasible);
        Assert.All(found.Ranked, r => Assert.True(r.IsFeasible));
        WorkingFluid fluid = found.Best.Candidate.Fluid(problem).WithModel(FluidModel.PengRobinson);
        Assert.True(fluid.Composition.Components.Count <= 2);
        Assert.True(found.Best.SuctionTemperature.Kelvins - fluid.DewPoint(Pressure.FromBars(1.3)).Temperature.Kelvins >= 35 - 1e-3);
    }

    [Fact]
    public void AnInfeasibleProblemNamesItsLimit()
    {
        BlendLimits limits = new() { GreatestPressureRatio = 5, NoSecondLiquid = true };
        BlendSearchResult found = BlendSearch.Run(BlendTestProblems.Of(["methane", "ethane"], 150, 295, 1.3, 9.4, limits), BlendTestProblems.Brief);
        Assert.False(found.IsFeasible);
        BlendObstacle obstacle = Assert.Single(found.Obstacles);
        Assert.Equal(BlendConstraintKind.PressureRatio, obstacle.Constraint);
        Assert.True(obstacle.RelaxingItAloneHelps);
        Assert.Equal(9.4 / 1.3, obstacle.NeededLimit!.Value, 6);
        Assert.Contains("a limit of 7.2308 Pa/Pa would do", obstacle.ToString(), StringComparison.Ordinal);
        Assert.Empty(found.Front);
    }

    [Fact]
    public void SeveralGoalsGiveAFront()
    {
        BlendProblem problem = new()
        {
            Components = [new("methane"), new("ethane"), new("isobutane")],
            ColdTemperature = Temperature.FromKelvins(150),
            WarmEnd = Temperature.FromKelvins(295),
            LeastLowPressure = Pressure.FromBars(1),
            GreatestLowPressure = Pressure.FromBars(4),
            LeastHighPressure = Pressure.FromBars(6),
            GreatestHighPressure = Pressure.FromBars(15),
            Goals = [new(BlendObjective.CapacityPerSuctionVolume), new(BlendObjective.PercentOfCarnot)],
        };
        BlendSearchResult found = BlendSearch.Run(problem, BlendTestProblems.Brief with { Starts = 3, Finalists = 16 });
        (double Volume, double Carnot)[] front = [.. found.Front.Select(f => (f.CapacityPerSuctionVolumeJoulesPerLiter, f.PercentOfCarnot))];
        Assert.True(front.Length >= 3, found.ToTable().ToString());
        for (int i = 1; i < front.Length; i++)
        {
            Assert.True(front[i].Volume > front[i - 1].Volume && front[i].Carnot < front[i - 1].Carnot);
        }

        Assert.Contains(found.Best.ToJson(), found.Front.Select(f => f.ToJson()));
    }

    [Fact]
    public void ASearchCanBeEndedAndTellsItsProgress()
    {
        using CancellationTokenSource source = new();
        List<BlendSearchProgress> seen = [];
        ImmediateProgress progress = new(p =>
        {
            seen.Add(p);
            source.Cancel();
        });
        Assert.ThrowsAny<OperationCanceledException>(() => BlendSearch.Run(BlendTestProblems.Ternary, BlendTestProblems.Brief, progress, source.Token));
        Assert.Equal(BlendSearchStage.Exploring, seen[0].Stage);
        Assert.InRange(seen[0].Share, 0, 0.5);
    }

    [Fact]
    public void TheExplanationHoldsTogether()
    {
        BlendExplanation why = BlendExplanation.Of(BlendTestProblems.Ternary, BlendTestProblems.TernaryAsPublished, FluidModel.PengRobinson);
        BlendCurvePoint pinch = Assert.Single(why.Curve, p => p.IsPinch);
        Assert.Equal(why.Evaluation.CapacityPerMole.JoulesPerMole, pinch.Difference.JoulesPerMole, 9);
        Assert.All(why.Curve, p => Assert.True(p.Difference.JoulesPerMole >= pinch.Difference.JoulesPerMole - 1e-6));
        Assert.Equal(3, why.Contributions.Count);
        Assert.All(why.Contributions, c => Assert.True(c.ChangeWithoutPercent < -20));
        BlendSensitivity summer = Assert.Single(why.Sensitivities, s => s.Change.Contains("summer", StringComparison.Ordinal));
        Assert.True(summer.ChangePercent < -50, "the dew point lies near the warm end: a summer day takes most of it");
        Assert.True(why.Robustness.WorstLossPercent >= why.Robustness.LossOfOneInTwentyPercent);
        Assert.True(why.Robustness.LossOfOneInTwentyPercent >= why.Robustness.MeanLossPercent);
        Assert.NotNull(why.FreezingAtLowPressure);
        Assert.False(why.FreezingAtLowPressure.Freezes);
        Assert.NotNull(why.CapacityError);
        Assert.Contains("isobutane", why.ToTable().ToString(), StringComparison.Ordinal);
        Assert.Contains("summer day", why.ToSensitivityTable().ToString(), StringComparison.Ordinal);

        ChargeRecipe recipe = why.Recipe(
            [new("machine", Volume.FromLiters(5), Temperature.FromKelvins(295))], Pressure.FromBars(2.5), Pressure.FromBars(1.01325));
        Assert.Equal("isobutane", recipe.Steps[0].Component.Name);
        Assert.Equal(0.41, recipe.Steps[0].Amount.Moles / recipe.TotalAmount.Moles, 6);
    }

    [Fact]
    public void RandomProblemsKeepTheirLimitsOrNameThem()
    {
        StringWriter output = new();
        Assert.True(SoakCommand.Run("blends", ["--count", "12", "--seed", "3"], output, TextWriter.Null) == 0, output.ToString());
    }

    private sealed class ImmediateProgress(Action<BlendSearchProgress> seen) : IProgress<BlendSearchProgress>
    {
        public void Report(BlendSearchProgress value) => seen(value);
    }
}
