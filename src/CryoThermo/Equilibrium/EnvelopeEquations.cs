using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// The equations of two phases in equilibrium at a given share of the second, with one variable specified (Michelsen, Fluid Phase Equilib. 4
/// (1980) 1). Unlike there, the densities of both phases are variables too and their pressures equations: no density root is ever chosen, so
/// that nothing jumps where roots appear or vanish, and nothing needs to be exchanged at a critical point. Holds working memory: one thread.
/// </summary>
internal sealed class EnvelopeEquations
{
    /// <summary>Residuals below this are solved; rounding of ln f in a cold liquid is about 1e-13.</summary>
    private const double Tolerance = 1e-11;

    /// <summary>Accepted where rounding allows no more.</summary>
    private const double LooseTolerance = 1e-9;

    private const int MaxIterations = 25;

    // Within this of equal phases, in the variable specified, the equations are solved in two steps where Newton alone fails.
    private const double CloseToCritical = 0.6;

    private readonly MixtureKernel kernel;
    private readonly double[] z;
    private readonly int n;
    private readonly int size;
    private readonly double[] scratch;
    private readonly double[] first;
    private readonly double[] second;
    private readonly double[] firstLn;
    private readonly double[] secondLn;
    private readonly double[] firstByT;
    private readonly double[] secondByT;
    private readonly double[] firstSquare;
    private readonly double[] secondSquare;
    private readonly double[] firstSlope;
    private readonly double[] secondSlope;
    private readonly double[] move;
    private readonly double[] jacobian;
    private readonly double[] value;
    private readonly double[] normal;
    private readonly double[] right;
    private readonly int[] free;

    /// <summary>Prepares the equations of a mixture.</summary>
    /// <param name="kernel">Equation of state.</param>
    /// <param name="z">Mole fractions; zeros allowed.</param>
    /// <param name="share">Moles of the second phase over the whole, 0 to 1.</param>
    public EnvelopeEquations(MixtureKernel kernel, ReadOnlySpan<double> z, double share)
    {
        this.kernel = kernel;
        this.z = z.ToArray();
        n = z.Length;
        size = n + 4;
        Share = share;
        scratch = new double[kernel.ScratchLength];
        first = new double[n];
        second = new double[n];
        firstLn = new double[n];
        secondLn = new double[n];
        firstByT = new double[n];
        secondByT = new double[n];
        firstSquare = new double[n * n];
        secondSquare = new double[n * n];
        firstSlope = new double[n];
        secondSlope = new double[n];
        move = new double[n];
        jacobian = new double[size * size];
        value = new double[size];
        normal = new double[size * size];
        right = new double[size];
        free = new int[size];
    }

    /// <summary>Moles of the second phase over the whole.</summary>
    public double Share { get; set; }

    /// <summary>Number of components.</summary>
    public int Count => n;

    /// <summary>The equation of state.</summary>
    public MixtureKernel Kernel => kernel;

    /// <summary>Mole fractions of the whole.</summary>
    public ReadOnlySpan<double> Feed => z;

    /// <summary>Length of a vector of variables: ln K, ln T, ln p, ln of both densities, and the difference of these, second less first, which follows from them.</summary>
    public int Length => size + 1;

    /// <summary>Index of ln T.</summary>
    public int Temperature => n;

    /// <summary>Index of ln p.</summary>
    public int Pressure => n + 1;

    /// <summary>Index of ln of the first phase's molar density.</summary>
    public int FirstDensity => n + 2;

    /// <summary>Index of ln of the second phase's molar density.</summary>
    public int SecondDensity => n + 3;

    /// <summary>Index of the difference of the ln densities, second less first.</summary>
    public int DensityDifference => n + 4;

    /// <summary>The smaller of dp/d(density) over R T of both phases at the last point evaluated: below zero a phase falls apart by itself.</summary>
    public double Stiffness { get; private set; }

    /// <summary>Kernel scratch, set to the temperature of the last evaluation.</summary>
    public double[] Scratch => scratch;

    /// <summary>Mole fractions of both phases at given variables.</summary>
    public void Compositions(ReadOnlySpan<double> x, Span<double> firstPhase, Span<double> secondPhase)
    {
        double sumFirst = 0;
        double sumSecond = 0;
        for (int i = 0; i < n; i++)
        {
            Fractions(x, i, out firstPhase[i], out secondPhase[i]);
            sumFirst += firstPhase[i];
            sumSecond += secondPhase[i];
        }

        for (int i = 0; i < n; i++)
        {
            firstPhase[i] /= sumFirst;
            secondPhase[i] /= sumSecond;
        }
    }

