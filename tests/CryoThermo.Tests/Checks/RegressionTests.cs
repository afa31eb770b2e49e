using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Checks;

/// <summary>Against an independent program with the same constants: regressions, not proofs.</summary>
public sealed class RegressionTests
{
    public static TheoryData<int> SplitNumbers => [.. Enumerable.Range(0, CheckValues.Splits.Count)];

    public static TheoryData<int> StateNumbers => [.. Enumerable.Range(0, CheckValues.States.Count)];

    [Theory]
    [MemberData(nameof(SplitNumbers))]
    public void ASplitOfTwoOrThreePhasesAgrees(int number)
    {
        RegressionSplit split = CheckValues.Splits[number];
        State state = RegressionCalculations.SplitOf(split);
        Assert.Equal(split.Phases.Count, state.Phases.Count);
        Assert.False(state.HasUnresolvedPhase);
        Assert.True(AccuracyDocument.LargestDifference(split, state) < 1e-6, $"off by {AccuracyDocument.LargestDifference(split, state):E2}");
    }

    [Fact]
    public void BothKindsOfSplitAreAmongThem()
    {
        Assert.Equal(2, CheckValues.Splits.Count(s => s.Phases.Count == 3));
        Assert.Equal(4, CheckValues.Splits.Count(s => s.Phases.Count == 2));
    }

    [Theory]
    [MemberData(nameof(StateNumbers))]
    public void ASingleStateAgrees(int number)
    {
        foreach (RegressionFigure figure in RegressionCalculations.FiguresOf(CheckValues.States[number]))
        {
            // The other program took second derivatives numerically: the next test shows that the difference is its own.
            double tolerance = figure.NeedsSecondDerivative ? 2e-7 : 1e-9;
            Assert.True(Math.Abs(figure.Here - figure.There) <= tolerance * Math.Abs(figure.There), $"{figure.Name}: {figure.Here:R} here, {figure.There:R} there");
        }
    }

    [Theory]
    [MemberData(nameof(StateNumbers))]
    public void TheIsobaricHeatCapacityOfASingleStateIsTheSlopeOfItsEnthalpy(int number)
    {
        RegressionState state = CheckValues.States[number];
        WorkingFluid fluid = RegressionCalculations.FluidOf(state.Components, state.MoleFractions, state.Interactions);
        double[] x = [.. state.MoleFractions];
        double[] scratch = new double[fluid.Kernel.Equation.ScratchLength];
        DensityRoot root = state.Root == "vapor" ? DensityRoot.Vapor : state.Root == "liquid" ? DensityRoot.Liquid : DensityRoot.Stable;
        PhaseFigures At(double t)
        {
            fluid.Kernel.Equation.SetTemperature(t, scratch);
            return fluid.Kernel.Phase(t, state.Pressure, x, root, scratch);
        }

        // Differences of sixth order over steps of 0.3 K.
        const double Step = 0.3;
        double Slope(int k) => At(state.Temperature + (k * Step)).Enthalpy - At(state.Temperature - (k * Step)).Enthalpy;
        double slope = ((0.75 * Slope(1)) - (0.15 * Slope(2)) + (Slope(3) / 60)) / Step;
        double analytic = At(state.Temperature).IsobaricHeatCapacity;
        Assert.True(Math.Abs((slope / analytic) - 1) < 2e-9, $"{analytic:R} against {slope:R}");
    }
}
