using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Which phases a mixture forms at given temperature and pressure: stability first, then Gibbs minimisation over two
/// phases, then the answer is tested for stability again; where no two phases are stable, three are sought. Substitution steps come first, then a damped second-order
/// method (Michelsen, Fluid Phase Equilib. 9 (1982) 21) in our own variables theta_i = ln(v_i/l_i): amounts can then
/// neither turn negative nor lose the digits of traces.
/// </summary>
internal static class IsothermalFlash
{
    /// <summary>
    /// Smallest molar volume, over the pseudo-critical one, at which the less dense of two phases is called a vapour. A
    /// convention: beside a denser liquid, vapours close to their critical point reach down to it, second liquids up to 0.5.
    /// </summary>
    public const double SmallestVaporVolume = 0.66;

    /// <summary>Phases with a smaller difference of ln fugacity than this count as in equilibrium.</summary>
    private const double FugacityTolerance = 1e-11;

    /// <summary>Rounding of the Gibbs energy gain: potentials of a cold liquid reach 100 R T.</summary>
    private const double GainRounding = 1e-13;

    /// <summary>Phases whose ln fugacities differ by more than this are no answer.</summary>
    private const double UnsolvedDifference = 1e-8;

    /// <summary>An amount this small, as far above the tangent plane as that, is on its way out.</summary>
    private const double Sliver = 1e-9;

    private const int SubstitutionSteps = 7;
    private const int MaxIterations = 120;

    /// <summary>From a neighbour's answer second-order steps are few, or there is no such answer.</summary>
    private const int MaxNearIterations = 20;

    private const int LeastNearIterations = 3;

    /// <summary>Solves the flash.</summary>
    /// <param name="kernel">Equation of state.</param>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="z">Mole fractions, sum 1; zeros allowed.</param>
    /// <param name="scratch">Kernel scratch; left filled for this temperature.</param>
    /// <param name="split">Receives the phases.</param>
    /// <param name="twoPhasesOnly">True to stop at the best two-phase answer, for walking to the edge of a region.</param>
    public static void Solve(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        scoped ReadOnlySpan<double> z,
        scoped Span<double> scratch,
        ref PhaseSplit split,
        bool twoPhasesOnly = false)
    {
        int n = z.Length;
        Span<double> d = stackalloc double[n];
        kernel.SetTemperature(temperature, scratch);
        double density = FeedPotential(kernel, temperature, pressure, z, scratch, d, out DensityRoot feedRoot);
        if (PresentCount(z) < 2)
        {
            SinglePhase(kernel, z, density, feedRoot, ref split);
            return;
        }

        Span<double> trial = stackalloc double[n];
        bool unstable = StabilityAnalysis.FindUnstable(
            kernel, temperature, pressure, new TestedPhases(d, z, density), scratch, trial, out DensityRoot trialRoot, out double distance, thorough: false);
        if (!unstable)
        {
            SinglePhase(kernel, z, density, feedRoot, ref split);
            split.TangentPlaneDistance = distance;
            return;
        }

        Span<double> theta = stackalloc double[n];
        Work work = new(kernel, temperature, pressure, z, d, scratch, stackalloc double[n * Work.Columns], stackalloc double[Work.Squares * n * n]);
        OrderByDensity(kernel, temperature, pressure, z, feedRoot, density, trial, trialRoot, scratch, work.LnPhiLight, out bool trialIsLight, out DensityRoot lightRoot, out DensityRoot heavyRoot);
        StartFrom(z, trialIsLight ? trial : z, trialIsLight ? z : trial, trial, trialIsLight, theta);
        double gain = Minimize(ref work, theta, lightRoot, heavyRoot);
        if (!IsSplit(work, gain))
        {
            // The substitution start led to the trivial answer: begin again from a sliver of the trial phase.
            SliverStart(z, trial, trialIsLight, theta);
            work.OnlySecondOrder = true;
            gain = Minimize(ref work, theta, lightRoot, heavyRoot);
            work.OnlySecondOrder = false;
        }

        PhaseSplit local = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        Finish(ref work, theta, lightRoot, heavyRoot, ref local);
        local.GibbsGain = gain;
        if (!IsSplit(work, gain))
        {
            // Unstable by so little that the split is lost in rounding: the single phase is the answer to all digits.
            SinglePhase(kernel, z, density, feedRoot, ref split);
            split.TangentPlaneDistance = distance;
            split.StillUnstable = distance < -1e-8;
            return;
        }

        // Three phases of two components stand at single temperatures only (phase rule): a flash never meets them but by rounding.
        Retest(ref work, theta, ref local, !twoPhasesOnly && PresentCount(z) > 2);

        // Far below the range of its components an equation can jump between liquids under the minimisation: told, not returned as an answer.
        local.StillUnstable |= local.Residual > UnsolvedDifference;
        PhaseSplit.Copy(local, ref split);
    }

