using CryoThermo.EquationsOfState;
using CryoThermo.Tests.Equilibrium;
using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Tests;

public sealed class CriticalPointTests
{
    [Fact]
    public void TheNaturalGasOfMichelsenHasItsPublishedCriticalPoint()
    {
        CriticalPoint point = WorkingFluid.Mixture(
                ("nitrogen", 0.014), ("methane", 0.943), ("ethane", 0.027), ("propane", 0.0074), ("n-butane", 0.0049), ("n-pentane", 0.0027), ("n-hexane", 0.001))
            .WithModel(FluidModel.SoaveRedlichKwong).CriticalPoint();

        // Michelsen, Fluid Phase Equilib. 4 (1980) 1, from memory: 203.13 K, 58.11 atm; 0.3 K and 0.5 % allowed for constants and pair parameters.
        Assert.InRange(point.Temperature.Kelvins, 203.13 - 0.3, 203.13 + 0.3);
        Assert.InRange(point.Pressure.Pascals / 101325, 58.11 * 0.995, 58.11 * 1.005);
    }

    [Fact]
    public void BothConditionsHoldByIndependentDifferences()
    {
        int checkedPoints = 0;
        foreach ((string, double)[] blend in EnvelopeBlends.All.Where((b, i) => i % 3 == 0))
        {
            foreach (FluidModel model in (FluidModel[])[FluidModel.PengRobinson, FluidModel.Recommended])
            {
                WorkingFluid fluid = WorkingFluid.Mixture(blend).WithModel(model);
                foreach (CriticalPoint point in fluid.CriticalPoints().Where(c => c.IsStable))
                {
                    (double eigenvalue, double third) = Conditions(fluid, point);
                    Assert.True(Math.Abs(eigenvalue) < 1e-6, $"{fluid}, {point}: smallest eigenvalue {eigenvalue:E2}");
                    Assert.True(Math.Abs(third) < 1e-6, $"{fluid}, {point}: third derivative {third:E2}");
                    checkedPoints++;
                }
            }
        }

        Assert.InRange(checkedPoints, 25, 60);
    }

    [Fact]
    public void OfAPureFluidItIsThatOfTheEquation()
    {
        foreach (FluidModel model in (FluidModel[])[FluidModel.PengRobinson, FluidModel.Recommended])
        {
            WorkingFluid fluid = WorkingFluid.Pure("ethane").WithModel(model);
            CriticalPoint point = fluid.CriticalPoint();
            Assert.Equal(fluid.Kernel.Equation.CriticalTemperature(0), point.Temperature.Kelvins, 1e-5);
            Assert.Equal(fluid.Kernel.Equation.CriticalPressure(0), point.Pressure.Pascals, 10.0);
        }

        // A mixture that is almost pure comes close to it.
        WorkingFluid nearly = WorkingFluid.Mixture(("ethane", 1 - 1e-6), ("propane", 1e-6)).WithModel(FluidModel.PengRobinson);
        Assert.Equal(nearly.Kernel.Equation.CriticalTemperature(0), nearly.CriticalPoint().Temperature.Kelvins, 1e-3);
    }

    [Fact]
    public void WhereThereIsNoneItSaysSo()
    {
        WorkingFluid open = WorkingFluid.Mixture(("hydrogen", 0.9), ("methane", 0.1)).WithModel(FluidModel.PengRobinson);
        Assert.False(open.TryCriticalPoint(out CriticalPoint? point), point?.ToString());
        Assert.Contains("Critical point", Assert.Throws<Diagnostics.ConvergenceException>(() => open.CriticalPoint()).Message, StringComparison.Ordinal);
        Assert.DoesNotContain(open.PhaseEnvelope().CriticalPoints, c => c.IsStable);
    }

    // Differences of LnFugacityAtDensity alone, as in MixtureCriticalPointTests: none of the second derivatives of the library is used.
    private static (double Eigenvalue, double Third) Conditions(WorkingFluid fluid, CriticalPoint point)
    {
        MixtureKernel kernel = fluid.Kernel.Equation;
        double[] z = fluid.Fractions();
        double t = point.Temperature.Kelvins;
        double v = 1 / point.MolarDensity.MolesPerCubicMeter;
        double[] scratch = new double[kernel.ScratchLength];
        kernel.SetTemperature(t, scratch);
        int n = z.Length;
        Matrix<double> q = Matrix<double>.Build.Dense(n, n);
        for (int j = 0; j < n; j++)
        {
            double h = 1e-3 * z[j];
            double[] a = LnFugacity(Moved(j, -2 * h));
            double[] b = LnFugacity(Moved(j, -h));
            double[] c = LnFugacity(Moved(j, h));
            double[] d = LnFugacity(Moved(j, 2 * h));
            for (int i = 0; i < n; i++)
            {
                q[i, j] = Math.Sqrt(z[i] * z[j]) * ((8 * (c[i] - b[i])) - (d[i] - a[i])) / (12 * h);
            }
        }

        var eigen = ((q + q.Transpose()) / 2).Evd(Symmetricity.Symmetric);
        double[] u = [.. eigen.EigenVectors.Column(0)];
        double[] direction = [.. u.Select((x, i) => x * Math.Sqrt(z[i]))];

        // sum of direction_i ln f_i along the direction: its slope is the eigenvalue, its curvature the third derivative.
        double step = 4e-3 * z.Select((x, i) => Math.Sqrt(x) / Math.Max(Math.Abs(u[i]), 1e-9)).Append(10).Min();
        double centre = Along(0);
        double curvature = ((16 * (Along(step) + Along(-step))) - Along(2 * step) - Along(-2 * step) - (30 * centre)) / (12 * step * step);
        return (eigen.EigenValues[0].Real, curvature);

        double Along(double s) => LnFugacity([.. z.Select((x, i) => x + (s * direction[i]))]).Select((f, i) => f * direction[i]).Sum();

        double[] Moved(int index, double by)
        {
            double[] moved = [.. z];
            moved[index] += by;
            return moved;
        }

        double[] LnFugacity(double[] amounts)
        {
            double total = amounts.Sum();
            double[] x = [.. amounts.Select(a => a / total)];
            double[] ln = new double[n];
            kernel.LnFugacityAtDensity(t, total / v, x, scratch, ln);
            return [.. ln.Select((value, i) => value + Math.Log(x[i]))];
        }
    }
}
