using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// A cold box with a phase separator in its steady state at one cold temperature. Every state is a flash of its own; duties are differences of their enthalpies. Immutable and thread-safe.
/// </summary>
public sealed class SeparatorCycleResult
{
    /// <summary>Where isobar and flash differ by more, J/mol, the stream changes phase at one temperature and the enthalpy tells its state; the isobars' stated error.</summary>
    private const double Jump = 1;

    internal SeparatorCycleResult(SeparatorCycle cycle, SeparatorColdBoxState found)
    {
        Cycle = cycle;
        (WorkingFluid vapor, WorkingFluid liquid) = (found.Vapor, found.Liquid);
        (Pressure low, Pressure high) = (cycle.LowPressure, cycle.HighPressure);
        double moles = cycle.Flow.MolesPerSecond;
        double ofVapor = moles * found.VaporShare;
        double ofLiquid = moles * (1 - found.VaporShare);
        double gain = found.VaporMiddleEnthalpy - found.VaporThrottleInletEnthalpy;
        ColdTemperature = Temperature.FromKelvins(found.ColdTemperature);
        MiddleTemperature = Temperature.FromKelvins(found.MiddleTemperature);

        Arriving = cycle.Fluid.At(cycle.Separator, high);
        SeparatedVapor = vapor.At(cycle.Separator, high);
        SeparatedLiquid = liquid.At(cycle.Separator, high);
        VaporBetween = Settled(vapor, MiddleTemperature, high, found.VaporMiddleEnthalpy);
        State liquidInlet = Settled(liquid, MiddleTemperature, high, found.LiquidThrottleInletEnthalpy);
        State vaporInlet = vapor.AtEnthalpy(high, VaporBetween.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(gain));
        BehindVaporThrottle = Throttle.Expand(vaporInlet, low);
        BehindLiquidThrottle = Throttle.Expand(liquidInlet, low);
        ColdHeadOutlet = Settled(vapor, ColdTemperature, low, found.ColdReturnEnthalpy - gain);
        ReturnBeforeMixing = vapor.AtEnthalpy(low, ColdHeadOutlet.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(gain));
        double vaporDuty = ofVapor * (SeparatedVapor.MolarEnthalpy - VaporBetween.MolarEnthalpy).JoulesPerMole;
        double liquidDuty = ofLiquid * (SeparatedLiquid.MolarEnthalpy - liquidInlet.MolarEnthalpy).JoulesPerMole;
        double mixed = ((ofVapor * ReturnBeforeMixing.MolarEnthalpy.JoulesPerMole) + (ofLiquid * liquidInlet.MolarEnthalpy.JoulesPerMole)) / moles;
        MixedReturn = cycle.Fluid.AtEnthalpy(low, MolarEnergy.FromJoulesPerMole(mixed));
        Suction = cycle.Fluid.AtEnthalpy(low, MolarEnergy.FromJoulesPerMole(mixed + ((vaporDuty + liquidDuty) / moles)));
        Cooling = Power.FromWatts(ofVapor * (ColdHeadOutlet.MolarEnthalpy - vaporInlet.MolarEnthalpy).JoulesPerMole);
        VaporThrottle = new("vapour stream", vaporInlet, low, MolarFlow.FromMolesPerSecond(ofVapor));
        LiquidThrottle = new("liquid stream", liquidInlet, low, MolarFlow.FromMolesPerSecond(ofLiquid));

        WarmExchanger = Recuperator.Of(
            found.WarmExchanger, Math.Clamp(found.WarmDuty, 0, found.WarmExchanger.GreatestDuty), cycle.WarmConductanceWattsPerKelvin);
        ColdExchanger = found.ColdExchanger is { } exchanger
            ? Recuperator.Of(exchanger, Math.Clamp(Math.Abs(found.ColdDuty), 0, exchanger.GreatestDuty), cycle.ColdConductanceWattsPerKelvin)
            : null;
        ColdExchangerRunsBackwards = found.ColdDuty < 0;

        double warm = (moles * Rise(MixedReturn, Suction)) + (ofVapor * Rise(SeparatedVapor, VaporBetween)) + (ofLiquid * Rise(SeparatedLiquid, liquidInlet));
        double cold = ofVapor * (Rise(ColdHeadOutlet, ReturnBeforeMixing) + Rise(VaporBetween, vaporInlet));
        double mixing = (moles * Figure(MixedReturn)) - (ofVapor * Figure(ReturnBeforeMixing)) - (ofLiquid * Figure(BehindLiquidThrottle));
        double separation = (ofVapor * Figure(SeparatedVapor)) + (ofLiquid * Figure(SeparatedLiquid)) - (moles * Figure(Arriving));
        EntropyProductionPerSecond = new(
            Entropy.FromJoulesPerKelvin(separation),
            Entropy.FromJoulesPerKelvin(warm),
            Entropy.FromJoulesPerKelvin(ofLiquid * Rise(liquidInlet, BehindLiquidThrottle)),
            Entropy.FromJoulesPerKelvin(mixing),
            Entropy.FromJoulesPerKelvin(cold),
            Entropy.FromJoulesPerKelvin(ofVapor * Rise(vaporInlet, BehindVaporThrottle)));
        CapacityError = cycle.Fluid.Model.CapacityErrorOf(cycle.Fluid.Composition);

        static double Figure(State state) => state.MolarEntropy.JoulesPerMoleKelvin;

        static double Rise(State from, State to) => Figure(to) - Figure(from);
    }