    /// <summary>
    /// Solves the equations of as many phases as a neighbouring answer has, from there and without stability tests: for walking along a line
    /// whose phases are known. Returns false when the start does not lead to as many distinct phases.
    /// </summary>
    public static bool SolveFrom(
        MixtureKernel kernel, double temperature, double pressure, scoped ReadOnlySpan<double> z, scoped Span<double> scratch, ref PhaseSplit split)
    {
        int n = z.Length;
        Span<double> d = stackalloc double[n];
        kernel.SetTemperature(temperature, scratch);
        if (split.PhaseCount == 1)
        {
            double density = FeedPotential(kernel, temperature, pressure, z, scratch, d, out DensityRoot root);
            SinglePhase(kernel, z, density, root, ref split);
            return true;
        }

        // Gibbs energies are compared with one another only: without the potential of the feed, which costs two densities.
        d.Clear();

        if (split.PhaseCount == 3)
        {
            return ThreePhaseFlash.SolveFrom(kernel, temperature, pressure, z, d, scratch, ref split)
                && split.Residual < 1e-8 && split.LightFraction > 0 && split.MiddleFraction > 0 && split.HeavyFraction > 0;
        }

        Span<double> theta = stackalloc double[n];
        Work work = new(kernel, temperature, pressure, z, d, scratch, stackalloc double[n * Work.Columns], stackalloc double[Work.Squares * n * n]);
        Span<double> lnK = work.Step;
        for (int i = 0; i < n; i++)
        {
            lnK[i] = z[i] > 0 ? Math.Log(split.Light[i] / split.Heavy[i]) : 0;
        }

        if (!RachfordRice.TrySolve(z, lnK, out double logOdds))
        {
            return false;
        }

        for (int i = 0; i < n; i++)
        {
            theta[i] = lnK[i] + logOdds;
        }

        DensityRoot lightRoot = split.LightRoot;
        DensityRoot heavyRoot = split.HeavyRoot;
        work.OnlySecondOrder = true;
        work.IsNear = true;
        Minimize(ref work, theta, lightRoot, heavyRoot);
        if (work.Trivial)
        {
            return false;
        }

        PhaseSplit local = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        Finish(ref work, theta, lightRoot, heavyRoot, ref local);
        PhaseSplit.Copy(local, ref split);
        return split.Residual < 1e-8 && split.LightFraction > 0 && split.HeavyFraction > 0;
    }

