using CryoThermo.Coolers;
using CryoThermo.Design;
using UnitsNet;

namespace CryoThermo.Tests.Design;

public sealed class BlendEvaluationTests
{
    private static readonly BlendCompressor Compressor = new(VolumeFlow.FromLitersPerSecond(0.8), 0.65, 0.95, 0.03);

    [Fact]
    public void TheCapacityIsThatOfTheCycleLimit()
    {
        BlendEvaluation evaluation = BlendEvaluation.Of(BlendTestProblems.Ternary, BlendTestProblems.TernaryAsPublished, FluidModel.PengRobinson);
        WorkingFluid fluid = BlendTestProblems.TernaryAsPublished.Fluid(BlendTestProblems.Ternary).WithModel(FluidModel.PengRobinson);
        CycleLimit limit = new ThrottleCycle(fluid, Pressure.FromBars(1.3), Pressure.FromBars(9.4), Temperature.FromKelvins(295), Temperature.FromKelvins(150))
            .GreatestCooling(Temperature.FromKelvins(150));
        Assert.Equal(limit.GreatestCooling.JoulesPerMole, evaluation.CapacityPerMole.JoulesPerMole, 6);
        Assert.Equal(limit.PinchTemperature.Kelvins, evaluation.PinchTemperature.Kelvins, 6);
        Assert.Equal(limit.Location, evaluation.Pinch);
    }

    [Fact]
    public void WithAnApproachNoPlaceHasLessThanTheCapacity()
    {
        BlendProblem problem = BlendTestProblems.Of(["methane", "ethane", "isobutane"], 150, 295, 1.3, 9.4, approach: 3);
        BlendEvaluation evaluation = BlendEvaluation.Of(problem, BlendTestProblems.TernaryAsPublished, FluidModel.PengRobinson);
        WorkingFluid fluid = BlendTestProblems.TernaryAsPublished.Fluid(problem).WithModel(FluidModel.PengRobinson);
        double least = Enumerable.Range(0, 285).Select(i => 150 + (i * 0.5)).Min(t =>
            fluid.At(Temperature.FromKelvins(t), Pressure.FromBars(1.3)).MolarEnthalpy.JoulesPerMole
            - fluid.At(Temperature.FromKelvins(t + 3), Pressure.FromBars(9.4)).MolarEnthalpy.JoulesPerMole);

        // Steps of half a kelvin miss the pinch by little; isobars are exact within 1 J/mol.
        Assert.InRange(evaluation.CapacityPerMole.JoulesPerMole, least - 20, least + 2);
        Assert.NotNull(evaluation.CapacityPerConductanceKelvins);
        Assert.InRange(evaluation.CapacityPerConductanceKelvins.Value, 0.3, 60);
    }

