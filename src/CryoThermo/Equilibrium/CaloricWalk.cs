namespace CryoThermo.Equilibrium;

/// <summary>
/// States at given pressure and enthalpy along a line on which each is near to the last: phases and temperature of the last state are the
/// start. What does not follow, or is not stable, is solved afresh.
/// </summary>
internal sealed class CaloricWalk
{
    private const double EnthalpyTolerance = 1e-7;
    private const double FarthestStep = 0.1;
    private const int MostSteps = 12;

    private readonly FluidKernel fluid;
    private readonly double[] z;
    private readonly bool isSingle;

    public CaloricWalk(FluidKernel fluid, ReadOnlySpan<double> z)
    {
        this.fluid = fluid;
        this.z = z.ToArray();
        isSingle = IncipientPoint.SingleComponent(z) >= 0 || fluid.Equation.IsPureEquation;
    }

    /// <summary>The state at a pressure and an enthalpy.</summary>
    /// <param name="pressure">Pa.</param>
    /// <param name="enthalpy">J/mol.</param>
    /// <param name="near">A state near to it.</param>
    /// <param name="guess">Temperature expected, K.</param>
    /// <param name="beyond">A state near to it on the other side of a phase boundary; null for none.</param>
    /// <param name="trials">
    /// The stationary trials of a state hardly different, which alone are looked at for a further phase; null to test from every start.
    /// </param>
    /// <param name="seen">The stationary trials of the state found; null where it was solved afresh.</param>
    /// <exception cref="ArgumentOutOfRangeException">No temperature within the accepted range has this enthalpy.</exception>
    public EquilibriumResult At(
        double pressure, double enthalpy, EquilibriumResult near, double guess, EquilibriumResult? beyond, StationaryTrials? trials, out StationaryTrials? seen)
    {
        seen = new(z.Length);
        if (Follow(pressure, enthalpy, near, guess, trials, seen) is { } found)
        {
            return found;
        }

        seen = new(z.Length);
        if (beyond is not null && Follow(pressure, enthalpy, beyond, guess, null, seen) is { } other)
        {
            return other;
        }

        seen = null;
        return CaloricFlash.Solve(fluid, CaloricVariable.Enthalpy, pressure, enthalpy, z, guess);
    }

    private EquilibriumResult? Follow(double pressure, double enthalpy, EquilibriumResult near, double guess, StationaryTrials? trials, StationaryTrials seen)
    {
        if (isSingle || near.StillUnstable)
        {
            return null;
        }

        int n = z.Length;
        Span<double> scratch = stackalloc double[fluid.Equation.ScratchLength];
        PhaseSplit split = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        split.CopyFrom(near);
        double t = guess;
        for (int step = 0; step < MostSteps; step++)
        {
            if (!(Math.Abs(t - guess) <= FarthestStep * guess)
                || !IsothermalFlash.SolveFrom(fluid.Equation, t, pressure, z, scratch, ref split)
                || split.PhaseCount != near.Phases.Length
                || split.LightIsVapor != near.Phases[0].IsVapor)
            {
                return null;
            }

            CaloricFigures totals = fluid.Totals(t, pressure, z, split, scratch);
            double miss = totals.Enthalpy - enthalpy;
            if (Math.Abs(miss) <= EnthalpyTolerance)
            {
                return IsothermalFlash.IsStable(fluid.Equation, t, pressure, z, scratch, split, trials, seen) ? fluid.Collect(t, pressure, z, split, totals, scratch) : null;
            }

            t -= miss / totals.EquilibriumHeatCapacity;
        }

        return null;
    }
}
