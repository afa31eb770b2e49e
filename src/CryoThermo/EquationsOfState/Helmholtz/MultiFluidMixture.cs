using CryoThermo.Substances;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// A mixture under the multi-fluid model: alpha = sum x_i alpha_i(tau, delta) + sum x_i x_j F_ij alpha_ij(tau, delta) with tau = Tr(x)/T and
/// delta = rho/rho_r(x). Immutable and thread-safe; nothing is allocated per call.
/// Kunz, Wagner, J. Chem. Eng. Data 57 (2012) 3032.
/// </summary>
/// <remarks>
/// Derivatives by amounts are analytic. With F = n alpha, everything by ln(delta) and ln(tau), r = ln rho_r, q = ln Tr, their derivatives by
/// amounts r_i, q_i, and a_i = alpha_i + sum_j x_j F_ij alpha_ij, S = sum x_k a_k:
/// dF/dn_i = alpha + alpha_delta (1 - r_i) + alpha_tau q_i + a_i - S at constant T and V, and the operator
/// n d/dn_j = (1 - r_j) d/d(ln delta) + q_j d/d(ln tau) + d/dx_j - sum x_k d/dx_k gives the second derivatives.
/// </remarks>
internal sealed class MultiFluidMixture : MixtureKernel
{
    // A Newton step this small, relative, leaves an error of the order of its square.
    private const double LastStep = 1e-9;

    // Of pressure over R T and reducing density on a liquid branch.
    private const double Rounding = 1e-9;

    // Above this reduced temperature the pressure of a mixture rises with density everywhere.
    private const double HottestLoop = 1.06;

    // Below this reduced temperature a mixture has two branches, or the equation fails.
    private const double ColdestSole = 0.9;

    // Most steps of a density search.
    private const int MostSteps = 100;

    // A liquid looked for from this multiple of the estimated saturated density is reached from its dense side.
    private const double DenseStart = 1.2;

    // The estimated density belongs to a temperature at least this much below the reducing one.
    private const double LeastGap = 0.08;

    // The liquid branch does not reach below this share of the estimated saturated density.
    private const double LooseEnd = 0.8;

    private readonly int count;
    private readonly int functionCount;
    private readonly TermBank terms;
    private readonly ReducingFunction volume;
    private readonly ReducingFunction temperature;
    private readonly double[] departureWeight;
    private readonly int[] departureFunction;
    private readonly FluidPoint[] critical;
    private readonly double[] acentricFactor;
    private readonly double[] densestVolume;
    private readonly Lazy<HelmholtzFluid>[] pure;

    /// <summary>Creates the kernel.</summary>
    /// <param name="equations">Equations of the components, 1 to 25.</param>
    /// <param name="acentricFactor">Acentric factors, for starting values.</param>
    /// <param name="pairs">The pair of each two components, N x N, row-major, with i as its first component; the diagonal is not looked at.</param>
    /// <param name="gasConstant">Gas constant of the frame, J/(mol K).</param>
    /// <param name="range">Range of use.</param>
    /// <param name="tauLimits">The tau above which the equation of each component is continued linearly in tau.</param>
    public MultiFluidMixture(
        IReadOnlyList<HelmholtzEquation> equations,
        ReadOnlySpan<double> acentricFactor,
        IReadOnlyList<MultiFluidPair?> pairs,
        double gasConstant,
        MultiFluidRange range,
        ReadOnlySpan<double> tauLimits)
    {
        count = equations.Count;
        GasConstant = gasConstant;
        this.acentricFactor = acentricFactor.ToArray();
        critical = [.. equations.Select(e => e.CriticalPoint)];
        densestVolume = [.. equations.Select(e => 1 / e.Range.HighestMolarDensity)];
        LowestTemperature = range.LowestTemperature;
        LowestStatedTemperature = Math.Max(range.LowestTemperature, Math.Min(equations.Max(e => e.ReducingTemperature) / range.SafeTau, range.HighestTemperature));
        HighestTemperature = range.HighestTemperature;
        HighestPressure = range.HighestPressure;
        List<DepartureFunction> departures = [];
        departureFunction = new int[count * count];
        departureWeight = new double[count * count];
        ReducingParameters[] volumes = new ReducingParameters[count * count];
        ReducingParameters[] temperatures = new ReducingParameters[count * count];
        for (int i = 0; i < count; i++)
        {
            for (int j = i + 1; j < count; j++)
            {
                MultiFluidPair pair = pairs[(i * count) + j]!;
                volumes[(i * count) + j] = pair.Volume;
                temperatures[(i * count) + j] = pair.Temperature;
                if (pair.Departure is not { } departure || pair.DepartureWeight == 0)
                {
                    continue;
                }

                int index = departures.IndexOf(departure);
                if (index < 0)
                {
                    index = departures.Count;
                    departures.Add(departure);
                }

                departureFunction[(i * count) + j] = count + index;
                departureFunction[(j * count) + i] = count + index;
                departureWeight[(i * count) + j] = pair.DepartureWeight;
                departureWeight[(j * count) + i] = pair.DepartureWeight;
            }
        }

        functionCount = count + departures.Count;
        double[] limits = new double[functionCount];
        limits.AsSpan().Fill(range.HighestTau);
        tauLimits.CopyTo(limits);
        terms = new(equations, departures, limits);
        volume = ReducingFunction.OfVolume([.. equations.Select(e => e.ReducingMolarDensity)], volumes);
        temperature = ReducingFunction.OfTemperature([.. equations.Select(e => e.ReducingTemperature)], temperatures);
        double[] factors = this.acentricFactor;
        pure = [.. equations.Select((e, i) => new Lazy<HelmholtzFluid>(() => new HelmholtzFluid(e, factors[i])))];
    }

