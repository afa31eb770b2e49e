using CryoThermo.Checks.Soak;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests.Checks;

public sealed class SoakTests
{
    [Fact]
    public void TheSliceHasNoFailure()
    {
        IReadOnlyList<SoakRun> runs = SoakCommand.Slice(seed: 1, progress: null);
        Assert.Equal([2000, 200, 200, 20, 100 * PureFluidSoak.EquationCount, 500, 1000, 50, 100, 5, 200, 500, 40, 60, 30], runs.Select(r => r.Count));
        Assert.Empty(runs.SelectMany(r => r.Failures));

        // The cases are worth something: a good part of them splits.
        Assert.InRange(runs[0].ByPhases[2], 400, 1200);
        Assert.InRange(runs[5].ByPhases[2], 100, 400);
        Assert.InRange(runs[6].ByPhases[2], 200, 600);

        // And recipes are solved and refused for each kind of limit; those of a bottle are the fewest, 129 of 5 000.
        Assert.All(runs[10].ByPhases, n => Assert.InRange(n, 1, 190));

        // Of valves both one phase and several before them.
        Assert.InRange(runs[12].ByPhases[2], 5, 35);
    }

    [Fact]
    public void ACaseDependsOnSeedAndNumberAlone()
    {
        Assert.Equal(SoakCase.Create(3, 17).ToString(), SoakCase.Create(3, 17).ToString());
        Assert.NotEqual(SoakCase.Create(3, 17).ToString(), SoakCase.Create(4, 17).ToString());
        SoakCase[] many = [.. Enumerable.Range(0, 2000).Select(i => SoakCase.Create(1, i))];
        Assert.Equal([2, 3, 4, 5, 6, 7, 8], many.Select(c => c.Blend.Count).Distinct().Order());
        Assert.InRange(many.Min(c => c.Temperature), 65, 67);
        Assert.InRange(many.Max(c => c.Temperature), 398, 400);
        Assert.InRange(many.Min(c => c.Pressure), 1e2, 1.2e2);
        Assert.InRange(many.Max(c => c.Pressure), 19e6, 20e6);
        Assert.InRange(many.SelectMany(c => c.Blend).Min(b => b.MoleFraction), 1e-11, 3e-10);
        Assert.All(many, c => Assert.Equal(1, c.Blend.Sum(b => b.MoleFraction), 12));
    }

    [Fact]
    public void QuantumGasCasesHoldOneOfTheGasesAndAreColdInHalfOfThem()
    {
        Assert.Equal(SoakCase.WithQuantumGas(3, 17).ToString(), SoakCase.WithQuantumGas(3, 17).ToString());
        SoakCase[] many = [.. Enumerable.Range(0, 500).Select(i => SoakCase.WithQuantumGas(1, i))];
        Assert.All(many, c => Assert.Contains(c.Blend, b => b.Substance is "hydrogen" or "helium" or "neon"));
        Assert.All(many, c => Assert.Same(FluidModel.PengRobinsonQuantumCorrected, c.Fluid.Model));
        Assert.InRange(many.Count(c => c.Temperature < 70), 100, 200);
        Assert.InRange(many.Min(c => c.Temperature), 20, 22);
    }

    [Fact]
    public void TheDenseSearchFindsASplitThatAnAnswerLeavesOut()
    {
        // Take each splitting feed as if it were one phase: the search must find what the flash found.
        int tried = 0;
        for (int number = 0; number < 60; number++)
        {
            SoakCase soak = SoakCase.Create(1, number);
            State state = Answer(soak);
            if (state.Phases.Count < 2)
            {
                continue;
            }

            tried++;
            DenseSearch.Lowest(soak, [soak.Fluid.Composition.MoleFractions], out double distance, out DensityRoot root);
            Assert.True(distance < -1e-8, $"{soak}: {state.PhaseDescription} was not found, lowest {distance:E2} ({root})");
        }

        Assert.InRange(tried, 10, 30);
    }

    [Fact]
    public void ADoctoredAnswerBreaksARule()
    {
        SoakCase soak = Enumerable.Range(0, 100).Select(i => SoakCase.Create(1, i)).First(c => Answer(c).Phases.Count == 2);
        State state = Answer(soak);
        Assert.Null(AnswerRules.FirstBroken(soak, state, out _));
        EquilibriumResult result = state.Result;
        PhaseResult light = result.Phases[0];
        PhaseResult heavy = result.Phases[1];

        // A phase too large; one phase where there are two; a little of one component moved between phases with the balance kept.
        Broken(result with { Phases = [light with { Fraction = light.Fraction + 1e-9 }, heavy] }, "balance");
        double[] feed = [.. soak.Fluid.Composition.MoleFractions];
        Broken(result with { Phases = [light with { Fraction = 1, MoleFractions = feed }] }, "tangent-plane");

        double[] lightMoved = [.. light.MoleFractions];
        double[] heavyMoved = [.. heavy.MoleFractions];
        double amount = 1e-6 * Math.Min(lightMoved[0], lightMoved[1]);
        (lightMoved[0], lightMoved[1]) = (lightMoved[0] + amount, lightMoved[1] - amount);
        double back = amount * light.Fraction / heavy.Fraction;
        (heavyMoved[0], heavyMoved[1]) = (heavyMoved[0] - back, heavyMoved[1] + back);
        Broken(result with { Phases = [light with { MoleFractions = lightMoved }, heavy with { MoleFractions = heavyMoved }] }, "fugacities");

        void Broken(EquilibriumResult doctored, string word) =>
            Assert.Contains(word, AnswerRules.FirstBroken(soak, new State(soak.Fluid, doctored), out _) ?? "nothing broken");
    }

    private static State Answer(SoakCase soak) =>
        soak.Fluid.At(Temperature.FromKelvins(soak.Temperature), Pressure.FromPascals(soak.Pressure));
}
