using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Three phases at given temperature and pressure, from a two-phase answer and a trial phase that lies below its tangent plane.
/// </summary>
/// <remarks>
/// The amount of component i in phase p is z_i e_ip / sum e_iq: no iterate can leave its bounds, and traces keep their digits. Substitution
/// steps come first, with phase amounts from Michelsen's convex function (Fluid Phase Equilib. 103 (1994) 47): sum b_p - sum z_i ln sum b_p/phi_ip. Then a damped second-order
/// method: for each component the phase that holds most of it is the reference, the unknowns are ln e of the other two, and the step comes from
/// the Hessian of the Gibbs energy in the amounts, scaled by the Cholesky factor of its ideal part, component by component.
/// </remarks>
internal static class ThreePhaseFlash
{
    private const double FugacityTolerance = 1e-11;
    private const double GainRounding = 1e-13;
    private const int SubstitutionSteps = 6;
    private const int MaxIterations = 150;
    private const int MaxNearIterations = 20;
    private const int LeastNearIterations = 3;
    private const int RetestRounds = 8;

    /// <summary>What a minimisation came to.</summary>
    private enum Outcome
    {
        /// <summary>Three distinct phases with equal fugacities.</summary>
        Found,

        /// <summary>A phase vanishes.</summary>
        Vanishes,

        /// <summary>No answer within the iterations.</summary>
        Failed,
    }

    /// <summary>Solves the flash. The split keeps its figures, and false is returned, when fewer than three phases come out.</summary>
    /// <param name="kernel">Equation of state, temperature set in <paramref name="scratch"/>.</param>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="z">Mole fractions, sum 1; zeros allowed.</param>
    /// <param name="d">ln z_i + ln phi_i(z) of the feed.</param>
    /// <param name="scratch">Kernel scratch.</param>
    /// <param name="trial">Mole fractions of the trial phase.</param>
    /// <param name="trialRoot">Its density root.</param>
    /// <param name="split">The two phases; receives three.</param>
    public static bool TrySolve(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        scoped ReadOnlySpan<double> z,
        scoped ReadOnlySpan<double> d,
        scoped Span<double> scratch,
        scoped ReadOnlySpan<double> trial,
        DensityRoot trialRoot,
        ref PhaseSplit split)
    {
        int n = z.Length;
        Work work = new(kernel, temperature, pressure, z, d, scratch, stackalloc double[n * Work.Columns], stackalloc double[n * n * Work.Squares], stackalloc double[9], stackalloc int[2 * n], stackalloc DensityRoot[3]);
        for (int i = 0; i < n; i++)
        {
            work.Set(i, split.LightFraction * split.Light[i], split.HeavyFraction * split.Heavy[i], trial[i]);
        }

        work.Roots[0] = split.LightRoot;
        work.Roots[1] = split.HeavyRoot;
        work.Roots[2] = trialRoot;
        TakeSliver(ref work, 2);
        if (Minimize(ref work, out double gain) != Outcome.Found || !(gain < split.GibbsGain + GainRounding))
        {
            return false;
        }

        Retest(ref work, ref gain, out bool stillUnstable, out double distance);
        Finish(work, ref split);
        split.GibbsGain = gain;
        split.StillUnstable = stillUnstable;
        split.TangentPlaneDistance = distance;
        return true;
    }

    /// <summary>
    /// Solves from a neighbouring answer with three phases, without stability tests. False when it does not lead to three distinct phases.
    /// </summary>
    public static bool SolveFrom(
        MixtureKernel kernel, double temperature, double pressure, scoped ReadOnlySpan<double> z, scoped ReadOnlySpan<double> d, scoped Span<double> scratch, ref PhaseSplit split)
    {
        int n = z.Length;
        Work work = new(kernel, temperature, pressure, z, d, scratch, stackalloc double[n * Work.Columns], stackalloc double[n * n * Work.Squares], stackalloc double[9], stackalloc int[2 * n], stackalloc DensityRoot[3]);
        for (int i = 0; i < n; i++)
        {
            work.Set(i, split.LightFraction * split.Light[i], split.MiddleFraction * split.Middle[i], split.HeavyFraction * split.Heavy[i]);
        }

        ToLogarithms(ref work);
        work.Roots[0] = split.LightRoot;
        work.Roots[1] = split.MiddleRoot;
        work.Roots[2] = split.HeavyRoot;
        if (Minimize(ref work, out _, isNear: true) != Outcome.Found)
        {
            return false;
        }

        Finish(work, ref split);
        split.StillUnstable = false;
        split.TangentPlaneDistance = 0;
        return true;
    }

