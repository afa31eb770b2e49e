using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

public sealed class HelmholtzResidualTests
{
    public static TheoryData<string> Names => ShippedEquations.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void EveryDerivativeAgreesWithDualNumbersTo1e10(string name)
    {
        HelmholtzEquation equation = ShippedEquations.Equation(name);
        HelmholtzResidual kernel = new(equation);
        Random random = new(20);
        double[] isotherm = new double[kernel.IsothermLength];
        for (int k = 0; k < 60; k++)
        {
            double temperature = equation.Range.LowestTemperature
                * Math.Pow(equation.Range.HighestTemperature / equation.Range.LowestTemperature, random.NextDouble());
            double tau = equation.ReducingTemperature / temperature;
            double delta = k % 3 == 0
                ? Math.Exp(-12 * random.NextDouble())
                : equation.Range.HighestMolarDensity / equation.ReducingMolarDensity * random.NextDouble();
            if (k % 5 == 0)
            {
                tau = 1 + (0.02 * (random.NextDouble() - 0.5));
                delta = 1 + (0.2 * (random.NextDouble() - 0.5));
            }

            ResidualDerivatives found = kernel.At(tau, delta);
            Dual<Dual<Real>> twiceTau = PlainHelmholtz.Alpha(equation, Seed.Twice(tau), Seed.Mixed(delta, false, false));
            Dual<Dual<Real>> twiceDelta = PlainHelmholtz.Alpha(equation, Seed.Mixed(tau, false, false), Seed.Twice(delta));
            Dual<Dual<Real>> mixed = PlainHelmholtz.Alpha(equation, Seed.Mixed(tau, true, false), Seed.Mixed(delta, false, true));

            AssertNear(twiceTau.Value.Value.Value, found.Alpha, "alpha");
            AssertNear(tau * twiceTau.First(), found.ByTau, "by tau");
            AssertNear(delta * twiceDelta.First(), found.ByDelta, "by delta");
            AssertNear(tau * tau * twiceTau.Second(), found.ByTauTau, "by tau, tau");
            AssertNear(tau * delta * mixed.Second(), found.ByTauDelta, "by tau, delta");
            AssertNear(delta * delta * twiceDelta.Second(), found.ByDeltaDelta, "by delta, delta");

            kernel.SetTemperature(tau, isotherm);
            IsothermDerivatives along = kernel.AlongIsotherm(isotherm, tau, delta);
            AssertNear(found.Alpha, along.Alpha, "alpha along the isotherm");
            AssertNear(found.ByDelta, along.ByDelta, "by delta along the isotherm");
            AssertNear(found.ByDeltaDelta, along.ByDeltaDelta, "by delta, delta along the isotherm");

            void AssertNear(double expected, double actual, string what)
            {
                double scale = Math.Max(Math.Abs(expected), Math.Min(1, PlainHelmholtz.Magnitude(equation, tau, delta)));
                Assert.True(
                    Math.Abs(actual - expected) <= 1e-10 * scale,
                    $"{name}, tau {tau:R}, delta {delta:R}: {what} is {actual:R}, by dual numbers {expected:R}.");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void VirialsAreTheLimitOfTheDerivativesAtZeroDensity(string name)
    {
        HelmholtzEquation equation = ShippedEquations.Equation(name);
        HelmholtzResidual kernel = new(equation);
        foreach (double tau in new[] { 0.4, 0.9, 1.6 })
        {
            kernel.Virials(tau, out double second, out double byTau, out double third);

            // Richardson: from three small densities the linear and the quadratic part of the remainder are taken out.
            const double Small = 1e-4;
            (double Slope, double ByTau, double Curvature) full = At(tau, Small);
            (double Slope, double ByTau, double Curvature) half = At(tau, Small / 2);
            (double Slope, double ByTau, double Curvature) quarter = At(tau, Small / 4);
            Assert.Equal(second, Limit(full.Slope, half.Slope, quarter.Slope), 1e-8 * (1 + Math.Abs(second)));
            Assert.Equal(byTau, Limit(full.ByTau, half.ByTau, quarter.ByTau), 1e-8 * (1 + Math.Abs(byTau)));
            Assert.Equal(third, Limit(full.Curvature, half.Curvature, quarter.Curvature), 1e-5 * (1 + Math.Abs(third)));
        }

        static double Limit(double full, double half, double quarter) => ((8 * quarter) - (6 * half) + full) / 3;

        (double Slope, double ByTau, double Curvature) At(double tau, double delta)
        {
            ResidualDerivatives at = kernel.At(tau, delta);
            return (at.ByDelta / delta, at.ByTauDelta / delta, at.ByDeltaDelta / (delta * delta));
        }
    }
}