    /// <inheritdoc/>
    public override int ComponentCount => count;

    /// <inheritdoc/>
    public override double GasConstant { get; }

    /// <inheritdoc/>
    public override double LowestTemperature { get; }

    /// <inheritdoc/>
    public override double LowestStatedTemperature { get; }

    /// <inheritdoc/>
    public override double HighestTemperature { get; }

    /// <inheritdoc/>
    public override double LowestPressure => 1e-3;

    /// <inheritdoc/>
    public override double HighestPressure { get; }

    /// <summary>
    /// The place, the composition and its reducing derivatives, weights and values of the functions with two derivatives, second reducing
    /// derivatives, the terms.
    /// </summary>
    public override int ScratchLength => Layout.Header + (3 * count) + (4 * functionCount) + (2 * count * count) + terms.ScratchLength;

    /// <inheritdoc/>
    public override void SetTemperature(double temperature, Span<double> scratch)
    {
        scratch[..(Layout.Header + count)].Clear();
        scratch[Layout.Temperature] = temperature;
        scratch[Layout.HasComposition] = 0;
    }

    /// <inheritdoc/>
    public override double LnFugacityCoefficients(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, Span<double> lnPhi, out DensityRoot found)
    {
        Layout at = SetComposition(temperature, x, scratch);
        double delta = ReducedDensity(temperature, pressure, root, at, out found);
        double alpha = terms.FirstAt(at.Tau, delta, at.Weights, at.Values, out double byTau, out double byDelta);
        double density = delta * at.ReducingDensity;
        double lnZ = Math.Log(pressure / (density * GasConstant * temperature));
        LnFugacity(alpha, byTau, byDelta, x, at, -lnZ, lnPhi);
        return density;
    }

    /// <inheritdoc/>
    public override double LnFugacityDerivatives(
        double temperature,
        double pressure,
        ReadOnlySpan<double> x,
        DensityRoot root,
        Span<double> scratch,
        Span<double> lnPhi,
        Span<double> byAmount,
        Span<double> byTemperature,
        Span<double> byPressure,
        out DensityRoot found)
    {
        Layout at = SetComposition(temperature, x, scratch);
        double delta = ReducedDensity(temperature, pressure, root, at, out found);
        MixtureDerivatives alpha = terms.At(at.Tau, delta, at.Weights, at.Values, at.ByDelta, at.ByTau);
        double density = delta * at.ReducingDensity;
        double rt = GasConstant * temperature;
        double lnZ = Math.Log(pressure / (density * rt));
        LnFugacity(alpha.Alpha, alpha.ByTau, alpha.ByDelta, x, at, -lnZ, lnPhi);

        Span<double> partial = stackalloc double[count];
        Span<double> byLnTau = stackalloc double[count];
        SecondByAmounts(temperature, x, at, alpha, byAmount, partial, byLnTau);
        double stiffness = alpha.Stiffness;
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
            {
                byAmount[(i * count) + j] += 1 - (partial[i] * partial[j] / stiffness);
            }
        }

