using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// What is in a machine by the readings taken while it was charged, and how well that is known: generalised least squares over gauge and
/// scale, the errors carried through to the mole fractions in first order. Immutable and thread-safe.
/// </summary>
public sealed class ChargeEstimate
{
    private readonly double[,] covariance;

    private ChargeEstimate(
        IReadOnlyList<ComponentEstimate> components, double[,] covariance, WorkingFluid fluid, Pressure pressure, double misfit, int degreesOfFreedom)
    {
        Components = components;
        this.covariance = covariance;
        Fluid = fluid;
        Pressure = pressure;
        Misfit = misfit;
        DegreesOfFreedom = degreesOfFreedom;
    }

    /// <summary>The components filled, in order, then those that only were there before.</summary>
    public IReadOnlyList<ComponentEstimate> Components { get; }

    /// <summary>The gas in the machine.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>Absolute pressure of the amounts found, at the temperatures of the machine.</summary>
    public Pressure Pressure { get; }

    /// <summary>Weighted sum of squares that the readings leave; about <see cref="DegreesOfFreedom"/> when the stated errors are right.</summary>
    public double Misfit { get; }

    /// <summary>Readings less components filled; 0 leaves nothing to judge the readings by.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>
    /// Probability of a misfit this large or larger if the stated errors are right (chi-square); 1 without a degree of freedom. Below about
    /// 0.01 a reading was noted wrong, the machine leaks or is not at the stated temperature, or the errors are larger than stated.
    /// </summary>
    public double Consistency => DegreesOfFreedom == 0 ? 1 : 1 - ChiSquared.CDF(DegreesOfFreedom, Misfit);

    /// <summary>Covariance of two mole fractions.</summary>
    /// <param name="first">Index into <see cref="Components"/>.</param>
    /// <param name="second">Index into <see cref="Components"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An index is outside the components.</exception>
    public double Covariance(int first, int second)
    {
        Guard.InRange(first, 0, Components.Count - 1, "(index)");
        Guard.InRange(second, 0, Components.Count - 1, "(index)");
        return covariance[first, second];
    }

    /// <summary>Finds what is in the machine.</summary>
    /// <param name="fluid">Names catalogue and model; its composition does not matter.</param>
    /// <param name="volumes">The machine.</param>
    /// <param name="readings">In the order of filling, one a component.</param>
    /// <param name="uncertainty">Standard uncertainties of the readings.</param>
    /// <param name="before">What was in the machine at the start; null for nothing.</param>
    /// <exception cref="ArgumentException">
    /// A component is read twice or unknown; the readings contradict each other, or there are more than components and one has no error of its own.
    /// </exception>
    /// <exception cref="ConvergenceException">No amounts were found.</exception>
    public static ChargeEstimate FromReadings(
        WorkingFluid fluid,
        IReadOnlyList<MachineVolume> volumes,
        IReadOnlyList<ChargeReading> readings,
        ReadingUncertainty uncertainty,
        ResidualContents? before = null)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(uncertainty);
        IReadOnlyList<MachineVolume> machine = ChargeRequest.Checked(volumes);
        if (readings.Count == 0 || readings.Any(r => r is null))
        {
            throw new ArgumentException($"readings holds {readings.Count} entries; at least one is needed, none of them null.", nameof(readings));
        }

