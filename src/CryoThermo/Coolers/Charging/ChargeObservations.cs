using CryoThermo.Diagnostics;
using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Gauge readings and masses as functions of the amounts filled, with their slopes and the covariance of their errors: what the inverse, the
/// tolerance study and their check by random errors share.
/// </summary>
internal sealed class ChargeObservations
{
    /// <summary>Name of the source of error that shifts all temperatures.</summary>
    public const string TemperatureSource = "temperature";

    /// <summary>Name of the source of error that scales all volumes.</summary>
    public const string VolumeSource = "volume";

    private const double TemperatureStep = 0.02;
    private const int MostRounds = 60;

    /// <summary>A round that moves no amount by more than this share of the whole is the last; what is left after it is smaller by orders.</summary>
    private const double Settled = 1e-10;

    private readonly FillSequence sequence;
    private readonly (int Step, bool IsGauge)[] kinds;
    private readonly double[] atmospheres;
    private readonly ReadingUncertainty uncertainty;

    /// <summary>Names what is observed.</summary>
    /// <param name="sequence">The filling.</param>
    /// <param name="kinds">Step and kind of each observation.</param>
    /// <param name="atmospheres">Atmosphere at each, Pa; not used for masses.</param>
    /// <param name="uncertainty">Errors.</param>
    public ChargeObservations(FillSequence sequence, (int Step, bool IsGauge)[] kinds, double[] atmospheres, ReadingUncertainty uncertainty)
    {
        this.sequence = sequence;
        this.kinds = kinds;
        this.atmospheres = atmospheres;
        this.uncertainty = uncertainty;
    }

    private int Count => sequence.FillCount;

    /// <summary>Observations of amounts (absolute Pa and kg) and their slopes by each amount.</summary>
    public (Vector<double> Values, Matrix<double> Slopes) Predict(FillSequence machine, double[] added)
    {
        Vector<double> values = Vector<double>.Build.Dense(kinds.Length);
        Matrix<double> slopes = Matrix<double>.Build.Dense(kinds.Length, Count);
        double[] row = new double[sequence.Components.Count];
        for (int k = 0; k < kinds.Length; k++)
        {
            (int step, bool isGauge) = kinds[k];
            if (isGauge)
            {
                values[k] = machine.PressureWithSlopes(step, added, row);
                for (int i = 0; i < Count; i++)
                {
                    slopes[k, i] = row[i];
                }
            }
            else
            {
                values[k] = added[step] * sequence.Components[step].MolarMass;
                slopes[k, step] = sequence.Components[step].MolarMass;
            }
        }

        return (values, slopes);
    }

    /// <summary>
    /// The sources of error: each a name and what one standard deviation of it adds to every reading, given the amounts. A reading is the
    /// true value plus these.
    /// </summary>
    /// <param name="added">Amounts, mol.</param>
    /// <param name="values">The readings of these amounts, by <see cref="Predict"/>.</param>
    public IReadOnlyList<(string Name, Vector<double> Effect)> Sources(double[] added, Vector<double> values)
    {
        List<(string, Vector<double>)> sources = [];
        void Common(string name, Func<int, double> effect)
        {
            Vector<double> v = Vector<double>.Build.Dense(kinds.Length, effect);
            if (v.AbsoluteMaximum() > 0)
            {
                sources.Add((name, v));
            }
        }

        Common("gauge zero", k => kinds[k].IsGauge ? uncertainty.GaugeZero.Pascals : 0);
        Common("gauge span", k => kinds[k].IsGauge ? uncertainty.GaugeSpan * (values[k] - atmospheres[k]) : 0);
        for (int own = 0; own < kinds.Length; own++)
        {
            double deviation = Own(own, values[own]);
            int here = own;
            Common(kinds[own].IsGauge ? $"gauge reading after {Name(own)}" : $"weighing of {Name(own)}", k => k == here ? deviation : 0);
        }

        if (uncertainty.Temperature.Kelvins > 0)
        {
            (Vector<double> warm, _) = Predict(sequence.Shifted(TemperatureStep, 1), added);
            (Vector<double> cool, _) = Predict(sequence.Shifted(-TemperatureStep, 1), added);
            Vector<double> slope = (warm - cool) / (2 * TemperatureStep);
            Common(TemperatureSource, k => slope[k] * uncertainty.Temperature.Kelvins);
        }

        if (uncertainty.VolumeShare > 0)
        {
            (Vector<double> large, _) = Predict(sequence.Shifted(0, 1.001), added);
            (Vector<double> small, _) = Predict(sequence.Shifted(0, 0.999), added);
            Vector<double> slope = (large - small) / 0.002;
            Common(VolumeSource, k => slope[k] * uncertainty.VolumeShare);
        }

        return sources;
    }

    /// <summary>Covariance of the readings' errors.</summary>
    public Matrix<double> Covariance(double[] added, Vector<double> values)
    {
        Matrix<double> sum = Matrix<double>.Build.Dense(kinds.Length, kinds.Length);
        foreach ((_, Vector<double> effect) in Sources(added, values))
        {
            sum += effect.OuterProduct(effect);
        }

        return sum;
    }

