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
/// Liquids beside one another count as one, which boils where vapour first stands beside them. Of vapour and liquid the choked flux is that of the homogeneous nozzle times an
/// area, the mean by volume of the areas that give the choked flux of each alone; b is the mean by volume; dpc follows from both. So flow and its slopes join those of gas and liquid, and small pressure drops follow the mean density.
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

    /// <summary>How far below its bubble point a liquid is looked at for another liquid, relative.</summary>
    private const double ByBubblePoint = 1e-4;

    /// <summary>Search for the pressure at which liquids beside one another boil: steps down, lowest, steps to it, its tolerance, and the vapour at which it is reached.</summary>
    private const double PressureStep = 0.7;
    private const double LeastBoiling = 10;
    private const int MostBoilingSteps = 60;
    private const double BoilingTolerance = 1e-9;
    private const double LeastVapor = 1e-11;

    private readonly double density;
    private readonly double expansion;
    private readonly double chokedDrop;

    public ValveInlet(State state, ValveStyle style)
    {
        State = state;
        Pressure = state.Pressure.Pascals;
        density = state.Density.KilogramsPerCubicMeter;
        PhaseResult[] vapor = [.. state.Result.Phases.Where(p => p.Fraction > 0 && p.IsVapor)];
        PhaseResult[] liquid = [.. state.Result.Phases.Where(p => p.Fraction > 0 && !p.IsVapor)];
        if (liquid.Length == 0 || vapor.Length == 0)
        {
            (expansion, chokedDrop) = OneKind(state, new(state), style, isSaturated: false);
            IsLiquid = expansion == 0;
            return;
        }

        double area = 0;
        foreach (PhaseResult[] kind in (PhaseResult[][])[vapor, liquid])
        {
            State alone = Alone(state, kind);
            HomogeneousNozzle nozzle = new(alone);
            (double b, double drop) = OneKind(alone, nozzle, style, isSaturated: true);
            double share = kind.Sum(p => p.Fraction / p.Figures.MolarDensity) / state.Result.Totals.Volume;
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

    private static (double Expansion, double ChokedDrop) OneKind(State state, HomogeneousNozzle nozzle, ValveStyle style, bool isSaturated)
    {
        Phase phase = state.Phases.First(p => p.Fraction > 0);
        double pressure = state.Pressure.Pascals;
        bool isFarGas = phase.Kind == PhaseKind.Vapor && phase.CompressibilityFactor > GasCompressibility;
        double? vaporPressure = isFarGas || (isSaturated && phase.Kind == PhaseKind.Vapor) ? null
            : isSaturated ? pressure
            : BoilingPressure(state, phase);
        if (vaporPressure is { } pv)
        {
            double mean = PseudoCritical(state.Fluid, state.Fluid.Kernel.Equation.CriticalPressure);
            return (0, ValveEquations.LiquidChokedDrop(pressure, style.PressureRecovery, Math.Min(pv, pressure), mean));
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

    // Pressure at which one liquid, or several beside one another, begin to boil at the temperature of the inlet, Pa; null for a gas.
    private static double? BoilingPressure(State state, Phase phase)
    {
        double pressure = state.Pressure.Pascals;
        State? bubble = null;
        bool isSeveral = state.Result.Phases.Count(p => p.Fraction > 0) > 1;
        if (!isSeveral && !state.Fluid.TryBubblePoint(state.Temperature, out bubble))
        {
            return phase.Kind == PhaseKind.Liquid && state.Temperature.Kelvins < ColdLiquid * PseudoCritical(state.Fluid, state.Fluid.Kernel.Equation.CriticalTemperature) ? 0 : null;
        }

        if (bubble is not null && (bubble.Pressure.Pascals > pressure * (1 + 1e-9) || IncipientPoint.SingleComponent(state.Fluid.Composition.Fractions) >= 0))
        {
            return bubble.Pressure.Pascals <= pressure * (1 + 1e-9) ? bubble.Pressure.Pascals : null;
        }

        // A liquid that would split before it boils has its bubble point beside another liquid, not where a single one would boil.
        double at = bubble?.Pressure.Pascals ?? pressure;
        if (bubble is not null && At(at * (1 - ByBubblePoint)) is { } below && below.Phases.Count(p => p.Fraction > 0 && !p.IsVapor) < 2 && below.VaporFraction is > 0 and < 0.01)
        {
            return at;
        }

        return Boiling(At, pressure);

        EquilibriumResult At(double p) => state.Fluid.Kernel.At(state.Temperature.Kelvins, p, state.Fluid.Composition.Fractions);
    }

    // The greatest pressure at which vapour stands beside the liquids, found by the amount of vapour, which goes to nothing there.
    private static double Boiling(Func<double, EquilibriumResult> at, double pressure)
    {
        double above = pressure;
        double below = pressure;
        double amount;
        do
        {
            (above, below) = (below, below * PressureStep);
            if (below < LeastBoiling)
            {
                return 0;
            }

            amount = at(below).VaporFraction;
        }
        while (amount == 0);
        double? further = null;
        double furtherAmount = 0;
        for (int i = 0; i < MostBoilingSteps && above - below > BoilingTolerance * above; i++)
        {
            // On from the last two with vapour; halving where that leaves the bracket.
            double next = further is { } f && furtherAmount > amount ? below + (amount / (furtherAmount - amount) * (below - f)) : 0;
            next = next > below && next < above ? Math.Min(next * (1 - (0.1 * BoilingTolerance)), above) : Math.Sqrt(above * below);
            double now = at(next).VaporFraction;
            if (now > 0)
            {
                (further, furtherAmount, below, amount) = (below, amount, next, now);
                if (amount < LeastVapor)
                {
                    return below;
                }
            }
            else
            {
                above = next;
            }
        }

        return below;
    }

    // Vapour, or all liquids, of a state as a fluid of its own.
    private static State Alone(State state, PhaseResult[] kind)
    {
        double amount = kind.Sum(p => p.Fraction);
        double[] z = new double[state.Fluid.Composition.MoleFractions.Count];
        double enthalpy = 0;
        double entropy = 0;
        double volume = 0;
        double heatCapacity = 0;
        foreach (PhaseResult phase in kind)
        {
            double share = phase.Fraction / amount;
            PhaseFigures f = phase.Figures;
            enthalpy += share * f.Enthalpy;
            entropy += share * f.Entropy;
            volume += share / f.MolarDensity;
            heatCapacity += share * f.IsobaricHeatCapacity;
            for (int i = 0; i < z.Length; i++)
            {
                z[i] += share * phase.MoleFractions[i];
            }
        }

        return new(
            state.Fluid.WithFractions(z),
            new(
                state.Result.Temperature,
                state.Result.Pressure,
                [.. kind.Select(p => p with { Fraction = p.Fraction / amount })],
                new(enthalpy, entropy, volume, heatCapacity),
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
