using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// A throttle valve or orifice by its flow coefficient Kv and style: flow, size and pressures after IEC 60534-2-1 for liquid, gas and, where the standard
/// has nothing, inlets of two phases. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// <para>
/// Liquid: m = A sqrt(2 rho dp) with the effective area A = 1.9633e-5 m2 for each m3/h of Kv, and dp at most F_L2 (p1 - F_F pv): pv is the bubble pressure at
/// the inlet temperature, F_F = 0.96 - 0.28 sqrt(pv/pc), pc the mole-fraction average of the critical pressures. Gas: m = A Y sqrt(2 x p1 rho1) with
/// Y = 1 - x/(3 F_gamma x_T), x = dp/p1 at most F_gamma x_T, F_gamma = k/1.4, k the isentropic exponent of the real gas. Equations and constants from memory,
/// checked against two worked examples of liquids in the standard (Kv 165 and 238).
/// </para>
/// <para>
/// Two phases (the standard excludes them): the choked flow is that of <see cref="HomogeneousNozzle"/> times an area. The nozzle would need the area A_l to pass
/// what the saturated liquid alone passes when choked, and A_g for the vapour alone; taken is their mean by the volumes of the phases. A_g is 1.377 sqrt(x_T) A for
/// air; A_l comes from F_L and F_F, and is larger than F_L A where a liquid chokes late for want of time to boil. Below choking
/// m = A (1 - b dp/dpc) sqrt(2 rho dp) as for a gas, with b = 1/3 times the share of vapour by volume and dpc from the choked flow. So it passes into the flows of
/// liquid and gas without a step. Liquids beside one another count as one, which boils where vapour first stands beside them. No measurement was at hand; expect 30 %.
/// </para>
/// <para>
/// Viscosity: the flow is multiplied by the Reynolds factor F_R of reduced trims (from memory; the trim taken as small against the body,
/// and the changed expansion factor of laminar gas left out, at most a fifth). It matters below a Kv of about 0.01. Two phases take the viscosity of McAdams.
/// </para>
/// </remarks>
public sealed record ControlValve : IThrottlePart
{
    // Lowest outlet pressure that the solves look at, over that of the inlet; below, every flow is choked.
    private const double LowestOutlet = 1e-3;
    private const double LeastDrop = 1e-10;

    /// <summary>Describes a valve, or a valve at one opening.</summary>
    /// <param name="flowCoefficientKv">Kv, m3/h of water at 1 bar: 1e-7 to 1e5. A coefficient Cv in US units is 1.156 Kv.</param>
    /// <param name="style">How it behaves beside its size.</param>
    /// <exception cref="ArgumentOutOfRangeException">Kv is out of its range.</exception>
    public ControlValve(double flowCoefficientKv, ValveStyle style)
    {
        ArgumentNullException.ThrowIfNull(style);
        FlowCoefficientKv = Guard.InRange(flowCoefficientKv, 1e-7, 1e5, "m3/h (Kv)");
        Style = style;
    }

    /// <summary>Kv, m3/h of water at 1 bar.</summary>
    public double FlowCoefficientKv { get; }

    /// <summary>The same in US units: gallons a minute at 1 psi.</summary>
    public double FlowCoefficientCv => 1.156 * FlowCoefficientKv;

    /// <summary>How it behaves beside its size.</summary>
    public ValveStyle Style { get; }

    /// <summary>The area A of m = A sqrt(2 rho dp).</summary>
    public Area EffectiveArea => Area.FromSquareMeters(FlowCoefficientKv * ValveEquations.AreaPerKv);

    /// <summary>
    /// The valve a flow needs.
    /// </summary>
    /// <param name="inlet">State before it.</param>
    /// <param name="outletPressure">Absolute, below that of the inlet.</param>
    /// <param name="flow">Above zero.</param>
    /// <param name="style">Its style.</param>
    /// <param name="viscosity">Dynamic viscosity at the inlet; null for that of the fluid.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the Kv would be.</exception>
    /// <exception cref="ConvergenceException">The expansion was not found.</exception>
    public static ControlValve ForFlow(State inlet, Pressure outletPressure, MassFlow flow, ValveStyle style, DynamicViscosity? viscosity = null)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        ArgumentNullException.ThrowIfNull(style);
        double outlet = CheckOutlet(inlet.Pressure, outletPressure);
        double wanted = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        double mu = Viscosity(viscosity, inlet);
        double flux = new ValveInlet(inlet, style).FluxTo(outlet).Flux;
        double least = wanted / flux;
        double Passed(double area) => ValveEquations.WithViscosity(area * flux, area, style.PressureRecovery, style.StyleModifier, mu);
        double most = least;
        while (Passed(most) < wanted)
        {
            most *= 2;
            Guard.InRange(most / ValveEquations.AreaPerKv, 0, 1e5, "m3/h (Kv)", nameof(flow));
        }

