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
    /// Bubble and dew point at the pressure of the case. A bubble must be lighter than its liquid, a drop denser than its vapour. 1e-5 of the
    /// temperature to either side the flash must find different phases (one and two; liquid and vapour where a nearly pure blend boils within
    /// less), unless the point was flagged as metastable; 1e-3 where the two phases differ by less than 0.1 % in density, since next to the
    /// critical point a split gains less Gibbs energy than rounding. Phases is the number of points found.
    /// </summary>
    public static SoakOutcome Boundaries(SoakCase soak)
    {
        Pressure pressure = Pressure.FromPascals(soak.Pressure);
        int found = 0;
        bool flagged = false;
        string? failure = null;
        foreach (bool bubble in new[] { true, false })
        {
            if (PointAt(soak, pressure, bubble) is not { } point)
            {
                continue;
            }

            found++;
            flagged |= point.HasUnresolvedPhase;
            double t = point.Temperature.Kelvins;
            string name = bubble ? "bubble" : "dew";

            // By mass: a compressed vapour of small molecules may hold more moles than a liquid of large ones.
            double light = point.Phases[0].Density.KilogramsPerCubicMeter;
            double heavy = point.Phases[1].Density.KilogramsPerCubicMeter;
            if (light > heavy * (1 + 1e-9))
            {
                failure ??= $"{soak}: {name} point at {t:R} K, but its vapour has {light:G6} kg/m3 and its liquid {heavy:G6} kg/m3";
            }
            else if (!point.HasUnresolvedPhase)
            {
                double step = Math.Abs(heavy - light) < 1e-3 * heavy ? 1e-3 : 1e-5;
                State below = soak.Fluid.At(Temperature.FromKelvins(t * (1 - step)), pressure);
                State above = soak.Fluid.At(Temperature.FromKelvins(t * (1 + step)), pressure);
                if (below.PhaseDescription == above.PhaseDescription)
                {
                    failure ??= $"{soak}: {name} point at {t:R} K, but {below.PhaseDescription} below and above";
                }
            }
        }

        return new(failure, found, flagged, 0);
    }

    // Above the highest pressure of the line there is no point; how many were found is reported.
    private static State? PointAt(SoakCase soak, Pressure pressure, bool bubble)
    {
        State? point;
        return (bubble ? soak.Fluid.TryBubblePoint(pressure, out point) : soak.Fluid.TryDewPoint(pressure, out point)) ? point : null;
    }
}
