using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The library's values of what an independent program computed, with the interaction parameters that program took.</summary>
public static class RegressionCalculations
{
    /// <summary>The fluid of a regression value.</summary>
    public static WorkingFluid FluidOf(IReadOnlyList<string> components, IReadOnlyList<double> moleFractions, IEnumerable<PairInteraction> interactions) =>
        PairCatalog.With(interactions).Mixture([.. components.Select((name, i) => (name, moleFractions[i]))]).WithModel(FluidModel.PengRobinson);

    /// <summary>The equilibrium of a regression split.</summary>
    public static State SplitOf(RegressionSplit split) =>
        FluidOf(split.Components, split.MoleFractions, split.Interactions).At(Temperature.FromKelvins(split.Temperature), Pressure.FromPascals(split.Pressure));

    /// <summary>Each figure of a regression state: name, value there, value here.</summary>
    public static IReadOnlyList<RegressionFigure> FiguresOf(RegressionState state)
    {
        WorkingFluid fluid = FluidOf(state.Components, state.MoleFractions, state.Interactions);
        MixtureKernel equation = fluid.Kernel.Equation;
        double t = state.Temperature;
        double p = state.Pressure;
        DensityRoot root = state.Root switch
        {
            "stable" => DensityRoot.Stable,
            "liquid" => DensityRoot.Liquid,
            "vapor" => DensityRoot.Vapor,
            _ => throw new InvalidOperationException($"'{state.Root}' is no density root."),
        };
        double[] x = [.. state.MoleFractions];
        double[] scratch = new double[equation.ScratchLength];
        double[] lnPhi = new double[x.Length];
        equation.SetTemperature(t, scratch);
        ResidualProperties residual = equation.Residual(t, p, x, root, scratch, out _);
        PhaseFigures figures = fluid.Kernel.Phase(t, p, x, root, scratch);
        equation.LnFugacityCoefficients(t, p, x, root, scratch, lnPhi, out _);
        return
        [
            new("compressibility factor", state.CompressibilityFactor, p / (figures.MolarDensity * equation.GasConstant * t), false),
            new("molar volume", state.MolarVolume, 1 / figures.MolarDensity, false),
            new("mass density", state.MassDensity, figures.MolarDensity * fluid.Kernel.MolarMass(x), false),
            new("enthalpy departure", state.EnthalpyDeparture, residual.Enthalpy, false),
            new("entropy departure", state.EntropyDeparture, residual.Entropy, false),
            new("enthalpy", state.Enthalpy, figures.Enthalpy, false),
            new("entropy", state.Entropy, figures.Entropy, false),
            new("isobaric heat capacity", state.IsobaricHeatCapacity, figures.IsobaricHeatCapacity, true),
            new("isochoric heat capacity", state.IsochoricHeatCapacity, figures.IsochoricHeatCapacity, true),
            new("speed of sound", state.SpeedOfSound, figures.SpeedOfSound, true),
            new("Joule-Thomson coefficient", state.JouleThomsonCoefficient, figures.JouleThomson, true),
            .. state.Components.Select((name, i) => new RegressionFigure("ln fugacity coefficient of " + name, state.LnFugacityCoefficients[i], lnPhi[i], false)),
        ];
    }
}
