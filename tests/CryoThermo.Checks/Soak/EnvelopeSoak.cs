using CryoThermo.EquationsOfState;

namespace CryoThermo.Checks.Soak;

/// <summary>Traces the phase envelope of a blend and recomputes what it reports.</summary>
public static class EnvelopeSoak
{
    /// <summary>Largest allowed difference of ln fugacity between the phases of a point.</summary>
    public const double FugacityTolerance = 1e-8;

    /// <summary>The same where the phases differ by less than 1 % in density, and on unstable points, of which a phase may stand at its spinodal: the density root then loses digits, and with it ln fugacity of traces.</summary>
    public const double LooseFugacityTolerance = 1e-6;

    private const double NearlyCritical = 0.01;
    private const double SameTemperature = 1e-6;

    /// <summary>
    /// Every point has equal fugacities by kernel calls at its temperature and pressure; no line stops unfinished; bubble and dew points at
    /// pressures along the line lie on it; critical points of the line are among those of the determinant conditions.
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
            double difference = FugacityDifference(kernel, point, scratch, out string? broken);
            bool isLoose = !point.IsStable || Math.Abs((point.HeavyMolarDensity.MolesPerCubicMeter / point.LightMolarDensity.MolesPerCubicMeter) - 1) < NearlyCritical;
            if (broken is not null || !(difference < (isLoose ? LooseFugacityTolerance : FugacityTolerance)))
            {
                return $"{point}: {broken ?? $"ln fugacities differ by {difference:E2}"}";
            }

            worst = Math.Max(worst, difference);
        }

        if (envelope.OpenEnds.FirstOrDefault(e => e.Reason == EnvelopeEndReason.NotContinued) is { } unfinished)
        {
            return unfinished.Explanation;
        }

        return BrokenBoundary(fluid, envelope) ?? BrokenCriticalPoint(fluid, envelope);
    }

    /// <summary>Largest difference of ln fugacity between the phases of a point, by kernel calls at its temperature and pressure.</summary>
    private static double FugacityDifference(MixtureKernel kernel, EnvelopePoint point, double[] scratch, out string? broken)
    {
        broken = null;
        double t = point.Temperature.Kelvins;
        double p = point.Pressure.Pascals;
        kernel.SetTemperature(t, scratch);
        double[] light = [.. point.LightComposition.MoleFractions];
        double[] heavy = [.. point.HeavyComposition.MoleFractions];
        double[] lightLn = new double[light.Length];
        double[] heavyLn = new double[light.Length];
        if (!TryLnPhi(kernel, t, p, light, point.LightMolarDensity.MolesPerCubicMeter, scratch, lightLn)
            || !TryLnPhi(kernel, t, p, heavy, point.HeavyMolarDensity.MolesPerCubicMeter, scratch, heavyLn))
        {
            broken = point.IsStable ? "a phase has a density that is no outer root at its temperature and pressure" : null;
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

    private static bool TryLnPhi(MixtureKernel kernel, double t, double p, double[] x, double density, double[] scratch, double[] lnPhi)
    {
        foreach (DensityRoot root in (ReadOnlySpan<DensityRoot>)[DensityRoot.Liquid, DensityRoot.Vapor])
        {
            double found = kernel.LnFugacityCoefficients(t, p, x, root, scratch, lnPhi, out _);
            if (Math.Abs((found / density) - 1) < 1e-7)
            {
                return true;
            }
        }

        // Beside a critical point rounding of the pressure moves the root: the pressure of the density then has to be the one of the point, and
        // the phase compressible.
        double rt = kernel.GasConstant * t;
        double miss = kernel.Pressure(t, density, x, scratch, out double byVolume) - p;
        kernel.LnFugacityAtDensity(t, density, x, scratch, lnPhi);
        for (int i = 0; i < x.Length; i++)
        {
            lnPhi[i] -= Math.Log(p);
        }

        return Math.Abs(miss) < 1e-9 * density * rt && byVolume < 1e-6 * density * density * rt;
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
            if (found && !state!.HasUnresolvedPhase
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

    private static string? BrokenCriticalPoint(WorkingFluid fluid, PhaseEnvelope envelope)
    {
        IReadOnlyList<CriticalPoint> all = fluid.CriticalPoints();
        foreach (CriticalPoint point in envelope.CriticalPoints)
        {
            if (!all.Any(c => Math.Abs((c.Temperature.Kelvins / point.Temperature.Kelvins) - 1) < SameTemperature
                && Math.Abs((c.Pressure.Pascals / point.Pressure.Pascals) - 1) < 100 * SameTemperature))
            {
                return $"the critical point of the line at {point.Temperature.Kelvins:R} K, {point.Pressure.Bars:R} bar is none of the {all.Count} found by their conditions";
            }
        }

        foreach (CriticalPoint point in all)
        {
            // Those between two liquids may lie on lines that never come down to low pressure.
            bool isDense = fluid.Kernel.Equation.ReducedVolume(point.MolarDensity.MolesPerCubicMeter, fluid.Composition.Fractions) < Equilibrium.IsothermalFlash.SmallestVaporVolume;
            if (point.IsStable && !isDense
                && !envelope.CriticalPoints.Any(c => Math.Abs((c.Temperature.Kelvins / point.Temperature.Kelvins) - 1) < SameTemperature))
            {
                return $"the stable critical point at {point.Temperature.Kelvins:R} K, {point.Pressure.Bars:R} bar is not on the lines";
            }
        }

        return null;
    }
}
