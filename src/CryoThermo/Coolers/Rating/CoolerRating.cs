using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>What a cooler does with a charge in a room. Immutable and thread-safe.</summary>
public sealed class CoolerRating
{
    /// <summary>Flows of throttle and compressor that differ by less count as one.</summary>
    private const double LargestToldAsNone = 1e-3;

    internal CoolerRating(
        Cooler cooler,
        CoolerCharge charge,
        Temperature ambient,
        Power load,
        IReadOnlyList<CoolerState> steadyStates,
        CoolerState? reached,
        CoolerState? noLoad,
        IReadOnlyList<CoolerCurvePoint> curve,
        CoolerObstacle? obstacle,
        IReadOnlyList<string> remarks)
    {
        Cooler = cooler;
        Charge = charge;
        AmbientTemperature = ambient;
        Load = load;
        SteadyStates = steadyStates;
        Reached = reached;
        NoLoad = noLoad;
        Curve = curve;
        Obstacle = obstacle;
        Remarks = [.. Mismatched(curve), .. remarks];
        CapacityError = charge.Fluid.Model.CapacityErrorOf(charge.Fluid.Composition);
        Cautions = Assess(cooler, charge, ambient, noLoad ?? reached, reached ?? noLoad, curve);
    }

    /// <summary>The cooler.</summary>
    public Cooler Cooler { get; }

    /// <summary>The charge.</summary>
    public CoolerCharge Charge { get; }

    /// <summary>The room.</summary>
    public Temperature AmbientTemperature { get; }

    /// <summary>The load asked for.</summary>
    public Power Load { get; }

    /// <summary>Every steady state with the load over the cold temperatures of the curve, the warmest first.</summary>
    public IReadOnlyList<CoolerState> SteadyStates { get; }

    /// <summary>The state in which the cooler comes to rest when it starts warm with the load on: the warmest that is stable. Null where it carries the load nowhere.</summary>
    public CoolerState? Reached { get; }

    /// <summary>The same without load: the lowest temperature reached from warm. Null where the leak alone is too much, or the curve ends before.</summary>
    public CoolerState? NoLoad { get; }

    /// <summary>Cooling over cold temperature, from warm to cold.</summary>
    public IReadOnlyList<CoolerCurvePoint> Curve { get; }

    /// <summary>What keeps the load from being carried; null where it is.</summary>
    public CoolerObstacle? Obstacle { get; }

    /// <summary>Known error of every cooling figure; null for a model without one on record.</summary>
    public CapacityError? CapacityError { get; }

