using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Tangent-plane stability (Michelsen, Fluid Phase Equilib. 9 (1982) 1): minimises
/// tm(W) = 1 + sum W_i (ln W_i + ln phi_i(W) - d_i - 1), where d_i = ln z_i + ln phi_i(z) of the tested phase.
/// tm below zero anywhere proves the phase unstable. Starts: vapour-like, liquid-like, each pure component, the volatile ones also as gases, and points
/// between; liquid-like starts take the densest root, since the lowest-Gibbs root hides second liquids.
/// Successive substitution with acceleration, then a damped second-order method in 2 sqrt(W).
/// </summary>
internal static class StabilityAnalysis
{
    /// <summary>tm below minus this counts as unstable; rounding of ln phi in a cold liquid is about 1e-12.</summary>
    public const double InstabilityThreshold = 1e-10;

    private const double GradientTolerance = 1e-9;
    private const int SubstitutionSteps = 9;

    /// <summary>Substitution that shortens its steps by less than this, close to a known phase, will end there.</summary>
    private const double FastContraction = 0.6;
    private const int SecondOrderSteps = 40;

    /// <summary>
    /// Tests a phase. Returns true when a trial phase lies below its tangent plane.
    /// </summary>
    /// <param name="kernel">Equation of state, temperature set in <paramref name="scratch"/>.</param>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="tested">The phase, and those in equilibrium with it.</param>
    /// <param name="scratch">Kernel scratch.</param>
    /// <param name="trial">Receives the mole fractions of the most negative trial phase found.</param>
    /// <param name="trialRoot">The density root of that trial phase.</param>
    /// <param name="distance">Its tm; the smallest seen otherwise.</param>
    /// <param name="thorough">True: look at every start and keep the most negative; false: stop at the first clear one.</param>
    /// <param name="seen">Receives the stationary trials met; null to keep none.</param>
    /// <param name="isFurtherSide">True when the plane has been tested from another of its phases: the starts both have in common are left out.</param>
    public static bool FindUnstable(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        scoped in TestedPhases tested,
        Span<double> scratch,
        Span<double> trial,
        out DensityRoot trialRoot,
        out double distance,
        bool thorough,
        StationaryTrials? seen = null,
        bool isFurtherSide = false)
    {
        ReadOnlySpan<double> z = tested.Phase;
        ReadOnlySpan<double> other = tested.Other;
        int n = z.Length;
        Span<double> lnK = stackalloc double[n];
        Span<double> lnW = stackalloc double[n];
        Span<double> best = stackalloc double[n];
        kernel.EstimateLnK(temperature, pressure, lnK);
        distance = 0;
        trialRoot = DensityRoot.Stable;

        // 0 vapour-like, 1 liquid-like, then pure, then half-way to pure, then between the first two and the feed, then half-way between two known
        // phases, then pure gases.
        int gases = 2 + (2 * n) + 3;
        int starts = gases + n;
        for (int start = 0; start < starts; start++)
        {
            DensityRoot root = DensityRoot.Liquid;
            if (start == 0)
            {
                root = DensityRoot.Vapor;
                for (int i = 0; i < n; i++)
                {
                    lnW[i] = z[i] > 0 ? Math.Log(z[i]) + lnK[i] : double.NegativeInfinity;
                }
            }
            else if (start == 1)
            {
                for (int i = 0; i < n; i++)
                {
                    lnW[i] = z[i] > 0 ? Math.Log(z[i]) - lnK[i] : double.NegativeInfinity;
                }
            }
            else if (start < 2 + n)
            {
                int pure = start - 2;
                if (z[pure] <= 0 || isFurtherSide)
                {
                    continue;
                }

                for (int i = 0; i < n; i++)
                {
                    lnW[i] = i == pure ? 0 : z[i] > 0 ? Math.Log(z[i]) - 7 : double.NegativeInfinity;
                }
            }
            else if (start < 2 + (2 * n))
            {
                int pure = start - 2 - n;
                if (z[pure] <= 0)
                {
                    continue;
                }

                for (int i = 0; i < n; i++)
                {
                    double half = (0.5 * z[i]) + (i == pure ? 0.5 : 0);
                    lnW[i] = half > 0 ? Math.Log(half) : double.NegativeInfinity;
                }
            }
            else if (start < 4 + (2 * n))
            {
                double share = start == 2 + (2 * n) ? 1.0 / 3 : -1.0 / 3;
                root = DensityRoot.Stable;
                for (int i = 0; i < n; i++)
                {
                    lnW[i] = z[i] > 0 ? Math.Log(z[i]) + (share * lnK[i]) : double.NegativeInfinity;
                }
            }
            else if (start >= gases)
            {
                // The gas that a trace of a volatile component forms is missed by the start from ideal K, which holds too much of the others to
                // be a vapour, and by the pure one, which is a superheated liquid.
                int pure = start - gases;
                if (z[pure] <= 0 || isFurtherSide || lnK[pure] <= 0 || temperature > kernel.CriticalTemperature(pure))
                {
                    continue;
                }

                root = DensityRoot.Vapor;
                for (int i = 0; i < n; i++)
                {
                    lnW[i] = i == pure ? 0 : z[i] > 0 ? Math.Log(z[i]) - 7 : double.NegativeInfinity;
                }
            }
            else
            {
                if (other.IsEmpty)
                {
                    continue;
                }

                for (int i = 0; i < n; i++)
                {
                    double half = 0.5 * (z[i] + other[i]);
                    lnW[i] = half > 0 ? Math.Log(half) : double.NegativeInfinity;
                }
            }

            Normalize(lnW);
            double tm = Minimize(kernel, temperature, pressure, tested, root, scratch, lnW, isNear: false, out DensityRoot foundRoot, out bool isKnown);
            if (!isKnown)
            {
                seen?.Add(lnW, root);
            }

            if (tm < distance)
            {
                distance = tm;
                trialRoot = foundRoot;
                for (int i = 0; i < n; i++)
                {
                    best[i] = Math.Exp(lnW[i]);
                }

                if (!thorough && tm < -1e-6)
                {
                    break;
                }
            }
        }

        if (distance >= -InstabilityThreshold)
        {
            return false;
        }

        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            sum += best[i];
        }

