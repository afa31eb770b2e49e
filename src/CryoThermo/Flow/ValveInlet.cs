using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// What passes a restriction of one style from one inlet, per effective area and without friction of viscosity; kept for solves over outlet pressure.
/// </summary>
/// <remarks>
/// One phase: a liquid, that is a state on the liquid side of a bubble point at its temperature, by the equations of liquid; anything else by those of
/// gas, with the isentropic exponent rho c2/p of the real fluid for the ratio of heat capacities: the same for a perfect gas, and large for a dense
/// fluid, which then passes as a liquid does. Several phases: the homogeneous nozzle, times the areas that it would need for each phase alone to pass
/// what the equations give, in the proportion of their volumes. So both limits are met at any outlet pressure.
/// </remarks>
internal sealed class ValveInlet
{
    /// <summary>A dense fluid without a bubble point never passes more than the frictionless nozzle by this factor; a gas near ideal does not reach it.</summary>
    private const double DenseAllowance = 1.1;

    /// <summary>Above this compressibility factor a vapour is far from a bubble point.</summary>
    private const double GasCompressibility = 0.6;

    private readonly ValveStyle style;
    private readonly HomogeneousNozzle nozzle;
    private readonly (Stream Stream, double VolumeShare)[] streams;

    public ValveInlet(State state, ValveStyle style)
    {
        State = state;
        this.style = style;
        nozzle = new(state);
        PhaseResult[] phases = [.. state.Result.Phases.Where(p => p.Fraction > 0)];
        streams = phases.Length == 1
            ? [(new Stream(state, nozzle, style, isSaturated: false), 1)]
            : [.. phases.Select(p => (new Stream(Alone(state, p), null, style, isSaturated: true), p.Fraction / p.Figures.MolarDensity / state.Result.Totals.Volume))];
    }

    public State State { get; }

    public double Pressure => State.Pressure.Pascals;

    public double Density => State.Density.KilogramsPerCubicMeter;

    /// <summary>Flux in kg/(s m2) of effective area to an outlet pressure in Pa, and whether a lower one brings no more.</summary>
    public (double Flux, bool IsChoked) FluxTo(double outlet)
    {
        if (outlet >= Pressure)
        {
            return (0, false);
        }

        if (streams is [(Stream only, _)])
        {
            return only.FluxTo(outlet);
        }

        NozzleFlow flow = nozzle.FlowTo(UnitsNet.Pressure.FromPascals(outlet));
        double area = 0;
        bool choked = flow.IsChoked;
        foreach ((Stream stream, double share) in streams)
        {
            (double flux, bool isChoked) = stream.FluxTo(outlet);
            area += share * flux / stream.Nozzle.FluxTo(outlet);
            choked &= isChoked;
        }

        return (area * flow.Flux.KilogramsPerSecondPerSquareMeter, choked);
    }

    /// <summary>Area of the narrowest place of the stream over the effective area: F_L for a liquid, and for gas that of a nozzle that chokes with the same flow.</summary>
    public double ThroatShare => streams.Sum(s => s.VolumeShare * (s.Stream.IsLiquid ? style.PressureRecovery : GasThroatShare(style)));

    public static double GasThroatShare(ValveStyle style) => 2.0 / 3 * Math.Sqrt(2 * style.PressureRatioFactor) / ValveEquations.AirChokedFlux;

    private static State Alone(State state, PhaseResult phase)
    {
        WorkingFluid fluid = state.Fluid.WithFractions(phase.MoleFractions);
        PhaseFigures f = phase.Figures;
        return new(fluid, new(
            state.Result.Temperature,
            state.Result.Pressure,
            [phase with { Fraction = 1 }],
            new(f.Enthalpy, f.Entropy, 1 / f.MolarDensity, f.IsobaricHeatCapacity),
            false,
            0,
            0));
    }

    /// <summary>One phase.</summary>
    private sealed class Stream
    {
        private readonly ValveStyle style;
        private readonly double pressure;
        private readonly double density;
        private readonly double exponent;
        private readonly double? chokedDrop;
        private readonly bool isBounded;
        private readonly double bound;

        public Stream(State state, HomogeneousNozzle? nozzle, ValveStyle style, bool isSaturated)
        {
            this.style = style;
            Nozzle = nozzle ?? new(state);
            Phase phase = state.Phases.First(p => p.Fraction > 0);
            pressure = state.Pressure.Pascals;
            density = phase.Density.KilogramsPerCubicMeter;
            double sound = phase.SpeedOfSound.MetersPerSecond;
            exponent = density * sound * sound / pressure;
            bool isGas = phase.Kind == PhaseKind.Vapor && (isSaturated || phase.CompressibilityFactor > GasCompressibility);
            isBounded = !(phase.Kind == PhaseKind.Vapor && phase.CompressibilityFactor > GasCompressibility);
            double? vaporPressure = isGas ? null
                : isSaturated ? pressure
                : state.Fluid.TryBubblePoint(state.Temperature, out State? bubble) && bubble.Pressure.Pascals <= pressure * (1 + 1e-9) ? bubble.Pressure.Pascals
                : null;
            if (vaporPressure is { } pv)
            {
                chokedDrop = ValveEquations.LiquidChokedDrop(pressure, style.PressureRecovery, pv, PseudoCriticalPressure(state.Fluid));
            }

            bound = DenseAllowance * Math.Max(1, GasThroatShare(style));
        }

        public HomogeneousNozzle Nozzle { get; }

        public bool IsLiquid => chokedDrop is not null;

        public (double Flux, bool IsChoked) FluxTo(double outlet)
        {
            if (chokedDrop is { } most)
            {
                double drop = pressure - outlet;
                return (ValveEquations.LiquidFlux(density, Math.Min(drop, most)), drop >= most);
            }

            double flux = ValveEquations.GasFlux(density, pressure, outlet, exponent, style.PressureRatioFactor);
            bool choked = (pressure - outlet) / pressure >= exponent / ValveEquations.AirRatio * style.PressureRatioFactor;
            if (isBounded)
            {
                NozzleFlow flow = Nozzle.FlowTo(UnitsNet.Pressure.FromPascals(outlet));
                double limit = bound * flow.Flux.KilogramsPerSecondPerSquareMeter;
                if (limit < flux)
                {
                    return (limit, flow.IsChoked);
                }
            }

            return (flux, choked);
        }

        // Kay's rule, as usual for a figure that enters under a root.
        private static double PseudoCriticalPressure(WorkingFluid fluid)
        {
            double sum = 0;
            for (int i = 0; i < fluid.Composition.MoleFractions.Count; i++)
            {
                sum += fluid.Composition.MoleFractions[i] * fluid.Kernel.Equation.CriticalPressure(i);
            }

            return sum;
        }
    }
}
