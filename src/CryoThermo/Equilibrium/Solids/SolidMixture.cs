using CryoThermo.Substances;

namespace CryoThermo.Equilibrium.Solids;

/// <summary>The pure solids of the components of a fluid, and how near a solved fluid is to each. Immutable and thread-safe.</summary>
internal sealed class SolidMixture
{
    private readonly FluidKernel fluid;
    private readonly PureSolid?[] solids;

    /// <summary>Takes the fluid and its components, in kernel order.</summary>
    public SolidMixture(FluidKernel fluid, IReadOnlyList<Substance> components)
    {
        this.fluid = fluid;
        solids = [.. components.Select((c, i) => c.Solid is null ? null : new PureSolid(fluid.Equation, i, c))];
    }

    /// <summary>The fluid.</summary>
    public FluidKernel Fluid => fluid;

    /// <summary>The solid of a component; null where nothing is known of it.</summary>
    public PureSolid? this[int component] => solids[component];

    /// <summary>
    /// ln(f_i/(z_i 1 Pa)) of each component of a solved fluid, with z over all phases: fugacities are equal in them. Holds for traces, whose
    /// amount was zero when the fluid was solved.
    /// </summary>
    public void LnFugacityOverAmount(EquilibriumResult result, Span<double> values)
    {
        int n = values.Length;
        Span<double> scratch = stackalloc double[fluid.Equation.ScratchLength];
        Span<double> lnPhi = stackalloc double[n];
        Span<double> largest = stackalloc double[n];
        Span<double> sum = stackalloc double[n];
        largest.Fill(double.NegativeInfinity);
        sum.Clear();
        fluid.Equation.SetTemperature(result.Temperature, scratch);
        foreach (PhaseResult phase in result.Phases)
        {
            if (!(phase.Fraction > 0))
            {
                continue;
            }

            fluid.Equation.LnFugacityCoefficients(result.Temperature, result.Pressure, phase.MoleFractions, phase.Figures.Root, scratch, lnPhi, out _);
            double lnFraction = Math.Log(phase.Fraction);
            for (int i = 0; i < n; i++)
            {
                double part = lnFraction - lnPhi[i];
                if (part > largest[i])
                {
                    sum[i] = (sum[i] * Math.Exp(largest[i] - part)) + 1;
                    largest[i] = part;
                }
                else
                {
                    sum[i] += Math.Exp(part - largest[i]);
                }
            }
        }

        double lnPressure = Math.Log(result.Pressure);
        for (int i = 0; i < n; i++)
        {
            values[i] = lnPressure - largest[i] - Math.Log(sum[i]);
        }
    }

    /// <summary>
    /// ln of fluid over solid fugacity of each component: positive where it would freeze; minus infinity for one that is absent, has no solid
    /// figures, or is above all its melting temperatures.
    /// </summary>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="z">Composition of the fluid to be solved.</param>
    /// <param name="lnAmounts">ln of the amount of each component over the whole, traces included; minus infinity where absent.</param>
    /// <param name="values">Receives one value a component.</param>
    /// <returns>The solved fluid.</returns>
    public EquilibriumResult LnSaturation(double temperature, double pressure, ReadOnlySpan<double> z, ReadOnlySpan<double> lnAmounts, Span<double> values)
    {
        EquilibriumResult result = fluid.At(temperature, pressure, z);
        LnSaturation(result, lnAmounts, values);
        return result;
    }

    /// <summary>The same for a fluid that is solved already.</summary>
    public void LnSaturation(EquilibriumResult result, ReadOnlySpan<double> lnAmounts, Span<double> values)
    {
        LnFugacityOverAmount(result, values);
        double t = result.Temperature;
        double p = result.Pressure;
        for (int i = 0; i < values.Length; i++)
        {
            if (double.IsNegativeInfinity(lnAmounts[i]) || solids[i] is not { } solid || t > solid.Bound(p))
            {
                values[i] = double.NegativeInfinity;
                continue;
            }

            values[i] += lnAmounts[i] - solid.LnFugacity(t, p);

            // A trace that does not act on the phases may exceed its own liquid. It would condense, and freeze where that liquid does.
            double pure = solid.LnLiquidOverSolid(t, p);
            if (pure < 0)
            {
                values[i] = Math.Min(values[i], pure);
            }
        }
    }
}
