using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// How many steps open: the openings that the duties of a machine need of one valve, and what happens with a fixed one. Immutable and thread-safe.
/// </summary>
public sealed class ThrottleSizing
{
    /// <summary>The pressure that a fixed opening needs is looked for up to this multiple of the duty's own.</summary>
    private const double HighestLookedAt = 4;

    /// <summary>Within this share of its travel above the closed end a needle is coarse.</summary>
    private const double CoarseShare = 0.1;

    private ThrottleSizing(
        IReadOnlyList<ThrottleDuty> duties, OpeningCurve curve, ValveStyle style, Pressure localAtmosphere, Pressure? allowedPressure, Pressure? reliefSetting)
    {
        Curve = curve;
        Style = style;
        ControlValve[] valves = [.. duties.Select(d => ControlValve.ForFlow(d.Inlet, d.OutletPressure, d.MassFlow, style))];
        ControlValve least = valves.MinBy(v => v.FlowCoefficientKv)!;
        Openings = [.. duties.Select((d, i) => new DutyOpening(
            d,
            valves[i].FlowTo(d.Inlet, d.OutletPressure),
            Reached(curve, valves[i].FlowCoefficientKv),
            valves[i] == least ? d.Inlet.Pressure : PressureThrough(least, d)))];
        Cautions = Assess(duties, localAtmosphere, allowedPressure, reliefSetting);
    }

    /// <summary>The opening curve.</summary>
    public OpeningCurve Curve { get; }

    /// <summary>Style of the valve.</summary>
    public ValveStyle Style { get; }

    /// <summary>One a duty, in their order.</summary>
    public IReadOnlyList<DutyOpening> Openings { get; }

    /// <summary>What can hurt the machine or people, the gravest first.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>In a builder's words.</summary>
    public string Statement => string.Join(" ", Openings.Select(o =>
        $"{o.Duty.Name}: {o.Opening.Steps:F0} of {Curve.Widest.Steps:F0} steps (Kv {o.Opening.FlowCoefficientKv:G3} m3/h{(o.Opening.IsExtrapolated ? ", beyond the curve" : string.Empty)}{(o.Flow.IsChoked ? ", choked" : string.Empty)})."));

    /// <summary>Sizes.</summary>
    /// <param name="duties">One or more, with different names and one composition.</param>
    /// <param name="curve">The opening curve of the valve.</param>
    /// <param name="style">Its style.</param>
    /// <param name="localAtmosphere">The atmosphere around the machine, absolute.</param>
    /// <param name="allowedPressure">Absolute pressure the high side may hold; null where it is not known.</param>
    /// <param name="reliefSetting">Absolute pressure at which the relief device of the high side opens; null where there is none or it is not known.</param>
    /// <exception cref="ArgumentException">There is no duty, or two have one name.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ConvergenceException">An expansion was not found.</exception>
    public static ThrottleSizing Of(
        IReadOnlyList<ThrottleDuty> duties, OpeningCurve curve, ValveStyle style, Pressure localAtmosphere, Pressure? allowedPressure = null, Pressure? reliefSetting = null)
    {
        ArgumentNullException.ThrowIfNull(duties);
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(style);
        if (duties.Count == 0)
        {
            throw new ArgumentException("duties is empty; at least one is needed.", nameof(duties));
        }

        if (duties.Select(d => d.Name).Distinct(StringComparer.Ordinal).Count() < duties.Count)
        {
            throw new ArgumentException($"Two duties have one name: {string.Join(", ", duties.Select(d => d.Name))}.", nameof(duties));
        }

        _ = GaugePressure.FromAbsolute(duties[0].Inlet.Pressure, localAtmosphere);
        if (allowedPressure is { } allowed)
        {
            Guard.Positive(allowed.Pascals, "Pa absolute", nameof(allowedPressure));
        }

        if (reliefSetting is { } relief)
        {
            Guard.Positive(relief.Pascals, "Pa absolute", nameof(reliefSetting));
        }

        return new(duties, curve, style, localAtmosphere, allowedPressure, reliefSetting);
    }