    /// <summary>Newton with one variable held at a value. The variables are changed only on success.</summary>
    /// <param name="x">Start and result.</param>
    /// <param name="specified">Index of the variable held.</param>
    /// <param name="target">Its value.</param>
    /// <param name="iterations">Iterations taken.</param>
    /// <param name="residual">Largest residual reached.</param>
    public bool Solve(double[] x, int specified, double target, out int iterations, out double residual)
    {
        if (Newton(x, specified, target, out iterations, out residual))
        {
            return true;
        }

        return (specified < n || specified == DensityDifference) && Math.Abs(target) < CloseToCritical && SolveClose(x, specified, target, out iterations, out residual);
    }

    // Beside a critical point temperature and pressure follow from terms of the third order in the distance: an error of second order in the
    // compositions and densities throws them off. So these are corrected first at the temperature and pressure at hand, by least squares, each time
    // before all are.
    private bool SolveClose(double[] x, int specified, double target, out int iterations, out double residual)
    {
        const int Rounds = 15;
        const int Corrections = 3;
        const double SmallestMove = 1e-9;
        const double LargestMove = 1e-5;
        double[] trial = (double[])x.Clone();
        double last = double.PositiveInfinity;
        residual = double.PositiveInfinity;
        for (iterations = 0; iterations < Rounds; iterations++)
        {
            for (int correction = 0; correction < Corrections; correction++)
            {
                if (!CorrectPhases(trial, specified, target))
                {
                    return false;
                }
            }

            residual = Evaluate(trial, specified, target);
            for (int i = 0; i < size; i++)
            {
                value[i] = -value[i];
            }

            if (!double.IsFinite(residual) || !LinearSystem.Solve(jacobian, size, value))
            {
                return false;
            }

            double change = Math.Max(Math.Abs(value[Temperature]), Math.Abs(value[Pressure]));
            if (residual < Tolerance && (change < SmallestMove || (change < LargestMove && change >= 0.3 * last)))
            {
                trial.CopyTo(x, 0);
                return true;
            }

            last = change;
            double scale = Math.Min(1, 0.1 / Math.Max(1e-300, Math.Max(Math.Abs(value[Temperature]), 0.3 * Math.Abs(value[Pressure]))));
            if (!Move(trial, scale))
            {
                return false;
            }
        }

        return false;
    }

    // One Gauss-Newton step of all variables but temperature, pressure and the one specified.
    private bool CorrectPhases(double[] trial, int specified, double target)
    {
        Evaluate(trial, specified, target);
        int count = 0;
        for (int i = 0; i < size; i++)
        {
            if (i != Temperature && i != Pressure)
            {
                free[count++] = i;
            }
        }

        for (int a = 0; a < count; a++)
        {
            right[a] = 0;
            for (int row = 0; row < size; row++)
            {
                right[a] -= jacobian[(row * size) + free[a]] * value[row];
            }

            for (int b = 0; b < count; b++)
            {
                double sum = 0;
                for (int row = 0; row < size; row++)
                {
                    sum += jacobian[(row * size) + free[a]] * jacobian[(row * size) + free[b]];
                }

                normal[(a * count) + b] = sum;
            }
        }

        if (!Cholesky.Factor(normal, count, 0))
        {
            return false;
        }

        Cholesky.Solve(normal, count, right);
        value.AsSpan().Clear();
        for (int a = 0; a < count; a++)
        {
            value[free[a]] = right[a];
        }

        return Move(trial, 1);
    }

    private bool Move(double[] trial, double scale)
    {
        for (int i = 0; i < size; i++)
        {
            trial[i] += scale * value[i];
        }

        trial[size] = trial[SecondDensity] - trial[FirstDensity];
        return IsPossible(trial);
    }

