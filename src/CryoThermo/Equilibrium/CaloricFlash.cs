using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// State at given pressure and enthalpy, or pressure and entropy. At constant pressure both rise with temperature in
/// equilibrium, so the isothermal flash is solved for the temperature by Newton inside a bracket. Where they jump (a
/// pure fluid or an azeotrope boiling, a three-phase line), the answer is the mix of the states on both sides.
/// </summary>
internal static class CaloricFlash
{
    private const double RelativeTemperatureTolerance = 2e-13;

    // How far rounding may put a boiling temperature, or a target, outside its range, relative.
    private const double RangeSlack = 1e-9;
    private const double TargetSlack = 1e-12;

    private const int DescentSteps = 64;

    /// <summary>Solves the flash.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="variable">What <paramref name="target"/> is.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="target">J/mol or J/(mol K).</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="guess">Starting temperature, K; zero for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">No temperature within the accepted range has this value.</exception>
    public static EquilibriumResult Solve(
        FluidKernel fluid, CaloricVariable variable, double pressure, double target, ReadOnlySpan<double> z, double guess = 0)
    {
        int n = z.Length;
        Span<double> scratch = stackalloc double[fluid.Equation.ScratchLength];
        int only = IncipientPoint.SingleComponent(z);
        double lowest = fluid.Equation.LowestTemperatureAt(pressure);
        double low = lowest;
        double high = fluid.HighestTemperature;
        if (only >= 0 && PureSaturation.TryTemperature(fluid.Equation, only, pressure, scratch, out double boiling, out _, out _)
            && boiling > low * (1 - RangeSlack) && boiling < high)
        {
            boiling = Math.Max(boiling, low);
            fluid.Equation.SetTemperature(boiling, scratch);
            PhaseFigures liquid = fluid.Phase(boiling, pressure, z, DensityRoot.Liquid, scratch);
            PhaseFigures vapor = fluid.Phase(boiling, pressure, z, DensityRoot.Vapor, scratch);
            double below = variable == CaloricVariable.Enthalpy ? liquid.Enthalpy : liquid.Entropy;
            double above = variable == CaloricVariable.Enthalpy ? vapor.Enthalpy : vapor.Entropy;
            if (target >= below && target <= above)
            {
                double share = (target - below) / (above - below);
                return Boiling(boiling, pressure, z, liquid, vapor, share);
            }

            if (target < below)
            {
                high = boiling;
            }
            else
            {
                low = boiling;
            }
        }

        PhaseSplit split = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        double stated = Math.Clamp(fluid.Equation.LowestStatedTemperature, low, high);
        if (stated > low)
        {
            (low, high) = Value(fluid, variable, stated, pressure, z, scratch, ref split) <= target
                ? (stated, high)
                : Descend(fluid, variable, high, low, target, pressure, z, scratch, ref split);
        }

        double lowValue = Value(fluid, variable, low, pressure, z, scratch, ref split);
        double highValue = Value(fluid, variable, high, pressure, z, scratch, ref split);
        double slack = TargetSlack * (Math.Abs(lowValue) + Math.Abs(highValue));
        if (target >= lowValue - slack && target <= highValue + slack)
        {
            target = Math.Clamp(target, lowValue, highValue);
        }
        else
        {
            string unit = variable == CaloricVariable.Enthalpy ? "J/mol" : "J/(mol K)";
            string name = variable == CaloricVariable.Enthalpy ? "molarEnthalpy" : "molarEntropy";

            // A pure fluid was searched on one side of its boiling point only; the allowed range has both.
            if (fluid.Equation.LowestStatedTemperature > lowest)
            {
                (lowest, _) = Descend(fluid, variable, fluid.HighestTemperature, lowest, double.NegativeInfinity, pressure, z, scratch, ref split);
            }

            lowValue = Value(fluid, variable, lowest, pressure, z, scratch, ref split);
            highValue = Value(fluid, variable, fluid.HighestTemperature, pressure, z, scratch, ref split);
            throw new ArgumentOutOfRangeException(
                name,
                target,
                $"{name} is {target:G9} {unit}; at {pressure:G6} Pa allowed is {lowValue:G6} to {highValue:G6} {unit} ({lowest:G6} to {fluid.HighestTemperature:G6} K).");
        }

        double t = guess > low && guess < high ? guess : Math.Clamp(200, low + (0.3 * (high - low)), high - (0.3 * (high - low)));
        if (guess <= 0 && low == lowest && high == fluid.HighestTemperature)
        {
            t = 220;
        }

        double tolerance = variable == CaloricVariable.Enthalpy ? 1e-10 : 1e-13;
        int stalled = 0;
        double leastMiss = double.PositiveInfinity;
        for (int iteration = 0; iteration < 200; iteration++)
        {
            CaloricFigures totals = fluid.Flash(t, pressure, z, scratch, ref split);
            double value = variable == CaloricVariable.Enthalpy ? totals.Enthalpy : totals.Entropy;
            double slope = variable == CaloricVariable.Enthalpy ? totals.EquilibriumHeatCapacity : totals.EquilibriumHeatCapacity / t;
            double miss = value - target;
            if (Math.Abs(miss) <= tolerance || Math.Abs(miss / slope) <= RelativeTemperatureTolerance * t)
            {
                return fluid.Collect(t, pressure, z, split, totals, scratch);
            }

            if (miss > 0)
            {
                high = t;
                highValue = value;
            }
            else
            {
                low = t;
                lowValue = value;
            }

            if (high - low <= 4e-14 * high)
            {
                return Mix(fluid.At(low, pressure, z), fluid.At(high, pressure, z), Math.Clamp((target - lowValue) / (highValue - lowValue), 0, 1));
            }

            double next = t - (miss / slope);
            stalled = Math.Abs(miss) < 0.5 * leastMiss ? 0 : stalled + 1;
            leastMiss = Math.Min(leastMiss, Math.Abs(miss));
            if (!(next > low && next < high) || stalled >= 3)
            {
                // Kinks at phase boundaries can make Newton swing, even between two points for ever; halving always shrinks the bracket.
                next = 0.5 * (low + high);
                stalled = 0;
            }

            t = next;
        }

        throw new ConvergenceException(
            variable == CaloricVariable.Enthalpy ? "Flash at given enthalpy" : "Flash at given entropy",
            $"p = {pressure:G9} Pa, target {target:G12}, bracket {low:R} to {high:R} K",
            leastMiss,
            "Report this case; a neighbouring pressure will work.");
    }

