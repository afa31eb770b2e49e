using CryoThermo.EquationsOfState;
using CryoThermo.Tests.Equilibrium;

namespace CryoThermo.Tests.EquationsOfState;

/// <summary>LnFugacityDerivativesAtDensity against differences of LnFugacityAtDensity and of the pressure.</summary>
public sealed class DensityDerivativeTests
{
    public static TheoryData<string> Fluids => ["cubic", "sloped", "quantum", "shifted", "multi-fluid", "pure"];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void EachDerivativeIsTheSlopeOfItsFunction(string name)
    {
        WorkingFluid fluid = Of(name);
        MixtureKernel kernel = fluid.Kernel.Equation;
        double[] x = fluid.Fractions();
        int n = x.Length;
        double[] scratch = new double[kernel.ScratchLength];
        foreach ((double t, double density) in (ReadOnlySpan<(double, double)>)[(150, 40), (230, 3000), (180, 14000)])
        {
            double[] ln = new double[n];
            double[] square = new double[n * n];
            double[] byT = new double[n];
            kernel.SetTemperature(t, scratch);
            double p = kernel.LnFugacityDerivativesAtDensity(t, density, x, scratch, ln, square, byT, out double pressureByT);
            double[] value = LnFugacity(t, density, x, out double samePressure);
            Assert.Equal(samePressure, p, 1e-9 * Math.Abs(p));
            for (int i = 0; i < n; i++)
            {
                Assert.Equal(value[i], ln[i], 1e-11);
            }

            double dt = 1e-4 * t;
            double[] hot = LnFugacity(t + dt, density, x, out double hotPressure);
            double[] cold = LnFugacity(t - dt, density, x, out double coldPressure);
            Near((hotPressure - coldPressure) / (2 * dt), pressureByT);
            for (int i = 0; i < n; i++)
            {
                Near((hot[i] - cold[i]) / (2 * dt), byT[i]);
            }

            // Amounts change at constant volume: 1 mole in the volume 1/density.
            for (int j = 0; j < n; j++)
            {
                double dn = 1e-5 * x[j];
                double[] more = Amounts(t, density, x, j, dn);
                double[] less = Amounts(t, density, x, j, -dn);
                for (int i = 0; i < n; i++)
                {
                    Near((more[i] - less[i]) / (2 * dn), square[(i * n) + j]);
                }
            }
        }

        double[] Amounts(double t, double density, double[] x, int j, double dn)
        {
            // ln f_i - ln n_i, which is ln(f_i/x_i) less ln of the whole amount.
            double[] moved = [.. x];
            moved[j] += dn;
            double total = moved.Sum();
            double[] fractions = [.. moved.Select(a => a / total)];
            return [.. LnFugacity(t, density * total, fractions, out _).Select(f => f - Math.Log(total))];
        }

        double[] LnFugacity(double t, double density, double[] x, out double p)
        {
            double[] ln = new double[n];
            kernel.SetTemperature(t, scratch);
            p = kernel.LnFugacityAtDensity(t, density, x, scratch, ln);
            return ln;
        }

        static void Near(double difference, double analytic) =>
            Assert.True(Math.Abs(difference - analytic) < 2e-5 * (1 + Math.Abs(analytic)), $"{difference:R} by differences, {analytic:R} by the kernel");
    }

    private static WorkingFluid Of(string name) => name switch
    {
        "cubic" => Blends.Wide,
        "sloped" => WorkingFluid.Mixture(("ethane", 0.4), ("R-23", 0.5), ("propane", 0.1)).WithModel(FluidModel.PengRobinson),
        "quantum" => WorkingFluid.Mixture(("hydrogen", 0.3), ("neon", 0.2), ("methane", 0.5)).WithModel(FluidModel.PengRobinsonQuantumCorrected),
        "shifted" => Blends.Wide.WithModel(FluidModel.PengRobinson.WithVolumeTranslation()),
        "multi-fluid" => Blends.FurtherMultiFluid,
        _ => WorkingFluid.Pure("methane"),
    };
}