    /// <summary>
    /// Amounts from readings by generalised least squares (Gauss-Newton, steps halved until the misfit falls): each reading counts by the
    /// covariance of the errors. With as many readings as amounts it is the exact inverse.
    /// </summary>
    /// <param name="machine">The sequence to solve in; with shifted temperatures and volumes for the check by random errors.</param>
    /// <param name="readings">Absolute Pa and kg.</param>
    /// <param name="start">Starting amounts, mol, above zero.</param>
    /// <param name="covariance">Covariance of the amounts; null when the caller does not ask for it.</param>
    /// <param name="misfit">Weighted sum of squares left.</param>
    /// <param name="wantsCovariance">Whether to compute the covariance.</param>
    /// <exception cref="ArgumentException">The readings contradict each other or do not determine the amounts.</exception>
    public double[] Solve(FillSequence machine, Vector<double> readings, double[] start, bool wantsCovariance, out Matrix<double>? covariance, out double misfit)
    {
        double[] at = [.. start];
        bool isSquare = kinds.Length == Count;
        Matrix<double>? weight = null;
        for (int round = 0; ; round++)
        {
            (Vector<double> values, Matrix<double> slopes) = Predict(machine, at);
            Vector<double> miss = readings - values;
            if (!isSquare && (round == 0 || round == 3))
            {
                // The errors are shares of what is read: once more near the amounts found.
                weight = Weight(Covariance(at, values));
            }

            Vector<double> move = isSquare
                ? slopes.Solve(miss)
                : (slopes.TransposeThisAndMultiply(weight!) * slopes).Solve(slopes.TransposeThisAndMultiply(weight!) * miss);
            double moved = Step(at, move);
            if (round >= 4 && moved < Settled)
            {
                break;
            }

            if (round >= MostRounds)
            {
                throw new ConvergenceException(
                    "Amounts from readings",
                    string.Join(", ", kinds.Select((k, i) => $"{(k.IsGauge ? "pressure after" : "mass of")} {Name(i)} {readings[i]:G6} {(k.IsGauge ? "Pa" : "kg")}")),
                    moved,
                    "The readings contradict each other; look for one that was noted wrong.");
            }
        }

        misfit = 0;
        covariance = null;
        if (!wantsCovariance)
        {
            return at;
        }

        (Vector<double> found, Matrix<double> final) = Predict(machine, at);
        Matrix<double> errors = Covariance(at, found);
        if (isSquare)
        {
            Matrix<double> inverse = final.Inverse();
            covariance = inverse * errors * inverse.Transpose();
            return at;
        }

        weight = Weight(errors);
        covariance = (final.TransposeThisAndMultiply(weight) * final).Inverse();
        Vector<double> left = readings - found;
        misfit = left * (weight * left);
        return at;
    }

    private double Step(double[] at, Vector<double> move)
    {
        double whole = at.Sum();
        double factor = 1;
        for (int i = 0; i < at.Length; i++)
        {
            if (!double.IsFinite(move[i]))
            {
                throw new ArgumentException($"The readings do not determine the amount of {sequence.Components[i].Name}.", nameof(move));
            }

            // Never all the way to nothing in one step; a large step may leave the region of a gas.
            if (at[i] + (factor * move[i]) <= 0.2 * at[i])
            {
                factor = -0.8 * at[i] / move[i];
            }

            if (at[i] < 1e-9 * whole)
            {
                throw new ArgumentException(
                    $"The readings contradict each other: the amount of {sequence.Components[i].Name} comes out as not above zero.", nameof(move));
            }
        }

        double moved = 0;
        for (int i = 0; i < at.Length; i++)
        {
            at[i] += factor * move[i];
            moved = Math.Max(moved, Math.Abs(factor * move[i]) / whole);
        }

        return moved;
    }

    private double Own(int k, double value) => kinds[k].IsGauge
        ? Math.Sqrt(Square(uncertainty.GaugeReading.Pascals) + Square(uncertainty.GaugeReadingShare * (value - atmospheres[k])))
        : uncertainty.Weighing.Kilograms;

    private string Name(int k) => sequence.Components[kinds[k].Step].Name;

    private static double Square(double x) => x * x;

    private static Matrix<double> Weight(Matrix<double> covariance)
    {
        // Scaled to a correlation matrix first: pascals and kilograms differ by many decades.
        int n = covariance.RowCount;
        double[] scale = [.. Enumerable.Range(0, n).Select(i => Math.Sqrt(covariance[i, i]))];
        Matrix<double> correlation = Matrix<double>.Build.Dense(n, n, (i, j) => covariance[i, j] / (scale[i] * scale[j]));
        if (scale.Any(s => !(s > 0)) || correlation.ConditionNumber() > 1e12)
        {
            throw new ArgumentException(
                "There are more readings than components, so each needs an error of its own to be weighed by: state GaugeReading or GaugeReadingShare, and Weighing.",
                nameof(covariance));
        }

        Matrix<double> inverse = correlation.Inverse();
        return Matrix<double>.Build.Dense(n, n, (i, j) => inverse[i, j] / (scale[i] * scale[j]));
    }
}
