using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

/// <summary>Every Helmholtz equation of the shipped catalogue, named "substance, standard".</summary>
internal static class ShippedEquations
{
    public static TheoryData<string> Names => [.. All.Keys];

    /// <summary>Those with a Maxwell construction: all but the pseudo-pure ones.</summary>
    public static TheoryData<string> PureNames => [.. All.Where(e => !e.Value.Equation.IsPseudoPure).Select(e => e.Key)];

    private static IReadOnlyDictionary<string, (Substance Substance, HelmholtzEquation Equation)> All { get; } =
        SubstanceCatalog.Default.All
            .SelectMany(s => s.Equations.Select(e => (Substance: s, Equation: e)))
            .ToDictionary(e => $"{e.Substance.Name}, {e.Equation.Standard}", StringComparer.Ordinal);

    public static HelmholtzEquation Equation(string name) => All[name].Equation;

    public static Substance Substance(string name) => All[name].Substance;

    public static HelmholtzFluid Fluid(string name) => new(All[name].Equation, All[name].Substance.AcentricFactor);

    public static WorkingFluid WorkingFluid(string name) => SubstanceCatalog.Default.Pure(All[name].Substance.Name)
        .WithModel(All[name].Equation.Standard == EquationStandard.Reference ? FluidModel.ReferenceEquation : FluidModel.TechnicalEquation);
}