    /// <summary>
    /// The part of dh/dT at constant pressure that matter moving between three phases carries: R T^2 b' H^-1 b, with b the differences of
    /// d(ln phi_i)/dT against the reference phase and H the Gibbs Hessian in the amounts. Never negative at a stable split.
    /// </summary>
    public static double TransferHeatCapacity(
        MixtureKernel kernel, double temperature, double pressure, scoped ReadOnlySpan<double> z, scoped in PhaseSplit split, scoped Span<double> scratch)
    {
        int n = z.Length;
        Span<double> d = stackalloc double[n];
        d.Clear();
        Work work = new(kernel, temperature, pressure, z, d, scratch, stackalloc double[n * Work.Columns], stackalloc double[n * n * Work.Squares], stackalloc double[9], stackalloc int[2 * n], stackalloc DensityRoot[3]);
        for (int i = 0; i < n; i++)
        {
            work.Set(i, split.LightFraction * split.Light[i], split.MiddleFraction * split.Middle[i], split.HeavyFraction * split.Heavy[i]);
        }

        ToLogarithms(ref work);
        work.Roots[0] = split.LightRoot;
        work.Roots[1] = split.MiddleRoot;
        work.Roots[2] = split.HeavyRoot;
        Span<double> byT = stackalloc double[3 * n];
        Evaluate(ref work, derivatives: true, byT);
        for (int i = 0; i < n; i++)
        {
            for (int s = 0; s < 2; s++)
            {
                int p = Work.PhaseOf(work.Reference[i], s);
                work.Gradient[(2 * i) + s] = z[i] > 0 ? byT[(p * n) + i] - byT[(work.Reference[i] * n) + i] : 0;
            }
        }

        FormCoupling(ref work);
        if (!FactorScaled(ref work, 0))
        {
            return 0;
        }

        // y solves (I + L'CL) y = L'b; the sum is (L'b)'y.
        Span<double> right = stackalloc double[2 * n];
        for (int i = 0; i < n; i++)
        {
            ReadOnlySpan<double> f = work.Factor.Slice(3 * i, 3);
            right[2 * i] = (f[0] * work.Gradient[2 * i]) + (f[1] * work.Gradient[(2 * i) + 1]);
            right[(2 * i) + 1] = f[2] * work.Gradient[(2 * i) + 1];
            work.Step[2 * i] = right[2 * i];
            work.Step[(2 * i) + 1] = right[(2 * i) + 1];
        }

        Cholesky.Solve(work.Matrix, 2 * n, work.Step);
        double sum = 0;
        for (int k = 0; k < 2 * n; k++)
        {
            sum += right[k] * work.Step[k];
        }

        return kernel.GasConstant * temperature * temperature * sum;
    }

    // The trial phase enters with a small amount, taken from each phase in proportion to what it holds of each component: as the trial lies
    // below the tangent plane, the Gibbs energy falls.
    private static void TakeSliver(scoped ref Work work, int entering)
    {
        int n = work.Z.Length;
        double most = 1;
        for (int i = 0; i < n; i++)
        {
            double fraction = work.Weights[(entering * n) + i];
            if (work.Z[i] > 0 && fraction > 0)
            {
                most = Math.Min(most, work.Z[i] / fraction);
            }
        }

        double amount = 0.3 * most;
        for (int i = 0; i < n; i++)
        {
            if (work.Z[i] <= 0)
            {
                continue;
            }

            double taken = amount * work.Weights[(entering * n) + i];
            double left = 1 - (taken / work.Z[i]);
            for (int p = 0; p < 3; p++)
            {
                double held = p == entering ? taken : left * work.Weights[(p * n) + i];
                work.Weights[(p * n) + i] = held;
            }
        }

        ToLogarithms(ref work);
    }

    private static void ToLogarithms(scoped ref Work work)
    {
        for (int k = 0; k < work.Weights.Length; k++)
        {
            work.Weights[k] = Math.Log(Math.Max(work.Weights[k], 1e-300));
        }

    }