    /// <summary>Whether no further phase lies below the common tangent plane of a solved split.</summary>
    /// <param name="kernel">Equation of state.</param>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="z">Mole fractions of the whole.</param>
    /// <param name="scratch">Kernel scratch set to the temperature.</param>
    /// <param name="split">One to three phases in equilibrium.</param>
    /// <param name="near">Stationary trials of a neighbour, which alone are looked at; null to take every start from the largest phase.</param>
    /// <param name="seen">Receives the stationary trials here.</param>
    public static bool IsStable(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        scoped ReadOnlySpan<double> z,
        scoped Span<double> scratch,
        scoped in PhaseSplit split,
        StationaryTrials? near,
        StationaryTrials seen)
    {
        if (PresentCount(z) < 2)
        {
            return true;
        }

        int n = z.Length;
        Span<double> d = stackalloc double[n];
        Span<double> trial = stackalloc double[n];
        int count = split.PhaseCount;
        int largest = 0;
        for (int k = 1; k < count; k++)
        {
            largest = split.AmountOf(k) > split.AmountOf(largest) ? k : largest;
        }

        for (int k = 0; k < count; k++)
        {
            // The largest carries the plane with the best digits; each must be on its root of least Gibbs energy.
            int phase = (largest + k) % count;
            ReadOnlySpan<double> x = split.FractionsOf(phase);
            double own = split.DensityOf(phase);
            Span<double> lnPhi = k == 0 ? d : trial;
            double stable = kernel.LnFugacityCoefficients(temperature, pressure, x, DensityRoot.Stable, scratch, lnPhi, out _);
            if (Math.Abs(stable - own) > 1e-6 * own)
            {
                return false;
            }
        }

        ReadOnlySpan<double> first = split.FractionsOf(largest);
        for (int i = 0; i < n; i++)
        {
            d[i] = first[i] > 0 ? d[i] + Math.Log(first[i]) : 0;
        }

        int second = (largest + 1) % count;
        int third = (largest + 2) % count;
        TestedPhases tested = count switch
        {
            1 => new(d, first, split.DensityOf(largest)),
            2 => new(d, first, split.DensityOf(largest), split.FractionsOf(second), split.DensityOf(second)),
            _ => new(d, first, split.DensityOf(largest), split.FractionsOf(second), split.DensityOf(second), split.FractionsOf(third), split.DensityOf(third)),
        };
        return near is null
            ? !StabilityAnalysis.FindUnstable(kernel, temperature, pressure, tested, scratch, trial, out _, out _, thorough: false, seen)
            : !StabilityAnalysis.IsUnstableNear(kernel, temperature, pressure, tested, scratch, near, seen);
    }

    /// <summary>Number of components with a positive mole fraction.</summary>
    public static int PresentCount(ReadOnlySpan<double> z)
    {
        int present = 0;
        foreach (double fraction in z)
        {
            present += fraction > 0 ? 1 : 0;
        }

        return present;
    }

    // Next to a phase boundary the gain is the product of two small numbers and drowns in rounding; there two distinct
    // phases of equal fugacities are the answer all the same.
    private static bool IsSplit(scoped in Work work, double gain) => !work.Trivial && gain < GainRounding;

    private static double FeedPotential(
        MixtureKernel kernel, double temperature, double pressure, ReadOnlySpan<double> z, Span<double> scratch, Span<double> d, out DensityRoot root)
    {
        double density = kernel.LnFugacityCoefficients(temperature, pressure, z, DensityRoot.Stable, scratch, d, out root);
        for (int i = 0; i < z.Length; i++)
        {
            d[i] = z[i] > 0 ? d[i] + Math.Log(z[i]) : 0;
        }

        return density;
    }

    private static void SinglePhase(MixtureKernel kernel, scoped ReadOnlySpan<double> z, double density, DensityRoot root, ref PhaseSplit split)
    {
        bool vapor = kernel.ReducedVolume(density, z) > 1;
        split.PhaseCount = 1;
        split.StillUnstable = false;
        split.LightFraction = vapor ? 1 : 0;
        split.HeavyFraction = vapor ? 0 : 1;
        split.LightDensity = density;
        split.HeavyDensity = density;
        split.LightRoot = root;
        split.HeavyRoot = root;
        split.LightIsVapor = vapor;
        split.GibbsGain = 0;
        split.Residual = 0;
        split.TangentPlaneDistance = 0;
        z.CopyTo(split.Light);
        z.CopyTo(split.Heavy);
    }

    private static void OrderByDensity(
        MixtureKernel kernel,
        double temperature,
        double pressure,
        ReadOnlySpan<double> z,
        DensityRoot feedRoot,
        double feedDensity,
        ReadOnlySpan<double> trial,
        DensityRoot trialRoot,
        Span<double> scratch,
        Span<double> lnPhi,
        out bool trialIsLight,
        out DensityRoot lightRoot,
        out DensityRoot heavyRoot)
    {
        double trialDensity = kernel.LnFugacityCoefficients(temperature, pressure, trial, trialRoot, scratch, lnPhi, out trialRoot);
        trialIsLight = trialDensity < feedDensity;
        DensityRoot light = trialIsLight ? trialRoot : feedRoot;
        DensityRoot heavy = trialIsLight ? feedRoot : trialRoot;

        // Where both are liquid-like, both keep the densest root; otherwise each phase keeps its side, which stops
        // narrow-boiling mixtures from jumping between roots while the compositions still move.
        heavyRoot = heavy == DensityRoot.Vapor && light == DensityRoot.Vapor ? DensityRoot.Stable : DensityRoot.Liquid;
        lightRoot = light == DensityRoot.Liquid && heavy == DensityRoot.Liquid
            ? (kernel.ReducedVolume(trialIsLight ? trialDensity : feedDensity, trialIsLight ? trial : z) > SmallestVaporVolume ? DensityRoot.Stable : DensityRoot.Liquid)
            : DensityRoot.Vapor;
    }

