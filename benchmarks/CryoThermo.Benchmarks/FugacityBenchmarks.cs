using BenchmarkDotNet.Attributes;
using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Cubic;

namespace CryoThermo.Benchmarks;

/// <summary>ln phi of five components under Peng-Robinson, as in benchmarks/native.</summary>
[MemoryDiagnoser]
public class FugacityBenchmarks
{
    private const int States = FiveComponentBlend.States;
    private readonly CubicMixture mixture = FiveComponentBlend.Create();
    private readonly double[] scratch = new double[25];
    private readonly double[] lnPhi = new double[5];
    private readonly double[] byAmount = new double[25];
    private double[][] compositions = null!;
    private double[] temperatures = null!;

    /// <summary>Makes the states and sets the scratch to 180 K.</summary>
    [GlobalSetup]
    public void Setup()
    {
        (compositions, temperatures) = FiveComponentBlend.CreateStates();
        mixture.SetTemperature(180, scratch);
    }

    /// <summary>Vapour root at 180 K.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double VaporRoot() => Sum(DensityRoot.Vapor);

    /// <summary>Liquid root at 180 K.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double LiquidRoot() => Sum(DensityRoot.Liquid);

    /// <summary>The root with the lower Gibbs energy at 180 K.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double StableRoot() => Sum(DensityRoot.Stable);

    /// <summary>The stable root at 120 to 300 K, temperature functions included.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double StableRootNewTemperature()
    {
        double sum = 0;
        for (int k = 0; k < States; k++)
        {
            mixture.SetTemperature(temperatures[k], scratch);
            mixture.LnFugacityCoefficients(temperatures[k], FiveComponentBlend.Pressure, compositions[k], DensityRoot.Stable, scratch, lnPhi, out _);
            sum += lnPhi[0];
        }

        mixture.SetTemperature(180, scratch);
        return sum;
    }

    /// <summary>With the derivatives by amounts, stable root at 180 K.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double WithAmountDerivatives()
    {
        double sum = 0;
        foreach (double[] x in compositions)
        {
            mixture.LnFugacityDerivatives(180, FiveComponentBlend.Pressure, x, DensityRoot.Stable, scratch, lnPhi, byAmount, default, default, out _);
            sum += byAmount[0];
        }

        return sum;
    }

    private double Sum(DensityRoot root)
    {
        double sum = 0;
        foreach (double[] x in compositions)
        {
            mixture.LnFugacityCoefficients(180, FiveComponentBlend.Pressure, x, root, scratch, lnPhi, out _);
            sum += lnPhi[0] + lnPhi[1] + lnPhi[2] + lnPhi[3] + lnPhi[4];
        }

        return sum;
    }
}