    /// <summary>What the figures leave out, and why the cooler stops where it stops.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>What can hurt people or the machine, at one standard atmosphere outside.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The curve as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant($"Cooling of {Charge.Amount.Moles:G4} mol, room at {AmbientTemperature.DegreesCelsius:F1} degC"),
        ["cold head, K", "cold head, degC", "net cooling, W", "gross cooling, W", "suction, bar absolute", "discharge, bar absolute", "flow, mmol/s", "power, W", "discharge, degC", "throttle's flow off, %", "circulating"],
        [
            .. Curve.Select(p => (IReadOnlyList<string>)
            [
                FormattableString.Invariant($"{p.ColdTemperature.Kelvins:F1}"),
                FormattableString.Invariant($"{p.ColdTemperature.DegreesCelsius:F1}"),
                FormattableString.Invariant($"{p.NetCooling.Watts:F2}"),
                FormattableString.Invariant($"{p.GrossCooling.Watts:F2}"),
                FormattableString.Invariant($"{p.SuctionPressure.Bars:F3}"),
                FormattableString.Invariant($"{p.DischargePressure.Bars:F3}"),
                FormattableString.Invariant($"{1000 * p.Flow.MolesPerSecond:F2}"),
                FormattableString.Invariant($"{p.Power.Watts:F1}"),
                FormattableString.Invariant($"{p.DischargeTemperature.DegreesCelsius:F1}"),
                FormattableString.Invariant($"{100 * p.FlowMismatch:+0.0;-0.0;0.0}"),
                string.Join("/", p.CirculatingComposition.MoleFractions.Select(z => FormattableString.Invariant($"{z:F3}"))),
            ]),
        ]);

    // Where the throttle's flow jumps the curve passes over it: told, since a reader takes each point for a state that can run.
    private static IEnumerable<string> Mismatched(IReadOnlyList<CoolerCurvePoint> curve)
    {
        CoolerCurvePoint[] off = [.. curve.Where(p => Math.Abs(p.FlowMismatch) > LargestToldAsNone)];
        if (off.Length > 0)
        {
            yield return FormattableString.Invariant(
                $"At {string.Join(", ", off.Select(p => FormattableString.Invariant($"{p.ColdTemperature.Kelvins:F1} K ({100 * p.FlowMismatch:+0.0;-0.0} %)")))} the throttle's computed flow is off that of the compressor by the percentage told: no pressures were found at which both carry one flow. The curve passes over these points; their figures are as uncertain as that.");
        }
    }

    // Of this circuit and those above, the gravest first. A warm start counts as well as the states, and on the low side standstill.
    private static IReadOnlyList<Caution> Assess(
        Cooler cooler, CoolerCharge charge, Temperature ambient, CoolerState? coldest, CoolerState? hottest, IReadOnlyList<CoolerCurvePoint> curve)
    {
        CoolerCurvePoint? last = curve.Count > 0 ? curve[^1] : null;
        IReadOnlyList<Caution> own = CautionRules.Assess(new Circuit
        {
            Contents = [.. charge.Fluid.Composition.Components.Select((c, i) => new SubstanceShare(c.Name, charge.Fluid.Composition.MoleFractions[i]))],
            LowPressure = coldest?.SuctionPressure ?? last!.SuctionPressure,
            HighPressure = hottest?.DischargePressure ?? last!.DischargePressure,
            LocalAtmosphere = Pressure.FromPascals(101325),
            ColdestSurface = coldest?.Loop.Select(p => p.State.Temperature).MinBy(t => t.Kelvins) ?? last!.ColdTemperature,
            DischargeTemperature = hottest?.Compression.Discharge.Temperature ?? last!.DischargeTemperature,
            DischargeTemperatureLimit = cooler.Limits.DischargeLine is { IsStated: true } line ? Temperature.FromKelvins(line.Far) : null,
            HighPressureReliefSetting = cooler.HighSideRelief,
            ColdLiquidCanBeShutIn = true,
            Parts = [.. Rated()],
        });
        return coldest?.UpperCooler is { } above && hottest?.UpperCooler is { } aboveHottest && cooler.PreCooling?.Upper is { } upper
            ? [.. own.Concat(Assess(upper.Cooler, upper.Charge, ambient, above, aboveHottest, []).Select(c => c with { Title = "Upper cooler: " + c.Title })).OrderByDescending(c => c.Severity)]
            : own;

        IEnumerable<CircuitPart> Rated()
        {
            if (cooler.HighSideRating is { } high)
            {
                yield return new("weakest part of the high side", ambient, Greatest([.. curve.Select(p => p.DischargePressure), .. States().Select(s => s.DischargePressure)]), Rating: high);
            }

            if (cooler.LowSideRating is { } low)
            {
                yield return new("weakest part of the low side", ambient, Greatest([.. curve.Select(p => p.SuctionPressure), .. States().Select(s => s.SuctionPressure), .. Standing()]), Rating: low);
            }
        }

        IEnumerable<CoolerState> States() => new[] { coldest, hottest }.OfType<CoolerState>();

        IEnumerable<Pressure> Standing() =>
            charge.Fluid.TryAtDensity(ambient, Molarity.FromMolesPerCubicMeter(charge.Amount.Moles / cooler.TotalVolume), out State? standing) ? [standing.Pressure] : [];

        static Pressure Greatest(IEnumerable<Pressure> pressures) => pressures.MaxBy(p => p.Pascals);
    }
}
