using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// States of given vapour fraction at a pressure or temperature. The equations of <see cref="EnvelopeEquations"/> are followed from the dew or
/// bubble point to the fraction wanted; where that fails, or where the answer is not the stable one, isothermal flashes bracket it.
/// </summary>
internal static class VaporFractionPoint
{
    // ln K all smaller than this: the phases have the same composition, as at an azeotrope.
    private const double SameComposition = 1e-7;
    private const double FractionTolerance = 1e-9;

    /// <summary>Solves the two-phase equations at a vapour fraction. The second phase of the equations is the vapour.</summary>
    /// <param name="equations">The equations; their share is set to the fraction.</param>
    /// <param name="fraction">Moles of vapour over the whole, 0 to 1.</param>
    /// <param name="unknown">What is sought.</param>
    /// <param name="given">The other: K or Pa.</param>
    /// <param name="variables">Receives the variables.</param>
    public static bool TryTwoPhases(EnvelopeEquations equations, double fraction, IncipientPoint.Unknown unknown, double given, double[] variables)
    {
        // The nearer end first; at low temperature the bubble point may be out of reach, and the dew point in the vacuum.
        bool bubbleFirst = fraction < 0.5;
        return FromEnd(equations, fraction, unknown, given, bubbleFirst, variables) || FromEnd(equations, fraction, unknown, given, !bubbleFirst, variables);
    }

    /// <summary>The variables at a bubble or dew point; the second phase is the vapour.</summary>
    /// <param name="equations">The equations; their share is set to 0 or 1.</param>
    /// <param name="bubble">First bubble, or first drop.</param>
    /// <param name="unknown">What is sought.</param>
    /// <param name="given">The other: K or Pa.</param>
    /// <param name="variables">Receives the variables.</param>
    public static bool TryEnd(EnvelopeEquations equations, bool bubble, IncipientPoint.Unknown unknown, double given, double[] variables)
    {
        MixtureKernel kernel = equations.Kernel;
        int n = equations.Count;
        double t = unknown == IncipientPoint.Unknown.Temperature ? 300 : given;
        double p = unknown == IncipientPoint.Unknown.Temperature ? given : 1e5;
        Span<double> incipient = stackalloc double[n];
        Span<double> lnPhi = stackalloc double[n];
        ReadOnlySpan<double> z = equations.Feed;
        if (!IncipientPoint.TryFind(kernel, z, bubble, unknown, ref t, ref p, equations.Scratch, incipient, out _))
        {
            return false;
        }

        ReadOnlySpan<double> liquid = bubble ? z : incipient;
        ReadOnlySpan<double> vapor = bubble ? incipient : z;
        kernel.SetTemperature(t, equations.Scratch);
        double liquidDensity = kernel.LnFugacityCoefficients(t, p, liquid, DensityRoot.Liquid, equations.Scratch, lnPhi, out _);
        double vaporDensity = kernel.LnFugacityCoefficients(t, p, vapor, DensityRoot.Vapor, equations.Scratch, lnPhi, out _);
        for (int i = 0; i < n; i++)
        {
            variables[i] = z[i] > 0 ? Math.Log(vapor[i] / liquid[i]) : 0;
        }

        variables[equations.Temperature] = Math.Log(t);
        variables[equations.Pressure] = Math.Log(p);
        variables[equations.FirstDensity] = Math.Log(liquidDensity);
        variables[equations.SecondDensity] = Math.Log(vaporDensity);
        variables[equations.DensityDifference] = variables[equations.SecondDensity] - variables[equations.FirstDensity];
        equations.Share = bubble ? 0 : 1;
        int specified = unknown == IncipientPoint.Unknown.Temperature ? equations.Pressure : equations.Temperature;
        return equations.Solve(variables, specified, Math.Log(given), out _, out _) && IsVaporAndLiquid(equations, variables);
    }