    private static Outcome Minimize(scoped ref Work work, out double gain, bool isNear = false)
    {
        double shift = 0;
        double last = double.PositiveInfinity;
        double lastError = double.PositiveInfinity;
        bool substitution = !isNear;
        bool isEvaluated = false;
        gain = 0;
        for (int iteration = 0; iteration < (isNear ? MaxNearIterations : MaxIterations); iteration++)
        {
            bool secondOrder = !substitution || iteration >= SubstitutionSteps;
            gain = isEvaluated ? gain : Evaluate(ref work, secondOrder, default);
            if (work.Vanishing >= 0)
            {
                return Outcome.Vanishes;
            }

            if (work.Error < FugacityTolerance || (work.Error < 1e-9 && work.Error >= 0.5 * lastError && iteration > (isNear ? LeastNearIterations : SubstitutionSteps)))
            {
                return Outcome.Found;
            }

            lastError = work.Error;
            if (!secondOrder)
            {
                if (gain > last + 1e-10)
                {
                    work.Saved.CopyTo(work.Weights);
                    substitution = false;
                    continue;
                }

                last = gain;
                work.Weights.CopyTo(work.Saved);
                substitution = Substitute(ref work);
                continue;
            }

            isEvaluated = SecondOrderStep(ref work, ref gain, ref shift);
            if (!isEvaluated)
            {
                return work.Error < 1e-8 ? Outcome.Found : Outcome.Failed;
            }
        }

        return work.Error < 1e-8 ? Outcome.Found : Outcome.Failed;
    }

    // New phase amounts for the fugacity coefficients of the present compositions; false when one of them would vanish.
    private static bool Substitute(scoped ref Work work)
    {
        int n = work.Z.Length;
        Span<double> factor = stackalloc double[3 * n];
        Span<double> sum = stackalloc double[n];
        Span<double> amount = stackalloc double[3];
        Span<double> gradient = stackalloc double[3];
        Span<double> hessian = stackalloc double[9];
        Span<double> step = stackalloc double[3];
        for (int p = 0; p < 3; p++)
        {
            amount[p] = work.Amounts[p];
        }

        for (int i = 0; i < n; i++)
        {
            double least = double.PositiveInfinity;
            for (int p = 0; p < 3; p++)
            {
                least = Math.Min(least, work.LnPhi[(p * n) + i]);
            }

            for (int p = 0; p < 3; p++)
            {
                factor[(p * n) + i] = work.Z[i] > 0 ? Math.Exp(least - work.LnPhi[(p * n) + i]) : 0;
            }
        }

        double value = double.PositiveInfinity;
        for (int iteration = 0; iteration < 40; iteration++)
        {
            double current = Convex(work.Z, factor, amount, sum);
            gradient.Clear();
            hessian.Clear();
            double error = 0;
            for (int p = 0; p < 3; p++)
            {
                gradient[p] = 1;
                for (int i = 0; i < n; i++)
                {
                    if (work.Z[i] <= 0)
                    {
                        continue;
                    }

                    double share = work.Z[i] * factor[(p * n) + i] / sum[i];
                    gradient[p] -= share;
                    for (int q = 0; q <= p; q++)
                    {
                        hessian[(p * 3) + q] += share * factor[(q * n) + i] / sum[i];
                    }
                }

                error = Math.Max(error, Math.Abs(gradient[p]));
            }

            value = current;
            if (error < 1e-12)
            {
                break;
            }

            for (int p = 0; p < 3; p++)
            {
                for (int q = 0; q < p; q++)
                {
                    hessian[(q * 3) + p] = hessian[(p * 3) + q];
                }

                step[p] = -gradient[p];
            }

            if (!Cholesky.Factor(hessian, 3, 1e-14))
            {
                return false;
            }

            Cholesky.Solve(hessian, 3, step);
            double scale = 1;
            for (int p = 0; p < 3; p++)
            {
                if (step[p] < 0)
                {
                    scale = Math.Min(scale, -0.9 * amount[p] / step[p]);
                }
            }

            bool lower = false;
            for (int halving = 0; halving < 20 && !lower; halving++)
            {
                for (int p = 0; p < 3; p++)
                {
                    work.Trial[p] = amount[p] + (scale * step[p]);
                }

                lower = Convex(work.Z, factor, work.Trial, sum) <= value + 1e-15;
                scale *= 0.5;
            }

            if (!lower)
            {
                break;
            }

            for (int p = 0; p < 3; p++)
            {
                amount[p] = work.Trial[p];
                if (amount[p] < 1e-12)
                {
                    return false;
                }
            }
        }

        for (int p = 0; p < 3; p++)
        {
            for (int i = 0; i < n; i++)
            {
                if (work.Z[i] > 0)
                {
                    // ln of amount over phi; a common factor of a component does not count.
                    work.Weights[(p * n) + i] = Math.Log(amount[p]) - work.LnPhi[(p * n) + i];
                }
            }
        }

        return true;
    }