    [Fact]
    public void WorkFlowAndLimitsFollowFromStatesOfTheirOwn()
    {
        MachineSpaces spaces = new(Volume.FromLiters(3), Volume.FromLiters(0.2), Volume.FromLiters(0.1), Volume.FromLiters(0.05), Volume.FromLiters(0.02));
        BlendLimits limits = new()
        {
            FreezingMargin = TemperatureDelta.FromKelvins(3),
            GreatestDischargeTemperature = Temperature.FromKelvins(430),
            GreatestPressureRatio = 10,
            GreatestStandingPressure = Pressure.FromBars(4),
            LeastSuctionSuperheat = TemperatureDelta.FromKelvins(2),
            NoSecondLiquid = true,
            MustNotBurn = true,
            LeastInertFraction = 0.1,
            MostComponents = 2,
        };
        BlendProblem problem = BlendTestProblems.Of(["methane", "ethane", "isobutane"], 150, 295, 1.3, 9.4, limits, 0, Compressor, spaces, 20);
        BlendEvaluation evaluation = BlendEvaluation.Of(problem, BlendTestProblems.TernaryAsPublished, FluidModel.PengRobinson);
        WorkingFluid fluid = BlendTestProblems.TernaryAsPublished.Fluid(problem).WithModel(FluidModel.PengRobinson);
        Pressure high = Pressure.FromBars(9.4);
        double q = evaluation.CapacityPerMole.JoulesPerMole;
        State inlet = fluid.At(Temperature.FromKelvins(295), high);
        State suction = fluid.AtEnthalpy(Pressure.FromBars(1.3), MolarEnergy.FromJoulesPerMole(inlet.MolarEnthalpy.JoulesPerMole + q));
        State reversible = fluid.AtEntropy(high, suction.MolarEntropy);
        double work = (reversible.MolarEnthalpy.JoulesPerMole - suction.MolarEnthalpy.JoulesPerMole) / 0.65;
        State discharge = fluid.AtEnthalpy(high, MolarEnergy.FromJoulesPerMole(suction.MolarEnthalpy.JoulesPerMole + work));
        double density = suction.MolarDensity.MolesPerCubicMeter;
        double volumetric = 0.95 - (0.03 * ((reversible.MolarDensity.MolesPerCubicMeter / density) - 1));
        Assert.Equal(WorkBasis.IsentropicEfficiency, evaluation.WorkBasis);
        Assert.Equal(work, evaluation.WorkPerMole.JoulesPerMole, 0.5);
        Assert.Equal(100 * q * ((295 / 150.0) - 1) / work, evaluation.PercentOfCarnot, 0.02);
        Assert.Equal(discharge.Temperature.Kelvins, evaluation.DischargeTemperature!.Value.Kelvins, 0.05);
        Assert.Equal(0.8e-3 * volumetric * density * q, (double)evaluation.Cooling!.Value.Watts, 0.02);
        Assert.Equal(q * volumetric * density / 1000, evaluation.CapacityPerSuctionVolumeJoulesPerLiter, 0.02);

        ConstraintMargin Of(BlendConstraintKind kind) => evaluation.Constraints.Single(c => c.Constraint == kind);
        Assert.Equal(9.4 / 1.3, Of(BlendConstraintKind.PressureRatio).Value, 9);
        Assert.False(Of(BlendConstraintKind.Flammability).IsKept);
        Assert.False(Of(BlendConstraintKind.InertFraction).IsKept);
        Assert.False(Of(BlendConstraintKind.ComponentCount).IsKept);
        Assert.True(Of(BlendConstraintKind.Freezing).IsKept);
        Assert.Equal(suction.Temperature.Kelvins - fluid.DewPoint(Pressure.FromBars(1.3)).Temperature.Kelvins, Of(BlendConstraintKind.SuctionSuperheat).Value, 0.02);

        // At rest all of it is gas: less than if everything were at the high pressure, more than at the low one.
        Assert.InRange(Of(BlendConstraintKind.StandingPressure).Value, 1.3e5, 9.4e5);
        Assert.False(evaluation.IsFeasible);
        Assert.Equal(0.001, evaluation.GreatestImpurityFraction!.Value, 9);
        Assert.Equal(10 * fluid.Composition.MolarMass.KilogramsPerMole, evaluation.PricePerMole!.Value, 9);
    }

    [Fact]
    public void WithoutACompressorTheWorkIsTheReversibleOne()
    {
        BlendEvaluation evaluation = BlendEvaluation.Of(BlendTestProblems.Ternary, BlendTestProblems.TernaryAsPublished, FluidModel.PengRobinson);
        WorkingFluid fluid = BlendTestProblems.TernaryAsPublished.Fluid(BlendTestProblems.Ternary).WithModel(FluidModel.PengRobinson);
        State before = fluid.At(Temperature.FromKelvins(295), Pressure.FromBars(1.3));
        State after = fluid.At(Temperature.FromKelvins(295), Pressure.FromBars(9.4));
        double work = (295 * (before.MolarEntropy.JoulesPerMoleKelvin - after.MolarEntropy.JoulesPerMoleKelvin)) - (before.MolarEnthalpy.JoulesPerMole - after.MolarEnthalpy.JoulesPerMole);
        Assert.Equal(WorkBasis.Isothermal, evaluation.WorkBasis);
        Assert.Equal(work, evaluation.WorkPerMole.JoulesPerMole, 6);
    }

