using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random throttles: the flow is found or refused with its reason; it rises with Kv, with the inlet pressure and as the outlet pressure falls; it keeps below what
/// the throat passes without friction; size and pressures return to it.
/// </summary>
public static class ValveSoak
{
    private const double RoundTrip = 1e-9;

    // Rounding of flashes on both sides of a step.
    private const double Slack = 1e-7;

    // The expansion factor of the standard lies up to 2.9 % above the nozzle for gases of one atom, and dense fluids are held at a tenth.
    private const double Allowance = 1.1 + 1e-6;

    private static readonly string[] Pure = ["nitrogen", "argon", "methane", "ethane", "propane", "isobutane", "R-134a", "R-23", "carbon dioxide", "helium"];

    /// <summary>The outcome counts: 1 one phase, 2 several phases before the valve, 3 refused.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        CaseRandom random = new(seed + 7919, number);
        SoakCase soak = number % 40 == 7 ? SoakCase.CreateMultiFluid(seed, number) : SoakCase.Create(seed, number);
        WorkingFluid fluid = number % 5 == 3 ? WorkingFluid.Pure(Pure[random.Whole(Pure.Length)]) : soak.Fluid;
        double p1 = 1e5 * Math.Pow(60, random.Uniform());
        double p2 = p1 * (random.Whole(2) == 0 ? random.Uniform(0.03, 0.5) : random.Uniform(0.5, 0.999));
        double temperature = fluid == soak.Fluid ? soak.Temperature : random.Uniform(0.55, 1.6) * fluid.Kernel.Equation.CriticalTemperature(0);
        ControlValve valve = new(
            Math.Pow(10, random.Uniform(-5, 1)),
            random.Whole(4) == 0
                ? Orifice.FromBore(Length.FromMillimeters(1), (OrificeEdge)random.Whole(3)).Valve.Style
                : new("random", random.Uniform(0.6, 1), random.Uniform(0.25, 0.84), random.Uniform(0.3, 1), Source.CommonPractice));
        DynamicViscosity? viscosity = random.Whole(2) == 0 ? null : DynamicViscosity.FromPascalSeconds(Math.Pow(10, random.Uniform(-5.3, -3)));
        string inputs = $"seed {seed} case {number}: {fluid}, {string.Join(" ", fluid.Composition.MoleFractions.Select(x => $"{x:R}"))}, {temperature:R} K, {p1:R} -> {p2:R} Pa, Kv {valve.FlowCoefficientKv:R}, F_L {valve.Style.PressureRecovery:R}, x_T {valve.Style.PressureRatioFactor:R}, {viscosity?.PascalSeconds:R} Pa s";
        if (!fluid.TryAt(Temperature.FromKelvins(temperature), Pressure.FromPascals(p1), out State? inlet))
        {
            return new(null, 3, false, 0);
        }

        int phases = inlet.Phases.Count(p => p.Fraction > 0);
        if (inlet.HasUnresolvedPhase)
        {
            return new(null, Math.Min(phases, 2), true, 0);
        }

        Pressure outlet = Pressure.FromPascals(p2);
        ValveFlow flow;
        try
        {
            flow = valve.FlowTo(inlet, outlet, viscosity);
        }
        catch (ConvergenceException refused) when (refused.Advice.StartsWith("The model has no state", StringComparison.Ordinal))
        {
            return new(null, 3, false, 0);
        }

        double m = flow.MassFlow.KilogramsPerSecond;
        if (!(m > 0 && double.IsFinite(m)))
        {
            return new($"{inputs}: flow {m:R}", phases, false, 0);
        }

        double wider = new ControlValve(valve.FlowCoefficientKv * 1.01, valve.Style).FlowTo(inlet, outlet, viscosity).MassFlow.KilogramsPerSecond;
        if (!(wider > m))
        {
            return new($"{inputs}: {m:R} kg/s, and {wider:R} through a Kv 1 % larger", phases, false, 0);
        }