    private static double Convex(ReadOnlySpan<double> z, ReadOnlySpan<double> factor, ReadOnlySpan<double> amount, Span<double> sum)
    {
        int n = z.Length;
        double value = amount[0] + amount[1] + amount[2];
        for (int i = 0; i < n; i++)
        {
            if (z[i] > 0)
            {
                sum[i] = (amount[0] * factor[i]) + (amount[1] * factor[n + i]) + (amount[2] * factor[(2 * n) + i]);
                value -= z[i] * Math.Log(sum[i]);
            }
        }

        return value;
    }

    // One accepted step; on return the state of the work, derivatives included, belongs to it. False, and the old state without derivatives, when
    // no step lowers the Gibbs energy.
    private static bool SecondOrderStep(scoped ref Work work, ref double gain, ref double shift)
    {
        int n = work.Z.Length;
        work.Weights.CopyTo(work.Saved);
        work.Gradient.CopyTo(work.SavedGradient);
        work.Reference.CopyTo(work.SavedReference);
        double currentError = work.Error;
        FormCoupling(ref work);

        for (int attempt = 0; attempt < 30; attempt++)
        {
            if (!FactorScaled(ref work, shift))
            {
                shift = Math.Max(3 * shift, 1e-5);
                continue;
            }

            for (int i = 0; i < n; i++)
            {
                ReadOnlySpan<double> f = work.Factor.Slice(3 * i, 3);
                double g1 = work.SavedGradient[2 * i];
                double g2 = work.SavedGradient[(2 * i) + 1];
                work.Step[2 * i] = -((f[0] * g1) + (f[1] * g2));
                work.Step[(2 * i) + 1] = -f[2] * g2;
            }

            Cholesky.Solve(work.Matrix, 2 * n, work.Step);

            // From scaled unknowns to amounts.
            for (int i = 0; i < n; i++)
            {
                ReadOnlySpan<double> f = work.Factor.Slice(3 * i, 3);
                double y1 = work.Step[2 * i];
                double y2 = work.Step[(2 * i) + 1];
                work.Step[2 * i] = f[0] * y1;
                work.Step[(2 * i) + 1] = (f[1] * y1) + (f[2] * y2);
            }

            double largest = 0;
            for (int k = 0; k < 2 * n; k++)
            {
                double sum = work.SavedGradient[k];
                for (int l = 0; l < 2 * n; l++)
                {
                    sum += work.Coupling[(k * 2 * n) + l] * work.Step[l];
                }

                work.Change[k] = work.Z[k / 2] > 0 ? -sum / (1 + shift) : 0;
                largest = Math.Max(largest, Math.Abs(work.Change[k]) * Math.Min(1, Math.Sqrt(work.Z[k / 2])));
            }

            double scale = largest > 1.5 ? 1.5 / largest : 1;
            work.Saved.CopyTo(work.Weights);
            for (int i = 0; i < n; i++)
            {
                for (int s = 0; s < 2; s++)
                {
                    int p = Work.PhaseOf(work.SavedReference[i], s);
                    work.Weights[(p * n) + i] += Math.Clamp(scale * work.Change[(2 * i) + s], -30, 30);
                }
            }

            double candidate = Evaluate(ref work, derivatives: true, default);
            bool lower = candidate <= gain - 1e-13;
            bool closer = candidate <= gain + 1e-10 && work.Error < currentError;
            if (lower || closer)
            {
                gain = candidate;
                shift = shift < 2e-5 ? 0 : 0.1 * shift;
                return true;
            }

            shift = Math.Max(5 * shift, 1e-3);
            if (shift > 1e12)
            {
                break;
            }
        }

        work.Saved.CopyTo(work.Weights);
        Evaluate(ref work, derivatives: false, default);
        return false;
    }

    // C of the Hessian D^-1 + C in the amounts of the two phases other than the reference, component by component, and the factors of D.
    private static void FormCoupling(scoped ref Work work)
    {
        int n = work.Z.Length;
        int size = 2 * n;
        for (int i = 0; i < n; i++)
        {
            // D = diag(v) - v v'/z has the determinant v1 v2 r/z, with r the amount in the reference phase: nothing is subtracted.
            double v1 = work.Held[(Work.PhaseOf(work.Reference[i], 0) * n) + i];
            double v2 = work.Held[(Work.PhaseOf(work.Reference[i], 1) * n) + i];
            double r = work.Held[(work.Reference[i] * n) + i];
            double l11 = work.Z[i] > 0 ? Math.Sqrt(v1 / work.Z[i] * (r + v2)) : 0;
            work.Factor[3 * i] = l11;
            work.Factor[(3 * i) + 1] = l11 > 0 ? -v1 / work.Z[i] * v2 / l11 : 0;
            work.Factor[(3 * i) + 2] = work.Z[i] > 0 ? Math.Sqrt(v2 / (r + v2) * r) : 0;
        }

        for (int i = 0; i < n; i++)
        {
            int ri = work.Reference[i];
            for (int j = 0; j < n; j++)
            {
                int rj = work.Reference[j];
                for (int s = 0; s < 2; s++)
                {
                    int p = Work.PhaseOf(ri, s);
                    for (int t = 0; t < 2; t++)
                    {
                        int q = Work.PhaseOf(rj, t);
                        double sum = 0;
                        if (p == q)
                        {
                            sum += Pull(ref work, p, i, j);
                        }

                        if (p == rj)
                        {
                            sum -= Pull(ref work, p, i, j);
                        }

                        if (ri == q)
                        {
                            sum -= Pull(ref work, ri, i, j);
                        }

                        if (ri == rj)
                        {
                            sum += Pull(ref work, ri, i, j);
                        }

                        work.Coupling[(((2 * i) + s) * size) + (2 * j) + t] = work.Z[i] > 0 && work.Z[j] > 0 ? sum : 0;
                    }
                }
            }
        }
    }

