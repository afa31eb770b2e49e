using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>What a phase separator does in a steady state of a cooler. Immutable and thread-safe.</summary>
public sealed class PhaseSeparation
{
    /// <summary>Kv below which no valve is told, m3/h.</summary>
    private const double LeastKv = 1e-7;

    internal PhaseSeparation(PhaseSeparator separator, CoolerPoint point, BoxExchange exchange)
    {
        SeparatedStreams streams = point.Separated!;
        SeparatedCourse course = (SeparatedCourse)point.Course;
        Arriving = streams.Arriving;
        VaporShare = streams.VaporShare;
        LiquidLevel = separator.LevelAt(1 - VaporShare);
        Vapor = streams.Vapor;
        Liquid = streams.Liquid;
        Pressure high = Arriving.Pressure;
        Pressure low = point.ColdOutlet.Pressure;
        VaporBetween = Vapor.Fluid.AtEnthalpy(high, Vapor.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(course.VaporFall));
        State liquidInlet = Liquid.Fluid.AtEnthalpy(high, Liquid.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(course.LiquidFall));
        LiquidThrottle = new("liquid stream", liquidInlet, low, MolarFlow.FromMolesPerSecond(point.Flow * (1 - VaporShare)));
        BehindLiquidThrottle = Throttle.Expand(liquidInlet, low);
        ReturnBeforeMixing = Vapor.Fluid.AtEnthalpy(low, point.ColdOutlet.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(course.ColdFall));
        MixedReturn = Arriving.Fluid.AtEnthalpy(
            low, MolarEnergy.FromJoulesPerMole((VaporShare * ReturnBeforeMixing.MolarEnthalpy.JoulesPerMole) + ((1 - VaporShare) * liquidInlet.MolarEnthalpy.JoulesPerMole)));
        ColdExchanger = exchange.Cold;
        ColdExchangerRunsBackwards = course.ColdFall < 0;
        try
        {
            LiquidValve = ControlValve.ForFlow(liquidInlet, low, LiquidThrottle.MassFlow, ValveStyle.Needle);
        }
        catch (ArgumentOutOfRangeException)
        {
            // Next to nothing settles.
            LiquidValve = null;
        }
    }

    /// <summary>The whole stream as it enters the vessel.</summary>
    public State Arriving { get; }

    /// <summary>Moles of vapour over moles of the whole.</summary>
    public double VaporShare { get; }

    /// <summary>Share of the vessel that is liquid: as set, or less where next to nothing settles.</summary>
    public double LiquidLevel { get; }

    /// <summary>The vapour, at its dew point; only what it holds can freeze at the cold head.</summary>
    public State Vapor { get; }

    /// <summary>The liquid, at its bubble point; where two settle, both together.</summary>
    public State Liquid { get; }

    /// <summary>The vapour stream between the exchangers.</summary>
    public State VaporBetween { get; }

    /// <summary>What the throttle of the liquid stream passes, with the state before it.</summary>
    public ThrottleDuty LiquidThrottle { get; }

    /// <summary>The needle valve that passes just what settles; null where that is less than a Kv of 1e-7 m3/h.</summary>
    public ControlValve? LiquidValve { get; }

    /// <summary>Behind the throttle of the liquid stream.</summary>
    public State BehindLiquidThrottle { get; }

    /// <summary>The return of the vapour stream behind the cold exchanger.</summary>
    public State ReturnBeforeMixing { get; }

    /// <summary>Both joined, before the warm exchanger.</summary>
    public State MixedReturn { get; }

    /// <summary>The cold exchanger; null where both its streams enter at one temperature.</summary>
    public RecuperatorResult? ColdExchanger { get; }

    /// <summary>Whether the cold head is warmer than the middle: the return is then the hot stream of the cold exchanger and warms the vapour stream.</summary>
    public bool ColdExchangerRunsBackwards { get; }

    /// <summary>What flows in the streams as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant($"Streams of the separator at {Arriving.Temperature.Kelvins:F2} K ({Arriving.Temperature.DegreesCelsius:F2} degC) and {Arriving.Pressure.Bars:F2} bar absolute"),
        ["component, mol %", "whole", "vapour", "liquid"],
        [
            .. Arriving.Fluid.Composition.Components.Select(IReadOnlyList<string> (c, i) =>
            [
                c.Name,
                FormattableString.Invariant($"{100 * Arriving.Fluid.Composition.MoleFractions[i]:F3}"),
                FormattableString.Invariant($"{100 * Vapor.Fluid.Composition.MoleFractions[i]:F3}"),
                FormattableString.Invariant($"{100 * Liquid.Fluid.Composition.MoleFractions[i]:F3}"),
            ]),
            ["share of the flow", "100.000", FormattableString.Invariant($"{100 * VaporShare:F3}"), FormattableString.Invariant($"{100 * (1 - VaporShare):F3}")],
        ]);
}
