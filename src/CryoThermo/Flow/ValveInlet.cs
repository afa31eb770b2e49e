using CryoThermo.Equilibrium;

namespace CryoThermo.Flow;

/// <summary>
/// What passes a restriction of one style from one inlet, per effective area and without friction of viscosity:
/// (1 - b dp/dpc) sqrt(2 rho dp), dp at most dpc. A liquid has b = 0 and dpc = F_L2 (p1 - F_F pv); a gas b = 1/3 and dpc = F_gamma x_T p1. Those are the
/// equations of IEC 60534-2-1.
/// </summary>
/// <remarks>
/// A liquid is a state on the liquid side of a bubble point at its temperature; anything else of one phase counts as gas, with the isentropic exponent
/// rho c2/p of the real fluid for the ratio of heat capacities: the same for a perfect gas, and large for a dense fluid, which then passes as a liquid does.
/// Of several phases the choked flux is that of the homogeneous nozzle times an area, the mean by volume of the areas that give the choked flux of each phase alone;
/// b is the mean by volume; dpc follows from both. So flow and its slopes join those of gas and liquid, and small pressure drops follow the mean density.
/// </remarks>
internal sealed class ValveInlet
{
    /// <summary>A dense fluid without a bubble point never passes more than the frictionless nozzle by this factor; a gas near ideal does not reach it.</summary>
    private const double DenseAllowance = 1.1;

    /// <summary>Above this compressibility factor a vapour is far from a bubble point.</summary>
    private const double GasCompressibility = 0.6;

    /// <summary>Above this compressibility factor the equation of the standard for gas stays below that allowance.</summary>
    private const double IdealCompressibility = 0.8;

    /// <summary>A liquid below this share of the mean critical temperature whose bubble point is not found boils at too low a pressure to compute: at none here.</summary>
    private const double ColdLiquid = 0.5;

    private const double GasExpansion = 1.0 / 3;

    private readonly double density;
    private readonly double expansion;
    private readonly double chokedDrop;

    public ValveInlet(State state, ValveStyle style)
    {
        State = state;
        Pressure = state.Pressure.Pascals;
        density = state.Density.KilogramsPerCubicMeter;
        PhaseResult[] phases = [.. state.Result.Phases.Where(p => p.Fraction > 0)];
        if (phases.Length == 1)
        {
            (expansion, chokedDrop) = OnePhase(state, new(state), style, isSaturated: false);
            IsLiquid = expansion == 0;
            return;
        }

        double area = 0;
        foreach (PhaseResult phase in phases)
        {
            State alone = Alone(state, phase);
            HomogeneousNozzle nozzle = new(alone);
            (double b, double drop) = OnePhase(alone, nozzle, style, isSaturated: true);
            double share = phase.Fraction / phase.Figures.MolarDensity / state.Result.Totals.Volume;
            double flux = (1 - b) * ValveEquations.LiquidFlux(alone.Density.KilogramsPerCubicMeter, drop);
            expansion += share * b;
            area += share * flux / nozzle.Choked.Flux.KilogramsPerSecondPerSquareMeter;
        }

        double choked = area * new HomogeneousNozzle(state).Choked.Flux.KilogramsPerSecondPerSquareMeter / (1 - expansion);
        chokedDrop = choked * choked / (2 * density);
    }

    public State State { get; }

    /// <summary>Pa.</summary>
    public double Pressure { get; }

    /// <summary>True where the equations of liquid hold.</summary>
    public bool IsLiquid { get; }

    /// <summary>Throat of a frictionless nozzle that passes the choked flow of air over the effective area.</summary>
    public static double GasThroatShare(ValveStyle style) => 2.0 / 3 * Math.Sqrt(2 * style.PressureRatioFactor) / ValveEquations.AirChokedFlux;

    /// <summary>Flux in kg/(s m2) of effective area to an outlet pressure in Pa, and whether a lower one brings no more.</summary>
    public (double Flux, bool IsChoked) FluxTo(double outlet)
    {
        double drop = Math.Clamp(Pressure - outlet, 0, chokedDrop);
        return ((1 - (expansion * drop / chokedDrop)) * ValveEquations.LiquidFlux(density, drop), Pressure - outlet >= chokedDrop);
    }

    private static (double Expansion, double ChokedDrop) OnePhase(State state, HomogeneousNozzle nozzle, ValveStyle style, bool isSaturated)
    {
        Phase phase = state.Phases.First(p => p.Fraction > 0);
        double pressure = state.Pressure.Pascals;
        bool isFarGas = phase.Kind == PhaseKind.Vapor && phase.CompressibilityFactor > GasCompressibility;
        double? vaporPressure = isFarGas || (isSaturated && phase.Kind == PhaseKind.Vapor) ? null
            : isSaturated ? pressure
            : state.Fluid.TryBubblePoint(state.Temperature, out State? bubble) ? bubble.Pressure.Pascals <= pressure * (1 + 1e-9) ? bubble.Pressure.Pascals : null
            : phase.Kind == PhaseKind.Liquid && state.Temperature.Kelvins < ColdLiquid * PseudoCritical(state.Fluid, state.Fluid.Kernel.Equation.CriticalTemperature) ? 0
            : null;
        if (vaporPressure is { } pv)
        {
            return (0, ValveEquations.LiquidChokedDrop(pressure, style.PressureRecovery, Math.Min(pv, pressure), PseudoCritical(state.Fluid, state.Fluid.Kernel.Equation.CriticalPressure)));
        }

        double mass = phase.Density.KilogramsPerCubicMeter;
        double sound = phase.SpeedOfSound.MetersPerSecond;
        double drop = mass * sound * sound / ValveEquations.AirRatio * style.PressureRatioFactor;
        if (phase.CompressibilityFactor <= IdealCompressibility && nozzle.TryChoked(out NozzleFlow? choked))
        {
            double most = DenseAllowance * Math.Max(1, GasThroatShare(style)) * choked.Flux.KilogramsPerSecondPerSquareMeter / (1 - GasExpansion);
            drop = Math.Min(drop, most * most / (2 * mass));
        }

        return (GasExpansion, drop);
    }

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

    // Kay's rule, as usual for a figure that enters under a root.
    private static double PseudoCritical(WorkingFluid fluid, Func<int, double> critical)
    {
        double sum = 0;
        for (int i = 0; i < fluid.Composition.MoleFractions.Count; i++)
        {
            sum += fluid.Composition.MoleFractions[i] * critical(i);
        }

        return sum;
    }
}