        for (int i = 0; i < n; i++)
        {
            trial[i] = best[i] / sum;
        }

        return true;
    }

    /// <summary>
    /// Whether a phase is unstable, seen from the stationary trials of a neighbouring state alone: each is brought to its place at this
    /// state. Costs a few evaluations a trial; what is nowhere near them stays unseen.
    /// </summary>
    /// <param name="kernel">Equation of state, temperature set in <paramref name="scratch"/>.</param>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="tested">The phase, and those in equilibrium with it.</param>
    /// <param name="scratch">Kernel scratch.</param>
    /// <param name="near">The trials of the neighbour.</param>
    /// <param name="moved">Receives them where they stand here, without those that have run into a known phase.</param>
    public static bool IsUnstableNear(
        MixtureKernel kernel, double temperature, double pressure, scoped in TestedPhases tested, Span<double> scratch, StationaryTrials near, StationaryTrials moved)
    {
        Span<double> lnW = stackalloc double[tested.Phase.Length];
        for (int k = 0; k < near.Count; k++)
        {
            near.LnAmounts(k).CopyTo(lnW);
            double tm = Minimize(kernel, temperature, pressure, tested, near.Root(k), scratch, lnW, isNear: true, out _, out bool isKnown);
            if (tm < -InstabilityThreshold)
            {
                return true;
            }

            if (!isKnown)
            {
                moved.Add(lnW, near.Root(k));
            }
        }

        return false;
    }

    private static double Minimize(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        scoped in TestedPhases tested,
        DensityRoot root,
        Span<double> scratch,
        Span<double> lnW,
        bool isNear,
        out DensityRoot found,
        out bool isKnown)
    {
        int n = lnW.Length;
        Span<double> w = stackalloc double[n];
        Span<double> x = stackalloc double[n];
        Span<double> lnPhi = stackalloc double[n];
        Span<double> gradient = stackalloc double[n];
        Span<double> step = stackalloc double[n];
        Span<double> previous = stackalloc double[n];
        step.Clear();

        double tm = 0;
        double lastTm = double.PositiveInfinity;
        int substitutionSteps = isNear ? 0 : SubstitutionSteps;
        for (int iteration = 0; iteration < substitutionSteps; iteration++)
        {
            double density = Evaluate(kernel, temperature, pressure, tested, root, scratch, lnW, w, x, lnPhi, gradient, out found, out tm, out double error, out double norm);
            if (error < GradientTolerance)
            {
                isKnown = tested.IsKnown(x, density, norm, tm);
                return tm;
            }

            if (iteration >= 2)
            {
                isKnown = tested.IsKnown(x, density, norm, tm);
                if (isKnown || tm < -0.05)
                {
                    return isKnown ? Math.Max(tm, 0) : tm;
                }
            }

            // Substitution step; every third one is stretched along the dominant direction of error.
            double dot = 0;
            double square = 0;
            for (int i = 0; i < n; i++)
            {
                previous[i] = step[i];
                step[i] = w[i] > 0 ? -gradient[i] : 0;
                dot += step[i] * previous[i] * w[i];
                square += previous[i] * previous[i] * w[i];
            }

            double ratio = square > 0 ? dot / square : 1;
            if (iteration >= 2 && Math.Abs(ratio) < FastContraction && tested.IsAbout(x, density, tm))
            {
                isKnown = true;
                return 0;
            }

            double stretch = 1;
            if (iteration % 3 == 2 && tm < lastTm && ratio is > 0 and < 0.95)
            {
                stretch = 1 / (1 - ratio);
            }

            lastTm = tm;
            for (int i = 0; i < n; i++)
            {
                if (!double.IsNegativeInfinity(lnW[i]))
                {
                    lnW[i] += Math.Clamp(stretch * step[i], -60, 60);
                }
            }
        }

        return MinimizeSecondOrder(kernel, temperature, pressure, tested, root, scratch, lnW, w, x, lnPhi, gradient, step, out found, out isKnown);
    }

    private static double MinimizeSecondOrder(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        scoped in TestedPhases tested,
        DensityRoot root,
        Span<double> scratch,
        Span<double> lnW,
        Span<double> w,
        Span<double> x,
        Span<double> lnPhi,
        Span<double> gradient,
        Span<double> step,
        out DensityRoot found,
        out bool isKnown)
    {
        int n = lnW.Length;
        Span<double> byAmount = stackalloc double[n * n];
        Span<double> matrix = stackalloc double[n * n];
        Span<double> saved = stackalloc double[n];
        Span<double> coupled = stackalloc double[n];
        double shift = 0;
        double tm = double.PositiveInfinity;
        Span<double> candidateByAmount = stackalloc double[n * n];
        Span<double> candidateW = stackalloc double[n];
        Span<double> candidateGradient = stackalloc double[n];
        double total = Fractions(lnW, w, x);
        double density = kernel.LnFugacityDerivatives(temperature, pressure, x, root, scratch, lnPhi, byAmount, default, default, out found);
        tm = Distance(tested.D, lnW, w, lnPhi, gradient, out double error, out double norm);
        isKnown = false;
        for (int iteration = 0; iteration < SecondOrderSteps; iteration++)
        {
            isKnown = tested.IsKnown(x, density, norm, tm);
            if (error < GradientTolerance)
            {
                return tm;
            }

            if (isKnown)
            {
                return Math.Max(tm, 0);
            }

            // Accept a step only when tm falls; otherwise raise the shift and retry from the same point.
            bool accepted = false;
            for (int attempt = 0; attempt < 25 && !accepted; attempt++)
            {
                for (int i = 0; i < n; i++)
                {
                    double rootI = Math.Sqrt(w[i]);
                    for (int j = 0; j < n; j++)
                    {
                        matrix[(i * n) + j] = rootI * Math.Sqrt(w[j]) * byAmount[(i * n) + j] / total;
                    }

                    matrix[(i * n) + i] += 1 + (w[i] > 0 ? 0.5 * gradient[i] : 0);
                    step[i] = w[i] > 0 ? -rootI * gradient[i] : 0;
                }

                if (!Cholesky.Factor(matrix, n, shift))
                {
                    shift = Math.Max(3 * shift, 1e-5);
                    continue;
                }

                Cholesky.Solve(matrix, n, step);
                double largest = 0;
                for (int i = 0; i < n; i++)
                {
                    saved[i] = lnW[i];
                }

                // Recompute the step of each ln W from the solved amounts: keeps relative accuracy for traces.
                for (int i = 0; i < n; i++)
                {
                    if (double.IsNegativeInfinity(saved[i]))
                    {
                        continue;
                    }

                    double coupling = gradient[i];
                    for (int j = 0; j < n; j++)
                    {
                        coupling += byAmount[(i * n) + j] / total * Math.Sqrt(w[j]) * step[j];
                    }

                    double change = -coupling / Math.Max(1 + shift + (0.5 * gradient[i]), 0.3);
                    coupled[i] = change;
                    largest = Math.Max(largest, Math.Abs(change) * Math.Min(1, Math.Sqrt(w[i])));
                }

                double scale = largest > 1 ? 1 / largest : 1;
                for (int i = 0; i < n; i++)
                {
                    if (!double.IsNegativeInfinity(saved[i]))
                    {
                        lnW[i] = saved[i] + Math.Clamp(scale * coupled[i], -30, 30);
                    }
                }

                double candidateTotal = Fractions(lnW, candidateW, x);
                double candidateDensity = kernel.LnFugacityDerivatives(
                    temperature, pressure, x, root, scratch, lnPhi, candidateByAmount, default, default, out DensityRoot candidateFound);
                double candidate = Distance(tested.D, lnW, candidateW, lnPhi, candidateGradient, out double candidateError, out double candidateNorm);
                if (candidate <= tm + 1e-14)
                {
                    accepted = true;
                    shift = shift < 2e-5 ? 0 : 0.1 * shift;
                    (tm, error, norm, total, density, found) = (candidate, candidateError, candidateNorm, candidateTotal, candidateDensity, candidateFound);
                    candidateW.CopyTo(w);
                    candidateGradient.CopyTo(gradient);
                    candidateByAmount.CopyTo(byAmount);
                }
                else
                {
                    saved.CopyTo(lnW);
                    shift = Math.Max(5 * shift, 1e-3);

                    if (largest < 1e-13)
                    {
                        return tm;
                    }
                }
            }

            if (!accepted)
            {
                return tm;
            }
        }

        return tm;
    }

    /// <summary>Amounts and mole fractions of a trial phase; returns the sum of the amounts.</summary>
    private static double Fractions(ReadOnlySpan<double> lnW, Span<double> w, Span<double> x)
    {
        double total = 0;
        for (int i = 0; i < lnW.Length; i++)
        {
            w[i] = Math.Exp(lnW[i]);
            total += w[i];
        }

        for (int i = 0; i < lnW.Length; i++)
        {
            x[i] = w[i] / total;
        }

        return total;
    }

    private static double Evaluate(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        scoped in TestedPhases tested,
        DensityRoot root,
        Span<double> scratch,
        ReadOnlySpan<double> lnW,
        Span<double> w,
        Span<double> x,
        Span<double> lnPhi,
        Span<double> gradient,
        out DensityRoot found,
        out double tm,
        out double error,
        out double norm)
    {
        Fractions(lnW, w, x);
        double density = kernel.LnFugacityCoefficients(temperature, pressure, x, root, scratch, lnPhi, out found);
        tm = Distance(tested.D, lnW, w, lnPhi, gradient, out error, out norm);
        return density;
    }

    private static double Distance(
        ReadOnlySpan<double> d, ReadOnlySpan<double> lnW, ReadOnlySpan<double> w, ReadOnlySpan<double> lnPhi, Span<double> gradient, out double error, out double norm)
    {
        double tm = 1;
        error = 0;
        norm = 0;
        for (int i = 0; i < w.Length; i++)
        {
            if (double.IsNegativeInfinity(lnW[i]))
            {
                gradient[i] = 0;
                continue;
            }

            double g = lnW[i] + lnPhi[i] - d[i];
            gradient[i] = g;
            tm += w[i] * (g - 1);
            norm += w[i];
            error = Math.Max(error, Math.Abs(g) * Math.Min(1, Math.Sqrt(w[i]) + 1e-3));
        }

        return tm;
    }

    private static void Normalize(Span<double> lnW)
    {
        double largest = double.NegativeInfinity;
        foreach (double value in lnW)
        {
            largest = Math.Max(largest, value);
        }

        double sum = 0;
        foreach (double value in lnW)
        {
            sum += Math.Exp(value - largest);
        }

        double ln = largest + Math.Log(sum);
        for (int i = 0; i < lnW.Length; i++)
        {
            lnW[i] -= ln;
        }
    }
}
