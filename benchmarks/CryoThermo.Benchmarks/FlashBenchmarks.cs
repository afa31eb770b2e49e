using BenchmarkDotNet.Attributes;
using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Benchmarks;

/// <summary>Flashes of the five-component blend: cold (all stability starts and the final test), from a neighbour, saturation, a whole isobar.</summary>
[MemoryDiagnoser]
public class FlashBenchmarks
{
    private const int States = FiveComponentBlend.States;
    private readonly CubicMixture mixture = FiveComponentBlend.Create();
    private readonly double[] scratch = new double[25];
    private readonly double[] light = new double[5];
    private readonly double[] middle = new double[5];
    private readonly double[] heavy = new double[5];
    private readonly WorkingFluid blend = WorkingFluid.Mixture(
        ("nitrogen", 0.30), ("methane", 0.30), ("ethane", 0.15), ("propane", 0.15), ("isobutane", 0.10)).WithModel(FluidModel.PengRobinson);

    private double[][] compositions = null!;
    private double[] temperatures = null!;

    /// <summary>Makes the states.</summary>
    [GlobalSetup]
    public void Setup() => (compositions, temperatures) = FiveComponentBlend.CreateStates();

    /// <summary>Cold flash at 120 to 300 K, mostly two phases.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double ColdFlash()
    {
        double sum = 0;
        for (int k = 0; k < States; k++)
        {
            PhaseSplit split = new(light, middle, heavy);
            IsothermalFlash.Solve(mixture, temperatures[k], FiveComponentBlend.Pressure, compositions[k], scratch, ref split);
            sum += split.LightFraction;
        }

        return sum;
    }

    /// <summary>Cold flash well above the dew point: one phase, every stability start.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double ColdFlashOfGas()
    {
        double sum = 0;
        foreach (double[] z in compositions)
        {
            PhaseSplit split = new(light, middle, heavy);
            IsothermalFlash.Solve(mixture, 340, FiveComponentBlend.Pressure, z, scratch, ref split);
            sum += split.LightFraction;
        }

        return sum;
    }

    /// <summary>From the answer 1 K away, without stability tests; 160 to 240 K.</summary>
    [Benchmark(OperationsPerInvoke = 80)]
    public double WarmFlash()
    {
        double sum = 0;
        PhaseSplit split = new(light, middle, heavy);
        IsothermalFlash.Solve(mixture, 160, FiveComponentBlend.Pressure, compositions[0], scratch, ref split);
        for (int k = 1; k <= 80; k++)
        {
            IsothermalFlash.SolveFrom(mixture, 160 + k, FiveComponentBlend.Pressure, compositions[0], scratch, ref split);
            sum += split.LightFraction;
        }

        return sum;
    }

    /// <summary>Vapour pressure of methane at a temperature.</summary>
    [Benchmark]
    public double Saturation()
    {
        PureSaturation.TryPressure(mixture, 1, 120, scratch, out double pressure, out _, out _);
        return pressure;
    }

    /// <summary>An isobar from 70 to 310 K within its error bound.</summary>
    [Benchmark]
    public object WholeIsobar() => blend.Isobar(Pressure.FromBars(15), Temperature.FromKelvins(70), Temperature.FromKelvins(310));
}
