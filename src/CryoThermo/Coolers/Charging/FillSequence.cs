using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Components filled one after another into a machine: the pressure after each of them, real gas, and how it answers to what was filled.
/// After step j the gas is what was there before and the first j + 1 components; a component alone is computed with its own pure equation.
/// Holds working memory: not thread-safe, each calculation makes its own.
/// </summary>
internal sealed class FillSequence
{
    private readonly WorkingFluid fluid;
    private readonly IReadOnlyList<MachineVolume> machine;
    private readonly double[] residual;
    private readonly int[][] members;
    private readonly WorkingFluid[] fluids;
    private readonly SharedGas[] stages;
    private readonly double[] temperatures;
    private readonly double[] volumes;

    /// <summary>Prepares a sequence.</summary>
    /// <param name="fluid">Names catalogue and model.</param>
    /// <param name="machine">The volumes.</param>
    /// <param name="filled">The components in the order of filling.</param>
    /// <param name="before">What is in the machine at the start; null for nothing.</param>
    public FillSequence(WorkingFluid fluid, IReadOnlyList<MachineVolume> machine, IReadOnlyList<Substance> filled, ResidualContents? before)
    {
        this.fluid = fluid;
        this.machine = machine;
        FillCount = filled.Count;
        List<Substance> all = [.. filled];
        (temperatures, volumes) = Grouped(machine, 0, 1);
        if (before is not null)
        {
            all.AddRange(before.Composition.Components.Where((c, i) => before.Composition.MoleFractions[i] > 0 && !filled.Any(f => f.Identity.Equals(c.Identity))));
        }

        Components = all;
        residual = new double[all.Count];
        if (before is not null)
        {
            WorkingFluid old = fluid.OfComponents(
                [.. before.Composition.Components.Zip(before.Composition.MoleFractions).Where(c => c.Second > 0).Select(c => (c.First.Name, AmountOfSubstance.FromMoles(c.Second)))]);
            Guard.InRange(
                before.Pressure.Pascals, old.Kernel.Equation.LowestPressure, old.Kernel.Equation.HighestPressure, "Pa absolute", "pressure of the residual contents");
            ResidualFluid = old;
            double amount = new SharedGas(old, temperatures, volumes).AmountAt(before.Pressure.Pascals, old.Composition.Fractions);
            for (int i = 0; i < all.Count; i++)
            {
                residual[i] = amount * FractionOf(old.Composition, all[i]);
            }
        }

        members = new int[FillCount][];
        fluids = new WorkingFluid[FillCount];
        stages = new SharedGas[FillCount];
        for (int step = 0; step < FillCount; step++)
        {
            members[step] = [.. Enumerable.Range(0, all.Count).Where(i => i <= step || residual[i] > 0)];
            fluids[step] = fluid.OfComponents([.. members[step].Select(i => (all[i].Name, AmountOfSubstance.FromMoles(1)))]);
            stages[step] = new(fluids[step], temperatures, volumes);
        }
    }

    private FillSequence(FillSequence other, double temperatureShift, double volumeFactor)
    {
        fluid = other.fluid;
        machine = other.machine;
        FillCount = other.FillCount;
        Components = other.Components;
        residual = other.residual;
        members = other.members;
        fluids = other.fluids;
        ResidualFluid = other.ResidualFluid;
        (temperatures, volumes) = Grouped(machine, temperatureShift, volumeFactor);
        stages = [.. fluids.Select(f => new SharedGas(f, temperatures, volumes))];
    }

    /// <summary>How many components are filled; the first ones of <see cref="Components"/>.</summary>
    public int FillCount { get; }

    /// <summary>The components filled, in order, then those that only were there before.</summary>
    public IReadOnlyList<Substance> Components { get; }

    /// <summary>The residual contents as a fluid; null when there are none.</summary>
    public WorkingFluid? ResidualFluid { get; }

    /// <summary>Amounts there before, mol, in the order of <see cref="Components"/>.</summary>
    public ReadOnlySpan<double> Residual => residual;

    /// <summary>Distinct temperatures of the machine, K, with the coldest first.</summary>
    public IReadOnlyList<double> Temperatures => temperatures;

    /// <summary>The same sequence with all temperatures shifted (K) and all volumes multiplied.</summary>
    public FillSequence Shifted(double temperatureShift, double volumeFactor) => new(this, temperatureShift, volumeFactor);

    /// <summary>Name of the volume at a temperature of <see cref="Temperatures"/>.</summary>
    public string PlaceOf(double temperature) => machine.First(v => v.Temperature.Kelvins == temperature).Name;

