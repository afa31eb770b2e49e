using CryoThermo.EquationsOfState;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>Phase changes of blends along an isobar and an isotherm, each beside flashes on both sides of it.</summary>
public static class PhaseChangeSoak
{
    /// <summary>Largest allowed difference of ln fugacity between the phases of a change, the incipient one included.</summary>
    public const double FugacityTolerance = 1e-9;

    /// <summary>Largest allowed relative difference when the components are given in another order.</summary>
    public const double OrderTolerance = 1e-9;

    /// <summary>How far to both sides flashes look, relative.</summary>
    public const double Aside = 1e-6;

    // A flash sees only what lies 1e-10 below the tangent plane, which two liquids not far from each other reach later.
    private const double AsideUnseen = 1e-5;

    // As for bubble and dew points: where two phases differ by less than 0.1 % in density, a split gains less Gibbs energy than rounding.
    private const double AsideAlike = 1e-3;
    private const double Alike = 1e-3;

    /// <summary>
    /// At every change equal fugacities by kernel calls, and flashes a relative 1e-6 to both sides, 1e-5 where they see nothing there, less beside
    /// another change, find the phases told; with the components in reverse order the same place. The bubble point at the pressure is one of the changes where it lies within.
    /// Phases is 3 where one of the changes has three phases, else 2, and 0 where there is none; worst is the ln fugacity difference.
    /// </summary>
    public static SoakOutcome Run(SoakCase soak)
    {
        WorkingFluid fluid = soak.Fluid;
        WorkingFluid reversed = WorkingFluid.Mixture([.. soak.Blend.Reverse()]).WithModel(fluid.Model.Cubic is not null || ReferenceEquals(fluid.Model, FluidModel.MultiFluid) ? fluid.Model : FluidModel.Recommended);
        double worst = 0;
        int most = 0;
        bool flagged = false;
        string? failure = null;
        Pressure pressure = Pressure.FromPascals(soak.Pressure);
        Temperature temperature = Temperature.FromKelvins(soak.Temperature);
        Temperature cold = Temperature.FromKelvins(Math.Max(65, fluid.Kernel.LowestTemperature));
        Temperature hot = Temperature.FromKelvins(450);
        (Pressure low, Pressure high) = (Pressure.FromPascals(1e3), Pressure.FromBars(200));
        IReadOnlyList<PhaseChange> isobar = fluid.PhaseChanges(pressure, cold, hot);
        IReadOnlyList<PhaseChange> isotherm = fluid.PhaseChanges(temperature, low, high);
        Examine(isobar, reversed.PhaseChanges(pressure, cold, hot), c => c.Temperature.Kelvins, at => fluid.At(Temperature.FromKelvins(at), pressure));
        Examine(isotherm, reversed.PhaseChanges(temperature, low, high), c => c.Pressure.Pascals, at => fluid.At(temperature, Pressure.FromPascals(at)));
        foreach (bool bubble in new[] { true, false })
        {
            State? point;
            bool found = bubble ? fluid.TryBubblePoint(pressure, out point) : fluid.TryDewPoint(pressure, out point);
            if (found && !point!.HasUnresolvedPhase && point.Temperature > cold && point.Temperature < hot && !isobar.Any(c => !c.IsResolved)
                && !isobar.Any(c => Math.Abs((c.Temperature.Kelvins / point.Temperature.Kelvins) - 1) < OrderTolerance))
            {
                failure ??= $"{soak}: the {(bubble ? "bubble" : "dew")} point {point} is none of the changes {string.Join("; ", isobar)}";
            }
        }

        return new(failure, most, flagged, worst);

        void Examine(IReadOnlyList<PhaseChange> changes, IReadOnlyList<PhaseChange> other, Func<PhaseChange, double> place, Func<double, State> flash)
        {
            flagged |= changes.Any(c => !c.IsResolved);
            if (changes.All(c => c.IsResolved) && changes.Count != other.Count)
            {
                failure ??= $"{soak}: {string.Join("; ", changes)}; in reverse order {string.Join("; ", other)}";
                return;
            }

            for (int i = 0; i < changes.Count; i++)
            {
                PhaseChange change = changes[i];
                if (!change.IsResolved)
                {
                    continue;
                }

                most = Math.Max(most, Math.Min(3, change.State.Phases.Count));
                double at = place(change);
                double difference = FugacityDifference(fluid, change.State);
                worst = Math.Max(worst, difference);
                bool isAlike = change.State.Phases.Any(p => !ReferenceEquals(p, change.Phase)
                    && Math.Abs(Math.Log(p.Density.KilogramsPerCubicMeter / change.Phase.Density.KilogramsPerCubicMeter)) < Alike);
                if (difference > FugacityTolerance)
                {
                    failure ??= $"{soak}: {change}: ln fugacities differ by {difference:E2}";
                }

                if (changes.All(c => c.IsResolved) && !isAlike && Math.Abs((place(other[i]) / at) - 1) > OrderTolerance)
                {
                    failure ??= $"{soak}: {change} at {at:R}; in reverse order at {place(other[i]):R}";
                }

                State before = Beside(change.Below, -1, i > 0 ? changes[i - 1] : null);
                State after = Beside(change.Above, 1, i + 1 < changes.Count ? changes[i + 1] : null);
                if (!IsAsTold(before, change.Below) || !IsAsTold(after, change.Above))
                {
                    failure ??= $"{soak}: {change} at {at:R}, but {before.PhaseDescription} before and {after.PhaseDescription} after";
                }

                State Beside(Equilibrium.PhaseRegion region, int side, PhaseChange? neighbour)
                {
                    double limit = neighbour is null ? double.PositiveInfinity : 0.5 * Math.Abs((place(neighbour) / at) - 1);
                    State state = flash(at * (1 + (side * Math.Min(limit, isAlike ? AsideAlike : Aside))));
                    return IsAsTold(state, region) ? state : flash(at * (1 + (side * Math.Min(limit, isAlike ? AsideAlike : AsideUnseen))));
                }
            }
        }
    }

