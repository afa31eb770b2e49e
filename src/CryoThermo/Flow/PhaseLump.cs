using CryoThermo.Equilibrium;

namespace CryoThermo.Flow;

/// <summary>All liquids or all vapour of a state as one fluid that flows together: specific volumes, viscosities, conductivities and heat capacities weighted by mass. SI.</summary>
/// <param name="MassShare">Its mass over that of the whole.</param>
/// <param name="Density">kg/m3.</param>
/// <param name="Viscosity">Pa s.</param>
/// <param name="Conductivity">W/(m K).</param>
/// <param name="HeatCapacity">J/(kg K).</param>
internal readonly record struct PhaseLump(double MassShare, double Density, double Viscosity, double Conductivity, double HeatCapacity)
{
    /// <summary>Takes it from the phases of a state that are there; a share of zero, and nothing else, where none is.</summary>
    public static PhaseLump Of(State state, PhaseKind kind)
    {
        double whole = state.Fluid.Composition.MolarMass.KilogramsPerMole;
        double share = 0;
        double volume = 0;
        double viscosity = 0;
        double conductivity = 0;
        double heat = 0;
        foreach (Phase phase in state.Phases)
        {
            if (phase.Kind != kind || phase.IsIncipient)
            {
                continue;
            }

            PhaseResult result = phase.Result;
            double mass = result.Fraction * phase.Composition.MolarMass.KilogramsPerMole / whole;
            (double eta, double lambda) = phase.TransportFigures();
            share += mass;
            volume += result.Fraction / (result.Figures.MolarDensity * whole);
            viscosity += mass * eta;
            conductivity += mass * lambda;
            heat += result.Fraction * result.Figures.IsobaricHeatCapacity / whole;
        }

        return share > 0 ? new(share, share / volume, viscosity / share, conductivity / share, heat / share) : default;
    }
}