    [Fact]
    public void TheLowestTemperatureIsThatOfTheCycleLimit()
    {
        BlendProblem problem = BlendTestProblems.Of(["methane", "ethane", "isobutane"], 150, 295, 1.3, 9.4, goals: new BlendGoal(BlendObjective.LowestTemperature));
        BlendEvaluator evaluator = new(problem, FluidModel.PengRobinson);
        WorkingFluid fluid = BlendTestProblems.TernaryAsPublished.Fluid(problem).WithModel(FluidModel.PengRobinson);
        double expected = new ThrottleCycle(fluid, Pressure.FromBars(1.3), Pressure.FromBars(9.4), Temperature.FromKelvins(295), Temperature.FromKelvins(110))
            .LowestTemperature()!.Temperature.Kelvins;
        foreach (bool fine in (ReadOnlySpan<bool>)[true, false])
        {
            Assert.Equal(expected, evaluator.Evaluate([0.39, 0.20, 0.41], 1.3e5, 9.4e5, fine).LowestTemperature, 0.02);
        }
    }

    [Fact]
    public void TheQuickEvaluationAgreesWithTheFineOne()
    {
        BlendProblem problem = BlendTestProblems.Of(["nitrogen", "methane", "ethane", "propane", "isobutane"], 100, 300, 1.5, 20, approach: 1);
        BlendEvaluator evaluator = new(problem, FluidModel.PengRobinson);
        Random random = new(11);
        for (int i = 0; i < 10; i++)
        {
            double[] z = [.. Enumerable.Range(0, 5).Select(_ => random.NextDouble())];
            double sum = z.Sum();
            z = [.. z.Select(x => x / sum)];
            double quick = evaluator.Evaluate(z, 1.5e5, 20e5, fine: false).Capacity;
            double fine = evaluator.Evaluate(z, 1.5e5, 20e5, fine: true).Capacity;
            Assert.Equal(fine, quick, Math.Max(0.5, 1e-3 * Math.Abs(fine)));
        }
    }

    [Fact]
    public void ProblemCandidateAndEvaluationSurviveJson()
    {
        BlendProblem problem = BlendTestProblems.Of(
            ["methane", "ethane", "isobutane"],
            150,
            295,
            1.3,
            9.4,
            new() { FreezingMargin = TemperatureDelta.FromKelvins(3), GreatestStandingPressure = Pressure.FromBars(4), NoSecondLiquid = true },
            1,
            Compressor,
            new(Volume.FromLiters(3), Volume.FromLiters(0.2), Volume.FromLiters(0.1), Volume.FromLiters(0.05), Volume.FromLiters(0.02)),
            0.5,
            new(BlendObjective.PercentOfCarnot, 2),
            new(BlendObjective.LowestTemperature));
        BlendProblem read = BlendProblem.FromJson(problem.ToJson());
        Assert.Equal(problem.ToJson(), read.ToJson());
        Assert.Contains("\"coldTemperatureKelvins\": 150", problem.ToJson(), StringComparison.Ordinal);
        BlendCandidate candidate = BlendCandidate.FromJson(BlendTestProblems.TernaryAsPublished.ToJson());
        BlendEvaluation evaluation = BlendEvaluation.Of(read, candidate, FluidModel.PengRobinson);
        BlendEvaluation again = BlendEvaluation.Of(problem, BlendTestProblems.TernaryAsPublished, FluidModel.PengRobinson);
        Assert.Equal(again.ToJson(), evaluation.ToJson());
        Assert.Equal(evaluation.ToJson(), BlendEvaluation.FromJson(evaluation.ToJson()).ToJson());
        Assert.Equal(evaluation.Constraints, BlendEvaluation.FromJson(evaluation.ToJson()).Constraints);
    }