    private bool Newton(double[] x, int specified, double target, out int iterations, out double residual)
    {
        double[] trial = (double[])x.Clone();
        residual = double.PositiveInfinity;
        double best = double.PositiveInfinity;
        int worse = 0;
        for (iterations = 0; iterations < MaxIterations; iterations++)
        {
            residual = Evaluate(trial, specified, target);
            if (residual < Tolerance || (residual < LooseTolerance && residual >= best))
            {
                Polish(trial);
                trial.CopyTo(x, 0);
                return true;
            }

            if (!double.IsFinite(residual) || (!(residual < best) && ++worse > 4))
            {
                return false;
            }

            best = Math.Min(best, residual);
            for (int i = 0; i < size; i++)
            {
                value[i] = -value[i];
            }

            if (!LinearSystem.Solve(jacobian, size, value))
            {
                return false;
            }

            double scale = 1;
            for (int i = 0; i < size; i++)
            {
                double limit = i < n ? 2 : i == Temperature ? 0.1 : i == Pressure ? 2 : 0.4;
                scale = Math.Min(scale, limit / Math.Max(Math.Abs(value[i]), limit));
            }

            if (!Move(trial, scale))
            {
                return false;
            }
        }

        return false;
    }

    // A last step from the figures at hand: near the critical point of an almost pure fluid a pressure that is met to 1e-11 leaves a density
    // that is met to 1e-6 only.
    private void Polish(double[] trial)
    {
        const double Largest = 1e-5;
        for (int i = 0; i < size; i++)
        {
            value[i] = -value[i];
        }

        if (!LinearSystem.Solve(jacobian, size, value))
        {
            return;
        }

        for (int i = 0; i < size; i++)
        {
            if (!(Math.Abs(value[i]) < Largest))
            {
                return;
            }
        }

        Move(trial, 1);
    }