    private static void StartFrom(
        ReadOnlySpan<double> z,
        ReadOnlySpan<double> light,
        ReadOnlySpan<double> heavy,
        ReadOnlySpan<double> trial,
        bool trialIsLight,
        Span<double> theta)
    {
        for (int i = 0; i < z.Length; i++)
        {
            theta[i] = z[i] > 0 ? Math.Clamp(Math.Log(light[i] / heavy[i]), -600, 600) : 0;
        }

        if (RachfordRice.TrySolve(z, theta, out double logOdds))
        {
            for (int i = 0; i < z.Length; i++)
            {
                theta[i] += logOdds;
            }
        }
        else
        {
            SliverStart(z, trial, trialIsLight, theta);
        }
    }

    // A small amount of the trial phase taken out of the feed: Gibbs energy is certain to be below the feed's.
    private static void SliverStart(ReadOnlySpan<double> z, ReadOnlySpan<double> trial, bool trialIsLight, Span<double> theta)
    {
        double most = double.PositiveInfinity;
        for (int i = 0; i < z.Length; i++)
        {
            if (z[i] > 0 && trial[i] > 0)
            {
                most = Math.Min(most, z[i] / trial[i]);
            }
        }

        double amount = 0.3 * Math.Min(most, 1);
        for (int i = 0; i < z.Length; i++)
        {
            if (z[i] <= 0)
            {
                theta[i] = 0;
                continue;
            }

            double inTrial = Math.Max(amount * trial[i], 1e-300);
            double odds = Math.Log(inTrial / (z[i] - inTrial));
            theta[i] = trialIsLight ? odds : -odds;
        }
    }

    /// <summary>
    /// Lowers the Gibbs energy over theta to a stationary point. Returns the Gibbs energy over R T less the feed's;
    /// zero or positive when only the trivial answer was found.
    /// </summary>
    private static double Minimize(scoped ref Work work, scoped Span<double> theta, DensityRoot lightRoot, DensityRoot heavyRoot)
    {
        int n = theta.Length;
        Span<double> saved = work.Saved;
        double shift = 0;
        double last = double.PositiveInfinity;
        double lastError = double.PositiveInfinity;
        bool substitution = !work.OnlySecondOrder;
        bool isEvaluated = false;
        double gain = 0;
        double error = 0;
        for (int iteration = 0; iteration < (work.IsNear ? MaxNearIterations : MaxIterations); iteration++)
        {
            bool secondOrder = !substitution || iteration >= SubstitutionSteps;
            gain = isEvaluated ? gain : Evaluate(ref work, theta, lightRoot, heavyRoot, secondOrder, out error);
            if (work.Trivial)
            {
                return 0;
            }

            if (error < FugacityTolerance || (error < 1e-9 && error >= 0.5 * lastError && iteration > (work.IsNear ? LeastNearIterations : SubstitutionSteps)))
            {
                return gain;
            }

            lastError = error;
            if (!secondOrder)
            {
                if (gain > last + 1e-10)
                {
                    // Substitution can overshoot in strongly non-ideal liquids.
                    saved.CopyTo(theta);
                    substitution = false;
                    continue;
                }

                last = gain;
                theta.CopyTo(saved);
                Span<double> lnK = work.Step;
                for (int i = 0; i < n; i++)
                {
                    lnK[i] = work.LnPhiHeavy[i] - work.LnPhiLight[i];
                }

                if (RachfordRice.TrySolve(work.Z, lnK, out double logOdds))
                {
                    for (int i = 0; i < n; i++)
                    {
                        theta[i] = lnK[i] + logOdds;
                    }
                }
                else
                {
                    substitution = false;
                }

                continue;
            }

            isEvaluated = SecondOrderStep(ref work, theta, lightRoot, heavyRoot, ref gain, ref error, ref shift);
            if (!isEvaluated)
            {
                return gain;
            }
        }

        return gain;
    }