    /// <summary>The sizing as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"{Style.Name}: {Statement}",
        ["duty", "before, bar absolute", "before, K", "before, degC", "behind, bar absolute", "flow, mol/s", "flow, g/s", "Kv, m3/h", "steps", "choked", "pressure at the least opening, bar absolute"],
        [.. Openings.Select(o => (IReadOnlyList<string>)
        [
            o.Duty.Name,
            $"{o.Duty.Inlet.Pressure.Bars:F3}",
            $"{o.Duty.Inlet.Temperature.Kelvins:F2}",
            $"{o.Duty.Inlet.Temperature.DegreesCelsius:F2}",
            $"{o.Duty.OutletPressure.Bars:F3}",
            $"{o.Duty.Flow.MolesPerSecond:G4}",
            $"{o.Duty.MassFlow.GramsPerSecond:G4}",
            $"{o.Opening.FlowCoefficientKv:G4}",
            $"{o.Opening.Steps:F0}{(o.Opening.IsExtrapolated ? " (beyond the curve)" : string.Empty)}",
            o.Flow.IsChoked ? "yes" : "no",
            o.PressureAtLeastOpening is { } p ? $"{p.Bars:F2}" : $"above {HighestLookedAt * o.Duty.Inlet.Pressure.Bars:F1}",
        ])]);

    // Beyond a curve that ends level there is no opening: flagged at its end.
    private static OpeningPoint Reached(OpeningCurve curve, double kv)
    {
        try
        {
            return curve.StepsFor(kv);
        }
        catch (ArgumentOutOfRangeException)
        {
            return new(curve.Widest.Steps, kv, true);
        }
    }

    private static Pressure? PressureThrough(ControlValve valve, ThrottleDuty duty)
    {
        try
        {
            return valve.InletPressureFor(
                duty.Inlet.Fluid, duty.Inlet.Temperature, duty.OutletPressure, duty.MassFlow, duty.Inlet.Pressure * HighestLookedAt);
        }
        catch (ArgumentOutOfRangeException)
        {
            return null;
        }
    }

    private Caution[] Assess(IReadOnlyList<ThrottleDuty> duties, Pressure atmosphere, Pressure? allowed, Pressure? relief)
    {
        Composition charge = duties[0].Inlet.Fluid.Composition;
        List<Caution> cautions =
        [
            .. CautionRules.Assess(new Circuit
            {
                Contents = [.. charge.Components.Zip(charge.MoleFractions).Where(c => c.Second > 0).Select(c => new SubstanceShare(c.First.Name, c.Second))],
                LowPressure = duties.MinBy(d => d.OutletPressure.Pascals)!.OutletPressure,
                HighPressure = duties.MaxBy(d => d.Inlet.Pressure.Pascals)!.Inlet.Pressure,
                LocalAtmosphere = atmosphere,
                ColdestSurface = Openings.Select(o => o.Flow.Outlet().Temperature).MinBy(t => t.Kelvins),
                HighPressureReliefSetting = relief,
            }),
        ];
        DutyOpening least = Openings.MinBy(o => o.Opening.FlowCoefficientKv)!;
        foreach (DutyOpening o in Openings)
        {
            if (allowed is { } limit && !(o.PressureAtLeastOpening is { } needed && needed.Pascals <= limit.Pascals))
            {
                cautions.Add(new(
                    CautionSeverity.Danger,
                    "Opening too small for another duty",
                    $"{o.Duty.Name} through the opening of {least.Duty.Name}, {least.Opening.Steps:F0} steps: {(o.PressureAtLeastOpening is { } p ? $"{p.Bars:G4} bar absolute" : $"above {HighestLookedAt * o.Duty.Inlet.Pressure.Bars:G4} bar absolute")} before the valve against {limit.Bars:G4} bar absolute allowed",
                    "the same flow of warm gas needs a wider opening than cold liquid; through a fixed one the pressure before it rises (threshold: the pressure allowed)",
                    $"Open to {o.Opening.Steps:F0} steps before starting and close in stages as the inlet gets cold, holding the pressure; a pressure switch and a relief device that open without the valve. {Caution.Deference}",
                    Source.CommonPractice));
            }

            if (o.Opening.IsExtrapolated)
            {
                cautions.Add(new(
                    CautionSeverity.Warning,
                    "Opening beyond the curve of the valve",
                    $"{o.Duty.Name} needs Kv {o.Opening.FlowCoefficientKv:G3} m3/h; the curve has {Curve.Points[0].FlowCoefficientKv:G3} to {Curve.Widest.FlowCoefficientKv:G3} m3/h",
                    "beyond its curve an opening is a guess (threshold: the ends of the curve)",
                    $"Take a wider or narrower valve, or a fixed restriction beside or before it. {Caution.Deference}",
                    Source.CommonPractice));
            }
            else if (Curve.DeadBandSteps is { } shut && o.Opening.Steps < shut + (CoarseShare * (Curve.Widest.Steps - shut)))
            {
                cautions.Add(new(
                    CautionSeverity.Notice,
                    "Valve nearly closed",
                    $"{o.Duty.Name} at {o.Opening.Steps:F0} steps; it opens at {shut:F0} and is wide open at {Curve.Widest.Steps:F0}",
                    $"in the first {100 * CoarseShare:F0} % of its travel one step changes the flow much, and dirt or ice closes the gap first",
                    $"Take a smaller valve, or a capillary before it that takes a share of the pressure. {Caution.Deference}",
                    Source.CommonPractice));
            }
        }

        return [.. cautions.OrderByDescending(c => c.Severity)];
    }
}
