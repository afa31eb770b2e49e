using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Fitting;

/// <summary>
/// Robust regression: Levenberg-Marquardt steps (Marquardt, J. Soc. Ind. Appl. Math. 11 (1963) 431) on squares weighted anew at each. A residual
/// within 1.345 of the scale of all counts with its square, one beyond with its magnitude (Huber, Ann. Math. Stat. 35 (1964) 73; the constant
/// gives 95 % efficiency for normal scatter, common practice). The scale is 1.4826 times the median magnitude, not below one standard uncertainty.
/// </summary>
/// <remarks>
/// A step is judged by the robust loss itself, and a slope only taken where the differences to both sides agree: a general minimiser of weighted
/// squares came to a stop where one point of many jumps from one root to another.
/// </remarks>
internal sealed class RobustLeastSquares
{
    private const double Elbow = 1.345;
    private const double MedianToDeviation = 1.4826;
    private const int MostRounds = 8;
    private const int MostSteps = 40;
    private const double Settled = 1e-7;

    // A point without an answer counts as this many scales.
    private const double Penalty = 5;

    private const double DifferenceStep = 1e-5;

    // Slopes smaller than this, in standard uncertainties per unit, need not agree to both sides.
    private const double SlopeSlack = 100;

    // Largest change of a parameter in one step.
    private const double LargestStep = 0.1;

    private readonly Func<double[], IReadOnlyList<double>> residuals;
    private readonly double[] low;
    private readonly double[] high;

    /// <summary>Takes the problem.</summary>
    /// <param name="residuals">Residuals in standard uncertainties; not a number where there is no answer. Their number must not change.</param>
    /// <param name="low">Lower limits of the parameters.</param>
    /// <param name="high">Upper limits.</param>
    public RobustLeastSquares(Func<double[], IReadOnlyList<double>> residuals, double[] low, double[] high)
    {
        this.residuals = residuals;
        this.low = low;
        this.high = high;
    }

    /// <summary>The robust loss, the smaller the better, at a fixed scale; comparable between parameters.</summary>
    public double Loss(double[] parameters, double scale)
    {
        double sum = 0;
        foreach (double residual in residuals(Clamp(parameters)))
        {
            double e = double.IsFinite(residual) ? Math.Abs(residual) / scale : Penalty;
            sum += e <= Elbow ? 0.5 * e * e : Elbow * (e - (0.5 * Elbow));
        }

        return sum;
    }

    /// <summary>The scale of the residuals.</summary>
    public double ScaleAt(double[] parameters) => ScaleOf(residuals(Clamp(parameters)));

    /// <summary>Finds the parameters.</summary>
    /// <param name="start">Starting values.</param>
    /// <param name="cancellation">Ends the work between rounds.</param>
    public Answer Solve(double[] start, CancellationToken cancellation)
    {
        double[] at = Clamp(start);
        for (int round = 0; round < MostRounds; round++)
        {
            double scale = ScaleAt(at);
            double[] next = Minimize(at, scale, cancellation);
            double move = next.Zip(at, (a, b) => Math.Abs(a - b)).Max();
            at = next;
            if (move < Settled)
            {
                break;
            }
        }

        return Covariance(at);
    }

    // Levenberg-Marquardt at a fixed scale.
    private double[] Minimize(double[] start, double scale, CancellationToken cancellation)
    {
        double[] at = start;
        double loss = Loss(at, scale);
        double damping = 1e-3;
        for (int step = 0; step < MostSteps; step++)
        {
            cancellation.ThrowIfCancellationRequested();
            IReadOnlyList<double> now = residuals(at);
            Matrix<double> jacobian = Jacobian(at, now);
            Matrix<double> normal = Matrix<double>.Build.Dense(at.Length, at.Length);
            Vector<double> gradient = Vector<double>.Build.Dense(at.Length);
            for (int i = 0; i < now.Count; i++)
            {
                if (double.IsFinite(now[i]))
                {
                    Vector<double> row = jacobian.Row(i);
                    double weight = WeightOf(now[i], scale);
                    normal += weight * row.OuterProduct(row);
                    gradient += weight * now[i] * row;
                }
            }

            double[]? better = null;
            for (; better is null && damping < 1e8; damping *= 10)
            {
                Matrix<double> damped = normal.Clone();
                for (int j = 0; j < at.Length; j++)
                {
                    damped[j, j] += (damping * normal[j, j]) + double.Epsilon;
                }

                Vector<double> move = damped.Solve(-gradient);
                double[] trial = Clamp([.. at.Zip(move, (a, m) => double.IsFinite(m) ? a + Math.Clamp(m, -LargestStep, LargestStep) : a)]);
                double trialLoss = Loss(trial, scale);
                if (trialLoss < loss)
                {
                    better = trial;
                    loss = trialLoss;
                    damping /= 100;
                }
            }

            if (better is null)
            {
                break;
            }

            double moved = better.Zip(at, (a, b) => Math.Abs(a - b)).Max();
            at = better;
            damping = Math.Max(damping, 1e-9);
            if (moved < Settled)
            {
                break;
            }
        }

        return at;
    }

