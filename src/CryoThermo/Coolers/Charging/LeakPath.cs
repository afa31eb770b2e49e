using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// What a slow leak leaves of a charge. Of a leak from the whole charge the composition stays. From vapour above liquid or liquid below vapour
/// it is differential escape: dn_i = y_i dN with the composition y of the phase that leaks, in equilibrium with what is left at each
/// moment (Rayleigh, Phil. Mag. 4 (1902) 521, with the real phases). Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The leaking place is a closed volume at one temperature that holds all of the charge, such as a machine at rest whose heavy components
/// have condensed. Once only one phase is left the leak goes on with that. Integrated by the classical fourth-order Runge-Kutta rule
/// in N; a step across the end of a phase is of lower order.
/// </remarks>
public sealed class LeakPath
{
    private LeakPath(LeakKind kind, IReadOnlyList<LeakPoint> points)
    {
        Kind = kind;
        Points = points;
    }

    /// <summary>Where it takes its fluid from.</summary>
    public LeakKind Kind { get; }

    /// <summary>From the full charge on.</summary>
    public IReadOnlyList<LeakPoint> Points { get; }

    /// <summary>Follows a leak.</summary>
    /// <param name="kind">Where it takes its fluid from.</param>
    /// <param name="charge">The charge at first.</param>
    /// <param name="amount">How much of it.</param>
    /// <param name="volume">Volume of the place.</param>
    /// <param name="temperature">Its temperature.</param>
    /// <param name="lostFraction">How far to follow: share of the charge lost at the end, above 0 to 0.99.</param>
    /// <param name="steps">Points after the first, 2 to 2000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">There are no two phases for a leak of one of them.</exception>
    /// <exception cref="ConvergenceException">A state was not found.</exception>
    public static LeakPath Follow(
        LeakKind kind, WorkingFluid charge, AmountOfSubstance amount, Volume volume, Temperature temperature, double lostFraction = 0.8, int steps = 40)
    {
        ArgumentNullException.ThrowIfNull(charge);
        if (!Enum.IsDefined(kind))
        {
            throw new ArgumentOutOfRangeException(nameof(kind), kind, $"kind is {kind}; it must be one of {string.Join(", ", Enum.GetNames<LeakKind>())}.");
        }

        double whole = Guard.Positive(amount.Moles, "mol", nameof(amount));
        double space = Guard.Positive(volume.CubicMeters, "m3", nameof(volume));
        Guard.InRange(lostFraction, double.Epsilon, 0.99, "mol/mol");
        Guard.InRange(steps, 2, 2000, "points");
        double[] left = [.. charge.Composition.MoleFractions.Select(x => x * whole)];
        double[] first = [.. left];
        State start = StateOf(left);
        if (kind != LeakKind.WholeCharge && start.Phases.Count < 2)
        {
            throw new ArgumentException(
                $"kind is {kind}, but at {temperature.Kelvins:G6} K and {start.Pressure.Bars:G6} bar absolute all of the charge is one phase ({start.PhaseDescription}): it leaks as {LeakKind.WholeCharge}.",
                nameof(kind));
        }

        List<LeakPoint> points = [Point(start)];
        double step = -whole * lostFraction / steps;
        for (int k = 1; k <= steps; k++)
        {
            double[] k1 = Leaving(left);
            double[] k2 = Leaving(Moved(k1, step / 2));
            double[] k3 = Leaving(Moved(k2, step / 2));
            double[] k4 = Leaving(Moved(k3, step));
            left = Moved([.. k1.Select((y, i) => (y + (2 * k2[i]) + (2 * k3[i]) + k4[i]) / 6)], step);
            points.Add(Point(StateOf(left)));
        }

        return new(kind, points);

        WorkingFluid FluidOf(double[] n)
        {
            double total = n.Sum();
            return charge.WithFractions([.. n.Select(x => x / total)]);
        }

        State StateOf(double[] n) => FluidOf(n).AtDensity(temperature, Molarity.FromMolesPerCubicMeter(n.Sum() / space));

        double[] Leaving(double[] n)
        {
            if (kind == LeakKind.WholeCharge)
            {
                double total = n.Sum();
                return [.. n.Select(x => x / total)];
            }

            // Phases ordered by density: vapour leaks from the top, liquid from the bottom.
            IOrderedEnumerable<Phase> phases = StateOf(n).Phases.OrderBy(p => p.MolarDensity.MolesPerCubicMeter * p.Composition.MolarMass.KilogramsPerMole);
            return [.. (kind == LeakKind.VaporAboveLiquid ? phases.First() : phases.Last()).Composition.MoleFractions];
        }

        double[] Moved(double[] y, double by) => [.. left.Select((n, i) => Math.Max(0, n + (by * y[i])))];

        LeakPoint Point(State state)
        {
            double total = left.Sum();
            double lost = whole - total;
            return new(
                lost / whole,
                AmountOfSubstance.FromMoles(total),
                FluidOf(left),
                state.Pressure,
                lost > 1e-9 * whole ? charge.Composition.WithFractions(Normalised([.. first.Select((n, i) => Math.Max(0, n - left[i]))])) : null);
        }

        static double[] Normalised(double[] n)
        {
            double total = n.Sum();
            return [.. n.Select(x => x / total)];
        }
    }