    // One accepted step; on return the state of the work, derivatives included, belongs to it. False, and the old state without derivatives, when
    // no step lowers the Gibbs energy.
    private static bool SecondOrderStep(
        scoped ref Work work, scoped Span<double> theta, DensityRoot lightRoot, DensityRoot heavyRoot, ref double gain, ref double error, ref double shift)
    {
        int n = theta.Length;
        Span<double> saved = work.Saved;
        Span<double> matrix = work.Matrix;
        Span<double> step = work.Step;
        Span<double> gradient = work.SavedGradient;
        Span<double> rootD = work.SavedRootD;
        Span<double> coupling = work.Coupling;
        theta.CopyTo(saved);
        work.Gradient.CopyTo(gradient);
        work.RootD.CopyTo(rootD);
        for (int i = 0; i < n * n; i++)
        {
            coupling[i] = (work.ByAmountLight[i] / work.LightAmount) + (work.ByAmountHeavy[i] / work.HeavyAmount)
                - (1 / work.LightAmount) - (1 / work.HeavyAmount);
        }

        for (int attempt = 0; attempt < 30; attempt++)
        {
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    matrix[(i * n) + j] = rootD[i] * coupling[(i * n) + j] * rootD[j];
                }

                matrix[(i * n) + i] += 1;
                step[i] = -rootD[i] * gradient[i];
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
                double sum = gradient[i];
                for (int j = 0; j < n; j++)
                {
                    sum += coupling[(i * n) + j] * rootD[j] * step[j];
                }

                work.Change[i] = work.Z[i] > 0 ? -sum / (1 + shift) : 0;
                largest = Math.Max(largest, Math.Abs(work.Change[i]) * Math.Min(1, Math.Sqrt(work.Z[i])));
            }

            double scale = largest > 1.5 ? 1.5 / largest : 1;
            for (int i = 0; i < n; i++)
            {
                theta[i] = saved[i] + Math.Clamp(scale * work.Change[i], -30, 30);
            }

            double candidate = Evaluate(ref work, theta, lightRoot, heavyRoot, derivatives: true, out double candidateError);

            // Close to the answer the Gibbs energy is flat to rounding and the fugacities decide.
            bool lower = candidate <= gain - 1e-13;
            bool closer = candidate <= gain + 1e-10 && candidateError < error;
            if (!work.Trivial && (lower || closer))
            {
                gain = candidate;
                error = candidateError;
                shift = shift < 2e-5 ? 0 : 0.1 * shift;
                return true;
            }

