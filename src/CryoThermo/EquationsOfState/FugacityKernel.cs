using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;

namespace CryoThermo.EquationsOfState;

/// <summary>
/// An equation of state of a mixture in plain doubles: temperature, density and composition in, pressure and fugacities
/// out. SI, molar. Nothing is allocated; immutable and thread-safe. The shape of this type may change before version 1.0.
/// </summary>
[Experimental("CRYO001")]
public sealed class FugacityKernel
{
    private readonly MixtureKernel equation;

    internal FugacityKernel(MixtureKernel equation)
    {
        this.equation = equation;
    }

    /// <summary>Number of components; the length of every span.</summary>
    public int ComponentCount => equation.ComponentCount;

    /// <summary>Evaluates the equation.</summary>
    /// <param name="temperature">K, 1 to 5000, less where the attraction of a component vanishes before.</param>
    /// <param name="molarDensity">mol/m3, above 0 and below the equation's limit for the composition.</param>
    /// <param name="moleFractions">Mole fractions in component order, sum 1; not checked for the sum.</param>
    /// <param name="lnFugacityOverMoleFraction">Receives ln(f_i/(x_i 1 Pa)) in component order; finite also for x_i = 0.</param>
    /// <returns>Pressure, Pa; negative where the equation puts a liquid under tension.</returns>
    /// <exception cref="ArgumentException">A span has another length than <see cref="ComponentCount"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Temperature or density is outside its range.</exception>
    public double Evaluate(
        double temperature, double molarDensity, ReadOnlySpan<double> moleFractions, Span<double> lnFugacityOverMoleFraction)
    {
        Guard.InRange(temperature, 1, Math.Min(equation.HighestTemperature, 5000), "K");
        Guard.Length(moleFractions.Length, ComponentCount, nameof(moleFractions));
        Guard.Length(lnFugacityOverMoleFraction.Length, ComponentCount, nameof(lnFugacityOverMoleFraction));
        Span<double> scratch = stackalloc double[equation.ScratchLength];
        equation.SetTemperature(temperature, scratch);
        Guard.InRange(molarDensity, double.Epsilon, equation.DensityLimit(moleFractions, scratch) * (1 - 1e-12), "mol/m3");
        return equation.LnFugacityAtDensity(temperature, molarDensity, moleFractions, scratch, lnFugacityOverMoleFraction);
    }
}
