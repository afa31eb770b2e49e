using CryoThermo.EquationsOfState;

namespace CryoThermo.Checks.Soak;

/// <summary>Traces the phase envelope of a blend and recomputes what it reports.</summary>
public static class EnvelopeSoak
{
    /// <summary>Largest allowed difference of ln fugacity between the phases of a point.</summary>
    public const double FugacityTolerance = 1e-8;

    /// <summary>The same at the reported densities where a root would lose digits; next to a critical point the line is interpolated.</summary>
    public const double FugacityToleranceAtDensity = 1e-7;

    /// <summary>Largest allowed difference between the pressure of a phase at its reported density and that of the point, over density times R T.</summary>
    public const double PressureTolerance = 1e-9;

    private const double NearlyCritical = 0.01;
    private const double SameTemperature = 1e-6;
    private const double BesideAlike = 0.1;

    /// <summary>
    /// Every point has equal fugacities by kernel calls at its temperature and pressure; no line stops unfinished; bubble and dew points at
    /// pressures along the line lie on it; stable critical points of the line are among those found by the determinant conditions, which hold at the others.
    /// </summary>
    public static SoakOutcome Run(SoakCase soak)
    {
        PhaseEnvelope envelope = soak.Fluid.PhaseEnvelope();
        string? failure = FirstBroken(soak.Fluid, envelope, out double worst);
        return new(
            failure is null ? null : $"{soak}: {failure}",
            Math.Min(2, envelope.CriticalPoints.Count),
            envelope.IsCrossedByAnotherPhase,
            worst);
    }

    /// <summary>Returns the first broken rule in words, or null; gives the largest difference of ln fugacity.</summary>
    public static string? FirstBroken(WorkingFluid fluid, PhaseEnvelope envelope, out double worst)
    {
        worst = 0;
        MixtureKernel kernel = fluid.Kernel.Equation;
        double[] scratch = new double[kernel.ScratchLength];
        foreach (EnvelopePoint point in envelope.Points)
        {
            // A density as root of the pressure loses digits where the phases differ by less than 1 %, and on unstable points, of which a phase may
            // stand at its spinodal: there the reported densities are taken, and their pressures compared too.
            bool atDensity = !point.IsStable || Math.Abs((point.HeavyMolarDensity.MolesPerCubicMeter / point.LightMolarDensity.MolesPerCubicMeter) - 1) < NearlyCritical;
            double difference = FugacityDifference(kernel, point, atDensity, scratch, out string? broken);
            if (broken is not null || !(difference < (atDensity ? FugacityToleranceAtDensity : FugacityTolerance)))
            {
                return $"{point}: {broken ?? $"ln fugacities differ by {difference:E2}"}";
            }

            worst = Math.Max(worst, difference);
        }

        if (envelope.OpenEnds.FirstOrDefault(e => e.Reason == EnvelopeEndReason.NotContinued) is { } unfinished)
        {
            return unfinished.Explanation;
        }

        foreach (EnvelopeEnd alike in envelope.OpenEnds.Where(e => e.Reason == EnvelopeEndReason.PhasesAlike))
        {
            // What is told as lost in rounding must be: both phases alike, and a critical point close by.
            EnvelopePoint point = alike.Point;
            if (!(Enumerable.Range(0, point.LightComposition.Components.Count).All(i => Math.Abs(point.LightComposition.MoleFractions[i] - point.HeavyComposition.MoleFractions[i]) <= 0.011 * point.HeavyComposition.MoleFractions[i])
                && fluid.CriticalPoints().Any(c => Math.Abs((c.Temperature.Kelvins / point.Temperature.Kelvins) - 1) < BesideAlike)))
            {
                return alike.Explanation;
            }
        }

        return BrokenBoundary(fluid, envelope) ?? BrokenCriticalPoint(fluid, envelope);
    }

    private static bool IsBeyondAlike(PhaseEnvelope envelope, CriticalPoint point) => envelope.OpenEnds.Any(e =>
        e.Reason == EnvelopeEndReason.PhasesAlike && Math.Abs((e.Point.Temperature.Kelvins / point.Temperature.Kelvins) - 1) < BesideAlike);

    /// <summary>Largest difference of ln fugacity between the phases of a point, by kernel calls at its temperature and pressure.</summary>
    private static double FugacityDifference(MixtureKernel kernel, EnvelopePoint point, bool atDensity, double[] scratch, out string? broken)
    {
        broken = null;
        double t = point.Temperature.Kelvins;
        double p = point.Pressure.Pascals;
        kernel.SetTemperature(t, scratch);
        double[] light = [.. point.LightComposition.MoleFractions];
        double[] heavy = [.. point.HeavyComposition.MoleFractions];
        double[] lightLn = new double[light.Length];
        double[] heavyLn = new double[light.Length];
        if (!TryLnPhi(kernel, t, p, light, point.LightMolarDensity.MolesPerCubicMeter, atDensity, scratch, lightLn)
            || !TryLnPhi(kernel, t, p, heavy, point.HeavyMolarDensity.MolesPerCubicMeter, atDensity, scratch, heavyLn))
        {
            broken = atDensity ? "a phase has another pressure at its density" : "a phase has a density that is no outer root at its temperature and pressure";
            return 0;
        }

        double worst = 0;
        for (int i = 0; i < light.Length; i++)
        {
            if (light[i] > 0 && heavy[i] > 0)
            {
                worst = Math.Max(worst, Math.Abs(Math.Log(light[i] / heavy[i]) + lightLn[i] - heavyLn[i]));
            }
        }

        return worst;
    }

