using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using CryoThermo.Substances;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// How far the composition strays when a recipe is followed with imperfect instruments: each step is closed by its scale or gauge
/// (<see cref="ChargeStep.Control"/>) at the figure of the recipe, and that figure is off. Immutable and thread-safe.
/// </summary>
public sealed class ChargeTolerance
{
    private readonly FillSequence sequence;
    private readonly ReadingUncertainty uncertainty;
    private readonly double[] added;
    private readonly (int Step, bool IsGauge)[] kinds;
    private readonly double[] atmospheres;

    private ChargeTolerance(ChargeRecipe recipe, ReadingUncertainty uncertainty, IReadOnlyList<ChargeControl> controls)
    {
        Recipe = recipe;
        this.uncertainty = uncertainty;
        ChargeStep[] filled = [.. recipe.Steps.Where(s => s.Amount.Moles > 0)];
        ChargeRequest request = recipe.Request;
        sequence = new(request.Wanted, request.Volumes, [.. filled.Select(s => s.Component)], request.Residual);
        added = [.. filled.Select(s => s.Amount.Moles)];
        kinds = [.. filled.Select((s, i) => (i, controls[recipe.Steps.Index().First(t => ReferenceEquals(t.Item, s)).Index] == ChargeControl.Gauge))];
        atmospheres = [.. filled.Select(_ => request.LocalAtmosphere.Pascals)];

        ChargeObservations observations = new(sequence, kinds, atmospheres, uncertainty);
        int last = added.Length - 1;
        double[] contents = sequence.Contents(last, added);
        Components = sequence.Components;
        (Vector<double> values, Matrix<double> bySlopes) = observations.Predict(sequence, added);
        Matrix<double> inverse = bySlopes.Inverse();
        Matrix<double> byAmount = ChargeEstimate.FractionsByAmount(contents, added.Length);
        double[] row = new double[contents.Length];
        double pressure = sequence.PressureWithSlopes(last, added, row);
        Vector<double> pressureByAmount = Vector<double>.Build.DenseOfArray(row[..added.Length]);
        List<ToleranceSource> sources = [];
        Vector<double> variance = Vector<double>.Build.Dense(contents.Length);
        double pressureVariance = 0;
        foreach ((string name, Vector<double> effect) in observations.Sources(added, values))
        {
            // The builder stops at the recipe's figure: the true value is that less the error.
            Vector<double> amounts = -(inverse * effect);
            Vector<double> shift = byAmount * amounts;
            double pressureShift = (pressureByAmount * amounts) + Direct(name, pressure);
            sources.Add(new(name, [.. shift], Pressure.FromPascals(pressureShift)));
            variance += shift.PointwiseMultiply(shift);
            pressureVariance += pressureShift * pressureShift;
        }

        Sources = sources;
        StandardDeviations = [.. variance.PointwiseSqrt()];
        PressureDeviation = Pressure.FromPascals(Math.Sqrt(pressureVariance));
    }

    /// <summary>The recipe.</summary>
    public ChargeRecipe Recipe { get; }

    /// <summary>Everything in the machine; the order of all lists here.</summary>
    public IReadOnlyList<Substance> Components { get; }

    /// <summary>What each source of error does.</summary>
    public IReadOnlyList<ToleranceSource> Sources { get; }

    /// <summary>Standard deviation of each mole fraction from all sources together.</summary>
    public IReadOnlyList<double> StandardDeviations { get; }

    /// <summary>Standard deviation of the true final pressure.</summary>
    public Pressure PressureDeviation { get; }