    /// <summary>
    /// The point of the path at which a machine would stand at a measured pressure, found between the computed points; null when the path does
    /// not reach it.
    /// </summary>
    /// <param name="machine">The machine; its volumes and their temperatures when the pressure was read.</param>
    /// <param name="measured">Absolute pressure read, all of the charge being a gas.</param>
    /// <exception cref="ArgumentException">The machine has no volume, or two of one name.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public LeakPoint? AtPressure(IReadOnlyList<MachineVolume> machine, Pressure measured)
    {
        IReadOnlyList<MachineVolume> volumes = ChargeRequest.Checked(machine);
        double wanted = Guard.Positive(measured.Pascals, "Pa absolute", nameof(measured));

        // The excess over what the machine holds at the measured pressure falls as the leak goes on.
        double Excess(LeakPoint point) => point.Left.Moles - Held(point.Remaining, volumes, wanted);
        double before = Excess(Points[0]);
        if (before < 0)
        {
            return null;
        }

        for (int k = 1; k < Points.Count; k++)
        {
            double after = Excess(Points[k]);
            if (after <= 0)
            {
                LeakPoint low = Points[k - 1];
                LeakPoint high = Points[k];
                double a = 0;
                double b = 1;
                LeakPoint found = low;
                for (int i = 0; i < 60; i++)
                {
                    found = Between(low, high, 0.5 * (a + b));
                    (a, b) = Excess(found) > 0 ? (0.5 * (a + b), b) : (a, 0.5 * (a + b));
                }

                return found;
            }
        }

        return null;
    }

    /// <summary>The path as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"What a leak leaves: {Kind}",
        ["lost, %", "left, mol", "pressure at the leak, bar absolute", .. Points[0].Remaining.Composition.Components.Select(c => $"{c.Name}, % (mole)")],
        [.. Points.Select(p => (IReadOnlyList<string>)
        [
            $"{100 * p.LostFraction:F1}",
            $"{p.Left.Moles:F4}",
            $"{p.LeakPressure.Bars:F4}",
            .. p.Remaining.Composition.MoleFractions.Select(x => $"{100 * x:F2}"),
        ])]);

    /// <summary>Amount of gas a machine holds at a pressure, mol.</summary>
    internal static double Held(WorkingFluid gas, IReadOnlyList<MachineVolume> volumes, double pressure) =>
        volumes.Sum(v => v.Volume.CubicMeters * gas.At(v.Temperature, Pressure.FromPascals(pressure)).MolarDensity.MolesPerCubicMeter);

    // Amounts between two points, straight.
    private static LeakPoint Between(LeakPoint low, LeakPoint high, double share)
    {
        double[] a = [.. low.Remaining.Composition.MoleFractions.Select(x => x * low.Left.Moles)];
        double[] b = [.. high.Remaining.Composition.MoleFractions.Select(x => x * high.Left.Moles)];
        double[] n = [.. a.Select((x, i) => x + (share * (b[i] - x)))];
        double total = n.Sum();
        return new(
            low.LostFraction + (share * (high.LostFraction - low.LostFraction)),
            AmountOfSubstance.FromMoles(total),
            low.Remaining.WithFractions([.. n.Select(x => x / total)]),
            low.LeakPressure + (share * (high.LeakPressure - low.LeakPressure)),
            high.Lost);
    }
}
