using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// The isothermal flash in plain doubles: stability, split into two or three phases and final stability test. SI, molar. Nothing is
/// allocated; immutable and thread-safe. The shape of this type may change before version 1.0.
/// </summary>
[Experimental("CRYO001")]
public sealed class FlashKernel
{
    private readonly FluidKernel fluid;

    internal FlashKernel(FluidKernel fluid)
    {
        this.fluid = fluid;
    }

    /// <summary>Number of components; the length of every span.</summary>
    public int ComponentCount => fluid.ComponentCount;

    /// <summary>Solves the flash.</summary>
    /// <param name="temperature">K, as for <see cref="WorkingFluid.At"/>.</param>
    /// <param name="pressure">Pa absolute, as for <see cref="WorkingFluid.At"/>.</param>
    /// <param name="moleFractions">Overall mole fractions in component order, sum 1 within 1e-6 (divided by their sum inside), zeros allowed.</param>
    /// <param name="light">Receives the mole fractions of the less dense phase (the whole for a single phase).</param>
    /// <param name="middle">Receives the mole fractions of the third phase where there are three; else it is left as it is.</param>
    /// <param name="heavy">Receives the mole fractions of the denser phase (the whole for a single phase).</param>
    /// <exception cref="ArgumentException">A span has another length than <see cref="ComponentCount"/>, or the fractions do not sum to 1.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Temperature, pressure or a mole fraction is outside its range.</exception>
    public FlashFigures Solve(double temperature, double pressure, ReadOnlySpan<double> moleFractions, Span<double> light, Span<double> middle, Span<double> heavy)
    {
        Guard.InRange(temperature, fluid.LowestTemperature, fluid.HighestTemperature, "K");
        Guard.InRange(pressure, fluid.LowestPressure, fluid.HighestPressure, "Pa");
        Guard.Length(moleFractions.Length, ComponentCount, nameof(moleFractions));
        Guard.Length(light.Length, ComponentCount, nameof(light));
        Guard.Length(middle.Length, ComponentCount, nameof(middle));
        Guard.Length(heavy.Length, ComponentCount, nameof(heavy));
        double sum = 0;
        foreach (double fraction in moleFractions)
        {
            sum += Guard.InRange(fraction, 0, 1, "mol/mol", nameof(moleFractions));
        }

        if (Math.Abs(sum - 1) > 1e-6)
        {
            throw new ArgumentException($"moleFractions sum to {sum:R}; they must sum to 1 within 1e-6.", nameof(moleFractions));
        }

        Span<double> scratch = stackalloc double[fluid.Equation.ScratchLength];
        Span<double> z = stackalloc double[ComponentCount];
        for (int i = 0; i < z.Length; i++)
        {
            // A sum off by 1e-6 would shift the tangent plane by as much, which is enough to see a phase that is none.
            z[i] = moleFractions[i] / sum;
        }

        PhaseSplit split = new(light, middle, heavy);
        CaloricFigures totals = fluid.Flash(temperature, pressure, z, scratch, ref split);
        return new(
            split.PhaseCount,
            split.LightFraction,
            split.PhaseCount == 3 ? split.MiddleFraction : 0,
            split.HeavyFraction,
            split.LightIsVapor,
            split.LightDensity,
            split.PhaseCount == 3 ? split.MiddleDensity : 0,
            split.HeavyDensity,
            totals.Enthalpy,
            totals.Entropy,
            totals.Volume,
            split.StillUnstable);
    }
}