    /// <summary>The stable state at a vapour fraction between 0 and 1; null when there is none to be found.</summary>
    /// <param name="fluid">The fluid, of two components or more.</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="fraction">Moles of vapour over the whole, between 0 and 1.</param>
    /// <param name="unknown">What is sought.</param>
    /// <param name="given">The other: K or Pa.</param>
    public static EquilibriumResult? Find(FluidKernel fluid, ReadOnlySpan<double> z, double fraction, IncipientPoint.Unknown unknown, double given)
    {
        EnvelopeEquations equations = new(fluid.Equation, z, fraction);
        double[] x = new double[equations.Length];
        if (TryTwoPhases(equations, fraction, unknown, given, x) && IsInRange(fluid, equations, x) && !equations.IsUnstable(x, out double distance))
        {
            double t = unknown == IncipientPoint.Unknown.Temperature ? Math.Exp(x[equations.Temperature]) : given;
            double p = unknown == IncipientPoint.Unknown.Temperature ? given : Math.Exp(x[equations.Pressure]);
            EquilibriumResult flash = fluid.At(t, p, z);
            return Math.Abs(flash.VaporFraction - fraction) < FractionTolerance && flash.Phases.Length > 1
                ? flash
                : Assemble(fluid, equations, x, t, p, fraction, distance);
        }

        return ByFlashes(fluid, z, fraction, unknown, given);
    }

