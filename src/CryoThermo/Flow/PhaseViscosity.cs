using CryoThermo.Equilibrium;
using CryoThermo.Transport;

namespace CryoThermo.Flow;

/// <summary>Viscosities of the phases of a fluid.</summary>
internal static class PhaseViscosity
{
    /// <summary>Viscosity of a phase at a temperature in K, Pa s.</summary>
    public static Func<PhaseResult, double, double> Of(WorkingFluid fluid)
    {
        TransportKernel kernel = fluid.TransportKernel;
        return (phase, temperature) => kernel.Viscosity(temperature, phase.Figures.MolarDensity, phase.MoleFractions);
    }

    /// <summary>Viscosity of a state, Pa s: of two phases by the rule of McAdams, over the mass of each.</summary>
    public static double OfState(State state)
    {
        Func<PhaseResult, double, double> viscosity = Of(state.Fluid);
        if (state.Result.Phases.Length == 1)
        {
            return viscosity(state.Result.Phases[0], state.Result.Temperature);
        }

        double mass = 0;
        double fluidity = 0;
        foreach (PhaseResult phase in state.Result.Phases)
        {
            double share = phase.Fraction * state.Fluid.Kernel.MolarMass(phase.MoleFractions);
            mass += share;
            fluidity += share / viscosity(phase, state.Result.Temperature);
        }

        return mass / fluidity;
    }
}
