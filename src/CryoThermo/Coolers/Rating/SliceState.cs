using CryoThermo.Equilibrium;

namespace CryoThermo.Coolers.Rating;

/// <summary>The state in a slice of a recuperator, with what makes the next one nearby cheap.</summary>
/// <param name="State">The state.</param>
/// <param name="Trials">Its stationary trials, which alone are looked at for a further phase in a state hardly different; null to look from every start.</param>
internal sealed record SliceState(EquilibriumResult State, StationaryTrials? Trials)
{
    /// <summary>Flashes that a state with phases unresolved is given, whose enthalpy jumps about its temperature.</summary>
    private const int UnresolvedSteps = 3;

    /// <summary>The state moved to another pressure and enthalpy.</summary>
    /// <param name="fluid">The fluid, of hardly another composition.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="enthalpy">J/mol.</param>
    public SliceState Moved(WorkingFluid fluid, double pressure, double enthalpy)
    {
        if (State.StillUnstable)
        {
            double t = State.Temperature;
            EquilibriumResult now = fluid.Kernel.At(t, pressure, fluid.Composition.Fractions);
            for (int i = 1; i < UnresolvedSteps && now.StillUnstable; i++)
            {
                double step = (enthalpy - now.Totals.Enthalpy) / now.Totals.EquilibriumHeatCapacity;
                t += Math.Clamp(step, -0.02 * t, 0.02 * t);
                now = fluid.Kernel.At(t, pressure, fluid.Composition.Fractions);
            }

            if (now.StillUnstable)
            {
                return new(now, null);
            }
        }

        CaloricWalk walk = new(fluid.Kernel, fluid.Composition.Fractions);
        EquilibriumResult found = walk.At(pressure, enthalpy, State, State.Temperature, null, Trials, out StationaryTrials? seen);
        return new(found, seen);
    }
}