    /// <summary>The cycle this is a state of.</summary>
    public SeparatorCycle Cycle { get; }

    /// <summary>Temperature of the return leaving the cold head.</summary>
    public Temperature ColdTemperature { get; }

    /// <summary>Temperature of both high-pressure streams between the exchangers.</summary>
    public Temperature MiddleTemperature { get; }

    /// <summary>Gross cooling at the cold head: what it takes up of load and leak. Negative where the cooler cannot hold the temperature.</summary>
    public Power Cooling { get; }

    /// <summary>How far the model's capacities are known to be off for this fluid; null for a model without a record.</summary>
    public CapacityError? CapacityError { get; }

    /// <summary>The whole fluid at the separator.</summary>
    public State Arriving { get; }

    /// <summary>Its vapour, at its dew point.</summary>
    public State SeparatedVapor { get; }

    /// <summary>Its liquid, at its bubble point.</summary>
    public State SeparatedLiquid { get; }

    /// <summary>The vapour stream between the exchangers, by then partly liquid as a rule.</summary>
    public State VaporBetween { get; }

    /// <summary>Behind the throttle of the vapour stream, at the cold head's inlet.</summary>
    public State BehindVaporThrottle { get; }

    /// <summary>The return of the vapour stream leaving the cold head.</summary>
    public State ColdHeadOutlet { get; }

    /// <summary>The same behind the cold exchanger.</summary>
    public State ReturnBeforeMixing { get; }

    /// <summary>Behind the throttle of the liquid stream.</summary>
    public State BehindLiquidThrottle { get; }

    /// <summary>Both joined, before the warm exchanger.</summary>
    public State MixedReturn { get; }

    /// <summary>Behind the warm exchanger, towards the compressor.</summary>
    public State Suction { get; }

    /// <summary>What the throttle of the vapour stream has to pass, with the state before it.</summary>
    public ThrottleDuty VaporThrottle { get; }

    /// <summary>The same of the liquid stream.</summary>
    public ThrottleDuty LiquidThrottle { get; }

    /// <summary>The warm exchanger: duty, pinch and temperatures along it; vapour and liquid are its hot stream together.</summary>
    public RecuperatorResult WarmExchanger { get; }

    /// <summary>The cold exchanger; null where both its streams enter at one temperature and nothing is exchanged.</summary>
    public RecuperatorResult? ColdExchanger { get; }

    /// <summary>True where the cold head is warmer than the middle: the return is then the hot stream of the cold exchanger and warms the vapour stream.</summary>
    public bool ColdExchangerRunsBackwards { get; }