    // Differences to both sides; where they disagree, or one side has no answer, the point jumps there and its slope is not taken.
    private Matrix<double> Jacobian(double[] parameters, IReadOnlyList<double> now)
    {
        Matrix<double> jacobian = Matrix<double>.Build.Dense(now.Count, parameters.Length);
        for (int j = 0; j < parameters.Length; j++)
        {
            double[] below = [.. parameters];
            double[] above = [.. parameters];
            below[j] -= DifferenceStep;
            above[j] += DifferenceStep;
            IReadOnlyList<double> a = residuals(below);
            IReadOnlyList<double> b = residuals(above);
            for (int i = 0; i < now.Count; i++)
            {
                double left = (now[i] - a[i]) / DifferenceStep;
                double right = (b[i] - now[i]) / DifferenceStep;
                bool agree = Math.Abs(left - right) <= (0.5 * (Math.Abs(left) + Math.Abs(right))) + SlopeSlack;
                jacobian[i, j] = agree ? 0.5 * (left + right) : 0;
            }
        }

        return jacobian;
    }

    // Huber's estimate of the covariance of an M-estimate: spread of the clipped residuals over the square of the share that is not clipped.
    private Answer Covariance(double[] at)
    {
        IReadOnlyList<double> values = residuals(at);
        double scale = ScaleOf(values);
        Matrix<double> jacobian = Jacobian(at, values);
        int n = at.Length;
        Matrix<double> normal = Matrix<double>.Build.Dense(n, n);
        double squares = 0;
        int solved = 0;
        int plain = 0;
        for (int i = 0; i < values.Count; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                continue;
            }

            Vector<double> row = jacobian.Row(i);
            normal += row.OuterProduct(row);
            double clipped = Math.Clamp(values[i], -Elbow * scale, Elbow * scale);
            squares += clipped * clipped;
            solved++;
            plain += Math.Abs(values[i]) <= Elbow * scale ? 1 : 0;
        }

        double variance = 1;
        if (solved > n)
        {
            double share = Math.Max(plain, 1) / (double)solved;
            variance = squares / (solved - n) / (share * share);
            variance = solved - n < 3 ? Math.Max(variance, 1) : variance;
        }

        double[] errors = new double[n];
        double[,] correlation = new double[n, n];
        if (normal.Rank() == n)
        {
            Matrix<double> covariance = variance * normal.Inverse();
            for (int i = 0; i < n; i++)
            {
                errors[i] = Math.Sqrt(Math.Max(covariance[i, i], 0));
            }

            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    correlation[i, j] = i == j ? 1 : errors[i] * errors[j] > 0 ? covariance[i, j] / (errors[i] * errors[j]) : 0;
                }
            }

            return new(at, errors, correlation, solved, values.Count - solved, true);
        }

        return new(at, errors, correlation, solved, values.Count - solved, false);
    }

    private static double ScaleOf(IReadOnlyList<double> values)
    {
        double[] sorted = [.. values.Where(double.IsFinite).Select(Math.Abs).Order()];
        return sorted.Length == 0 ? 1 : Math.Max(1, MedianToDeviation * sorted[sorted.Length / 2]);
    }

    private static double WeightOf(double residual, double scale)
    {
        double e = double.IsFinite(residual) ? Math.Abs(residual) / scale : Penalty;
        return e <= Elbow ? 1 : Elbow / e;
    }

    private double[] Clamp(double[] parameters) => [.. parameters.Select((p, i) => Math.Clamp(p, low[i], high[i]))];

    /// <summary>Where the regression ended.</summary>
    /// <param name="Parameters">The parameters.</param>
    /// <param name="StandardErrors">Their standard errors; zero when not determined.</param>
    /// <param name="Correlation">Their correlation matrix.</param>
    /// <param name="Solved">Residuals with an answer.</param>
    /// <param name="NotSolved">Residuals without.</param>
    /// <param name="IsDetermined">False when the residuals do not determine the parameters.</param>
    internal sealed record Answer(
        double[] Parameters, double[] StandardErrors, double[,] Correlation, int Solved, int NotSolved, bool IsDetermined);
}
