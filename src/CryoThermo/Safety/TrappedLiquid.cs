using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// A closed volume of cold fluid that warms up: its pressure by the fluid's own equation of state, in a vessel that is stiff or stretches. Liquid, vapour and
/// both may be in it. Immutable and thread-safe. An estimate; sizing and setting of relief devices is licensed work.
/// </summary>
public sealed class TrappedLiquid
{
    private readonly double stretchPerPascal;
    private readonly double density;

    /// <summary>Shuts in a fluid.</summary>
    /// <param name="filled">The contents when the volume was shut, liquid and vapour at the density they had.</param>
    /// <param name="vessel">How the vessel stretches; null for a stiff one, which errs on the safe side.</param>
    public TrappedLiquid(State filled, StretchingVessel? vessel = null)
    {
        ArgumentNullException.ThrowIfNull(filled);
        Filled = filled;
        Vessel = vessel;
        stretchPerPascal = vessel?.VolumePerPascal ?? 0;
        density = filled.MolarDensity.MolesPerCubicMeter;
    }

    /// <summary>The contents when the volume was shut.</summary>
    public State Filled { get; }

    /// <summary>How the vessel stretches; null for a stiff one.</summary>
    public StretchingVessel? Vessel { get; }

    /// <summary>Share of the volume that liquid took when it was shut.</summary>
    public double LiquidShare => Filled.Phases
        .Where(p => p.Kind == PhaseKind.Liquid)
        .Sum(p => p.Fraction * density / p.MolarDensity.MolesPerCubicMeter);

    /// <summary>The contents when they have warmed to a temperature.</summary>
    /// <param name="temperature">Within the range of the fluid.</param>
    /// <exception cref="ArgumentOutOfRangeException">The equation of state does not reach so far.</exception>
    public State At(Temperature temperature)
    {
        if (stretchPerPascal == 0)
        {
            return Filled.Fluid.AtDensity(temperature, Filled.MolarDensity);
        }

        double before = Filled.Pressure.Pascals;
        State stiff = Filled.Fluid.AtDensity(temperature, Filled.MolarDensity);
        double most = stiff.Pressure.Pascals;
        if (!(most > before))
        {
            return stiff;
        }

        double found = BracketedRoot.Solve(p => At(p).Pressure.Pascals - p, before, most, 1e-10);
        return At(found);

        State At(double pressure) => Filled.Fluid.AtDensity(
            temperature, Molarity.FromMolesPerCubicMeter(density / (1 + (stretchPerPascal * (pressure - before)))));
    }

    /// <summary>Temperature at which the contents reach a pressure while they warm; null where they do not up to the temperature given.</summary>
    /// <param name="pressure">Absolute, above that of the shut-in contents: a relief setting, a rating, a burst pressure.</param>
    /// <param name="warmest">How warm it may become, above the temperature of the contents.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public Temperature? ReachesAt(Pressure pressure, Temperature warmest)
    {
        double wanted = pressure.Pascals;
        double start = Filled.Temperature.Kelvins;
        if (!(wanted > Filled.Pressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressure), pressure, $"pressure is {pressure.Bars:G6} bar absolute; it must lie above the {Filled.Pressure.Bars:G6} bar of the contents when they were shut in.");
        }

        if (!(warmest.Kelvins > start))
        {
            throw new ArgumentOutOfRangeException(nameof(warmest), warmest, $"warmest is {warmest.Kelvins:G6} K; it must lie above the {start:G6} K of the contents when they were shut in.");
        }

        return At(warmest).Pressure.Pascals < wanted
            ? null
            : Temperature.FromKelvins(BracketedRoot.Solve(
                t => Math.Log(At(Temperature.FromKelvins(t)).Pressure.Pascals / wanted), start, warmest.Kelvins, 1e-10));
    }

    /// <summary>The caution that belongs to it, with the pressure at a temperature and, where a rating is given, the temperature that exceeds it.</summary>
    /// <param name="warmest">How warm it may become.</param>
    /// <param name="rating">Pressure the weakest part is rated for, absolute; null where it is not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public Caution CautionAt(Temperature warmest, Pressure? rating = null)
    {
        State end = At(warmest);
        bool isHeld = rating is { } known && end.Pressure <= known;
        string exceeded = rating is { } limit && !isHeld
            ? FormattableString.Invariant($"; {limit.Bars:G4} bar are passed at {ReachesAt(limit, warmest)!.Value.Kelvins:F1} K already")
            : string.Empty;
        return new(
            isHeld ? CautionSeverity.Notice : CautionSeverity.Danger,
            "Cold liquid shut in",
            FormattableString.Invariant($"{100 * LiquidShare:F0} % liquid at {Filled.Temperature.Kelvins:F1} K and {Filled.Pressure.Bars:G4} bar absolute becomes {end.Pressure.Bars:G4} bar at {warmest.Kelvins:F1} K{exceeded}"),
            "any space that can hold cold liquid and be closed on all sides needs its own relief (threshold: a single such space)",
            $"Fit a relief device between any two shut-off points and on every vessel that liquid can reach, vented to a safe place; sizing and setting are licensed work. {Caution.Deference}",
            Source.CommonPractice);
    }
}