    private static bool FromEnd(EnvelopeEquations equations, double fraction, IncipientPoint.Unknown unknown, double given, bool bubble, double[] variables)
    {
        if (!TryEnd(equations, bubble, unknown, given, variables))
        {
            return false;
        }

        int specified = unknown == IncipientPoint.Unknown.Temperature ? equations.Pressure : equations.Temperature;
        double at = bubble ? 0 : 1;
        double step = fraction - at;
        double[] previous = (double[])variables.Clone();
        double previousAt = at;
        while (at != fraction)
        {
            double next = Math.Abs(step) >= Math.Abs(fraction - at) ? fraction : at + step;
            double[] trial = (double[])variables.Clone();
            if (previousAt != at)
            {
                double factor = (next - at) / (at - previousAt);
                for (int i = 0; i < trial.Length; i++)
                {
                    trial[i] += factor * (variables[i] - previous[i]);
                }
            }

            equations.Share = next;
            if (equations.Solve(trial, specified, Math.Log(given), out _, out _) && IsVaporAndLiquid(equations, trial)
                && Math.Abs(trial[equations.Temperature] - variables[equations.Temperature]) < 0.3)
            {
                previous = (double[])variables.Clone();
                previousAt = at;
                trial.CopyTo(variables, 0);
                at = next;
                step *= 1.5;
            }
            else
            {
                step *= 0.3;
                if (Math.Abs(step) < 1e-6)
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static bool IsVaporAndLiquid(EnvelopeEquations equations, double[] x)
    {
        double largest = Math.Abs(x[equations.DensityDifference]);
        for (int i = 0; i < equations.Count; i++)
        {
            largest = Math.Max(largest, Math.Abs(x[i]));
        }

        Span<double> first = stackalloc double[equations.Count];
        Span<double> second = stackalloc double[equations.Count];
        equations.Compositions(x, first, second);
        return largest > 1e-4
            && x[equations.DensityDifference] < 0
            && equations.Kernel.ReducedVolume(Math.Exp(x[equations.SecondDensity]), second) > IsothermalFlash.SmallestVaporVolume;
    }

    private static bool IsInRange(FluidKernel fluid, EnvelopeEquations equations, double[] x)
    {
        double t = Math.Exp(x[equations.Temperature]);
        double p = Math.Exp(x[equations.Pressure]);
        return t >= fluid.LowestTemperature && t <= fluid.HighestTemperature && p >= fluid.LowestPressure && p <= fluid.HighestPressure;
    }

    // Where the phases boil so narrowly that no flash at a rounded temperature meets the fraction, the solved equations are the answer.
    private static EquilibriumResult Assemble(FluidKernel fluid, EnvelopeEquations equations, double[] x, double t, double p, double fraction, double distance)
    {
        double[] liquid = new double[equations.Count];
        double[] vapor = new double[equations.Count];
        equations.Compositions(x, liquid, vapor);
        Span<double> scratch = equations.Scratch;
        fluid.Equation.SetTemperature(t, scratch);
        PhaseFigures light = fluid.Phase(t, p, vapor, DensityRoot.Vapor, scratch);
        PhaseFigures heavy = fluid.Phase(t, p, liquid, DensityRoot.Liquid, scratch);
        CaloricFigures totals = new(
            (fraction * light.Enthalpy) + ((1 - fraction) * heavy.Enthalpy),
            (fraction * light.Entropy) + ((1 - fraction) * heavy.Entropy),
            (fraction / light.MolarDensity) + ((1 - fraction) / heavy.MolarDensity),
            double.PositiveInfinity);
        return new(t, p, [new(fraction, true, vapor, light), new(1 - fraction, false, liquid, heavy)], totals, false, SameComposition, distance);
    }

    // The vapour fraction rises with temperature and, up from low pressure, first falls with pressure: the first crossing is halved.
    private static EquilibriumResult? ByFlashes(FluidKernel fluid, ReadOnlySpan<double> z, double fraction, IncipientPoint.Unknown unknown, double given)
    {
        const int Cells = 80;
        bool seeksPressure = unknown == IncipientPoint.Unknown.Pressure;
        double low = Math.Log(seeksPressure ? Math.Max(fluid.LowestPressure, 1) : fluid.Equation.LowestTemperatureAt(given));
        double high = Math.Log(seeksPressure ? fluid.HighestPressure : fluid.HighestTemperature);
        EquilibriumResult? before = null;
        double beforeAt = low;
        for (int cell = 0; cell <= Cells; cell++)
        {
            double at = low + ((high - low) * cell / Cells);
            EquilibriumResult? here = Flash(fluid, z, seeksPressure, given, at);
            if (here is null)
            {
                before = null;
                continue;
            }

            if (before is not null && (before.VaporFraction - fraction) * (here.VaporFraction - fraction) <= 0 && before.VaporFraction != here.VaporFraction
                && HoldsTwo(fluid, z, seeksPressure, given, before, here, beforeAt, at, fraction, out EquilibriumResult? found))
            {
                return found;
            }

            before = here;
            beforeAt = at;
        }

        return null;
    }

    // Halving and secants between two flashes. False where the whole changes from liquid-like to vapour-like without two phases between.
    private static bool HoldsTwo(
        FluidKernel fluid,
        ReadOnlySpan<double> z,
        bool seeksPressure,
        double given,
        EquilibriumResult a,
        EquilibriumResult b,
        double atA,
        double atB,
        double fraction,
        out EquilibriumResult? found)
    {
        found = null;
        for (int iteration = 0; iteration < 120; iteration++)
        {
            double fa = a.VaporFraction - fraction;
            double fb = b.VaporFraction - fraction;
            double share = iteration % 3 == 2 ? 0.5 : Math.Clamp(fa / (fa - fb), 0.01, 0.99);
            double at = atA + (share * (atB - atA));
            if (Math.Abs(atB - atA) < 4e-15 * Math.Max(1, Math.Abs(at)))
            {
                // A jump. Between two single phases of the same density it is only a change of name.
                if (a.Phases.Length == 1 && b.Phases.Length == 1 && Math.Abs((a.Totals.Volume / b.Totals.Volume) - 1) < 1e-6)
                {
                    return false;
                }

                (EquilibriumResult below, EquilibriumResult above) = a.VaporFraction < b.VaporFraction ? (a, b) : (b, a);
                found = CaloricFlash.Mix(below, above, (fraction - below.VaporFraction) / (above.VaporFraction - below.VaporFraction));
                return true;
            }

            EquilibriumResult? middle = Flash(fluid, z, seeksPressure, given, at);
            if (middle is null)
            {
                return false;
            }

            double miss = middle.VaporFraction - fraction;
            if (Math.Abs(miss) < 0.1 * FractionTolerance && middle.Phases.Length > 1)
            {
                found = middle;
                return true;
            }

            if (miss * fa > 0)
            {
                (a, atA) = (middle, at);
            }
            else
            {
                (b, atB) = (middle, at);
            }
        }

        return false;
    }

    private static EquilibriumResult? Flash(FluidKernel fluid, ReadOnlySpan<double> z, bool seeksPressure, double given, double at)
    {
        double value = Math.Exp(at);
        double t = seeksPressure ? given : Math.Clamp(value, fluid.LowestTemperature, fluid.HighestTemperature);
        double p = seeksPressure ? Math.Clamp(value, fluid.LowestPressure, fluid.HighestPressure) : given;
        try
        {
            return fluid.At(t, p, z);
        }
        catch (ArgumentOutOfRangeException)
        {
            // The equation of a mixture has no fluid phase there.
            return null;
        }
    }
}
