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

    /// <summary>Width, relative, at which a bracket about unresolved phases counts as closed.</summary>
    private const double UnresolvedWidth = 1e-5;

    private const int DescentSteps = 64;

    /// <summary>Newton steps from a state nearby, the longest of them over the temperature, and from where on phases are followed instead of sought.</summary>
    private const int MostNearSteps = 40;
    private const double LongestNearStep = 0.3;
    private const double FollowedStep = 0.03;
    private const double FollowedWhenSwinging = 1e-4;

    /// <summary>Where a search without a guess begins, K.</summary>
    private const double UsualTemperature = 220;

    private const double EnthalpyTolerance = 1e-10;
    private const double EntropyTolerance = 1e-13;

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

        if (only < 0)
        {
            if (Near(fluid, variable, pressure, target, z, guess > 0 ? guess : UsualTemperature, null, out double reached) is { } near)
            {
                return near;
            }

            guess = reached;
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
            t = UsualTemperature;
        }

        double tolerance = variable == CaloricVariable.Enthalpy ? EnthalpyTolerance : EntropyTolerance;
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

            // Where phases are unresolved, figures jump from one temperature to the next: the jump is met by mixing its sides, however narrow.
            if (high - low <= (split.StillUnstable ? UnresolvedWidth : 4e-14) * high)
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

    /// <summary>
    /// The state of a blend by Newton steps on the temperature, from a guess or a state nearby. Long steps seek the phases afresh; short ones follow those of the step
    /// before, and the answer is tested for stability from every start. Null where that leads nowhere: the bracket is then asked.
    /// </summary>
    /// <param name="fluid">The fluid; not a pure equation.</param>
    /// <param name="variable">What <paramref name="target"/> is.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="target">J/mol or J/(mol K).</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="guess">Starting temperature, K.</param>
    /// <param name="near">A state nearby, whose phases are followed from the start; null for none.</param>
    /// <param name="reached">The temperature it came to, K: a guess for the bracket.</param>
    public static EquilibriumResult? Near(
        FluidKernel fluid, CaloricVariable variable, double pressure, double target, ReadOnlySpan<double> z, double guess, EquilibriumResult? near, out double reached)
    {
        reached = guess;
        if (fluid.Equation.IsPureEquation)
        {
            return null;
        }

        int n = z.Length;
        double low = fluid.Equation.LowestTemperatureAt(pressure);
        double high = fluid.HighestTemperature;
        double followed = FollowedStep;
        Span<double> scratch = stackalloc double[fluid.Equation.ScratchLength];
        PhaseSplit split = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        double tolerance = variable == CaloricVariable.Enthalpy ? EnthalpyTolerance : EntropyTolerance;
        double t = Math.Clamp(guess, low, high);
        bool isFollowed = near is { StillUnstable: false };
        if (isFollowed)
        {
            split.CopyFrom(near!);
        }

        double below = 0;
        double belowMiss = 0;
        double above = double.PositiveInfinity;
        double aboveMiss = 0;
        double halved = double.PositiveInfinity;
        int lastHalved = 0;
        for (int step = 0; step < MostNearSteps; step++)
        {
            CaloricFigures totals;
            int phases = split.PhaseCount;
            bool isVapor = split.LightIsVapor;
            if (isFollowed && IsothermalFlash.SolveFrom(fluid.Equation, t, pressure, z, scratch, ref split) && split.PhaseCount == phases && split.LightIsVapor == isVapor)
            {
                totals = fluid.Totals(t, pressure, z, split, scratch);
            }
            else
            {
                isFollowed = false;
                totals = fluid.Flash(t, pressure, z, scratch, ref split);
            }

            double value = variable == CaloricVariable.Enthalpy ? totals.Enthalpy : totals.Entropy;
            double slope = variable == CaloricVariable.Enthalpy ? totals.EquilibriumHeatCapacity : totals.EquilibriumHeatCapacity / t;
            double change = (target - value) / slope;
            if (!double.IsFinite(change))
            {
                return null;
            }

            double miss = Math.Abs(value - target);
            if (miss <= tolerance || Math.Abs(change) <= RelativeTemperatureTolerance * t)
            {
                if (!isFollowed)
                {
                    return fluid.Collect(t, pressure, z, split, totals, scratch);
                }

                if (IsothermalFlash.IsStable(fluid.Equation, t, pressure, z, scratch, split, null, new StationaryTrials(n)))
                {
                    return fluid.Collect(t, pressure, z, split, totals, scratch);
                }

                // Another phase: from here on as it stands.
                isFollowed = false;
                (below, above, halved, lastHalved) = (0, double.PositiveInfinity, double.PositiveInfinity, step);
                continue;
            }

            if (value > target && t < above)
            {
                (above, aboveMiss) = (t, miss);
            }
            else if (value < target && t > below)
            {
                (below, belowMiss) = (t, miss);
            }

            reached = t;
            double next = t + Math.Clamp(change, -LongestNearStep * t, LongestNearStep * t);
            bool isClosed = below > 0 && double.IsFinite(above);
            if (isClosed)
            {
                if (split.StillUnstable && above - below < FollowedStep * t)
                {
                    return Jump(fluid, variable, pressure, target, z, below, above);
                }

                if (above - below <= 0.5 * halved)
                {
                    (halved, lastHalved) = (above - below, step);
                }

                bool isSwinging = step > lastHalved + 2;
                if (isSwinging || !(next > below && next < above))
                {
                    // Across kinks Newton swings from side to side; false position in the inner part of the bracket gets on.
                    next = below + (Math.Clamp(belowMiss / (belowMiss + aboveMiss), 0.1, 0.9) * (above - below));
                    lastHalved = isSwinging ? step : lastHalved;
                }

                // Ends that differ by more than the slope between them are of different phases.
                bool isJump = above - below < FollowedStep * t && belowMiss + aboveMiss > 4 * slope * (above - below);
                if ((isSwinging || isJump) && followed > FollowedWhenSwinging)
                {
                    // An end may be of phases followed beyond where they are stable: from here on they are sought, but for the last steps.
                    followed = FollowedWhenSwinging;
                    (below, above, halved) = (0, double.PositiveInfinity, double.PositiveInfinity);
                    lastHalved = step;
                }
            }

            if (!(next > low && next < high))
            {
                return null;
            }

            isFollowed = !split.StillUnstable && Math.Abs(next - t) <= followed * t;
            t = next;
        }

        return null;
    }

    // Where phases are unresolved, figures jump from one temperature to the next: halve to the jump and mix its sides.
    private static EquilibriumResult? Jump(
        FluidKernel fluid, CaloricVariable variable, double pressure, double target, ReadOnlySpan<double> z, double low, double high)
    {
        EquilibriumResult below = fluid.At(low, pressure, z);
        EquilibriumResult above = fluid.At(high, pressure, z);
        while (high - low > UnresolvedWidth * high)
        {
            double share = Math.Clamp((target - Of(below)) / (Of(above) - Of(below)), 0.1, 0.9);
            double t = low + (share * (high - low));
            EquilibriumResult middle = fluid.At(t, pressure, z);
            if (Of(middle) > target)
            {
                (high, above) = (t, middle);
            }
            else
            {
                (low, below) = (t, middle);
            }
        }

        return Of(below) <= target && Of(above) >= target && Of(above) > Of(below)
            ? Mix(below, above, Math.Clamp((target - Of(below)) / (Of(above) - Of(below)), 0, 1))
            : null;

        double Of(EquilibriumResult state) => variable == CaloricVariable.Enthalpy ? state.Totals.Enthalpy : state.Totals.Entropy;
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