    // Below its stated range, and far above the melting pressure within it, a pure equation is followed only as long as enthalpy and
    // entropy fall with temperature: the step that contains the target, or the last one before they turn back.
    private static (double Low, double High) Descend(
        FluidKernel fluid,
        CaloricVariable variable,
        double from,
        double end,
        double target,
        double pressure,
        ReadOnlySpan<double> z,
        Span<double> scratch,
        scoped ref PhaseSplit split)
    {
        double low = from;
        double high = from;
        double factor = Math.Pow(end / from, 1.0 / DescentSteps);
        double value = Value(fluid, variable, from, pressure, z, scratch, ref split);
        while (low > end && value > target)
        {
            double next = low * factor > end * (1 + RangeSlack) ? low * factor : end;
            double nextValue;
            try
            {
                nextValue = Value(fluid, variable, next, pressure, z, scratch, ref split);
            }
            catch (ArgumentOutOfRangeException)
            {
                // The equation of a mixture has no liquid any more.
                break;
            }

            if (nextValue >= value)
            {
                break;
            }

            (low, high, value) = (next, low, nextValue);
        }

        return (low, high);
    }

    private static double Value(
        FluidKernel fluid, CaloricVariable variable, double t, double pressure, ReadOnlySpan<double> z, Span<double> scratch, scoped ref PhaseSplit split)
    {
        CaloricFigures totals = fluid.Flash(t, pressure, z, scratch, ref split);
        return variable == CaloricVariable.Enthalpy ? totals.Enthalpy : totals.Entropy;
    }

    /// <summary>A pure fluid at its boiling point with a share of vapour, 0 to 1.</summary>
    internal static EquilibriumResult Boiling(
        double temperature, double pressure, ReadOnlySpan<double> z, PhaseFigures liquid, PhaseFigures vapor, double share)
    {
        List<PhaseResult> phases = [];
        if (share > 0)
        {
            phases.Add(new(share, true, z.ToArray(), vapor));
        }

        if (share < 1)
        {
            phases.Add(new(1 - share, false, z.ToArray(), liquid));
        }

        CaloricFigures totals = new(
            (share * vapor.Enthalpy) + ((1 - share) * liquid.Enthalpy),
            (share * vapor.Entropy) + ((1 - share) * liquid.Entropy),
            (share / vapor.MolarDensity) + ((1 - share) / liquid.MolarDensity),
            double.PositiveInfinity);
        return new(temperature, pressure, [.. phases], totals, false, 0, 0);
    }

    /// <summary>The mix of two states that differ by a jump; equal phases are joined, the lightest comes first.</summary>
    /// <param name="below">The state with the smaller enthalpy and volume.</param>
    /// <param name="above">The other.</param>
    /// <param name="share">Share of the latter, 0 to 1.</param>
    internal static EquilibriumResult Mix(EquilibriumResult below, EquilibriumResult above, double share)
    {
        List<PhaseResult> phases = [];
        foreach (PhaseResult phase in above.Phases)
        {
            phases.Add(phase with { Fraction = phase.Fraction * share });
        }

        foreach (PhaseResult phase in below.Phases)
        {
            double amount = phase.Fraction * (1 - share);
            int same = phases.FindIndex(other => IsSame(other, phase));
            if (same >= 0)
            {
                phases[same] = phases[same] with { Fraction = phases[same].Fraction + amount };
            }
            else
            {
                phases.Add(phase with { Fraction = amount });
            }
        }

        phases.Sort(static (a, b) => a.Figures.MolarDensity.CompareTo(b.Figures.MolarDensity));
        CaloricFigures totals = new(
            (share * above.Totals.Enthalpy) + ((1 - share) * below.Totals.Enthalpy),
            (share * above.Totals.Entropy) + ((1 - share) * below.Totals.Entropy),
            (share * above.Totals.Volume) + ((1 - share) * below.Totals.Volume),
            double.PositiveInfinity);
        return new(
            0.5 * (below.Temperature + above.Temperature),
            0.5 * (below.Pressure + above.Pressure),
            [.. phases],
            totals,
            below.StillUnstable || above.StillUnstable,
            Math.Max(below.Residual, above.Residual),
            Math.Min(below.TangentPlaneDistance, above.TangentPlaneDistance));
    }

    private static bool IsSame(PhaseResult a, PhaseResult b)
    {
        if (Math.Abs(a.Figures.MolarDensity - b.Figures.MolarDensity) > 1e-4 * b.Figures.MolarDensity)
        {
            return false;
        }

        for (int i = 0; i < a.MoleFractions.Length; i++)
        {
            if (Math.Abs(a.MoleFractions[i] - b.MoleFractions[i]) > 1e-4)
            {
                return false;
            }
        }

        return true;
    }
}
