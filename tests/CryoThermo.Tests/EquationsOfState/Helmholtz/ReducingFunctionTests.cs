using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

public sealed class ReducingFunctionTests
{
    [Fact]
    public void ExchangedComponentsWithTheReciprocalOfBetaGiveTheSame()
    {
        Random random = new(61);
        double[] density = [10139.3, 11183.9, 6870.9, 5000.0];
        double[] temperature = [190.6, 126.2, 305.3, 369.8];
        const int N = 4;
        for (int k = 0; k < 50; k++)
        {
            ReducingParameters[] parameters = new ReducingParameters[N * N];
            ReducingParameters[] exchanged = new ReducingParameters[N * N];
            for (int i = 0; i < N; i++)
            {
                for (int j = i + 1; j < N; j++)
                {
                    ReducingParameters pair = new(0.8 + (0.4 * random.NextDouble()), 0.8 + (0.4 * random.NextDouble()));
                    parameters[(i * N) + j] = pair;
                    exchanged[((N - 1 - j) * N) + N - 1 - i] = pair.Exchange();
                    Assert.Equal(1 / pair.Beta, pair.Exchange().Beta);
                    Assert.Equal(pair.Gamma, pair.Exchange().Gamma);
                }
            }

            double[] x = SampleMixture.Fractions(random, N);
            Same(
                ReducingFunction.OfVolume(density, parameters), ReducingFunction.OfVolume(Reversed(density), exchanged), x);
            Same(
                ReducingFunction.OfTemperature(temperature, parameters), ReducingFunction.OfTemperature(Reversed(temperature), exchanged), x);
        }

        static double[] Reversed(double[] values) => [.. values.Reverse()];

        static void Same(ReducingFunction one, ReducingFunction other, double[] x)
        {
            double[] first = new double[N];
            double[] second = new double[N];
            double[] twice = new double[N * N];
            double[] otherTwice = new double[N * N];
            double value = one.At(x, first);
            double otherValue = other.At(Reversed(x), second);
            Assert.Equal(1, otherValue / value, 1e-14);
            one.SecondAt(x, value, first, twice);
            other.SecondAt(Reversed(x), otherValue, second, otherTwice);
            for (int i = 0; i < N; i++)
            {
                Assert.Equal(first[i], second[N - 1 - i], 1e-13);
                for (int j = 0; j < N; j++)
                {
                    Assert.Equal(twice[(i * N) + j], otherTwice[((N - 1 - i) * N) + N - 1 - j], 1e-12);
                }
            }
        }
    }

    [Fact]
    public void DerivativesByAmountsAreThoseOfThePlainFormula()
    {
        Random random = new(62);
        for (int k = 0; k < 60; k++)
        {
            SampleMixture sample = SampleMixture.Random(random, withFurther: k % 2 == 0);
            int n = sample.X.Length;
            Check(
                ReducingFunction.OfVolume([.. sample.Equations.Select(e => e.ReducingMolarDensity)], [.. sample.Pairs.Select(p => p?.Volume ?? default)]),
                sample.Plain.ReducingVolume);
            Check(
                ReducingFunction.OfTemperature([.. sample.Equations.Select(e => e.ReducingTemperature)], [.. sample.Pairs.Select(p => p?.Temperature ?? default)]),
                sample.Plain.ReducingTemperature);

            void Check(ReducingFunction function, Func<Dual<Dual<Real>>[], Dual<Dual<Real>>> plain)
            {
                double[] first = new double[n];
                double[] second = new double[n * n];
                double value = function.At(sample.X, first);
                function.SecondAt(sample.X, value, first, second);
                for (int i = 0; i < n; i++)
                {
                    for (int j = 0; j <= i; j++)
                    {
                        if (i != j && sample.X[i] == 0 && sample.X[j] == 0)
                        {
                            continue;
                        }

                        Dual<Dual<Real>>[] amounts = [.. sample.X.Select((x, m) => Seed.Mixed(x, m == i, m == j))];
                        Dual<Dual<Real>> total = amounts.Aggregate((a, b) => a + b);
                        Dual<Dual<Real>> logarithm = Dual<Dual<Real>>.Log(plain([.. amounts.Select(a => a / total)]));
                        Assert.Equal(1, Math.Exp(logarithm.Value.Value.Value) / value, 1e-13);
                        Assert.Equal(logarithm.First(), first[i], 1e-12 * (1 + Math.Abs(first[i])));
                        Assert.Equal(logarithm.Second(), second[(i * n) + j], 1e-11 * (1 + Math.Abs(logarithm.Second())));
                    }
                }
            }
        }
    }
}