    /// <summary>All amounts in the machine after a step, mol, in the order of <see cref="Components"/>.</summary>
    public double[] Contents(int step, ReadOnlySpan<double> added)
    {
        double[] result = [.. residual];
        for (int i = 0; i <= step; i++)
        {
            result[i] += added[i];
        }

        return result;
    }

    /// <summary>The gas after a step with its composition.</summary>
    public WorkingFluid FluidAfter(int step, ReadOnlySpan<double> added)
    {
        double[] amounts = Members(step, added);
        double total = amounts.Sum();
        return fluids[step].WithFractions([.. amounts.Select(a => a / total)]);
    }

    /// <summary>Pressure after a step, Pa; false when the gas cannot hold the amounts as a gas.</summary>
    public bool TryPressure(int step, ReadOnlySpan<double> added, out double pressure) => stages[step].TryPressure(Members(step, added), out pressure);

    /// <summary>Pressure after a step, Pa.</summary>
    /// <exception cref="ConvergenceException">The gas cannot hold the amounts as a gas.</exception>
    public double Pressure(int step, ReadOnlySpan<double> added) => TryPressure(step, added, out double pressure)
        ? pressure
        : throw new ConvergenceException(
            "Pressure of a charge",
            $"{string.Join(", ", Members(step, added).Zip(members[step], (a, i) => $"{Components[i].Name} {a:G6} mol"))} in {machine.Count} volumes",
            1,
            "The amounts are more than the machine holds as a gas.");

    /// <summary>Pressure after a step and its answer to each component filled, Pa/mol; zero for those not yet filled.</summary>
    public double PressureWithSlopes(int step, ReadOnlySpan<double> added, Span<double> slopes)
    {
        double[] amounts = Members(step, added);
        double pressure = Pressure(step, added);
        Span<double> local = stackalloc double[amounts.Length];
        stages[step].PressureByAmount(amounts, pressure, local);
        slopes.Clear();
        for (int m = 0; m < local.Length; m++)
        {
            if (members[step][m] <= step)
            {
                slopes[members[step][m]] = local[m];
            }
        }

        return pressure;
    }

    /// <summary>Pressure that ideal gas would have after a step, Pa.</summary>
    public double IdealPressure(int step, ReadOnlySpan<double> added) => stages[step].IdealPressurePerMole * Members(step, added).Sum();

    /// <summary>Pressure that an amount of ideal gas alone would have, Pa.</summary>
    public double IdealPartialPressure(int step, double amount) => stages[step].IdealPressurePerMole * amount;

    /// <summary>Amount the machine holds at a pressure of the last gas, mol, with given mole fractions in the order of <see cref="Components"/>.</summary>
    public double AmountAt(double pressure, ReadOnlySpan<double> fractions)
    {
        int last = FillCount - 1;
        double[] z = new double[members[last].Length];
        for (int m = 0; m < z.Length; m++)
        {
            z[m] = fractions[members[last][m]];
        }

        return stages[last].AmountAt(pressure, z);
    }

    /// <summary>Highest pressure of the last gas's equation, Pa.</summary>
    public double HighestPressure => fluids[FillCount - 1].Kernel.HighestPressure;

    /// <summary>Lowest pressure of the last gas's equation, Pa.</summary>
    public double LowestPressure => fluids[FillCount - 1].Kernel.LowestPressure;

    private double[] Members(int step, ReadOnlySpan<double> added)
    {
        int[] of = members[step];
        double[] amounts = new double[of.Length];
        for (int m = 0; m < of.Length; m++)
        {
            amounts[m] = residual[of[m]] + (of[m] <= step ? added[of[m]] : 0);
        }

        return amounts;
    }

    private static double FractionOf(Composition composition, Substance substance)
    {
        for (int i = 0; i < composition.Components.Count; i++)
        {
            if (composition.Components[i].Identity.Equals(substance.Identity))
            {
                return composition.MoleFractions[i];
            }
        }

        return 0;
    }

    private static (double[] Temperatures, double[] Volumes) Grouped(IReadOnlyList<MachineVolume> machine, double shift, double factor)
    {
        IGrouping<double, MachineVolume>[] groups = [.. machine.GroupBy(v => v.Temperature.Kelvins).OrderBy(g => g.Key)];
        return ([.. groups.Select(g => g.Key + shift)], [.. groups.Select(g => factor * g.Sum(v => v.Volume.CubicMeters))]);
    }
}
