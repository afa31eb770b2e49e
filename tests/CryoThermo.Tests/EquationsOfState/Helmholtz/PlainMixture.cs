using System.Runtime.CompilerServices;
using CryoThermo.Substances;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

/// <summary>
/// The multi-fluid model written for clearness in total amounts and for any number type, apart from the library: the residual Helmholtz energy
/// and, from it alone, pressure and residual Gibbs energy. Every derivative is left to dual numbers. Compiled at full optimisation at once,
/// see <see cref="Cubic.PlainCubic"/>. Kunz, Wagner, J. Chem. Eng. Data 57 (2012) 3032.
/// </summary>
internal sealed class PlainMixture(
    IReadOnlyList<HelmholtzEquation> equations, IReadOnlyList<MultiFluidPair?> pairs, IReadOnlyList<double> tauLimits, double tauLimitOfDepartures)
{
    /// <summary>Molar gas constant of the standard, J/(mol K).</summary>
    public const double R = 8.314472;

    private readonly int count = equations.Count;

    /// <summary>A_res(T, V, n)/(R T) = n alpha.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Helmholtz<T>(T temperature, T volume, T[] n)
        where T : struct, IScalar<T>
    {
        T total = Sum(n);
        T[] x = [.. n.Select(v => v / total)];
        T delta = total / volume * ReducingVolume(x);
        T tau = ReducingTemperature(x) / temperature;
        T sum = T.Of(0);
        for (int i = 0; i < count; i++)
        {
            sum += x[i] * (PlainValue(tau) > tauLimits[i] ? ContinuedResidual(equations[i], tauLimits[i], tau, delta) : Residual(equations[i], tau, delta));
            for (int j = i + 1; j < count; j++)
            {
                if (Pair(i, j) is { Departure: { } departure } pair)
                {
                    T value = PlainValue(tau) > tauLimitOfDepartures
                        ? ContinuedDeparture(departure, tauLimitOfDepartures, tau, delta)
                        : Departure(departure, tau, delta);
                    sum += x[i] * x[j] * T.Of(pair.DepartureWeight) * value;
                }
            }
        }

        return total * sum;
    }

    /// <summary>p(T, V, n), Pa: -R T d(A_res/(R T))/dV + n R T/V.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Pressure<T>(T temperature, T volume, T[] n)
        where T : struct, IScalar<T>
    {
        Dual<T> helmholtz = Helmholtz(new(temperature, T.Of(0)), new Dual<T>(volume, T.Of(1)), [.. n.Select(v => new Dual<T>(v, T.Of(0)))]);
        return T.Of(R) * temperature * ((Sum(n) / volume) - helmholtz.Slope);
    }

    /// <summary>
    /// The volume at T, p, n within the number type, so that it carries its own derivatives: each step with the fixed slope makes one more
    /// order of them right.
    /// </summary>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="n">Amounts.</param>
    /// <param name="volume">The volume as a plain number.</param>
    /// <param name="slope">dp/dV there.</param>
    /// <param name="orders">Highest order of derivatives that are wanted.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Volume<T>(T temperature, T pressure, T[] n, double volume, double slope, int orders)
        where T : struct, IScalar<T>
    {
        T result = T.Of(volume);
        for (int k = 0; k < orders; k++)
        {
            result -= (Pressure(temperature, result, n) - pressure) / T.Of(slope);
        }

        return result;
    }

    /// <summary>
    /// G_res(T, p, n)/(R T) = A_res/(R T) + p V/(R T) - n - n ln(p V/(n R T)), with derivatives to second order. It is stationary in the
    /// volume, so that a volume right to first order is enough.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public Dual<Dual<Real>> Gibbs(Dual<Dual<Real>> temperature, Dual<Dual<Real>> pressure, Dual<Dual<Real>>[] n, double volume, double slope)
    {
        Dual<Dual<Real>> v = Volume(temperature, pressure, n, volume, slope, orders: 1);
        Dual<Dual<Real>> total = Sum(n);
        Dual<Dual<Real>> work = pressure * v / (Dual<Dual<Real>>.Of(R) * temperature);
        return Helmholtz(temperature, v, n) + work - total - (total * Dual<Dual<Real>>.Log(work / total));
    }

    /// <summary>The plain volume, polished by Newton's method from a start, m3/mol, with dp/dV.</summary>
    public (double Volume, double Slope) PlainVolume(double temperature, double pressure, double[] x, double start)
    {
        double volume = start;
        double slope = 0;
        for (int k = 0; k < 4; k++)
        {
            Dual<Real> p = Pressure(Seed.Once(temperature, false), Seed.Once(volume), [.. x.Select(v => Seed.Once(v, false))]);
            slope = p.Slope.Value;
            volume -= (p.Value.Value - pressure) / slope;
        }

        return (volume, slope);
    }

    /// <summary>The reducing molar volume of mole fractions, m3/mol.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T ReducingVolume<T>(T[] x)
        where T : struct, IScalar<T> =>
        Reducing(
            x,
            i => 1 / equations[i].ReducingMolarDensity,
            (i, j) => Math.Pow(Math.Pow(equations[i].ReducingMolarDensity, -1.0 / 3) + Math.Pow(equations[j].ReducingMolarDensity, -1.0 / 3), 3) / 8,
            p => p.Volume);

    /// <summary>The reducing temperature of mole fractions, K.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T ReducingTemperature<T>(T[] x)
        where T : struct, IScalar<T> =>
        Reducing(
            x, i => equations[i].ReducingTemperature, (i, j) => Math.Sqrt(equations[i].ReducingTemperature * equations[j].ReducingTemperature), p => p.Temperature);

    /// <summary>Sum of the magnitudes of all terms of alpha, the scale of the rounding error of their sum.</summary>
    public double Magnitude(double temperature, double volume, double[] x)
    {
        Real[] fractions = [.. x.Select(v => new Real(v))];
        double delta = ReducingVolume(fractions).Value / volume;
        double tau = ReducingTemperature(fractions).Value / temperature;
        double sum = 0;
        for (int i = 0; i < count; i++)
        {
            sum += x[i] * PlainHelmholtz.Magnitude(equations[i], Math.Min(tau, tauLimits[i]), delta);
        }

        return sum;
    }

    private static T Sum<T>(T[] n)
        where T : struct, IScalar<T>
    {
        T sum = T.Of(0);
        foreach (T value in n)
        {
            sum += value;
        }

        return sum;
    }

    private static T Residual<T>(HelmholtzEquation equation, T tau, T delta)
        where T : struct, IScalar<T>
    {
        if (equation.CriticalTerms.Count > 0)
        {
            return PlainHelmholtz.Alpha(equation, tau, delta);
        }

        T sum = DensityTerms(equation.DensityTerms, T.Log(tau), T.Log(delta), delta);
        foreach (BellTerm term in equation.BellTerms)
        {
            T x = delta - T.Of(term.DensityCenter);
            T y = tau - T.Of(term.TemperatureCenter);
            sum += T.Of(term.Coefficient) * T.Exp(
                (T.Of(term.TemperatureExponent) * T.Log(tau)) + (T.Of(term.DensityExponent) * T.Log(delta))
                - (T.Of(term.DensitySharpness) * x * x) - (T.Of(term.TemperatureSharpness) * y * y));
        }

        return sum;
    }

    // Beyond the limit a function runs on linearly in tau: its value and slope there, the slope by one more dual number.
    private static T ContinuedResidual<T>(HelmholtzEquation equation, double limit, T tau, T delta)
        where T : struct, IScalar<T>
    {
        Dual<T> at = Residual(equation, new Dual<T>(T.Of(limit), T.Of(1)), new(delta, T.Of(0)));
        return at.Value + ((tau - T.Of(limit)) * at.Slope);
    }

    private static T ContinuedDeparture<T>(DepartureFunction function, double limit, T tau, T delta)
        where T : struct, IScalar<T>
    {
        Dual<T> at = Departure(function, new Dual<T>(T.Of(limit), T.Of(1)), new(delta, T.Of(0)));
        return at.Value + ((tau - T.Of(limit)) * at.Slope);
    }

    private static T Departure<T>(DepartureFunction function, T tau, T delta)
        where T : struct, IScalar<T>
    {
        T lnTau = T.Log(tau);
        T lnDelta = T.Log(delta);
        T sum = DensityTerms(function.DensityTerms, lnTau, lnDelta, delta);
        foreach (SkewedTerm term in function.SkewedTerms)
        {
            T x = delta - T.Of(term.DensityCenter);
            T y = delta - T.Of(term.DecayCenter);
            sum += T.Of(term.Coefficient) * T.Exp(
                (T.Of(term.TemperatureExponent) * lnTau) + (T.Of(term.DensityExponent) * lnDelta)
                - (T.Of(term.DensitySharpness) * x * x) - (T.Of(term.DensityDecay) * y));
        }

        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static T DensityTerms<T>(IReadOnlyList<DensityTerm> terms, T lnTau, T lnDelta, T delta)
        where T : struct, IScalar<T>
    {
        T sum = T.Of(0);
        foreach (DensityTerm term in terms)
        {
            T exponent = (T.Of(term.TemperatureExponent) * lnTau) + (T.Of(term.DensityExponent) * lnDelta);
            if (term.DecayExponent > 0)
            {
                T power = delta;
                for (int k = 1; k < term.DecayExponent; k++)
                {
                    power *= delta;
                }

                exponent -= power;
            }

            sum += T.Of(term.Coefficient) * T.Exp(exponent);
        }

        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private T Reducing<T>(T[] x, Func<int, double> own, Func<int, int, double> mean, Func<MultiFluidPair, ReducingParameters> parameters)
        where T : struct, IScalar<T>
    {
        T sum = T.Of(0);
        for (int i = 0; i < count; i++)
        {
            sum += x[i] * x[i] * T.Of(own(i));
            for (int j = i + 1; j < count; j++)
            {
                ReducingParameters p = parameters(Pair(i, j)!);
                T divisor = (T.Of(p.Beta * p.Beta) * x[i]) + x[j];
                if (PlainValue(divisor) != 0)
                {
                    sum += T.Of(2 * p.Beta * p.Gamma * mean(i, j)) * x[i] * x[j] * (x[i] + x[j]) / divisor;
                }
            }
        }

        return sum;
    }

    private static double PlainValue<T>(T x) => x switch
    {
        Real r => r.Value,
        Dual<Real> d => d.Value.Value,
        Dual<Dual<Real>> d => d.Value.Value.Value,
        Dual<Dual<Dual<Real>>> d => d.Value.Value.Value.Value,
        Dual<Dual<Dual<Dual<Real>>>> d => d.Value.Value.Value.Value.Value,
        _ => throw new ArgumentException($"unknown number type {typeof(T)}", nameof(x)),
    };

    private MultiFluidPair? Pair(int i, int j) => pairs[(i * count) + j];
}