    private static double Pull(scoped ref Work work, int p, int i, int j)
    {
        int n = work.Z.Length;
        return (work.ByAmount[(((p * n) + i) * n) + j] - 1) / work.Amounts[p];
    }

    // I (1 + shift) + L'CL, factored.
    private static bool FactorScaled(scoped ref Work work, double shift)
    {
        int n = work.Z.Length;
        int size = 2 * n;
        for (int i = 0; i < n; i++)
        {
            ReadOnlySpan<double> fi = work.Factor.Slice(3 * i, 3);
            for (int j = 0; j <= i; j++)
            {
                ReadOnlySpan<double> fj = work.Factor.Slice(3 * j, 3);
                double c11 = work.Coupling[(2 * i * size) + (2 * j)];
                double c12 = work.Coupling[(2 * i * size) + (2 * j) + 1];
                double c21 = work.Coupling[(((2 * i) + 1) * size) + (2 * j)];
                double c22 = work.Coupling[(((2 * i) + 1) * size) + (2 * j) + 1];

                // Columns by L_j, then rows by L_i'.
                double a11 = (c11 * fj[0]) + (c12 * fj[1]);
                double a12 = c12 * fj[2];
                double a21 = (c21 * fj[0]) + (c22 * fj[1]);
                double a22 = c22 * fj[2];
                Put(work.Matrix, size, 2 * i, 2 * j, (fi[0] * a11) + (fi[1] * a21));
                Put(work.Matrix, size, 2 * i, (2 * j) + 1, (fi[0] * a12) + (fi[1] * a22));
                Put(work.Matrix, size, (2 * i) + 1, 2 * j, fi[2] * a21);
                Put(work.Matrix, size, (2 * i) + 1, (2 * j) + 1, fi[2] * a22);
            }
        }

        for (int k = 0; k < size; k++)
        {
            work.Matrix[(k * size) + k] += 1;
        }

        return Cholesky.Factor(work.Matrix, size, shift);
    }

    private static void Put(Span<double> matrix, int size, int row, int column, double value)
    {
        matrix[(row * size) + column] = value;
        matrix[(column * size) + row] = value;
    }

    /// <summary>
    /// Amounts, compositions, fugacities and gradient at the present weights. Returns the Gibbs energy over R T less the feed's.
    /// </summary>
    private static double Evaluate(scoped ref Work work, bool derivatives, scoped Span<double> byTemperature)
    {
        int n = work.Z.Length;
        ReadOnlySpan<double> z = work.Z;
        work.Vanishing = -1;
        work.Error = double.PositiveInfinity;
        Span<double> amounts = work.Amounts;
        amounts.Clear();
        for (int i = 0; i < n; i++)
        {
            int reference = 0;
            for (int p = 1; p < 3; p++)
            {
                reference = work.Weights[(p * n) + i] > work.Weights[(reference * n) + i] ? p : reference;
            }

            work.Reference[i] = reference;
            double top = work.Weights[(reference * n) + i];
            double sum = 0;
            for (int p = 0; p < 3; p++)
            {
                double e = Math.Exp(work.Weights[(p * n) + i] - top);
                work.Held[(p * n) + i] = e;
                sum += e;
            }

            for (int p = 0; p < 3; p++)
            {
                double held = z[i] > 0 ? z[i] * work.Held[(p * n) + i] / sum : 0;
                work.Held[(p * n) + i] = held;
                amounts[p] += held;
                work.Weights[(p * n) + i] -= top;
            }

            // ln of the component's amount in its reference phase.
            work.LnReference[i] = z[i] > 0 ? Math.Log(z[i] / sum) : 0;
        }

        for (int p = 0; p < 3; p++)
        {
            if (amounts[p] < 1e-290)
            {
                work.Vanishing = p;
                return 0;
            }

            Span<double> x = work.Fractions.Slice(p * n, n);
            for (int i = 0; i < n; i++)
            {
                x[i] = work.Held[(p * n) + i] / amounts[p];
            }

            Span<double> lnPhi = work.LnPhi.Slice(p * n, n);
            work.Densities[p] = derivatives
                ? work.Kernel.LnFugacityDerivatives(
                    work.Temperature, work.Pressure, x, work.Roots[p], work.Scratch, lnPhi, work.ByAmount.Slice(p * n * n, n * n), byTemperature.IsEmpty ? default : byTemperature.Slice(p * n, n), default, out _)
                : work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, x, work.Roots[p], work.Scratch, lnPhi, out _);
        }