            shift = Math.Max(5 * shift, 1e-3);
            if (shift > 1e12)
            {
                break;
            }
        }

        saved.CopyTo(theta);
        Evaluate(ref work, theta, lightRoot, heavyRoot, derivatives: false, out _);
        return false;
    }

    private static double Evaluate(
        scoped ref Work work, scoped ReadOnlySpan<double> theta, DensityRoot lightRoot, DensityRoot heavyRoot, bool derivatives, out double error)
    {
        int n = theta.Length;
        ReadOnlySpan<double> z = work.Z;
        Span<double> light = work.Light;
        Span<double> heavy = work.Heavy;
        double lightAmount = 0;
        double heavyAmount = 0;
        for (int i = 0; i < n; i++)
        {
            if (z[i] <= 0)
            {
                light[i] = 0;
                heavy[i] = 0;
                continue;
            }

            double t = theta[i];
            if (t < 0)
            {
                double e = Math.Exp(t);
                light[i] = z[i] * e / (1 + e);
                heavy[i] = z[i] / (1 + e);
            }
            else
            {
                double e = Math.Exp(-t);
                light[i] = z[i] / (1 + e);
                heavy[i] = z[i] * e / (1 + e);
            }

            work.RootD[i] = Math.Sqrt(light[i] / z[i] * heavy[i]);
            lightAmount += light[i];
            heavyAmount += heavy[i];
        }

        work.LightAmount = lightAmount;
        work.HeavyAmount = heavyAmount;
        work.Trivial = false;
        error = double.PositiveInfinity;
        if (lightAmount < 1e-290 || heavyAmount < 1e-290)
        {
            work.Trivial = true;
            return 0;
        }

        double sameness = 0;
        for (int i = 0; i < n; i++)
        {
            light[i] /= lightAmount;
            heavy[i] /= heavyAmount;
            sameness = Math.Max(sameness, Math.Abs(light[i] - heavy[i]));
        }

        if (derivatives)
        {
            work.LightDensity = work.Kernel.LnFugacityDerivatives(work.Temperature, work.Pressure, light, lightRoot, work.Scratch, work.LnPhiLight, work.ByAmountLight, default, default, out _);
            work.HeavyDensity = work.Kernel.LnFugacityDerivatives(work.Temperature, work.Pressure, heavy, heavyRoot, work.Scratch, work.LnPhiHeavy, work.ByAmountHeavy, default, default, out _);
        }
        else
        {
            work.LightDensity = work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, light, lightRoot, work.Scratch, work.LnPhiLight, out _);
            work.HeavyDensity = work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, heavy, heavyRoot, work.Scratch, work.LnPhiHeavy, out _);
        }

        if (sameness < 1e-7 && Math.Abs(work.LightDensity - work.HeavyDensity) < 1e-6 * work.HeavyDensity)
        {
            work.Trivial = true;
        }

        double gain = 0;
        double lightDistance = 0;
        double heavyDistance = 0;
        error = 0;
        double lnOdds = Math.Log(lightAmount / heavyAmount);
        for (int i = 0; i < n; i++)
        {
            if (z[i] <= 0)
            {
                work.Gradient[i] = 0;
                continue;
            }

            // ln(y_i/x_i) = theta_i - ln(V/L)
            double g = theta[i] - lnOdds + work.LnPhiLight[i] - work.LnPhiHeavy[i];
            work.Gradient[i] = g;
            error = Math.Max(error, Math.Abs(g));

            // Either side's potential relative to the feed; the smaller share is carried by its difference g.
            if (theta[i] < 0)
            {
                double heavyPotential = Math.Log(heavy[i]) + work.LnPhiHeavy[i] - work.D[i];
                gain += (z[i] * heavyPotential) + (light[i] * lightAmount * g);
            }
            else
            {
                double lightPotential = Math.Log(light[i]) + work.LnPhiLight[i] - work.D[i];
                gain += (z[i] * lightPotential) - (heavy[i] * heavyAmount * g);
            }

            lightDistance += light[i] * g;
            heavyDistance -= heavy[i] * g;
        }

        if (work.IsNear && ((lightAmount < Sliver && lightDistance > Sliver) || (heavyAmount < Sliver && heavyDistance > Sliver)))
        {
            // A sliver above the tangent plane of the other phase shrinks for ever.
            work.Trivial = true;
        }

        work.LastError = error;

        return gain;
    }

    private static void Finish(scoped ref Work work, scoped Span<double> theta, DensityRoot lightRoot, DensityRoot heavyRoot, ref PhaseSplit split)
    {
        double error = work.LastError;
        if (!work.IsNear)
        {
            Evaluate(ref work, theta, lightRoot, heavyRoot, derivatives: false, out error);
        }

        bool swap = work.LightDensity > work.HeavyDensity;
        split.PhaseCount = 2;
        split.StillUnstable = false;
        split.Residual = error;
        (swap ? work.Heavy : work.Light).CopyTo(split.Light);
        (swap ? work.Light : work.Heavy).CopyTo(split.Heavy);
        split.LightFraction = swap ? work.HeavyAmount : work.LightAmount;
        split.HeavyFraction = swap ? work.LightAmount : work.HeavyAmount;
        split.LightDensity = swap ? work.HeavyDensity : work.LightDensity;
        split.HeavyDensity = swap ? work.LightDensity : work.HeavyDensity;
        split.LightRoot = swap ? heavyRoot : lightRoot;
        split.HeavyRoot = swap ? lightRoot : heavyRoot;
        double lightVolume = work.Kernel.ReducedVolume(split.LightDensity, split.Light);
        double heavyVolume = work.Kernel.ReducedVolume(split.HeavyDensity, split.Heavy);
        split.LightIsVapor = lightVolume > 1 || (lightVolume > SmallestVaporVolume && heavyVolume < lightVolume);
        if (swap)
        {
            for (int i = 0; i < theta.Length; i++)
            {
                theta[i] = -theta[i];
            }
        }
    }

    // The final test: no phase may lie below the common tangent plane. Better two-phase answers replace the first.
    // Where three phases are sought they come first: two of them and the trial phase mostly are the answer.
    private static void Retest(scoped ref Work work, scoped Span<double> theta, ref PhaseSplit split, bool seeksThreePhases)
    {
        int n = work.Z.Length;
        Span<double> d = stackalloc double[n];
        Span<double> lnPhi = stackalloc double[n];
        Span<double> trial = stackalloc double[n];
        Span<double> candidate = stackalloc double[n];
        Span<double> bestTheta = stackalloc double[n];
        for (int round = 0; round < 8; round++)
        {
            // The larger phase carries the tangent plane with the better digits.
            bool fromLight = split.LightFraction > split.HeavyFraction;
            Span<double> phase = fromLight ? split.Light : split.Heavy;
            Span<double> other = fromLight ? split.Heavy : split.Light;
            double density = fromLight ? split.LightDensity : split.HeavyDensity;
            double otherDensity = fromLight ? split.HeavyDensity : split.LightDensity;
            work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, phase, fromLight ? split.LightRoot : split.HeavyRoot, work.Scratch, lnPhi, out _);
            for (int i = 0; i < n; i++)
            {
                d[i] = phase[i] > 0 ? lnPhi[i] + Math.Log(phase[i]) : 0;
            }

            bool unstable = false;
            DensityRoot trialRoot = DensityRoot.Stable;
            double distance = 0;

            // A phase that sits on the wrong density root is unstable against its own other root.
            for (int side = 0; side < 2 && !unstable; side++)
            {
                Span<double> x = side == 0 ? split.Light : split.Heavy;
                double own = side == 0 ? split.LightDensity : split.HeavyDensity;
                double stable = work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, x, DensityRoot.Stable, work.Scratch, lnPhi, out DensityRoot stableRoot);
                if (Math.Abs(stable - own) > 1e-6 * own)
                {
                    distance = 0;
                    for (int i = 0; i < n; i++)
                    {
                        if (x[i] > 0)
                        {
                            distance += x[i] * (Math.Log(x[i]) + lnPhi[i] - d[i]);
                        }
                    }

                    if (distance < -StabilityAnalysis.InstabilityThreshold)
                    {
                        unstable = true;
                        trialRoot = stableRoot;
                        x.CopyTo(trial);
                    }
                }
            }

            if (!unstable)
            {
                unstable = StabilityAnalysis.FindUnstable(
                    work.Kernel, work.Temperature, work.Pressure, new TestedPhases(d, phase, density, other, otherDensity), work.Scratch, trial, out trialRoot, out distance, thorough: round > 0);
            }

            if (!unstable)
            {
                // The plane is the same, but the starts that lie between a phase and its pure components are not: about one
                // third phase in a million flashes is found from the smaller phase only.
                double fromLarger = distance;
                unstable = StabilityAnalysis.FindUnstable(
                    work.Kernel, work.Temperature, work.Pressure, new TestedPhases(d, other, otherDensity, phase, density), work.Scratch, trial, out trialRoot, out distance, thorough: round > 0, isFurtherSide: true);
                distance = Math.Min(distance, fromLarger);
            }

            split.TangentPlaneDistance = unstable ? distance : Math.Min(0, distance);
            if (!unstable)
            {
                return;
            }

            if (seeksThreePhases
                && ThreePhaseFlash.TrySolve(work.Kernel, work.Temperature, work.Pressure, work.Z, work.D, work.Scratch, trial, trialRoot, ref split))
            {
                return;
            }

            // Pair the new phase with each old one, and with the feed.
            double trialDensity = work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, trial, trialRoot, work.Scratch, lnPhi, out trialRoot);
            double best = split.GibbsGain;
            DensityRoot bestLight = DensityRoot.Stable;
            DensityRoot bestHeavy = DensityRoot.Stable;
            bool improved = false;
            for (int pair = 0; pair < 3; pair++)
            {
                ReadOnlySpan<double> partner = pair == 0 ? split.Light : pair == 1 ? split.Heavy : work.Z;
                double partnerDensity = pair == 0 ? split.LightDensity : pair == 1 ? split.HeavyDensity : 0;
                DensityRoot partnerRoot = pair == 0 ? split.LightRoot : pair == 1 ? split.HeavyRoot : DensityRoot.Stable;
                if (pair == 2)
                {
                    partnerDensity = work.Kernel.LnFugacityCoefficients(work.Temperature, work.Pressure, partner, DensityRoot.Stable, work.Scratch, lnPhi, out _);
                }

                bool trialIsLight = trialDensity < partnerDensity;
                StartFrom(work.Z, trialIsLight ? trial : partner, trialIsLight ? partner : trial, trial, trialIsLight, candidate);
                DensityRoot lightRoot = trialIsLight ? trialRoot : partnerRoot;
                DensityRoot heavyRoot = trialIsLight ? partnerRoot : trialRoot;
                if (pair == 2 || lightRoot == DensityRoot.Liquid)
                {
                    lightRoot = DensityRoot.Stable;
                }

                double gain = Minimize(ref work, candidate, lightRoot, heavyRoot);
                if (gain < best - 1e-12)
                {
                    best = gain;
                    improved = true;
                    candidate.CopyTo(bestTheta);
                    bestLight = lightRoot;
                    bestHeavy = heavyRoot;
                }
            }

            if (!improved)
            {
                split.StillUnstable = true;
                return;
            }

            bestTheta.CopyTo(theta);
            Finish(ref work, theta, bestLight, bestHeavy, ref split);
            split.GibbsGain = best;
        }

        split.StillUnstable = true;
    }

    /// <summary>Working memory of one flash; spans into the caller's stack.</summary>
    private ref struct Work
    {
        /// <summary>Columns of n numbers.</summary>
        public const int Columns = 11;

        /// <summary>Squares of n by n numbers.</summary>
        public const int Squares = 4;

        public Work(
            MixtureKernel kernel,
            double temperature,
            double pressure,
            ReadOnlySpan<double> z,
            ReadOnlySpan<double> d,
            Span<double> scratch,
            Span<double> columns,
            Span<double> squares)
        {
            int n = z.Length;
            Kernel = kernel;
            Temperature = temperature;
            Pressure = pressure;
            Z = z;
            D = d;
            Scratch = scratch;
            Light = columns[..n];
            Heavy = columns.Slice(n, n);
            LnPhiLight = columns.Slice(2 * n, n);
            LnPhiHeavy = columns.Slice(3 * n, n);
            Gradient = columns.Slice(4 * n, n);
            Step = columns.Slice(5 * n, n);
            Saved = columns.Slice(6 * n, n);
            RootD = columns.Slice(7 * n, n);
            SavedGradient = columns.Slice(8 * n, n);
            SavedRootD = columns.Slice(9 * n, n);
            Change = columns.Slice(10 * n, n);
            ByAmountLight = squares[..(n * n)];
            ByAmountHeavy = squares.Slice(n * n, n * n);
            Matrix = squares.Slice(2 * n * n, n * n);
            Coupling = squares.Slice(3 * n * n, n * n);
            columns.Clear();
        }

        public MixtureKernel Kernel { get; }

        public double Temperature { get; }

        public double Pressure { get; }

        public ReadOnlySpan<double> Z { get; }

        public ReadOnlySpan<double> D { get; }

        public Span<double> Scratch { get; }

        public Span<double> Light { get; }

        public Span<double> Heavy { get; }

        public Span<double> LnPhiLight { get; }

        public Span<double> LnPhiHeavy { get; }

        public Span<double> Gradient { get; }

        public Span<double> Step { get; }

        public Span<double> Saved { get; }

        public Span<double> RootD { get; }

        public Span<double> SavedGradient { get; }

        public Span<double> SavedRootD { get; }

        public Span<double> Change { get; }

        public Span<double> ByAmountLight { get; }

        public Span<double> ByAmountHeavy { get; }

        public Span<double> Matrix { get; }

        public Span<double> Coupling { get; }

        public double LightAmount { get; set; }

        public double HeavyAmount { get; set; }

        public double LightDensity { get; set; }

        public double HeavyDensity { get; set; }

        public bool Trivial { get; set; }

        public bool OnlySecondOrder { get; set; }

        /// <summary>Largest difference of ln fugacity at the last evaluation.</summary>
        public double LastError { get; set; }

        /// <summary>True when the start is a neighbour's answer, so that a phase on its way out need not be followed to the end.</summary>
        public bool IsNear { get; set; }
    }
}