        double area = most == least ? least : BracketedRoot.Solve(a => Math.Log(Passed(a) / wanted), 0.5 * most, most);
        return new(area / ValveEquations.AreaPerKv, style);
    }

    /// <summary>
    /// The valve that its maker rates by a refrigerating capacity: the flow that brings it, with liquid before the valve.
    /// </summary>
    /// <param name="refrigerant">A pure fluid, or a blend: then by its bubble point when condensing and its dew point when evaporating.</param>
    /// <param name="capacity">Nominal capacity, above zero.</param>
    /// <param name="evaporating">Saturation temperature behind the valve.</param>
    /// <param name="condensing">Saturation temperature before the valve, above that.</param>
    /// <param name="subcooling">Of the liquid before the valve, zero or more.</param>
    /// <param name="superheat">Of the vapour that leaves the evaporator, zero or more; makers state it or take none.</param>
    /// <param name="style">Its style.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or there is no saturation at a temperature.</exception>
    /// <exception cref="ConvergenceException">A state was not found.</exception>
    public static ControlValve FromNominalCapacity(
        WorkingFluid refrigerant, Power capacity, Temperature evaporating, Temperature condensing, TemperatureDelta subcooling, TemperatureDelta superheat, ValveStyle style)
    {
        ArgumentNullException.ThrowIfNull(refrigerant);
        double watts = Guard.Positive((double)capacity.Watts, "W", nameof(capacity));
        Guard.InRange(subcooling.Kelvins, 0, 100, "K", nameof(subcooling));
        Guard.InRange(superheat.Kelvins, 0, 100, "K", nameof(superheat));
        if (!(condensing.Kelvins > evaporating.Kelvins))
        {
            throw new ArgumentOutOfRangeException(
                nameof(condensing), condensing, $"condensing is {condensing.Kelvins:G6} K; it must lie above evaporating, {evaporating.Kelvins:G6} K.");
        }

        Pressure high = refrigerant.BubblePoint(condensing).Pressure;
        Pressure low = refrigerant.DewPoint(evaporating).Pressure;
        State inlet = subcooling.Kelvins > 0
            ? refrigerant.At(Temperature.FromKelvins(condensing.Kelvins - subcooling.Kelvins), high)
            : Saturated(refrigerant.BubblePoint(condensing), PhaseKind.Liquid);
        double leaving = superheat.Kelvins > 0
            ? refrigerant.At(Temperature.FromKelvins(evaporating.Kelvins + superheat.Kelvins), low).SpecificEnthalpy.JoulesPerKilogram
            : Saturated(refrigerant.DewPoint(evaporating), PhaseKind.Vapor).SpecificEnthalpy.JoulesPerKilogram;
        double each = leaving - inlet.SpecificEnthalpy.JoulesPerKilogram;
        return ForFlow(inlet, low, MassFlow.FromKilogramsPerSecond(Guard.Positive(watts / each, "kg/s", nameof(capacity))), style);

        static State Saturated(State point, PhaseKind kind) =>
            new(point.Fluid, point.Result with { Phases = [.. point.Result.Phases.Where(p => p.Fraction > 0 && p.IsVapor == (kind == PhaseKind.Vapor))] });
    }

    /// <summary>The flow to an outlet pressure.</summary>
    /// <param name="inlet">State before the valve.</param>
    /// <param name="outletPressure">Absolute, above zero, not above that of the inlet.</param>
    /// <param name="viscosity">Dynamic viscosity at the inlet; null for that of the fluid.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    /// <exception cref="ConvergenceException">The expansion was not found.</exception>
    public ValveFlow FlowTo(State inlet, Pressure outletPressure, DynamicViscosity? viscosity = null)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        double outlet = Guard.InRange(outletPressure.Pascals, double.Epsilon, inlet.Pressure.Pascals, "Pa absolute", nameof(outletPressure));
        return Flow(new(inlet, Style), outlet, Viscosity(viscosity, inlet));
    }

    IThrottleFlow IThrottlePart.FlowTo(State inlet, Pressure outletPressure) => FlowTo(inlet, outletPressure);

    /// <summary>The outlet pressure at which a flow passes; the highest where the flow is choked.</summary>
    /// <param name="inlet">State before the valve.</param>
    /// <param name="flow">Above zero, at most what chokes.</param>
    /// <param name="viscosity">Dynamic viscosity at the inlet; null for that of the fluid.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is out of its range: the message tells the greatest.</exception>
    /// <exception cref="ConvergenceException">The expansion was not found.</exception>
    public Pressure OutletPressureFor(State inlet, MassFlow flow, DynamicViscosity? viscosity = null)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        double wanted = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        double mu = Viscosity(viscosity, inlet);
        ValveInlet from = new(inlet, Style);
        double p1 = from.Pressure;
        double PassedAt(double drop) => Flow(from, p1 - drop, mu).MassFlow.KilogramsPerSecond;
        double greatestDrop = p1 * (1 - LowestOutlet);
        double greatest = PassedAt(greatestDrop);
        double leastDrop = p1 * LeastDrop;
        double least = PassedAt(leastDrop);
        if (!(wanted >= least && wanted <= greatest))
        {
            throw new ArgumentOutOfRangeException(
                nameof(flow), wanted, $"flow is {wanted:G9} kg/s; from {inlet.Pressure.Bars:G6} bar absolute a Kv of {FlowCoefficientKv:G6} m3/h passes {least:G3} to {greatest:G6} kg/s.");
        }

        // Where it chokes many pressures pass the greatest flow: the bracket closes on the highest from above.
        double shrunk = wanted * (1 - 1e-12);
        double low = Math.Log(leastDrop);
        double high = Math.Log(greatestDrop);
        (double a, _) = BracketedRoot.Narrow(
            y => Math.Log(PassedAt(Math.Exp(y)) / shrunk), low, Math.Log(least / shrunk), high, Math.Log(greatest / shrunk), (x, y) => y - x < 1e-15);
        return Pressure.FromPascals(p1 - Math.Exp(a));
    }

    /// <summary>
    /// The inlet pressure at which a flow passes, for an inlet of one temperature. Where the flow jumps there, as at the vapour pressure of a pure fluid, the
    /// pressure of the jump: the inlet is then partly liquid.
    /// </summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="inletTemperature">Its temperature before the valve.</param>
    /// <param name="outletPressure">Absolute.</param>
    /// <param name="flow">Above zero.</param>
    /// <param name="highest">Highest inlet pressure to look at, absolute, above the outlet pressure: what the machine may hold.</param>
    /// <param name="viscosity">Dynamic viscosity at the inlet; null for that of the fluid.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the flow does not pass at the highest pressure.</exception>
    /// <exception cref="ConvergenceException">The expansion was not found.</exception>
    public Pressure InletPressureFor(
        WorkingFluid fluid, Temperature inletTemperature, Pressure outletPressure, MassFlow flow, Pressure highest, DynamicViscosity? viscosity = null)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        double wanted = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        double outlet = CheckOutlet(highest, outletPressure);
        double greatest = PassedAt(highest.Pascals);
        double lowDrop = outlet * LeastDrop;
        double least = PassedAt(outlet + lowDrop);
        if (!(wanted >= least && wanted <= greatest))
        {
            throw new ArgumentOutOfRangeException(
                nameof(flow), wanted, $"flow is {wanted:G9} kg/s; at {inletTemperature.Kelvins:G6} K and up to {highest.Bars:G6} bar absolute a Kv of {FlowCoefficientKv:G6} m3/h passes {least:G3} to {greatest:G6} kg/s.");
        }

        double drop = Math.Exp(BracketedRoot.Solve(
            y => Math.Log(PassedAt(outlet + Math.Exp(y)) / wanted), Math.Log(lowDrop), Math.Log(highest.Pascals - outlet), 1e-15));
        return Pressure.FromPascals(outlet + drop);

        double PassedAt(double p1) => FlowTo(fluid.At(inletTemperature, Pressure.FromPascals(p1)), outletPressure, viscosity).MassFlow.KilogramsPerSecond;
    }

    /// <summary>Flow in solvers: from a prepared inlet, pressures in Pa, viscosity in Pa s.</summary>
    internal ValveFlow Flow(ValveInlet inlet, double outlet, double viscosity)
    {
        (double flux, bool choked) = inlet.FluxTo(outlet);
        double area = EffectiveArea.SquareMeters;
        double turbulent = area * flux;
        if (!double.IsFinite(turbulent))
        {
            throw new ConvergenceException("Valve flow", $"{inlet.State.Fluid} from {inlet.State} to {outlet:G9} Pa", double.PositiveInfinity, "Report this case.");
        }

        double flow = ValveEquations.WithViscosity(turbulent, area, Style.PressureRecovery, Style.StyleModifier, viscosity);
        return new(
            this,
            inlet.State,
            Pressure.FromPascals(outlet),
            MassFlow.FromKilogramsPerSecond(flow),
            choked,
            turbulent > 0 ? flow / turbulent : 1,
            ValveEquations.Reynolds(flow, area, Style.PressureRecovery, Style.StyleModifier, viscosity));
    }

    private static double Viscosity(DynamicViscosity? viscosity, State inlet) =>
        viscosity is { } given ? Guard.Positive(given.PascalSeconds, "Pa s", nameof(viscosity)) : PhaseViscosity.OfState(inlet);

    private static double CheckOutlet(Pressure inlet, Pressure outletPressure) => outletPressure.Pascals > 0 && outletPressure.Pascals < inlet.Pascals
        ? outletPressure.Pascals
        : throw new ArgumentOutOfRangeException(
            nameof(outletPressure), outletPressure, $"outletPressure is {outletPressure.Bars:G6} bar absolute; it must be above zero and below the inlet pressure, {inlet.Bars:G6} bar.");
}