    // So close to a change a flash may see the third phase without being able to solve for so little of it: it then says so.
    private static bool IsAsTold(State state, Equilibrium.PhaseRegion region) =>
        state.Phases.Count == CountOf(region) || (state.HasUnresolvedPhase && state.Phases.Count + 1 == CountOf(region));

    private static int CountOf(Equilibrium.PhaseRegion region) => region switch
    {
        Equilibrium.PhaseRegion.Liquid or Equilibrium.PhaseRegion.Vapor => 1,
        Equilibrium.PhaseRegion.LiquidVapor or Equilibrium.PhaseRegion.TwoLiquids => 2,
        _ => 3,
    };

    private static double FugacityDifference(WorkingFluid fluid, State state)
    {
        MixtureKernel kernel = fluid.Kernel.Equation;
        double t = state.Temperature.Kelvins;
        double p = state.Pressure.Pascals;
        double[] scratch = new double[kernel.ScratchLength];
        kernel.SetTemperature(t, scratch);
        double[][] lnFugacity = [.. state.Phases.Select(phase =>
        {
            double[] x = [.. phase.Composition.MoleFractions];
            double[] ln = new double[x.Length];
            kernel.LnFugacityAtDensity(t, phase.MolarDensity.MolesPerCubicMeter, x, scratch, ln);
            return ln.Select((value, i) => value + (x[i] > 0 ? Math.Log(x[i]) : 0)).ToArray();
        })];
        double worst = 0;
        for (int i = 0; i < lnFugacity[0].Length; i++)
        {
            if (state.Phases.All(phase => phase.Composition.MoleFractions[i] > 0))
            {
                worst = Math.Max(worst, lnFugacity.Max(ln => ln[i]) - lnFugacity.Min(ln => ln[i]));
            }
        }

        return worst;
    }
}
