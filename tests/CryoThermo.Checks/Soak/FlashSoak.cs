using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>Random isothermal flashes against <see cref="AnswerRules"/>, and round trips over enthalpy and entropy.</summary>
public static class FlashSoak
{
    private const double RoundTripTolerance = 1e-7;

    /// <summary>One isothermal flash; worst is the ln fugacity difference.</summary>
    public static SoakOutcome Flash(SoakCase soak)
    {
        State state = soak.Fluid.At(Temperature.FromKelvins(soak.Temperature), Pressure.FromPascals(soak.Pressure));
        string? broken = AnswerRules.FirstBroken(soak, state, out double worst);
        return new(broken is null ? null : $"{soak}: {broken} ({state.PhaseDescription})", state.Phases.Count, state.HasUnresolvedPhase, state.HasUnresolvedPhase ? 0 : worst);
    }

    /// <summary>
    /// Temperature recovered from pressure and enthalpy, then from pressure and entropy; worst is the relative error of the temperature.
    /// Where the answer is flagged as unresolved, enthalpy need not be monotone, and only the enthalpy itself is compared.
    /// </summary>
    public static SoakOutcome RoundTrip(SoakCase soak)
    {
        Pressure pressure = Pressure.FromPascals(soak.Pressure);
        State state = soak.Fluid.At(Temperature.FromKelvins(soak.Temperature), pressure);
        double worst = 0;
        foreach (bool entropy in new[] { false, true })
        {
            State back = entropy ? soak.Fluid.AtEntropy(pressure, state.MolarEntropy) : soak.Fluid.AtEnthalpy(pressure, state.MolarEnthalpy);
            double miss = entropy
                ? (back.MolarEntropy - state.MolarEntropy).JoulesPerMoleKelvin * soak.Temperature
                : (back.MolarEnthalpy - state.MolarEnthalpy).JoulesPerMole;
            string what = entropy ? "entropy" : "enthalpy";
            if (Math.Abs(miss) > 1e-4)
            {
                return new($"{soak}: {what} missed by {miss:E2} J/mol", state.Phases.Count, state.HasUnresolvedPhase, worst);
            }

            if (state.HasUnresolvedPhase || back.HasUnresolvedPhase)
            {
                continue;
            }

            double error = Math.Abs(back.Temperature.Kelvins - soak.Temperature) / soak.Temperature;
            worst = Math.Max(worst, error);
            if (error > RoundTripTolerance)
            {
                return new(
                    $"{soak}: from {what} {back.Temperature.Kelvins:R} K, {back.PhaseDescription} instead of {state.PhaseDescription}",
                    state.Phases.Count,
                    state.HasUnresolvedPhase,
                    worst);
            }
        }

        return new(null, state.Phases.Count, state.HasUnresolvedPhase, worst);
    }

    /// <summary>
    /// Bubble and dew point at the pressure of the case: close to one side of each the flash must find one phase, to the other two, unless the
    /// point was flagged as metastable. Close means 1e-5 of the temperature, or a tenth of the distance between the two points where that is
    /// less. Phases is the number of points found.
    /// </summary>
    public static SoakOutcome Boundaries(SoakCase soak)
    {
        Pressure pressure = Pressure.FromPascals(soak.Pressure);
        State?[] points = [PointAt(soak, pressure, true), PointAt(soak, pressure, false)];
        double step = 1e-5;
        if (points is [{ } boiling, { } condensing])
        {
            double gap = Math.Abs(condensing.Temperature.Kelvins - boiling.Temperature.Kelvins);
            step = Math.Min(step, 0.1 * gap / condensing.Temperature.Kelvins);
        }

        int found = points.Count(point => point is not null);
        bool flagged = points.Any(point => point?.HasUnresolvedPhase == true);
        foreach (State? point in points)
        {
            if (point is null || point.HasUnresolvedPhase)
            {
                continue;
            }

            double t = point.Temperature.Kelvins;
            State below = soak.Fluid.At(Temperature.FromKelvins(t * (1 - step)), pressure);
            State above = soak.Fluid.At(Temperature.FromKelvins(t * (1 + step)), pressure);
            if (below.Phases.Count == above.Phases.Count)
            {
                return new(
                    $"{soak}: {(ReferenceEquals(point, points[0]) ? "bubble" : "dew")} point at {t:R} K, but {below.PhaseDescription} below and {above.PhaseDescription} above",
                    found,
                    flagged,
                    0);
            }
        }

        return new(null, found, flagged, 0);
    }

    // Above the highest pressure of the line there is no point; how many were found is reported.
    private static State? PointAt(SoakCase soak, Pressure pressure, bool bubble)
    {
        State? point;
        return (bubble ? soak.Fluid.TryBubblePoint(pressure, out point) : soak.Fluid.TryDewPoint(pressure, out point)) ? point : null;
    }
}