        for (int p = 0; p < 3; p++)
        {
            for (int q = 0; q < p; q++)
            {
                if (AreSame(ref work, p, q))
                {
                    work.Vanishing = amounts[p] < amounts[q] ? p : q;
                }
            }
        }

        double gain = 0;
        double error = 0;
        Span<double> distance = stackalloc double[3];
        distance.Clear();
        for (int i = 0; i < n; i++)
        {
            if (z[i] <= 0)
            {
                work.Gradient[2 * i] = 0;
                work.Gradient[(2 * i) + 1] = 0;
                continue;
            }

            int reference = work.Reference[i];
            double referencePotential = work.LnReference[i] - Math.Log(amounts[reference]) + work.LnPhi[(reference * n) + i];
            gain += z[i] * (referencePotential - work.D[i]);
            for (int s = 0; s < 2; s++)
            {
                int p = Work.PhaseOf(reference, s);
                double g = work.Weights[(p * n) + i] + Math.Log(amounts[reference] / amounts[p]) + work.LnPhi[(p * n) + i] - work.LnPhi[(reference * n) + i];
                work.Gradient[(2 * i) + s] = g;
                gain += work.Held[(p * n) + i] * g;
                distance[p] += work.Fractions[(p * n) + i] * g;
                error = Math.Max(error, Math.Abs(g));
            }
        }

        work.Error = error;
        for (int p = 0; p < 3; p++)
        {
            // A sliver above the common tangent plane shrinks for ever.
            if ((amounts[p] < 1e-9 && distance[p] > 1e-9) || amounts[p] < 1e-14)
            {
                work.Vanishing = p;
            }
        }

