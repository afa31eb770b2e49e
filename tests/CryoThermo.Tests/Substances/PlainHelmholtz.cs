using CryoThermo.Substances;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.Substances;

/// <summary>The reduced residual Helmholtz energy written as published, for any number type: the yardstick of data and kernels.</summary>
internal static class PlainHelmholtz
{
    public static T Residual<T>(HelmholtzEquation equation, T tau, T delta)
        where T : struct, IScalar<T>
    {
        T one = T.Of(1);
        T sum = T.Of(0);
        foreach (DensityTerm term in equation.DensityTerms)
        {
            T value = T.Of(term.Coefficient) * Power(delta, term.DensityExponent) * Power(tau, term.TemperatureExponent);
            sum += term.DecayExponent == 0 ? value : value * T.Exp(T.Of(0) - Power(delta, term.DecayExponent));
        }

        foreach (BellTerm term in equation.BellTerms)
        {
            T density = delta - T.Of(term.DensityCenter);
            T temperature = tau - T.Of(term.TemperatureCenter);
            T exponent = (T.Of(term.DensitySharpness) * density * density) + (T.Of(term.TemperatureSharpness) * temperature * temperature);
            sum += T.Of(term.Coefficient) * Power(delta, term.DensityExponent) * Power(tau, term.TemperatureExponent)
                * T.Exp(T.Of(0) - exponent);
        }

        foreach (CriticalTerm term in equation.CriticalTerms)
        {
            T square = (delta - one) * (delta - one);
            T theta = one - tau + (T.Of(term.CurveWeight) * Power(square, 1 / (2 * term.CurveExponent)));
            T distance = (theta * theta) + (T.Of(term.DistanceWeight) * Power(square, term.DistanceExponent));
            T exponent = (T.Of(term.DensitySharpness) * square) + (T.Of(term.TemperatureSharpness) * (tau - one) * (tau - one));
            sum += T.Of(term.Coefficient) * Power(distance, term.Exponent) * delta * T.Exp(T.Of(0) - exponent);
        }

        return sum;
    }

    /// <summary>Pressure, Pa, at a temperature, K, and a molar density, mol/m3.</summary>
    public static double Pressure(HelmholtzEquation equation, double temperature, double molarDensity)
    {
        double delta = molarDensity / equation.ReducingMolarDensity;
        Dual<Real> residual = Residual(equation, Seed.Once(equation.ReducingTemperature / temperature, isVariable: false), Seed.Once(delta));
        return molarDensity * equation.GasConstant * temperature * (1 + (delta * residual.Slope.Value));
    }

    /// <summary>First and second derivative of the pressure with respect to density over R T; the second times the density.</summary>
    public static (double Slope, double Curvature) PressureDerivatives(HelmholtzEquation equation, double temperature, double molarDensity)
    {
        double Reduced(double density)
        {
            double delta = density / equation.ReducingMolarDensity;
            double tau = equation.ReducingTemperature / temperature;
            Dual<Dual<Real>> residual = Residual(equation, Seed.Mixed(tau, first: false, second: false), Seed.Twice(delta));
            return 1 + (2 * delta * residual.First()) + (delta * delta * residual.Second());
        }

        double step = 1e-4 * molarDensity;
        return (Reduced(molarDensity), molarDensity * (Reduced(molarDensity + step) - Reduced(molarDensity - step)) / (2 * step));
    }

    private static T Power<T>(T value, double exponent)
        where T : struct, IScalar<T> => exponent == 0 ? T.Of(1) : T.Exp(T.Of(exponent) * T.Log(value));
}
