using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using CryoThermo.Substances;
using static CryoThermo.EquationsOfState.Helmholtz.TermLanes;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// The residual part of a Helmholtz equation of state, alpha(tau, delta), with all derivatives to second order in one pass.
/// Immutable, thread-safe, without allocation per call.
/// </summary>
/// <remarks>
/// Every term is v = n exp(t ln tau + d ln delta - delta^c - eta (delta - epsilon)^2 - beta (tau - gamma)^2): one exponential a term,
/// taken eight terms at a time. With D = delta d(ln v)/d(delta) and T = tau d(ln v)/d(tau) the derivatives are sums of v D, v T,
/// v D T, v (D^2 - D + delta dD/d(delta)) and v (T^2 - T + tau dT/d(tau)). Non-analytic terms are few and evaluated one by one.
/// The three evaluations are compiled at full optimisation at once: the quick first compilation of vector code is a hundred times slower,
/// which the first state of a process would feel.
/// </remarks>
internal sealed class HelmholtzResidual
{
    private const int Lanes = TermLanes.Count;

    private readonly int densityLength;
    private readonly double[] coefficient;
    private readonly double[] temperatureExponent;
    private readonly double[] densityExponent;
    private readonly double[] decayExponent;
    private readonly long[] decayIndex;
    private readonly double[] densitySharpness;
    private readonly double[] densityCenter;
    private readonly double[] temperatureSharpness;
    private readonly double[] temperatureCenter;
    private readonly CriticalTermKernel[] criticalTerms;
    private readonly DensityTerm[] densityTerms;
    private readonly BellTerm[] bellTerms;

    /// <summary>Takes the terms of an equation.</summary>
    public HelmholtzResidual(HelmholtzEquation equation)
    {
        densityTerms = [.. equation.DensityTerms];
        bellTerms = [.. equation.BellTerms];
        criticalTerms = new CriticalTermKernel[equation.CriticalTerms.Count];
        for (int i = 0; i < criticalTerms.Length; i++)
        {
            criticalTerms[i] = new(equation.CriticalTerms[i]);
        }

        densityLength = Padded(densityTerms.Length);
        int length = densityLength + Padded(bellTerms.Length);
        coefficient = new double[length];
        temperatureExponent = new double[length];
        densityExponent = new double[length];
        decayExponent = new double[length];
        decayIndex = new long[length];
        densitySharpness = new double[length];
        densityCenter = new double[length];
        temperatureSharpness = new double[length];
        temperatureCenter = new double[length];
        for (int i = 0; i < densityTerms.Length; i++)
        {
            DensityTerm term = densityTerms[i];
            coefficient[i] = term.Coefficient;
            temperatureExponent[i] = term.TemperatureExponent;
            densityExponent[i] = term.DensityExponent;
            decayExponent[i] = term.DecayExponent;
            decayIndex[i] = term.DecayExponent;
        }

        for (int k = 0; k < bellTerms.Length; k++)
        {
            BellTerm term = bellTerms[k];
            int i = densityLength + k;
            coefficient[i] = term.Coefficient;
            temperatureExponent[i] = term.TemperatureExponent;
            densityExponent[i] = term.DensityExponent;
            densitySharpness[i] = term.DensitySharpness;
            densityCenter[i] = term.DensityCenter;
            temperatureSharpness[i] = term.TemperatureSharpness;
            temperatureCenter[i] = term.TemperatureCenter;
        }
    }

    /// <summary>Number of doubles an isotherm needs, see <see cref="SetTemperature"/>.</summary>
    public int IsothermLength => coefficient.Length;