    [Fact]
    public void WhatContradictsItselfIsRefused()
    {
        Refused("WarmEnd", BlendTestProblems.Of(["methane"], 150, 149, 1.3, 9.4));
        Refused("LeastHighPressure", BlendTestProblems.Of(["methane"], 150, 295, 9.4, 1.3));
        Refused("Compressor", BlendTestProblems.Of(["methane"], 150, 295, 1.3, 9.4, load: 3));
        Refused("Spaces", BlendTestProblems.Of(["methane"], 150, 295, 1.3, 9.4, new() { GreatestStandingPressure = Pressure.FromBars(3) }));
        Refused("LeastApproach", BlendTestProblems.Of(["methane"], 150, 295, 1.3, 9.4, goals: new BlendGoal(BlendObjective.CapacityPerConductance)));
        Refused("Goals", BlendTestProblems.Of(["methane"], 150, 295, 1.3, 9.4, goals: new BlendGoal(BlendObjective.CapacityPerMole, -1)));
        Refused("LeastInertFraction", BlendTestProblems.Of(["methane"], 150, 295, 1.3, 9.4, new() { LeastInertFraction = 2 }));
        Assert.Throws<ArgumentException>(() => BlendEvaluation.Of(BlendTestProblems.Ternary, new([0.5, 0.5], Pressure.FromBars(1), Pressure.FromBars(9))));
        Assert.Throws<ArgumentException>(() => BlendEvaluation.Of(BlendTestProblems.Ternary, new([0.5, 0.5, 0.1], Pressure.FromBars(1), Pressure.FromBars(9))));

        static void Refused(string parameter, BlendProblem problem) =>
            Assert.Equal(parameter, Assert.ThrowsAny<ArgumentException>(() => BlendSearch.Run(problem)).ParamName);
    }

    [Fact]
    public void FuelAndOxidiserAreNeverKeptTogether()
    {
        static BlendProblem With(string last) => new()
        {
            Components = [new("oxygen"), new("nitrogen"), new(last)],
            ColdTemperature = Temperature.FromKelvins(110),
            WarmEnd = Temperature.FromKelvins(300),
            LeastLowPressure = Pressure.FromBars(1.2),
            GreatestLowPressure = Pressure.FromBars(2),
            LeastHighPressure = Pressure.FromBars(20),
            GreatestHighPressure = Pressure.FromBars(60),
            Goals = [new(BlendObjective.CapacityPerMole)],
        };

        BlendProblem problem = With("methane");
        BlendEvaluation both = BlendEvaluation.Of(problem, new BlendCandidate([0.01, 0.5, 0.49], Pressure.FromBars(1.2), Pressure.FromBars(60)));
        ConstraintMargin together = both.Constraints.Single(c => c.Constraint == BlendConstraintKind.FuelWithOxidiser);
        Assert.Equal(0.01, together.Value, 12);
        Assert.False(together.IsKept);
        BlendEvaluation fuel = BlendEvaluation.Of(problem, new BlendCandidate([0, 0.5, 0.5], Pressure.FromBars(1.2), Pressure.FromBars(60)));
        Assert.True(fuel.Constraints.Single(c => c.Constraint == BlendConstraintKind.FuelWithOxidiser).IsKept);
        BlendExplanation explanation = BlendExplanation.Of(problem, fuel.Candidate);
        Assert.Contains(explanation.Cautions, c => c.Severity == CryoThermo.Diagnostics.CautionSeverity.Danger);

        // Only where both are at hand.
        BlendEvaluation third = BlendEvaluation.Of(With("argon"), new BlendCandidate([0.2, 0.5, 0.3], Pressure.FromBars(1.2), Pressure.FromBars(60)));
        Assert.DoesNotContain(third.Constraints, c => c.Constraint == BlendConstraintKind.FuelWithOxidiser);
    }
}
