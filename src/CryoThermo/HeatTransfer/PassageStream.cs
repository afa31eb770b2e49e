using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using CryoThermo.Flow;

namespace CryoThermo.HeatTransfer;

/// <summary>From a state to the figures that film coefficients need.</summary>
internal static class PassageStream
{
    /// <summary>Near a critical point the heat of evaporating of a blend may vanish or turn; it is held above this, J/kg.</summary>
    private const double LeastLatentHeat = 1;

    /// <summary>
    /// The figures of a state. Two liquids are taken as one, weighted by mass. Along the isobar a blend evaporates, the share of the heat that warms the vapour is the vapour's heat
    /// capacity times its share over that of the whole, dh/dT with the phases in equilibrium.
    /// </summary>
    /// <exception cref="Diagnostics.ModelRangeException">The state lies outside the range of a correlation of its viscosity or conductivity and the fluid is strict about it.</exception>
    public static StreamProperties StreamPropertiesOf(State state)
    {
        PhaseLump liquid = PhaseLump.Of(state, PhaseKind.Liquid);
        PhaseLump vapor = PhaseLump.Of(state, PhaseKind.Vapor);
        double molarMass = state.Fluid.Composition.MolarMass.KilogramsPerMole;
        if (!(liquid.MassShare > 0) || !(vapor.MassShare > 0))
        {
            return new(liquid.MassShare > 0 ? 0 : 1, Properties(liquid), Properties(vapor), 0, 0, 0, ReducedPressure(state), molarMass);
        }

        double quality = vapor.MassShare / (vapor.MassShare + liquid.MassShare);
        double whole = state.Result.Totals.EquilibriumHeatCapacity / molarMass;
        double sensible = double.IsFinite(whole) ? quality * vapor.HeatCapacity / whole : 0;
        return new(
            quality, Properties(liquid), Properties(vapor), TwoPhaseStream.TensionOf(state), sensible, LatentHeat(state), ReducedPressure(state), molarMass);
    }

    private static PhaseProperties Properties(in PhaseLump lump) => new(lump.Density, lump.Viscosity, lump.Conductivity, lump.HeatCapacity);

    /// <summary>Pressure over the mean of the critical pressures by moles (W. B. Kay 1936); for a blend a figure to go by only.</summary>
    private static double ReducedPressure(State state)
    {
        Composition composition = state.Fluid.Composition;
        double critical = 0;
        for (int i = 0; i < composition.Components.Count; i++)
        {
            critical += composition.MoleFractions[i] * composition.Components[i].CriticalPressure;
        }

        return state.Result.Pressure / critical;
    }

    /// <summary>
    /// What it takes to bring the components of the vapour out of the liquid, J/kg of vapour: R T^2 times the difference of the slopes of ln phi of each component,
    /// which does not depend on the reference states of the components as the difference of the enthalpies of both phases does.
    /// </summary>
    private static double LatentHeat(State state)
    {
        MixtureKernel kernel = state.Fluid.Kernel.Equation;
        EquilibriumResult result = state.Result;
        int n = kernel.ComponentCount;
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[n];
        double[] byAmount = new double[n * n];
        double[] slopes = new double[n];
        double[] vaporSlopes = new double[n];
        double[] vaporFractions = [];
        kernel.SetTemperature(result.Temperature, scratch);
        double vaporMass = 0;
        foreach (PhaseResult phase in result.Phases)
        {
            if (phase.IsVapor && phase.Fraction > 0)
            {
                Slopes(phase, vaporSlopes);
                vaporFractions = phase.MoleFractions;
                vaporMass = state.Fluid.Composition.WithFractions(phase.MoleFractions).MolarMass.KilogramsPerMole;
            }
        }

        double heat = 0;
        double mass = 0;
        foreach (PhaseResult phase in result.Phases)
        {
            if (phase.IsVapor || !(phase.Fraction > 0))
            {
                continue;
            }

            Slopes(phase, slopes);
            double sum = 0;
            for (int i = 0; i < n; i++)
            {
                sum += vaporFractions[i] > 0 ? vaporFractions[i] * (slopes[i] - vaporSlopes[i]) : 0;
            }

            double share = phase.Fraction * state.Fluid.Composition.WithFractions(phase.MoleFractions).MolarMass.KilogramsPerMole;
            heat += share * kernel.GasConstant * result.Temperature * result.Temperature * sum / vaporMass;
            mass += share;
        }

        return Math.Max(LeastLatentHeat, heat / mass);

        void Slopes(PhaseResult phase, double[] into) => kernel.LnFugacityDerivatives(
            result.Temperature, result.Pressure, phase.MoleFractions, phase.Figures.Root, scratch, lnPhi, byAmount, into, [], out _);
    }
}