    private static bool TryLnPhi(MixtureKernel kernel, double t, double p, double[] x, double density, bool atDensity, double[] scratch, double[] lnPhi)
    {
        if (atDensity)
        {
            double miss = kernel.LnFugacityAtDensity(t, density, x, scratch, lnPhi) - p;
            for (int i = 0; i < x.Length; i++)
            {
                lnPhi[i] -= Math.Log(p);
            }

            return Math.Abs(miss) < PressureTolerance * density * kernel.GasConstant * t;
        }

        foreach (DensityRoot root in (ReadOnlySpan<DensityRoot>)[DensityRoot.Liquid, DensityRoot.Vapor])
        {
            double found = kernel.LnFugacityCoefficients(t, p, x, root, scratch, lnPhi, out _);
            if (Math.Abs((found / density) - 1) < 1e-7)
            {
                return true;
            }
        }

        return false;
    }

    private static string? BrokenBoundary(WorkingFluid fluid, PhaseEnvelope envelope)
    {
        const int Stride = 12;
        for (int i = 4; i < envelope.Points.Count; i += Stride)
        {
            EnvelopePoint point = envelope.Points[i];
            if (!point.IsStable || point.Branch is not (EnvelopeBranch.Dew or EnvelopeBranch.Bubble))
            {
                continue;
            }

            if (!envelope.PointsAt(point.Pressure).Any(p => Near(p, point)))
            {
                return $"{point} is not found again at its pressure";
            }

            if (!envelope.PointsAt(point.Temperature).Any(p => Near(p, point)))
            {
                return $"{point} is not found again at its temperature";
            }

            State? state;
            bool found = point.Branch == EnvelopeBranch.Dew
                ? fluid.TryDewPoint(point.Pressure, out state)
                : fluid.TryBubblePoint(point.Pressure, out state);
            // Beside a second liquid, or where such a point is not the first, the point found lies elsewhere than on the lines of two phases.
            if (found && !state!.HasUnresolvedPhase && state.Phases.Count == 2
                && !envelope.PointsAt(point.Pressure).Any(p => Math.Abs((p.Temperature.Kelvins / state.Temperature.Kelvins) - 1) < SameTemperature)
                && !envelope.PointsAt(state.Temperature).Any(p => Math.Abs((p.Pressure.Pascals / state.Pressure.Pascals) - 1) < SameTemperature))
            {
                return $"the {point.Branch} point at {point.Pressure.Bars:R} bar is {state.Temperature.Kelvins:R} K, which is not on the line";
            }
        }

        return null;
    }

    private static bool Near(EnvelopePoint a, EnvelopePoint b) =>
        Math.Abs((a.Temperature.Kelvins / b.Temperature.Kelvins) - 1) < SameTemperature && Math.Abs((a.Pressure.Pascals / b.Pressure.Pascals) - 1) < 10 * SameTemperature;

    // Of unstable ones between the spurious spinodals of a long equation the scan may see none: for these the conditions alone are evaluated.
    private static bool HoldsConditions(WorkingFluid fluid, CriticalPoint point)
    {
        Equilibrium.CriticalConditions conditions = new(fluid.Kernel.Equation, [.. fluid.Composition.MoleFractions]);
        return conditions.TryEvaluate(
            point.Temperature.Kelvins, 1 / point.MolarDensity.MolesPerCubicMeter, new double[conditions.Count], out double eigenvalue, out double third)
            && Math.Abs(eigenvalue) < 1e-6 && Math.Abs(third) < 1e-6;
    }

    private static string? BrokenCriticalPoint(WorkingFluid fluid, PhaseEnvelope envelope)
    {
        IReadOnlyList<CriticalPoint> all = fluid.CriticalPoints();
        foreach (CriticalPoint point in envelope.CriticalPoints)
        {
            if (!point.IsStable ? !HoldsConditions(fluid, point) : !all.Any(c => Math.Abs((c.Temperature.Kelvins / point.Temperature.Kelvins) - 1) < SameTemperature
                && Math.Abs((c.Pressure.Pascals / point.Pressure.Pascals) - 1) < 100 * SameTemperature))
            {
                return $"the critical point of the line at {point.Temperature.Kelvins:R} K, {point.Pressure.Bars:R} bar is none of the {all.Count} found by their conditions";
            }
        }

        foreach (CriticalPoint point in all)
        {
            // Those between two liquids may lie on lines that never come down to low pressure.
            bool isDense = fluid.Kernel.Equation.ReducedVolume(point.MolarDensity.MolesPerCubicMeter, fluid.Composition.Fractions) < Equilibrium.IsothermalFlash.SmallestVaporVolume;
            if (point.IsStable && !isDense && !IsBeyondAlike(envelope, point)
                && !envelope.CriticalPoints.Any(c => Math.Abs((c.Temperature.Kelvins / point.Temperature.Kelvins) - 1) < SameTemperature))
            {
                return $"the stable critical point at {point.Temperature.Kelvins:R} K, {point.Pressure.Bars:R} bar is not on the lines";
            }
        }

        return null;
    }
}