        Substance[] filled = [.. fluid.OfComponents([.. readings.Select(r => (r.Substance, AmountOfSubstance.FromMoles(1)))]).Composition.Components];
        return FromReadings(new FillSequence(fluid, machine, filled, before), readings, uncertainty);
    }

    /// <summary>The same with a sequence that is at hand already.</summary>
    internal static ChargeEstimate FromReadings(FillSequence sequence, IReadOnlyList<ChargeReading> readings, ReadingUncertainty uncertainty)
    {
        List<(int Step, bool IsGauge)> kinds = [];
        List<double> values = [];
        List<double> atmospheres = [];
        for (int step = 0; step < readings.Count; step++)
        {
            if (readings[step].Gauge is { } gauge)
            {
                kinds.Add((step, true));
                values.Add(gauge.Absolute.Pascals);
                atmospheres.Add(gauge.Atmosphere.Pascals);
            }

            if (readings[step].Mass is { } mass)
            {
                kinds.Add((step, false));
                values.Add(mass.Kilograms);
                atmospheres.Add(0);
            }
        }

        ChargeObservations observations = new(sequence, [.. kinds], [.. atmospheres], uncertainty);
        double[] added = observations.Solve(
            sequence, Vector<double>.Build.DenseOfEnumerable(values), Start(sequence, readings), true, out Matrix<double>? amounts, out double misfit);
        return Describe(sequence, added, amounts!, misfit, kinds.Count - sequence.FillCount);
    }

    /// <summary>The estimate as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"In the machine at {Pressure.Bars:F4} bar absolute",
        ["component", "amount, mol", "standard uncertainty, mol", "mole fraction", "standard uncertainty", "95 % from", "95 % to"],
        [.. Components.Select(c => (IReadOnlyList<string>)
        [
            c.Component.Name,
            $"{c.Amount.Moles:F5}",
            $"{c.AmountUncertainty.Moles:F5}",
            $"{c.MoleFraction:F5}",
            $"{c.StandardUncertainty:F5}",
            $"{c.Lower95:F5}",
            $"{c.Upper95:F5}",
        ])]);

    /// <summary>Slopes of all mole fractions by the amounts filled, 1/mol.</summary>
    internal static Matrix<double> FractionsByAmount(double[] contents, int filled)
    {
        double total = contents.Sum();
        return Matrix<double>.Build.Dense(contents.Length, filled, (i, j) => ((i == j ? 1 : 0) - (contents[i] / total)) / total);
    }

    // Masses as they are; where there is none, the rise of the reading as of an ideal gas.
    private static double[] Start(FillSequence sequence, IReadOnlyList<ChargeReading> readings)
    {
        double[] added = new double[readings.Count];
        double known = 0;
        foreach (double moles in sequence.Residual)
        {
            known += moles;
        }

        for (int i = 0; i < added.Length; i++)
        {
            double perMole = sequence.IdealPartialPressure(i, 1);
            double byGauge = readings[i].Gauge is { } gauge ? (gauge.Absolute.Pascals / perMole) - known : 0;
            double byMass = readings[i].Mass is { } mass ? mass.Kilograms / sequence.Components[i].MolarMass : 0;
            double least = 0.01 * Math.Max(known, Math.Max(readings.Max(r => r.Gauge?.Absolute.Pascals ?? 0) / perMole / 100, 1e-9));
            added[i] = Math.Max(byMass > 0 ? byMass : byGauge, least);
            known += added[i];
        }

        return added;
    }

    private static ChargeEstimate Describe(FillSequence sequence, double[] added, Matrix<double> amounts, double misfit, int degrees)
    {
        int last = sequence.FillCount - 1;
        double[] contents = sequence.Contents(last, added);
        Matrix<double> slopes = FractionsByAmount(contents, added.Length);
        Matrix<double> fractions = slopes * amounts * slopes.Transpose();
        double total = contents.Sum();
        ComponentEstimate[] components = new ComponentEstimate[contents.Length];
        for (int i = 0; i < components.Length; i++)
        {
            components[i] = new(
                sequence.Components[i],
                AmountOfSubstance.FromMoles(contents[i]),
                AmountOfSubstance.FromMoles(i <= last ? Math.Sqrt(Math.Max(0, amounts[i, i])) : 0),
                contents[i] / total,
                Math.Sqrt(Math.Max(0, fractions[i, i])));
        }

        return new(
            components, fractions.ToArray(), sequence.FluidAfter(last, added), Pressure.FromPascals(sequence.Pressure(last, added)), misfit, degrees);
    }
}