        double lower = valve.FlowTo(inlet, Pressure.FromPascals(p2 + (0.1 * (p1 - p2))), viscosity).MassFlow.KilogramsPerSecond;
        if (!(lower <= m * (1 + Slack)))
        {
            return new($"{inputs}: {m:R} kg/s, and {lower:R} to a higher outlet pressure", phases, false, 0);
        }

        if (fluid.TryAt(inlet.Temperature, Pressure.FromPascals(p1 * 1.02), out State? higher) && !higher.HasUnresolvedPhase)
        {
            // Of one viscosity: that of a cold blend may rise faster with the pressure than the drop does.
            DynamicViscosity held = viscosity ?? DynamicViscosity.FromMicropascalSeconds(10);
            double from = valve.FlowTo(inlet, outlet, held).MassFlow.KilogramsPerSecond;
            double more = valve.FlowTo(higher, outlet, held).MassFlow.KilogramsPerSecond;
            if (!(more >= from * (1 - Slack)))
            {
                return new($"{inputs}: {from:R} kg/s from {inlet}, and {more:R} from {higher}", phases, false, 0);
            }
        }

        if (Bound(inlet, flow, p2) is { } bound && !(m <= bound))
        {
            return new($"{inputs}: {m:R} kg/s, without friction {bound:R}, {inlet}", phases, false, 0);
        }

        double kv = ControlValve.ForFlow(inlet, outlet, flow.MassFlow, valve.Style, viscosity).FlowCoefficientKv;
        double worst = Math.Abs((kv / valve.FlowCoefficientKv) - 1);
        double again = new ControlValve(kv, valve.Style).FlowTo(inlet, outlet, viscosity).MassFlow.KilogramsPerSecond;
        worst = Math.Max(worst, Math.Abs((again / m) - 1));
        if (number % 4 == 0)
        {
            Pressure found = valve.OutletPressureFor(inlet, flow.MassFlow, viscosity);
            worst = Math.Max(worst, Math.Abs((valve.FlowTo(inlet, found, viscosity).MassFlow.KilogramsPerSecond / m) - 1));
        }

        if (number % 20 == 0)
        {
            // The flow can be the same over a span of pressures; and a pure fluid may boil between.
            Pressure found = valve.InletPressureFor(fluid, inlet.Temperature, outlet, flow.MassFlow, Pressure.FromPascals(p1 * 1.5), viscosity);
            double back = valve.FlowTo(fluid.At(inlet.Temperature, found), outlet, viscosity).MassFlow.KilogramsPerSecond;
            worst = Math.Max(worst, Math.Abs((back / m) - 1));
        }

        return worst <= RoundTrip ? new(null, phases > 1 ? 2 : 1, false, worst) : new($"{inputs}: returns to {worst:E2} only, {inlet}", phases, false, worst);
    }

    // A liquid: the narrowest place at no pressure. One other phase: the frictionless nozzle. Several: the densest phase alone.
    private static double? Bound(State inlet, ValveFlow flow, double p2)
    {
        double area = flow.Valve.EffectiveArea.SquareMeters;
        double densest = inlet.Phases.Max(p => p.Density.KilogramsPerCubicMeter);
        if (inlet.Phases.Count > 1)
        {
            return area * Math.Sqrt(2 * densest * (inlet.Pressure.Pascals - p2)) * Math.Max(1, ValveInlet.GasThroatShare(flow.Valve.Style));
        }

        if (new ValveInlet(inlet, flow.Valve.Style).IsLiquid || !new HomogeneousNozzle(inlet).TryChoked(out NozzleFlow? choked))
        {
            return area * flow.Valve.Style.PressureRecovery * Math.Sqrt(2 * densest * inlet.Pressure.Pascals);
        }

        return area * Allowance * Math.Max(1, ValveInlet.GasThroatShare(flow.Valve.Style)) * choked.Flux.KilogramsPerSecondPerSquareMeter;
    }
}