    /// <summary>Change of every variable with the specified one, at a solution.</summary>
    public bool Tangent(double[] x, int specified, double[] tangent)
    {
        Evaluate(x, specified, x[specified]);
        tangent.AsSpan().Clear();
        tangent[size - 1] = 1;
        if (!LinearSystem.Solve(jacobian, size, tangent.AsSpan(0, size)))
        {
            return false;
        }

        tangent[size] = tangent[SecondDensity] - tangent[FirstDensity];
        foreach (double t in tangent)
        {
            if (!double.IsFinite(t))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether another phase forms before: a trial phase below the common tangent plane of both.</summary>
    /// <param name="x">A solution.</param>
    /// <param name="distance">The most negative tangent-plane distance found, over R T.</param>
    public bool IsUnstable(double[] x, out double distance)
    {
        const double Clear = -1e-8;
        double t = Math.Exp(x[Temperature]);
        double p = Math.Exp(x[Pressure]);
        double density = Math.Exp(x[FirstDensity]);
        Compositions(x, first, second);
        kernel.SetTemperature(t, scratch);
        kernel.LnFugacityAtDensity(t, density, first, scratch, firstLn);
        Span<double> d = stackalloc double[n];
        Span<double> trial = stackalloc double[n];
        for (int i = 0; i < n; i++)
        {
            d[i] = firstLn[i] - x[Pressure] + (first[i] > 0 ? Math.Log(first[i]) : 0);
        }

        return StabilityAnalysis.FindUnstable(
            kernel, t, p, new TestedPhases(d, first, density, second, Math.Exp(x[SecondDensity])), scratch, trial, out _, out distance, thorough: false)
            && distance < Clear;
    }

    private void Fractions(ReadOnlySpan<double> x, int i, out double inFirst, out double inSecond)
    {
        double k = Math.Exp(Math.Min(x[i], 700));
        inFirst = z[i] > 0 ? z[i] / (1 - Share + (Share * k)) : 0;
        inSecond = inFirst * k;
    }

    private bool IsPossible(double[] x)
    {
        for (int i = 0; i < size; i++)
        {
            if (!double.IsFinite(x[i]))
            {
                return false;
            }
        }

        return x[Temperature] < Math.Log(5000) && x[Temperature] > Math.Log(0.5)
            && x[Pressure] < Math.Log(1e12) && x[FirstDensity] < Math.Log(5e5) && x[SecondDensity] < Math.Log(5e5);
    }

    // Values, Jacobian and the largest residual. G_i = ln(f_i/x_i); F_i = ln K_i + G_i(second) - G_i(first).
    private double Evaluate(double[] x, int specified, double target)
    {
        double t = Math.Exp(x[Temperature]);
        double p = Math.Exp(x[Pressure]);
        double firstDensity = Math.Exp(x[FirstDensity]);
        double secondDensity = Math.Exp(x[SecondDensity]);
        double sumFirst = 0;
        double sumSecond = 0;
        for (int i = 0; i < n; i++)
        {
            Fractions(x, i, out first[i], out second[i]);
            double k = Math.Exp(Math.Min(x[i], 700));

            // d(ln x_i)/d(ln K_i); that of ln y_i is larger by one.
            move[i] = -Share * k / (1 - Share + (Share * k));
            sumFirst += first[i];
            sumSecond += second[i];
        }

        for (int i = 0; i < n; i++)
        {
            first[i] /= sumFirst;
            second[i] /= sumSecond;
        }

        kernel.SetTemperature(t, scratch);

        // A density beyond the covolume of a cubic gives no number, which ends the iteration.
        double firstPressure = kernel.LnFugacityDerivativesAtDensity(t, firstDensity, first, scratch, firstLn, firstSquare, firstByT, out double firstPressureByT);
        double secondPressure = kernel.LnFugacityDerivativesAtDensity(t, secondDensity, second, scratch, secondLn, secondSquare, secondByT, out double secondPressureByT);
        Slopes(first, firstSquare, firstSlope, out double firstStiffness);
        Slopes(second, secondSquare, secondSlope, out double secondStiffness);

        Stiffness = Math.Min(firstStiffness, secondStiffness);
        jacobian.AsSpan().Clear();
        double largest = Math.Abs(sumSecond - sumFirst);
        double firstIdeal = firstDensity * kernel.GasConstant * t;
        double secondIdeal = secondDensity * kernel.GasConstant * t;
        Span<double> sumRow = jacobian.AsSpan(n * size, size);
        Span<double> firstRow = jacobian.AsSpan((n + 1) * size, size);
        Span<double> secondRow = jacobian.AsSpan((n + 2) * size, size);
        for (int i = 0; i < n; i++)
        {
            Span<double> row = jacobian.AsSpan(i * size, size);
            row[i] = 1;
            if (z[i] <= 0)
            {
                value[i] = x[i];
                continue;
            }

            value[i] = x[i] + secondLn[i] - firstLn[i];
            if (!double.IsFinite(value[i]))
            {
                return double.PositiveInfinity;
            }

            largest = Math.Max(largest, Math.Abs(value[i]));
            for (int j = 0; j < n; j++)
            {
                row[j] += ((secondSquare[(i * n) + j] - secondSlope[i]) * second[j] * (1 + move[j]))
                    - ((firstSquare[(i * n) + j] - firstSlope[i]) * first[j] * move[j]);
            }

            row[Temperature] = t * (secondByT[i] - firstByT[i]);
            row[FirstDensity] = -(1 + firstSlope[i]);
            row[SecondDensity] = 1 + secondSlope[i];
            sumRow[i] = (sumSecond * second[i] * (1 + move[i])) - (sumFirst * first[i] * move[i]);
            firstRow[i] = (1 + firstSlope[i] - firstStiffness) * first[i] * move[i];
            secondRow[i] = (1 + secondSlope[i] - secondStiffness) * second[i] * (1 + move[i]);
        }

        value[n] = sumSecond - sumFirst;
        value[n + 1] = (firstPressure - p) / firstIdeal;
        value[n + 2] = (secondPressure - p) / secondIdeal;
        largest = Math.Max(largest, Math.Max(Math.Abs(value[n + 1]), Math.Abs(value[n + 2])));
        firstRow[Temperature] = t * firstPressureByT / firstIdeal;
        firstRow[Pressure] = -p / firstIdeal;
        firstRow[FirstDensity] = firstStiffness;
        secondRow[Temperature] = t * secondPressureByT / secondIdeal;
        secondRow[Pressure] = -p / secondIdeal;
        secondRow[SecondDensity] = secondStiffness;

        Span<double> last = jacobian.AsSpan((n + 3) * size, size);
        if (specified == DensityDifference)
        {
            last[SecondDensity] = 1;
            last[FirstDensity] = -1;
            value[n + 3] = x[SecondDensity] - x[FirstDensity] - target;
        }
        else
        {
            last[specified] = 1;
            value[n + 3] = x[specified] - target;
        }

        return Math.Max(largest, Math.Abs(value[n + 3]));
    }

    // h_i = sum_k w_k H_ik, and 1 + sum_i w_i h_i, which is dp/d(density) over R T.
    private void Slopes(double[] w, double[] square, double[] slope, out double stiffness)
    {
        stiffness = 1;
        for (int i = 0; i < n; i++)
        {
            double sum = 0;
            for (int k = 0; k < n; k++)
            {
                sum += w[k] * square[(i * n) + k];
            }

            slope[i] = sum;
            stiffness += w[i] * sum;
        }
    }
}
