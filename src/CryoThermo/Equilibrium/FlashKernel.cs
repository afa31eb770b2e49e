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

    /// <summary>
    /// Solves many flashes of one composition on all cores: the same figures, to the last digit, as one call each. Nothing is allocated for a
    /// state.
    /// </summary>
    /// <param name="temperatures">K, one for each state, as for <see cref="Solve"/>.</param>
    /// <param name="pressures">Pa absolute, as many.</param>
    /// <param name="moleFractions">Overall mole fractions in component order, as for <see cref="Solve"/>.</param>
    /// <param name="figures">Receives the figures, in the order of the states.</param>
    /// <param name="progress">Receives the share of the states done, 0 to 1, now and then; null for none.</param>
    /// <param name="cancellation">Ends the work early; figures already written stay.</param>
    /// <exception cref="ArgumentException">The lengths differ, or the fractions do not sum to 1.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A state or mole fraction is outside its range.</exception>
    /// <exception cref="OperationCanceledException">The work was ended early.</exception>
    public void SolveEach(
        ReadOnlyMemory<double> temperatures,
        ReadOnlyMemory<double> pressures,
        ReadOnlyMemory<double> moleFractions,
        Memory<FlashFigures> figures,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.Length(pressures.Length, temperatures.Length, nameof(pressures));
        Guard.Length(figures.Length, temperatures.Length, nameof(figures));
        Guard.Length(moleFractions.Length, ComponentCount, nameof(moleFractions));
        int count = temperatures.Length;
        if (count == 0)
        {
            return;
        }

        FlashKernel kernel = this;
        int done = 0;
        try
        {
            Parallel.ForEach(
                System.Collections.Concurrent.Partitioner.Create(0, count, Math.Max(1, Math.Min(64, count / (4 * Environment.ProcessorCount)))),
                new ParallelOptions { CancellationToken = cancellation },
                range =>
                {
                    Span<double> phases = stackalloc double[3 * kernel.ComponentCount];
                    int n = kernel.ComponentCount;
                    for (int i = range.Item1; i < range.Item2; i++)
                    {
                        figures.Span[i] = kernel.Solve(
                            temperatures.Span[i], pressures.Span[i], moleFractions.Span, phases[..n], phases.Slice(n, n), phases.Slice(2 * n, n));
                    }

                    progress?.Report((double)Interlocked.Add(ref done, range.Item2 - range.Item1) / count);
                });
        }
        catch (AggregateException errors)
        {
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Capture(errors.InnerExceptions[0]).Throw();
        }
    }
}
