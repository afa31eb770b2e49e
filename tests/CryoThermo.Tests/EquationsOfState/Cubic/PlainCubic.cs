using System.Runtime.CompilerServices;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

/// <summary>
/// One component of <see cref="PlainCubic"/>: critical constants, temperature function, volume shift, and A and B (K) of a covolume that
/// depends on temperature.
/// </summary>
internal sealed record PlainComponent(
    double CriticalTemperature, double CriticalPressure, PlainAlpha Alpha, double Shift, (double A, double B)? Covolume = null);

/// <summary>
/// A two-parameter cubic written for clearness in total amounts and for any number type, apart from the library: the
/// pressure, the residual Helmholtz energy and, from these two alone, the residual Gibbs energy at temperature and
/// pressure. Every derivative is left to dual numbers. Compiled at full optimisation at once: nested duals are many small
/// calls, which the first, quick compilation leaves as they are.
/// </summary>
internal sealed class PlainCubic(bool pengRobinson, PlainComponent[] components, double[,] kij, double[,]? inverseTemperature = null)
{
    /// <summary>Molar gas constant, J/(mol K): CODATA 2018, exact.</summary>
    public const double R = 8.314462618;

    public double Delta1 => pengRobinson ? 1 + Math.Sqrt(2) : 1;

    public double Delta2 => pengRobinson ? 1 - Math.Sqrt(2) : 0;

    /// <summary>
    /// Closed forms. Peng-Robinson: X = 1/(1 + cbrt(4 - sqrt 8) + cbrt(4 + sqrt 8)), OmegaA = 8 (5 X + 1)/(49 - 37 X),
    /// OmegaB = X/(X + 3). Soave-Redlich-Kwong: OmegaA = 1/(9 (cbrt 2 - 1)), OmegaB = (cbrt 2 - 1)/3. From memory; CubicFormTests
    /// prove them by the critical conditions.
    /// </summary>
    public (double A, double B) Omega { get; } = ClosedForms(pengRobinson);

    /// <summary>p(T, V, n) of the unshifted cubic, Pa.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Pressure<T>(T temperature, T volume, T[] n)
        where T : struct, IScalar<T>
    {
        T b = Covolume(temperature, n);
        T rt = T.Of(R) * temperature;
        return (Total(n) * rt / (volume - b)) - (Attraction(temperature, n) / ((volume + (T.Of(Delta1) * b)) * (volume + (T.Of(Delta2) * b))));
    }

    /// <summary>A_res(T, V, n)/(R T): -n ln(1 - B/V) - D/(R T B (d1 - d2)) ln((V + d1 B)/(V + d2 B)).</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Helmholtz<T>(T temperature, T volume, T[] n)
        where T : struct, IScalar<T>
    {
        T b = Covolume(temperature, n);
        T repulsion = Total(n) * T.Log(T.Of(1) - (b / volume));
        T ratio = (volume + (T.Of(Delta1) * b)) / (volume + (T.Of(Delta2) * b));
        T attraction = Attraction(temperature, n) / (T.Of(R) * temperature * b * T.Of(Delta1 - Delta2)) * T.Log(ratio);
        return T.Of(0) - repulsion - attraction;
    }

    /// <summary>
    /// G_res(T, p, n)/(R T) of the shifted fluid: A_res/(R T) + p V/(R T) - n - n ln Z - p sum n c/(R T). The volume is solved
    /// within the number type, so that it carries its own derivatives.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Gibbs<T>(T temperature, T pressure, T[] n, double startVolume)
        where T : struct, IScalar<T>
    {
        T volume = Volume(temperature, pressure, n, startVolume);
        T rt = T.Of(R) * temperature;
        T total = Total(n);
        T work = pressure * volume / rt;
        T shift = T.Of(0);
        for (int i = 0; i < n.Length; i++)
        {
            shift += n[i] * T.Of(components[i].Shift);
        }

        return Helmholtz(temperature, volume, n) + work - total - (total * T.Log(work / total)) - (pressure * shift / rt);
    }

    /// <summary>Cubic volume by Newton in the number type: each step doubles the order of the derivatives that are right.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Volume<T>(T temperature, T pressure, T[] n, double startVolume)
        where T : struct, IScalar<T>
    {
        T volume = T.Of(startVolume);
        for (int iteration = 0; iteration < 5; iteration++)
        {
            Dual<T> p = Pressure(new(temperature, T.Of(0)), new Dual<T>(volume, T.Of(1)), [.. n.Select(ni => new Dual<T>(ni, T.Of(0)))]);
            volume -= (p.Value - pressure) / p.Slope;
        }

        return volume;
    }

    private static (double A, double B) ClosedForms(bool pengRobinson)
    {
        if (!pengRobinson)
        {
            double c = Math.Cbrt(2) - 1;
            return (1 / (9 * c), c / 3);
        }

        double x = 1 / (1 + Math.Cbrt(4 - Math.Sqrt(8)) + Math.Cbrt(4 + Math.Sqrt(8)));
        return (8 * ((5 * x) + 1) / (49 - (37 * x)), x / (x + 3));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static T Total<T>(T[] n)
        where T : struct, IScalar<T>
    {
        T sum = T.Of(0);
        foreach (T ni in n)
        {
            sum += ni;
        }

        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private T Covolume<T>(T temperature, T[] n)
        where T : struct, IScalar<T>
    {
        T sum = T.Of(0);
        for (int i = 0; i < n.Length; i++)
        {
            PlainComponent c = components[i];
            T b = n[i] * T.Of(Omega.B * R * c.CriticalTemperature / c.CriticalPressure);

            // b(T)/b(Tc) = [(1 + A/(T + B))/(1 + A/(Tc + B))]^3: Aasen et al., Fluid Phase Equilib. 524 (2020) 112790.
            if (c.Covolume is var (a, offset))
            {
                T ratio = (T.Of(1) + (T.Of(a) / (temperature + T.Of(offset)))) / T.Of(1 + (a / (c.CriticalTemperature + offset)));
                b *= ratio * ratio * ratio;
            }

            sum += b;
        }

        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private T Attraction<T>(T temperature, T[] n)
        where T : struct, IScalar<T>
    {
        T[] a = new T[n.Length];
        for (int i = 0; i < n.Length; i++)
        {
            PlainComponent c = components[i];
            double critical = Omega.A * R * R * c.CriticalTemperature * c.CriticalTemperature / c.CriticalPressure;
            T reduced = temperature / T.Of(c.CriticalTemperature);
            a[i] = T.Of(critical) * c.Alpha.Of(reduced, ValueOf(reduced) > 1);
        }

        T sum = T.Of(0);
        for (int i = 0; i < n.Length; i++)
        {
            for (int j = 0; j < n.Length; j++)
            {
                sum += n[i] * n[j] * T.Sqrt(a[i] * a[j]) * (T.Of(1 - kij[i, j]) - (T.Of(inverseTemperature?[i, j] ?? 0) * ((T.Of(298.15) / temperature) - T.Of(1))));
            }
        }

        return sum;
    }

    private static double ValueOf<T>(T x) => x switch
    {
        Real r => r.Value,
        Dual<Real> d => d.Value.Value,
        Dual<Dual<Real>> d => d.Value.Value.Value,
        Dual<Dual<Dual<Real>>> d => d.Value.Value.Value.Value,
        _ => throw new ArgumentException($"unknown number type {typeof(T)}", nameof(x)),
    };
}