        return gain;
    }

    private static bool AreSame(scoped ref Work work, int p, int q)
    {
        int n = work.Z.Length;
        if (Math.Abs(work.Densities[p] - work.Densities[q]) > 1e-6 * work.Densities[q])
        {
            return false;
        }

        for (int i = 0; i < n; i++)
        {
            if (Math.Abs(work.Fractions[(p * n) + i] - work.Fractions[(q * n) + i]) > 1e-7)
            {
                return false;
            }
        }

        return true;
    }

    // No phase may lie below the common tangent plane: a fourth one takes the place of one of the three where that lowers the Gibbs energy.
    private static void Retest(scoped ref Work work, ref double gain, out bool stillUnstable, out double distance)
    {
        int n = work.Z.Length;
        Span<double> d = stackalloc double[n];
        Span<double> lnPhi = stackalloc double[n];
        Span<double> trial = stackalloc double[n];
        Span<double> best = stackalloc double[3 * n];
        Span<double> held = stackalloc double[3 * n];
        Span<DensityRoot> roots = stackalloc DensityRoot[3];
        Span<DensityRoot> bestRoots = stackalloc DensityRoot[3];
        stillUnstable = false;
        distance = 0;
        for (int round = 0; round < RetestRounds; round++)
        {
            bool unstable = FindUnstable(ref work, d, lnPhi, trial, out DensityRoot trialRoot, out distance, thorough: round > 0);
            distance = unstable ? distance : Math.Min(0, distance);
            if (!unstable)
            {
                return;
            }

            bool improved = false;
            double lowest = gain;
            work.Held.CopyTo(held);
            work.Roots.CopyTo(roots);
            for (int leaving = 0; leaving < 3; leaving++)
            {
                // The leaving phase is joined with the others in proportion, then the trial takes its sliver.
                for (int i = 0; i < n; i++)
                {
                    double kept = work.Z[i] - held[(leaving * n) + i];
                    for (int p = 0; p < 3; p++)
                    {
                        work.Weights[(p * n) + i] = p == leaving ? trial[i] : work.Z[i] > 0 && kept > 0 ? work.Z[i] * held[(p * n) + i] / kept : 0;
                    }
                }

                roots.CopyTo(work.Roots);
                work.Roots[leaving] = trialRoot;
                TakeSliver(ref work, leaving);
                if (Minimize(ref work, out double candidate) == Outcome.Found && candidate < lowest - 1e-12)
                {
                    lowest = candidate;
                    improved = true;
                    work.Weights.CopyTo(best);
                    work.Roots.CopyTo(bestRoots);
                }
            }

            if (!improved)
            {
                for (int k = 0; k < 3 * n; k++)
                {
                    work.Weights[k] = Math.Log(Math.Max(held[k], 1e-300));
                }

                roots.CopyTo(work.Roots);
                Evaluate(ref work, derivatives: false, default);
                stillUnstable = true;
                return;
            }

            best.CopyTo(work.Weights);
            bestRoots.CopyTo(work.Roots);
            gain = Evaluate(ref work, derivatives: false, default);
        }

        stillUnstable = true;
    }

    // From each of the phases: the plane is the same, the starts between a phase and its pure components are not.
    private static bool FindUnstable(
        scoped ref Work work, scoped Span<double> d, scoped Span<double> lnPhi, scoped Span<double> trial, out DensityRoot trialRoot, out double distance, bool thorough)
    {
        int n = work.Z.Length;
        int largest = work.Amounts[0] >= work.Amounts[1] && work.Amounts[0] >= work.Amounts[2] ? 0 : work.Amounts[1] >= work.Amounts[2] ? 1 : 2;
        for (int i = 0; i < n; i++)
        {
            double x = work.Fractions[(largest * n) + i];
            d[i] = x > 0 ? work.LnPhi[(largest * n) + i] + Math.Log(x) : 0;
        }

        distance = 0;
        trialRoot = DensityRoot.Stable;
        for (int p = 0; p < 3; p++)
        {
            ReadOnlySpan<double> x = work.Fractions.Slice(p * n, n);
            double stable = work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, x, DensityRoot.Stable, work.Scratch, lnPhi, out DensityRoot stableRoot);
            if (Math.Abs(stable - work.Densities[p]) <= 1e-6 * work.Densities[p])
            {
                continue;
            }

            double below = 0;
            for (int i = 0; i < n; i++)
            {
                below += x[i] > 0 ? x[i] * (Math.Log(x[i]) + lnPhi[i] - d[i]) : 0;
            }

            if (below < -StabilityAnalysis.InstabilityThreshold)
            {
                x.CopyTo(trial);
                trialRoot = stableRoot;
                distance = below;
                return true;
            }
        }

        double least = 0;
        for (int k = 0; k < 3; k++)
        {
            int p = (largest + k) % 3;
            int q = (largest + k + 1) % 3;
            bool unstable = StabilityAnalysis.FindUnstable(
                work.Kernel,
                work.Temperature,
                work.Pressure,
                new TestedPhases(
                    d,
                    work.Fractions.Slice(p * n, n),
                    work.Densities[p],
                    work.Fractions.Slice(q * n, n),
                    work.Densities[q],
                    work.Fractions.Slice((3 - p - q) * n, n),
                    work.Densities[3 - p - q]),
                work.Scratch,
                trial,
                out trialRoot,
                out distance,
                thorough,
                isFurtherSide: k > 0);
            if (unstable)
            {
                return true;
            }

            least = Math.Min(least, distance);
        }

        distance = least;
        return false;
    }

    private static void Finish(scoped Work work, ref PhaseSplit split)
    {
        int n = work.Z.Length;
        int light = 0;
        int heavy = 0;
        for (int p = 1; p < 3; p++)
        {
            light = work.Densities[p] < work.Densities[light] ? p : light;
            heavy = work.Densities[p] >= work.Densities[heavy] ? p : heavy;
        }

        int middle = 3 - light - heavy;
        split.PhaseCount = 3;
        split.Residual = work.Error;
        work.Fractions.Slice(light * n, n).CopyTo(split.Light);
        work.Fractions.Slice(middle * n, n).CopyTo(split.Middle);
        work.Fractions.Slice(heavy * n, n).CopyTo(split.Heavy);
        split.LightFraction = work.Amounts[light];
        split.MiddleFraction = work.Amounts[middle];
        split.HeavyFraction = work.Amounts[heavy];
        split.LightDensity = work.Densities[light];
        split.MiddleDensity = work.Densities[middle];
        split.HeavyDensity = work.Densities[heavy];
        split.LightRoot = work.Roots[light];
        split.MiddleRoot = work.Roots[middle];
        split.HeavyRoot = work.Roots[heavy];
        double lightVolume = work.Kernel.ReducedVolume(split.LightDensity, split.Light);
        split.LightIsVapor = lightVolume > 1 || (lightVolume > IsothermalFlash.SmallestVaporVolume && work.Kernel.ReducedVolume(split.HeavyDensity, split.Heavy) < lightVolume);
    }

    /// <summary>Working memory of one flash; spans into the caller's stack. Columns run over phases, then components.</summary>
    private ref struct Work
    {
        /// <summary>Columns of n numbers.</summary>
        public const int Columns = 27;

        /// <summary>Squares of n by n numbers: three of derivatives, two of twice the size.</summary>
        public const int Squares = 11;

        public Work(
            MixtureKernel kernel,
            double temperature,
            double pressure,
            ReadOnlySpan<double> z,
            ReadOnlySpan<double> d,
            Span<double> scratch,
            Span<double> columns,
            Span<double> squares,
            Span<double> phases,
            Span<int> references,
            Span<DensityRoot> roots)
        {
            int n = z.Length;
            Kernel = kernel;
            Temperature = temperature;
            Pressure = pressure;
            Z = z;
            D = d;
            Scratch = scratch;
            columns.Clear();
            squares.Clear();
            Weights = columns[..(3 * n)];
            Saved = columns.Slice(3 * n, 3 * n);
            Held = columns.Slice(6 * n, 3 * n);
            Fractions = columns.Slice(9 * n, 3 * n);
            LnPhi = columns.Slice(12 * n, 3 * n);
            Factor = columns.Slice(15 * n, 3 * n);
            Gradient = columns.Slice(18 * n, 2 * n);
            SavedGradient = columns.Slice(20 * n, 2 * n);
            Step = columns.Slice(22 * n, 2 * n);
            Change = columns.Slice(24 * n, 2 * n);
            LnReference = columns.Slice(26 * n, n);
            ByAmount = squares[..(3 * n * n)];
            Coupling = squares.Slice(3 * n * n, 4 * n * n);
            Matrix = squares.Slice(7 * n * n, 4 * n * n);
            Amounts = phases[..3];
            Densities = phases.Slice(3, 3);
            Trial = phases.Slice(6, 3);
            Reference = references[..n];
            SavedReference = references.Slice(n, n);
            Roots = roots;
            Vanishing = -1;
        }

        public MixtureKernel Kernel { get; }

        public double Temperature { get; }

        public double Pressure { get; }

        public ReadOnlySpan<double> Z { get; }

        public ReadOnlySpan<double> D { get; }

        public Span<double> Scratch { get; }

        /// <summary>ln of each phase's share of each component, up to a number that is common to the component.</summary>
        public Span<double> Weights { get; }

        public Span<double> Saved { get; }

        /// <summary>Amount of each component in each phase, per mole of the whole.</summary>
        public Span<double> Held { get; }

        public Span<double> Fractions { get; }

        public Span<double> LnPhi { get; }

        /// <summary>Three numbers a component: the Cholesky factor of D = diag(v) - v v'/z of its two amounts v.</summary>
        public Span<double> Factor { get; }

        /// <summary>Two numbers a component: ln fugacity less that in the component's reference phase.</summary>
        public Span<double> Gradient { get; }

        public Span<double> SavedGradient { get; }

        public Span<double> Step { get; }

        public Span<double> Change { get; }

        public Span<double> LnReference { get; }

        public Span<double> ByAmount { get; }

        public Span<double> Coupling { get; }

        public Span<double> Matrix { get; }

        public Span<double> Amounts { get; }

        public Span<double> Densities { get; }

        public Span<double> Trial { get; }

        /// <summary>The phase that holds most of each component.</summary>
        public Span<int> Reference { get; }

        public Span<int> SavedReference { get; }

        public Span<DensityRoot> Roots { get; }

        public double Error { get; set; }

        /// <summary>The phase that is lost, or -1.</summary>
        public int Vanishing { get; set; }

        /// <summary>The s-th (0 or 1) of the two phases that are not the reference.</summary>
        public static int PhaseOf(int reference, int s) => s == 0 ? (reference == 0 ? 1 : 0) : (reference == 2 ? 1 : 2);

        /// <summary>Sets the amounts of a component in the three phases.</summary>
        public readonly void Set(int i, double first, double second, double third)
        {
            int n = Z.Length;
            Weights[i] = first;
            Weights[n + i] = second;
            Weights[(2 * n) + i] = third;
        }
    }
}