        if (!byPressure.IsEmpty)
        {
            for (int i = 0; i < count; i++)
            {
                byPressure[i] = (partial[i] / (stiffness * density * rt)) - (1 / pressure);
            }
        }

        if (!byTemperature.IsEmpty)
        {
            double pressureByT = 1 + alpha.ByDelta - alpha.ByTauDelta;
            for (int i = 0; i < count; i++)
            {
                byTemperature[i] = (1 - byLnTau[i] - (partial[i] * pressureByT / stiffness)) / temperature;
            }
        }

        return density;
    }

    /// <inheritdoc/>
    public override double LnFugacityDerivativesAtDensity(
        double temperature,
        double molarDensity,
        ReadOnlySpan<double> x,
        Span<double> scratch,
        Span<double> lnFugacityOverFraction,
        Span<double> byAmount,
        Span<double> byTemperature,
        out double pressureByTemperature)
    {
        Layout at = SetComposition(temperature, x, scratch);
        MixtureDerivatives alpha = terms.At(at.Tau, molarDensity / at.ReducingDensity, at.Weights, at.Values, at.ByDelta, at.ByTau);
        double ideal = molarDensity * GasConstant * temperature;
        LnFugacity(alpha.Alpha, alpha.ByTau, alpha.ByDelta, x, at, Math.Log(ideal), lnFugacityOverFraction);
        Span<double> partial = stackalloc double[count];
        SecondByAmounts(temperature, x, at, alpha, byAmount, partial, byTemperature);
        for (int i = 0; i < count; i++)
        {
            byTemperature[i] = (1 - byTemperature[i]) / temperature;
        }

        pressureByTemperature = molarDensity * GasConstant * (1 + alpha.ByDelta - alpha.ByTauDelta);
        return ideal * (1 + alpha.ByDelta);
    }

    // Second derivatives of the residual Helmholtz energy over R T by the amounts at constant T and V; with them, component by component, the partial
    // molar volume times density times stiffness, and the tau-derivative of the first derivatives.
    private void SecondByAmounts(
        double kelvins, ReadOnlySpan<double> x, scoped in Layout at, scoped in MixtureDerivatives alpha, Span<double> byAmount, Span<double> partial, Span<double> byLnTau)
    {
        ReadOnlySpan<double> r = at.VolumeByAmount;
        ReadOnlySpan<double> q = at.TemperatureByAmount;
        Span<double> volumeSecond = at.VolumeSecond;
        Span<double> temperatureSecond = at.TemperatureSecond;
        volume.SecondAt(x, 1 / at.ReducingDensity, r, volumeSecond);
        this.temperature.SecondAt(x, at.Tau * kelvins, q, temperatureSecond);

        // a_i with its two derivatives, and S = sum x_k a_k with them. ln rho_r is minus ln of the reducing volume: 1 - r_i is 1 + volume_i.
        Span<double> a = stackalloc double[count];
        Span<double> aByDelta = stackalloc double[count];
        Span<double> aByTau = stackalloc double[count];
        double s = 0;
        double sByDelta = 0;
        double sByTau = 0;
        double sumPure = 0;
        for (int i = 0; i < count; i++)
        {
            a[i] = Pull(i, x, at.Values);
            aByDelta[i] = Pull(i, x, at.ByDelta);
            aByTau[i] = Pull(i, x, at.ByTau);
            s += x[i] * a[i];
            sByDelta += x[i] * aByDelta[i];
            sByTau += x[i] * aByTau[i];
            sumPure += x[i] * at.Values[i];
        }

        for (int i = 0; i < count; i++)
        {
            // n d(alpha_delta)/dn_i at constant T, V; with it the partial molar volume times the density.
            double slope = (alpha.ByDeltaDelta * (1 + r[i])) + (alpha.ByTauDelta * q[i]) + aByDelta[i] - sByDelta;
            partial[i] = 1 + alpha.ByDelta + slope;
            byLnTau[i] = alpha.ByTau + (alpha.ByTauDelta * (1 + r[i])) + (alpha.ByTauTau * q[i]) + aByTau[i] - sByTau;
        }

        for (int i = 0; i < count; i++)
        {
            double ri = 1 + r[i];
            for (int j = 0; j <= i; j++)
            {
                double rj = 1 + r[j];
                double byAlpha = (alpha.ByDelta * rj) + (alpha.ByTau * q[j]) + a[j] - s;
                double byAlphaDelta = (alpha.ByDeltaDelta * rj) + (alpha.ByTauDelta * q[j]) + aByDelta[j] - sByDelta;
                double byAlphaTau = (alpha.ByTauDelta * rj) + (alpha.ByTauTau * q[j]) + aByTau[j] - sByTau;
                double cross = i == j ? 0 : departureWeight[(i * count) + j] * at.Values[departureFunction[(i * count) + j]];
                double byOwn = (aByDelta[i] * rj) + (aByTau[i] * q[j]) + cross - (a[i] - at.Values[i]);
                double bySum = (sByDelta * rj) + (sByTau * q[j]) + (2 * a[j]) - at.Values[j] - ((2 * s) - sumPure);
                double second = byAlpha
                    + (byAlphaDelta * ri) + (alpha.ByDelta * (r[i] + volumeSecond[(i * count) + j]))
                    + (byAlphaTau * q[i]) + (alpha.ByTau * (q[i] + temperatureSecond[(i * count) + j]))
                    + byOwn - bySum;
                byAmount[(i * count) + j] = second;
                byAmount[(j * count) + i] = second;
            }
        }
    }

    /// <inheritdoc/>
    public override ResidualProperties Residual(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, out DensityRoot found)
    {
        Layout at = SetComposition(temperature, x, scratch);
        double delta = ReducedDensity(temperature, pressure, root, at, out found);
        if (at.HasNoRoot)
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressure),
                pressure,
                $"pressure is {pressure:G6} Pa, temperature {temperature:G6} K: the mixture model has no fluid phase there; it is too far below the range of its equations, or the pressure beyond their densities.");
        }

        MixtureDerivatives alpha = terms.At(at.Tau, delta, at.Weights, at.Values, default, default);
        double density = delta * at.ReducingDensity;
        double rt = GasConstant * temperature;
        double stiffness = alpha.Stiffness;
        double byTemperature = 1 + alpha.ByDelta - alpha.ByTauDelta;
        double isochoric = -GasConstant * (alpha.ByTauTau - alpha.ByTau);
        return new(
            density,
            rt * (alpha.ByTau + alpha.ByDelta),
            GasConstant * (alpha.ByTau - alpha.Alpha + Math.Log(pressure / (density * rt))),
            isochoric,
            isochoric + (GasConstant * byTemperature * byTemperature / stiffness) - GasConstant,
            density * GasConstant * byTemperature,
            -density * density * rt * stiffness);
    }

    /// <inheritdoc/>
    public override double Pressure(double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, out double byVolume)
    {
        Layout at = SetComposition(temperature, x, scratch);
        IsothermSlope slope = Along(at, molarDensity / at.ReducingDensity);
        double rt = GasConstant * temperature;
        byVolume = -molarDensity * molarDensity * rt * slope.Stiffness;
        return molarDensity * rt * slope.Compressibility;
    }

    /// <inheritdoc/>
    public override double LnFugacityAtDensity(
        double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, Span<double> lnFugacityOverFraction)
    {
        Layout at = SetComposition(temperature, x, scratch);
        double alpha = terms.FirstAt(at.Tau, molarDensity / at.ReducingDensity, at.Weights, at.Values, out double byTau, out double byDelta);
        double ideal = molarDensity * GasConstant * temperature;
        LnFugacity(alpha, byTau, byDelta, x, at, Math.Log(ideal), lnFugacityOverFraction);
        return ideal * (1 + byDelta);
    }

    /// <inheritdoc/>
    public override double ReducedVolume(double molarDensity, ReadOnlySpan<double> x)
    {
        Span<double> slopes = stackalloc double[count];
        return 1 / (molarDensity * volume.At(x, slopes));
    }

    /// <inheritdoc/>
    public override double DensityLimit(ReadOnlySpan<double> x, ReadOnlySpan<double> scratch)
    {
        double smallest = 0;
        for (int i = 0; i < count; i++)
        {
            smallest += x[i] * densestVolume[i];
        }

        return 1 / smallest;
    }

    /// <summary>Wilson's estimate, ln K = ln(pc/p) + 5.373 (1 + w)(1 - Tc/T); Wilson, 65th AIChE meeting (1968), from memory.</summary>
    public override void EstimateLnK(double temperature, double pressure, Span<double> lnK)
    {
        for (int i = 0; i < count; i++)
        {
            lnK[i] = Math.Log(critical[i].Pressure / pressure) + (5.373 * (1 + acentricFactor[i]) * (1 - (critical[i].Temperature / temperature)));
        }
    }

    /// <inheritdoc/>
    public override double CriticalTemperature(int component) => critical[component].Temperature;

    /// <inheritdoc/>
    public override double CriticalPressure(int component) => critical[component].Pressure;

    /// <inheritdoc/>
    public override double CriticalDensity(int component) => critical[component].MolarDensity;

    /// <inheritdoc/>
    public override MixtureKernel? PureKernel(int component) => pure[component].Value;

    /// <inheritdoc/>
    public override void Virials(
        double temperature, ReadOnlySpan<double> x, Span<double> scratch, out double second, out double secondByTemperature, out double third)
    {
        Layout at = SetComposition(temperature, x, scratch);
        terms.Virials(at.Tau, at.Weights, out double b, out double bByTau, out double c);
        double reducingVolume = 1 / at.ReducingDensity;
        second = b * reducingVolume;
        secondByTemperature = -bByTau * reducingVolume / temperature;
        third = c * reducingVolume * reducingVolume;
    }

    /// <summary>alpha and its derivatives at temperature, density and composition: for comparison with other routes.</summary>
    /// <param name="temperature">K, as given to <see cref="SetTemperature"/>.</param>
    /// <param name="molarDensity">mol/m3.</param>
    /// <param name="x">Mole fractions.</param>
    /// <param name="scratch">Scratch filled by <see cref="SetTemperature"/>.</param>
    public MixtureDerivatives At(double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch)
    {
        Layout at = SetComposition(temperature, x, scratch);
        return terms.At(at.Tau, molarDensity / at.ReducingDensity, at.Weights, at.Values, default, default);
    }

    // Everything of a composition that does not depend on density; kept when it is asked for again.
    private Layout SetComposition(double t, ReadOnlySpan<double> x, Span<double> scratch)
    {
        Layout at = new(scratch, count, functionCount);
        if (scratch[Layout.HasComposition] != 0 && x.SequenceEqual(at.Composition))
        {
            return at;
        }

        x.CopyTo(at.Composition);
        scratch[Layout.HasComposition] = 1;
        double reducingVolume = volume.At(x, at.VolumeByAmount);
        double reducingTemperature = temperature.At(x, at.TemperatureByAmount);
        scratch[Layout.Density] = 1 / reducingVolume;
        scratch[Layout.InverseTemperature] = reducingTemperature / t;
        Span<double> weights = at.Weights;
        x.CopyTo(weights);
        if (functionCount > count)
        {
            weights[count..].Clear();
            for (int i = 0; i < count; i++)
            {
                for (int j = i + 1; j < count; j++)
                {
                    double weight = departureWeight[(i * count) + j];
                    if (weight != 0)
                    {
                        weights[departureFunction[(i * count) + j]] += weight * x[i] * x[j];
                    }
                }
            }
        }

        scratch[Layout.HasTerms] = 0;
        return at;
    }

    // a_i = alpha_i + sum_j x_j F_ij alpha_ij, or the same of a derivative.
    private double Pull(int component, ReadOnlySpan<double> x, ReadOnlySpan<double> values)
    {
        double sum = values[component];
        if (functionCount > count)
        {
            ReadOnlySpan<double> row = departureWeight.AsSpan(component * count, count);
            for (int j = 0; j < row.Length; j++)
            {
                if (row[j] != 0)
                {
                    sum += x[j] * row[j] * values[departureFunction[(component * count) + j]];
                }
            }
        }

        return sum;
    }

    private void LnFugacity(
        double alpha, double byTau, double byDelta, ReadOnlySpan<double> x, in Layout at, double common, Span<double> receiver)
    {
        ReadOnlySpan<double> r = at.VolumeByAmount;
        ReadOnlySpan<double> q = at.TemperatureByAmount;
        double s = 0;
        for (int i = 0; i < count; i++)
        {
            double own = Pull(i, x, at.Values);
            receiver[i] = own + (byDelta * (1 + r[i])) + (byTau * q[i]);
            s += x[i] * own;
        }

        double shared = alpha - s + common;
        for (int i = 0; i < count; i++)
        {
            receiver[i] += shared;
        }
    }

    private IsothermSlope Along(in Layout at, double delta)
    {
        if (!at.TermsAreSet)
        {
            terms.SetTau(at.Tau, at.Weights, at.Terms);
            at.SetTermsAreSet();
        }

        return terms.AlongIsotherm(at.Tau, delta, at.Weights, at.Terms);
    }

    /// <summary>
    /// Reduced density at temperature and pressure. Long equations have loops between the outermost spinodals whose roots may have by far the
    /// lowest Gibbs energy. A vapour's isotherm is concave and a liquid's convex up to the spinodal, so that Newton's method from the thin
    /// and from the dense side reaches each without passing it; what lies behind an inflection is not that phase any more.
    /// </summary>
    private double ReducedDensity(double t, double pressure, DensityRoot root, in Layout at, out DensityRoot found)
    {
        double target = pressure / (GasConstant * t * at.ReducingDensity);
        at.ClearHasNoRoot();
        if (1 / at.Tau > HottestLoop)
        {
            return SoleRoot(at, pressure, t, target, Math.Min(target, 1), out found);
        }

        if (root == DensityRoot.Liquid)
        {
            bool isLiquid = TryLiquid(at, target, out double dense, out _);
            if (isLiquid && dense >= 1)
            {
                found = DensityRoot.Liquid;
                return dense;
            }

            bool isVapor = TryVapor(at, target, out double thin, out _);
            if (isLiquid || isVapor)
            {
                // A thin root reached from both sides is the only one.
                found = isLiquid && !(isVapor && thin > dense * (1 - 1e-6)) ? DensityRoot.Liquid : DensityRoot.Vapor;
                return isLiquid ? dense : thin;
            }
        }
        else
        {
            bool isVapor = TryVapor(at, target, out double thin, out IsothermSlope atThin);
            if (isVapor && root == DensityRoot.Vapor)
            {
                found = thin < 1 ? DensityRoot.Vapor : DensityRoot.Liquid;
                return thin;
            }

            bool isLiquid = TryLiquid(at, target, out double dense, out IsothermSlope atDense);
            if (isVapor && isLiquid)
            {
                bool takesLiquid = ReducedGibbs(atDense, dense) < ReducedGibbs(atThin, thin);
                if (thin > dense * (1 - 1e-6))
                {
                    found = thin < 1 ? DensityRoot.Vapor : DensityRoot.Liquid;
                    return dense;
                }

                found = takesLiquid ? DensityRoot.Liquid : DensityRoot.Vapor;
                return takesLiquid ? dense : thin;
            }

            if (isVapor || isLiquid)
            {
                double only = isVapor ? thin : dense;
                found = only < 1 ? DensityRoot.Vapor : DensityRoot.Liquid;
                return only;
            }
        }

        if (1 / at.Tau > ColdestSole)
        {
            return SoleRoot(at, pressure, t, target, 1, out found);
        }

        // The equation has neither phase at this pressure: far below its range the loops have swallowed the liquid, or the pressure is beyond
        // its densities. As a trial the densest point of the loops will do, which no other phase turns into; as an answer it is refused.
        at.SetHasNoRoot();
        found = DensityRoot.Liquid;
        return LiquidEnd(at);
    }

    private static double ReducedGibbs(in IsothermSlope slope, double delta) => slope.ResidualGibbs + Math.Log(delta);

    // Newton from the thin side. False where the vapour branch ends below the pressure.
    private bool TryVapor(in Layout at, double target, out double delta, out IsothermSlope slope)
    {
        delta = Math.Min(target, 0.3);
        slope = default;
        for (int step = 0; step < MostSteps; step++)
        {
            slope = Along(at, delta);
            double stiffness = slope.Stiffness;
            double miss = (delta * slope.Compressibility) - target;
            if (!(stiffness > 0) || (miss < 0 && slope.Curvature > 0 && delta > 0.05))
            {
                return false;
            }

            double move = -miss / stiffness;
            if (Math.Abs(move) <= LastStep * delta)
            {
                delta += move;
                return true;
            }

            // Not beyond the top of the parabola: there the branch would end.
            if (move > 0 && slope.Curvature < 0)
            {
                move = Math.Min(move, -stiffness * delta / slope.Curvature);
            }

            delta = delta + move > 0.1 * delta ? delta + move : 0.1 * delta;
        }

        return false;
    }

    // Newton from the dense side. False where the liquid branch ends above the pressure.
    private bool TryLiquid(in Layout at, double target, out double delta, out IsothermSlope slope)
    {
        double saturated = EstimateLiquid(1 / at.Tau);
        double hint = at.LiquidHint;
        bool isSafe = hint == 0;
        bool isFirst = true;
        delta = isSafe ? DenseStart * saturated : hint;
        double lastDelta = 0;
        double lastMiss = 0;
        double densest = 0;
        slope = default;
        for (int step = 0; step < MostSteps; step++)
        {
            slope = Along(at, delta);
            double stiffness = slope.Stiffness;
            double miss = (delta * slope.Compressibility) - target;
            densest = Math.Max(densest, delta);

            // On a convex branch a step from the dense side ends between the root and where it came from. One that does not has passed the
            // spinodal, and may have come to rest on a loop; unless the pressure rises all the way between.
            bool isStray = lastMiss > 0 && (miss > lastMiss || miss < -Rounding) && !RisesBetween(at, delta, lastDelta);
            if (!isSafe && (isStray || !(stiffness > 0 && slope.Curvature > 0 && delta > LooseEnd * saturated)))
            {
                isSafe = true;
                delta = DenseStart * saturated;
                lastMiss = 0;
                continue;
            }

            if (isStray)
            {
                return false;
            }

            if (isFirst && isSafe && !(miss > 0 && stiffness > 0))
            {
                // The estimate may be too thin, or so dense that the equation turns over there.
                if (!TryDenseSide(at, target, saturated, out delta))
                {
                    return false;
                }

                isFirst = false;
                continue;
            }

            isFirst = isFirst && !isSafe;

            if (!(stiffness > 0) || (miss > 0 && slope.Curvature < 0))
            {
                return false;
            }

            (lastDelta, lastMiss) = (delta, miss);
            double move = -miss / stiffness;
            if (Math.Abs(move) <= LastStep * delta)
            {
                delta += move;
                if (delta > LooseEnd * saturated)
                {
                    at.SetLiquidHint(delta);
                    return true;
                }

                // So thin only next to the critical point, or on a loop.
                return RisesBetween(at, delta, densest);
            }

            delta += move;
            if (delta < 1e-3)
            {
                return false;
            }
        }

        return false;
    }

    private bool RisesBetween(in Layout at, double from, double to)
    {
        const int Parts = 32;
        for (int i = 1; i < Parts; i++)
        {
            if (!(Along(at, from + ((to - from) * i / Parts)).Stiffness > 0))
            {
                return false;
            }
        }

        return true;
    }

    // A density on the dense side of the liquid root, for pressures or liquids denser than estimated.
    private bool TryDenseSide(in Layout at, double target, double saturated, out double delta)
    {
        for (delta = DenseStart * saturated * 1.05; delta < 2.5 * saturated; delta *= 1.05)
        {
            IsothermSlope slope = Along(at, delta);
            if (slope.Stiffness > 0 && delta * slope.Compressibility > target)
            {
                return true;
            }
        }

        for (delta = DenseStart * saturated * 0.98; delta > LooseEnd * saturated; delta *= 0.98)
        {
            IsothermSlope slope = Along(at, delta);
            if (slope.Stiffness > 0 && delta * slope.Compressibility > target)
            {
                return true;
            }
        }

        return false;
    }

    // Where the pressure stops falling, coming from the dense side.
    private double LiquidEnd(in Layout at)
    {
        double saturated = EstimateLiquid(1 / at.Tau);
        for (double delta = DenseStart * saturated; delta > LooseEnd * saturated; delta *= 0.99)
        {
            IsothermSlope slope = Along(at, delta);
            if (!(slope.Stiffness > 0 && slope.Curvature > 0))
            {
                return delta;
            }
        }

        return saturated;
    }

    // Newton inside a bracket where the pressure rises with density.
    private double SoleRoot(in Layout at, double pressure, double t, double target, double start, out DensityRoot found)
    {
        double low = 0;
        double high = double.PositiveInfinity;
        double delta = start;
        double limit = 2 * EstimateLiquid(1 / at.Tau) + 2;
        for (int step = 0; step < 200; step++)
        {
            IsothermSlope slope = Along(at, delta);
            double miss = (delta * slope.Compressibility) - target;
            if (miss > 0)
            {
                high = delta;
            }
            else
            {
                low = delta;
            }

            double next = delta - (miss / slope.Stiffness);
            if (slope.Stiffness > 0 && Math.Abs(next - delta) <= LastStep * delta)
            {
                found = next < 1 ? DensityRoot.Vapor : DensityRoot.Liquid;
                return next;
            }

            if (!(slope.Stiffness > 0 && next > low && next < high))
            {
                next = double.IsInfinity(high) ? Math.Max(1.2 * delta, 0.1) : 0.5 * (low + high);
            }
            else if (double.IsInfinity(high))
            {
                next = Math.Min(next, Math.Max(2 * delta, 0.1));
            }

            if (next > limit)
            {
                break;
            }

            if (!double.IsInfinity(high) && high - low <= 4e-16 * high)
            {
                found = delta < 1 ? DensityRoot.Vapor : DensityRoot.Liquid;
                return delta;
            }

            delta = next;
        }

        throw new ArgumentOutOfRangeException(
            nameof(pressure),
            pressure,
            $"pressure is {pressure:G6} Pa; at {t:G6} K the mixture model does not reach it within its densities ({delta * at.ReducingDensity:G6} mol/m3).");
    }

    // Saturated liquid density of simple fluids over reduced temperature (Guggenheim, J. Chem. Phys. 13 (1945) 253): a starting value. The loops
    // of a mixture may reach above its reducing temperature: near it the density stays that of a liquid well below.
    private static double EstimateLiquid(double reducedTemperature)
    {
        double gap = Math.Max(LeastGap, 1 - reducedTemperature);
        return 1 + (1.75 * Math.Cbrt(gap)) + (0.75 * gap);
    }

    /// <summary>Where the parts of the scratch lie.</summary>
    private readonly ref struct Layout
    {
        public const int Header = 8;
        public const int Temperature = 0;
        public const int HasComposition = 1;
        public const int Density = 2;
        public const int InverseTemperature = 3;
        public const int HasTerms = 6;
        private const int Hint = 4;
        private const int NoRoot = 5;

        private readonly Span<double> scratch;
        private readonly int count;
        private readonly int functions;

        public Layout(Span<double> scratch, int count, int functions)
        {
            this.scratch = scratch;
            this.count = count;
            this.functions = functions;
        }

        public double ReducingDensity => scratch[Density];

        public double Tau => scratch[InverseTemperature];

        /// <summary>The reduced density of the last liquid at this temperature; 0 when there was none.</summary>
        public double LiquidHint => scratch[Hint];

        public Span<double> Composition => scratch.Slice(Header, count);

        /// <summary>n d(ln v_r)/d(n_i).</summary>
        public Span<double> VolumeByAmount => scratch.Slice(Header + count, count);

        /// <summary>n d(ln Tr)/d(n_i).</summary>
        public Span<double> TemperatureByAmount => scratch.Slice(Header + (2 * count), count);

        public Span<double> Weights => scratch.Slice(Header + (3 * count), functions);

        public Span<double> Values => scratch.Slice(Header + (3 * count) + functions, functions);

        public Span<double> ByDelta => scratch.Slice(Header + (3 * count) + (2 * functions), functions);

        public Span<double> ByTau => scratch.Slice(Header + (3 * count) + (3 * functions), functions);

        public Span<double> VolumeSecond => scratch.Slice(Header + (3 * count) + (4 * functions), count * count);

        public Span<double> TemperatureSecond => scratch.Slice(Header + (3 * count) + (4 * functions) + (count * count), count * count);

        public Span<double> Terms => scratch[(Header + (3 * count) + (4 * functions) + (2 * count * count))..];

        /// <summary>Whether the terms along the isotherm are computed for this composition.</summary>
        public bool TermsAreSet => scratch[HasTerms] != 0;

        public void SetTermsAreSet() => scratch[HasTerms] = 1;

        /// <summary>Whether the last density asked for does not exist.</summary>
        public bool HasNoRoot => scratch[NoRoot] != 0;

        public void SetHasNoRoot() => scratch[NoRoot] = 1;

        public void ClearHasNoRoot() => scratch[NoRoot] = 0;

        public void SetLiquidHint(double delta) => scratch[Hint] = delta;
    }
}
