using System.Runtime.CompilerServices;
using CryoThermo.Substances;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

/// <summary>
/// The residual Helmholtz energy written term by term as published and for any number type, apart from the library. Every derivative is
/// left to dual numbers. Compiled at full optimisation at once, see <see cref="Cubic.PlainCubic"/>.
/// </summary>
internal static class PlainHelmholtz
{
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static T Alpha<T>(HelmholtzEquation equation, T tau, T delta)
        where T : struct, IScalar<T>
    {
        T sum = T.Of(0);
        foreach (DensityTerm term in equation.DensityTerms)
        {
            T value = T.Of(term.Coefficient) * Power(tau, term.TemperatureExponent) * Power(delta, term.DensityExponent);
            sum += term.DecayExponent == 0 ? value : value * T.Exp(T.Of(0) - Power(delta, term.DecayExponent));
        }

        foreach (BellTerm term in equation.BellTerms)
        {
            T x = delta - T.Of(term.DensityCenter);
            T y = tau - T.Of(term.TemperatureCenter);
            sum += T.Of(term.Coefficient) * Power(tau, term.TemperatureExponent) * Power(delta, term.DensityExponent)
                * T.Exp(T.Of(0) - (T.Of(term.DensitySharpness) * x * x) - (T.Of(term.TemperatureSharpness) * y * y));
        }

        foreach (CriticalTerm term in equation.CriticalTerms)
        {
            T x = delta - T.Of(1);
            T y = tau - T.Of(1);
            T theta = (T.Of(0) - y) + (T.Of(term.CurveWeight) * Power(x * x, 1 / (2 * term.CurveExponent)));
            T distance = (theta * theta) + (T.Of(term.DistanceWeight) * Power(x * x, term.DistanceExponent));
            T psi = T.Exp(T.Of(0) - (T.Of(term.DensitySharpness) * x * x) - (T.Of(term.TemperatureSharpness) * y * y));
            sum += T.Of(term.Coefficient) * Power(distance, term.Exponent) * delta * psi;
        }

        return sum;
    }

    /// <summary>Sum of the magnitudes of all terms, the scale of the rounding error of their sum.</summary>
    public static double Magnitude(HelmholtzEquation equation, double tau, double delta)
    {
        double sum = 0;
        foreach (DensityTerm term in equation.DensityTerms)
        {
            sum += Math.Abs(term.Coefficient) * Math.Pow(tau, term.TemperatureExponent) * Math.Pow(delta, term.DensityExponent)
                * (term.DecayExponent == 0 ? 1 : Math.Exp(-Math.Pow(delta, term.DecayExponent)));
        }

        return sum;
    }

    /// <summary>Pressure, Pa, at a temperature, K, and a molar density, mol/m3.</summary>
    public static double Pressure(HelmholtzEquation equation, double temperature, double molarDensity)
    {
        double delta = molarDensity / equation.ReducingMolarDensity;
        Dual<Real> residual = Alpha(equation, Seed.Once(equation.ReducingTemperature / temperature, isVariable: false), Seed.Once(delta));
        return molarDensity * equation.GasConstant * temperature * (1 + (delta * residual.Slope.Value));
    }

    /// <summary>First and second derivative of the pressure with respect to density over R T; the second times the density.</summary>
    public static (double Slope, double Curvature) PressureDerivatives(HelmholtzEquation equation, double temperature, double molarDensity)
    {
        double Reduced(double density)
        {
            double delta = density / equation.ReducingMolarDensity;
            double tau = equation.ReducingTemperature / temperature;
            Dual<Dual<Real>> residual = Alpha(equation, Seed.Mixed(tau, first: false, second: false), Seed.Twice(delta));
            return 1 + (2 * delta * residual.First()) + (delta * delta * residual.Second());
        }

        double step = 1e-4 * molarDensity;
        return (Reduced(molarDensity), molarDensity * (Reduced(molarDensity + step) - Reduced(molarDensity - step)) / (2 * step));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static T Power<T>(T value, double exponent)
        where T : struct, IScalar<T> =>
        exponent == 0 ? T.Of(1) : T.Exp(T.Of(exponent) * T.Log(value));
}