    /// <summary>The residual Helmholtz energy and all its derivatives to second order.</summary>
    /// <param name="tau">Reducing temperature over temperature; above 0.</param>
    /// <param name="delta">Density over reducing density; above 0.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public ResidualDerivatives At(double tau, double delta)
    {
        Vector512<double> lnTau = Vector512.Create(Math.Log(tau));
        double logarithmOfDelta = Math.Log(delta);
        Vector512<double> lnDelta = Vector512.Create(logarithmOfDelta);
        Vector512<double> powers = DecayPowers(delta);
        Vector512<double> sum = Vector512<double>.Zero;
        Vector512<double> byTau = sum;
        Vector512<double> byDelta = sum;
        Vector512<double> byTauTau = sum;
        Vector512<double> byTauDelta = sum;
        Vector512<double> byDeltaDelta = sum;
        for (int i = 0; i < densityLength; i += Lanes)
        {
            Vector512<double> t = Load(temperatureExponent, i);
            Vector512<double> d = Load(densityExponent, i);
            Vector512<double> c = Load(decayExponent, i);
            Vector512<double> decay = Select(powers, i);
            Vector512<double> v = Load(coefficient, i) * Exp(Vector512.FusedMultiplyAdd(t, lnTau, Vector512.FusedMultiplyAdd(d, lnDelta, -decay)));
            Vector512<double> cDecay = c * decay;
            Vector512<double> first = d - cDecay;
            Vector512<double> vFirst = v * first;
            Vector512<double> vt = v * t;
            sum += v;
            byTau += vt;
            byDelta += vFirst;
            byTauTau += vt * (t - Vector512<double>.One);
            byTauDelta = Vector512.FusedMultiplyAdd(vFirst, t, byTauDelta);
            byDeltaDelta += (vFirst * (first - Vector512<double>.One)) - (v * c * cDecay);
        }

        Vector512<double> two = Vector512.Create(2.0);
        Vector512<double> vTau = Vector512.Create(tau);
        Vector512<double> vDelta = Vector512.Create(delta);
        for (int i = densityLength; i < coefficient.Length; i += Lanes)
        {
            Vector512<double> eta = Load(densitySharpness, i);
            Vector512<double> beta = Load(temperatureSharpness, i);
            Vector512<double> epsilon = Load(densityCenter, i);
            Vector512<double> gamma = Load(temperatureCenter, i);
            Vector512<double> x = vDelta - epsilon;
            Vector512<double> y = vTau - gamma;
            Vector512<double> t = Load(temperatureExponent, i);
            Vector512<double> d = Load(densityExponent, i);
            Vector512<double> v = Load(coefficient, i) * Exp((t * lnTau) + (d * lnDelta) - (eta * x * x) - (beta * y * y));
            Vector512<double> first = d - (two * eta * vDelta * x);
            Vector512<double> warm = t - (two * beta * vTau * y);
            Vector512<double> vFirst = v * first;
            Vector512<double> vWarm = v * warm;
            sum += v;
            byTau += vWarm;
            byDelta += vFirst;
            byTauTau += (vWarm * (warm - Vector512<double>.One)) - (v * two * beta * vTau * (vTau + y));
            byTauDelta += vFirst * warm;
            byDeltaDelta += (vFirst * (first - Vector512<double>.One)) - (v * two * eta * vDelta * (vDelta + x));
        }

        ResidualDerivatives result = new(
            Vector512.Sum(sum),
            Vector512.Sum(byTau),
            Vector512.Sum(byDelta),
            Vector512.Sum(byTauTau),
            Vector512.Sum(byTauDelta),
            Vector512.Sum(byDeltaDelta));
        foreach (CriticalTermKernel term in criticalTerms)
        {
            ResidualDerivatives part = term.At(tau, delta);
            result = new(
                result.Alpha + part.Alpha,
                result.ByTau + part.ByTau,
                result.ByDelta + part.ByDelta,
                result.ByTauTau + part.ByTauTau,
                result.ByTauDelta + part.ByTauDelta,
                result.ByDeltaDelta + part.ByDeltaDelta);
        }

        return result;
    }

    /// <summary>Computes what depends on temperature alone.</summary>
    /// <param name="tau">Reducing temperature over temperature.</param>
    /// <param name="isotherm">Receives <see cref="IsothermLength"/> doubles.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void SetTemperature(double tau, Span<double> isotherm)
    {
        Vector512<double> lnTau = Vector512.Create(Math.Log(tau));
        Vector512<double> vTau = Vector512.Create(tau);
        for (int i = 0; i < coefficient.Length; i += Lanes)
        {
            Vector512<double> exponent = Load(temperatureExponent, i) * lnTau;
            if (i >= densityLength)
            {
                Vector512<double> y = vTau - Load(temperatureCenter, i);
                exponent -= Load(temperatureSharpness, i) * y * y;
            }

            (Load(coefficient, i) * Exp(exponent)).CopyTo(isotherm[i..]);
        }
    }

