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
}