    /// <summary>Entropy produced each second, part by part.</summary>
    public SeparatorEntropyProduction EntropyProductionPerSecond { get; }

    /// <summary>The states along both streams, with the flow at each.</summary>
    public IReadOnlyList<SeparatorPoint> Points =>
    [
        new("separator", Arriving, Cycle.Flow),
        new("vapour from the separator", SeparatedVapor, VaporThrottle.Flow),
        new("liquid from the separator", SeparatedLiquid, LiquidThrottle.Flow),
        new("liquid before its throttle", LiquidThrottle.Inlet, LiquidThrottle.Flow),
        new("liquid behind its throttle", BehindLiquidThrottle, LiquidThrottle.Flow),
        new("vapour stream between the exchangers", VaporBetween, VaporThrottle.Flow),
        new("vapour stream before its throttle", VaporThrottle.Inlet, VaporThrottle.Flow),
        new("cold head inlet", BehindVaporThrottle, VaporThrottle.Flow),
        new("cold head outlet", ColdHeadOutlet, VaporThrottle.Flow),
        new("return before mixing", ReturnBeforeMixing, VaporThrottle.Flow),
        new("mixed return", MixedReturn, Cycle.Flow),
        new("suction", Suction, Cycle.Flow),
    ];

    /// <summary>What to mind of the circuit at one standard atmosphere outside, the gravest first; the discharge is not known here.</summary>
    public IReadOnlyList<Caution> Cautions => CautionRules.Assess(new Circuit
    {
        Contents = [.. Cycle.Fluid.Composition.Components.Select((c, i) => new SubstanceShare(c.Name, Cycle.Fluid.Composition.MoleFractions[i]))],
        LowPressure = Cycle.LowPressure,
        HighPressure = Cycle.HighPressure,
        LocalAtmosphere = Pressure.FromPascals(101325),
        ColdestSurface = Points.MinBy(p => p.State.Temperature.Kelvins)!.State.Temperature,
    });

    /// <summary>States and flows as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"Cold box with a separator, {Cycle.Fluid.Composition}: {Cooling.Watts:F2} W at {ColdTemperature.Kelvins:F2} K",
        ["place", "K", "bar absolute", "vapour, mol %", "g/s", "J/mol"],
        [.. Points.Select(IReadOnlyList<string> (p) =>
        [
            p.Place,
            $"{p.State.Temperature.Kelvins:F2}",
            $"{p.State.Pressure.Bars:F3}",
            $"{100 * p.State.VaporFraction:F1}",
            $"{p.MassFlow.GramsPerSecond:F4}",
            $"{p.State.MolarEnthalpy.JoulesPerMole:F1}",
        ])]);

    /// <summary>What circulates in the streams as a table for notebooks and reports.</summary>
    public ResultTable CompositionTable() => new(
        $"Streams behind the separator at {Cycle.Separator.Kelvins:F2} K",
        ["component, mol %", "whole", "vapour", "liquid"],
        [
            .. Cycle.Fluid.Composition.Components.Select(IReadOnlyList<string> (c, i) =>
            [
                c.Name,
                $"{100 * Cycle.Fluid.Composition.MoleFractions[i]:F3}",
                $"{100 * Cycle.Vapor.Composition.MoleFractions[i]:F3}",
                $"{100 * Cycle.Liquid.Composition.MoleFractions[i]:F3}",
            ]),
            ["share of the flow", "100.000", $"{100 * Cycle.VaporShare:F3}", $"{100 * (1 - Cycle.VaporShare):F3}"],
        ]);

    /// <summary>The state at a temperature; where the stream changes phase there, the one with an enthalpy in J/mol.</summary>
    private static State Settled(WorkingFluid fluid, Temperature temperature, Pressure pressure, double enthalpy)
    {
        State state = fluid.At(temperature, pressure);
        return Math.Abs(state.MolarEnthalpy.JoulesPerMole - enthalpy) <= Jump ? state : fluid.AtEnthalpy(pressure, MolarEnergy.FromJoulesPerMole(enthalpy));
    }
}