    /// <summary>The residual Helmholtz energy and its density derivatives at the temperature given to <see cref="SetTemperature"/>.</summary>
    /// <param name="isotherm">What <see cref="SetTemperature"/> left.</param>
    /// <param name="tau">The same tau.</param>
    /// <param name="delta">Density over reducing density; above 0.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public IsothermDerivatives AlongIsotherm(ReadOnlySpan<double> isotherm, double tau, double delta)
    {
        Vector512<double> lnDelta = Vector512.Create(Math.Log(delta));
        Vector512<double> powers = DecayPowers(delta);
        Vector512<double> sum = Vector512<double>.Zero;
        Vector512<double> byDelta = sum;
        Vector512<double> byDeltaDelta = sum;
        for (int i = 0; i < densityLength; i += Lanes)
        {
            Vector512<double> d = Load(densityExponent, i);
            Vector512<double> c = Load(decayExponent, i);
            Vector512<double> decay = Select(powers, i);
            Vector512<double> v = Vector512.Create(isotherm.Slice(i, Lanes)) * Exp(Vector512.FusedMultiplyAdd(d, lnDelta, -decay));
            Vector512<double> cDecay = c * decay;
            Vector512<double> first = d - cDecay;
            Vector512<double> vFirst = v * first;
            sum += v;
            byDelta += vFirst;
            byDeltaDelta += (vFirst * (first - Vector512<double>.One)) - (v * c * cDecay);
        }

        Vector512<double> two = Vector512.Create(2.0);
        Vector512<double> vDelta = Vector512.Create(delta);
        for (int i = densityLength; i < coefficient.Length; i += Lanes)
        {
            Vector512<double> eta = Load(densitySharpness, i);
            Vector512<double> x = vDelta - Load(densityCenter, i);
            Vector512<double> d = Load(densityExponent, i);
            Vector512<double> v = Vector512.Create(isotherm.Slice(i, Lanes)) * Exp((d * lnDelta) - (eta * x * x));
            Vector512<double> first = d - (two * eta * vDelta * x);
            Vector512<double> vFirst = v * first;
            sum += v;
            byDelta += vFirst;
            byDeltaDelta += (vFirst * (first - Vector512<double>.One)) - (v * two * eta * vDelta * (vDelta + x));
        }

        IsothermDerivatives result = new(Vector512.Sum(sum), Vector512.Sum(byDelta), Vector512.Sum(byDeltaDelta));
        foreach (CriticalTermKernel term in criticalTerms)
        {
            ResidualDerivatives part = term.At(tau, delta);
            result = new(result.Alpha + part.Alpha, result.ByDelta + part.ByDelta, result.ByDeltaDelta + part.ByDeltaDelta);
        }

        return result;
    }

    /// <summary>
    /// The limits at zero density: d(alpha)/d(delta), which is the second virial coefficient times the reducing density, and
    /// d2(alpha)/d(delta)2, the third times its square; with the derivatives of the first by ln(tau).
    /// </summary>
    /// <param name="tau">Reducing temperature over temperature.</param>
    /// <param name="second">d(alpha)/d(delta) at delta = 0.</param>
    /// <param name="secondByTau">tau d(second)/d(tau).</param>
    /// <param name="third">d2(alpha)/d(delta)2 at delta = 0.</param>
    public void Virials(double tau, out double second, out double secondByTau, out double third)
    {
        second = 0;
        secondByTau = 0;
        third = 0;

        // A term is w delta^d (1 + g1 delta + g2 delta^2 + ...): its derivatives at zero are read off the series.
        foreach (DensityTerm term in densityTerms)
        {
            double w = term.Coefficient * Math.Pow(tau, term.TemperatureExponent);
            double g1 = term.DecayExponent == 1 ? -1 : 0;
            double g2 = term.DecayExponent switch { 1 => 0.5, 2 => -1, _ => 0 };
            Add(term.DensityExponent, w, term.TemperatureExponent, g1, g2, ref second, ref secondByTau, ref third);
        }

        foreach (BellTerm term in bellTerms)
        {
            double y = tau - term.TemperatureCenter;
            double eta = term.DensitySharpness;
            double epsilon = term.DensityCenter;
            double w = term.Coefficient * Math.Pow(tau, term.TemperatureExponent)
                * Math.Exp((-term.TemperatureSharpness * y * y) - (eta * epsilon * epsilon));
            double g1 = 2 * eta * epsilon;
            Add(
                term.DensityExponent,
                w,
                term.TemperatureExponent - (2 * term.TemperatureSharpness * tau * y),
                g1,
                (0.5 * g1 * g1) - eta,
                ref second,
                ref secondByTau,
                ref third);
        }

        // delta psi Delta^b is smooth at zero density; the limit is taken at a density where rounding is still negligible.
        const double Small = 1e-6;
        foreach (CriticalTermKernel term in criticalTerms)
        {
            ResidualDerivatives part = term.At(tau, Small);
            double curvature = part.ByDeltaDelta / (Small * Small);
            second += (part.ByDelta / Small) - (curvature * Small);
            secondByTau += part.ByTauDelta / Small;
            third += curvature;
        }

        static void Add(double d, double w, double byTau, double g1, double g2, ref double second, ref double secondByTau, ref double third)
        {
            double slope = d switch { 0 => w * g1, 1 => w, _ => 0 };
            second += slope;
            secondByTau += slope * byTau;
            third += d switch { 0 => 2 * w * g2, 1 => 2 * w * g1, 2 => 2 * w, _ => 0 };
        }
    }

    private static int Padded(int count) => (count + Lanes - 1) / Lanes * Lanes;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector512<double> Select(Vector512<double> powers, int start) =>
        Pick(powers, Vector512.Create(decayIndex.AsSpan(start, Lanes)));
}