    /// <summary>Studies a recipe, each step closed as the recipe says.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="uncertainty">Standard uncertainties of the instruments.</param>
    public static ChargeTolerance Of(ChargeRecipe recipe, ReadingUncertainty uncertainty)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        return Of(recipe, uncertainty, [.. recipe.Steps.Select(s => s.Control)]);
    }

    /// <summary>Studies a recipe with the steps closed as told.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="uncertainty">Standard uncertainties of the instruments.</param>
    /// <param name="controls">What each step is closed by, one a step.</param>
    /// <exception cref="ArgumentException">There are not as many controls as steps.</exception>
    public static ChargeTolerance Of(ChargeRecipe recipe, ReadingUncertainty uncertainty, IReadOnlyList<ChargeControl> controls)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        ArgumentNullException.ThrowIfNull(uncertainty);
        ArgumentNullException.ThrowIfNull(controls);
        Guard.Length(controls.Count, recipe.Steps.Count, nameof(controls));
        return new(recipe, uncertainty, controls);
    }

    /// <summary>
    /// The same by random errors: each trial fills the machine with instruments that are off and solves for what is then in it, so it holds
    /// where first order does not. Returns the standard deviation of each mole fraction about the recipe's.
    /// </summary>
    /// <param name="trials">10 to 1 000 000.</param>
    /// <param name="seed">The same seed gives the same errors.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number of trials is out of its range.</exception>
    public IReadOnlyList<double> SimulatedDeviations(int trials, int seed, CancellationToken cancellation = default)
    {
        Guard.InRange(trials, 10, 1_000_000, "trials");
        ReadingUncertainty u = uncertainty;
        ChargeObservations observations = new(sequence, kinds, atmospheres, u);
        int last = added.Length - 1;
        double[] wanted = sequence.Contents(last, added);
        double whole = wanted.Sum();
        double[] squares = new double[wanted.Length];
        (Vector<double> targets, _) = observations.Predict(sequence, added);
#pragma warning disable CA5394 // Random errors of instruments, not secrets.
        Random random = new(seed);
        double Normal() => NormalDeviate.Next(random);
#pragma warning restore CA5394
        for (int trial = 0; trial < trials; trial++)
        {
            cancellation.ThrowIfCancellationRequested();
            double zero = Normal() * u.GaugeZero.Pascals;
            double span = Normal() * u.GaugeSpan;
            Vector<double> reached = targets.Clone();
            for (int k = 0; k < reached.Count; k++)
            {
                double gauge = targets[k] - atmospheres[k];
                reached[k] -= kinds[k].IsGauge
                    ? zero + (span * gauge) + (Normal() * u.GaugeReading.Pascals) + (Normal() * u.GaugeReadingShare * gauge)
                    : Normal() * u.Weighing.Kilograms;
            }

            FillSequence actual = sequence.Shifted(Normal() * u.Temperature.Kelvins, 1 + (Normal() * u.VolumeShare));
            double[] amounts = observations.Solve(actual, reached, added, false, out _, out _);
            double[] contents = actual.Contents(last, amounts);
            double total = contents.Sum();
            for (int i = 0; i < squares.Length; i++)
            {
                double shift = (contents[i] / total) - (wanted[i] / whole);
                squares[i] += shift * shift;
            }
        }

        return [.. squares.Select(s => Math.Sqrt(s / trials))];
    }

    /// <summary>The study as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        "Shift of the composition by one standard deviation of each source, mole percent",
        ["source", .. Components.Select(c => c.Name), "final pressure, bar"],
        [
            .. Sources.Select(s => (IReadOnlyList<string>)[s.Source, .. s.MoleFractionShifts.Select(x => $"{100 * x:+0.000;-0.000;0.000}"), $"{s.PressureShift.Bars:+0.0000;-0.0000;0.0000}"]),
            ["all together", .. StandardDeviations.Select(x => $"{100 * x:0.000}"), $"{PressureDeviation.Bars:0.0000}"],
        ]);

    // What temperature and volume do to the pressure of amounts that stay: it comes on top of what they do through the amounts.
    private double Direct(string source, double pressure) => source switch
    {
        ChargeObservations.TemperatureSource => sequence.Shifted(uncertainty.Temperature.Kelvins, 1).Pressure(added.Length - 1, added) - pressure,
        ChargeObservations.VolumeSource => sequence.Shifted(0, 1 + uncertainty.VolumeShare).Pressure(added.Length - 1, added) - pressure,
        _ => 0,
    };
}
