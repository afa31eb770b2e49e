using BenchmarkDotNet.Attributes;
using CryoThermo.Design;
using UnitsNet;

namespace CryoThermo.Benchmarks;

/// <summary>Evaluations of the blend search: five components from 100 to 300 K between 1.5 and 20 bar, thirty random blends a call.</summary>
[MemoryDiagnoser]
public class BlendEvaluationBenchmarks
{
    private const int Blends = 30;
    private readonly double[][] fractions = new double[Blends][];
    private BlendEvaluator cubic = null!;
    private BlendEvaluator recommended = null!;

    /// <summary>Makes the blends.</summary>
    [GlobalSetup]
    public void Setup()
    {
        BlendProblem problem = new()
        {
            Components = [new("nitrogen"), new("methane"), new("ethane"), new("propane"), new("isobutane")],
            ColdTemperature = Temperature.FromKelvins(100),
            WarmEnd = Temperature.FromKelvins(300),
            LeastLowPressure = Pressure.FromBars(1.5),
            GreatestLowPressure = Pressure.FromBars(1.5),
            LeastHighPressure = Pressure.FromBars(20),
            GreatestHighPressure = Pressure.FromBars(20),
        };
        cubic = new(problem, FluidModel.PengRobinson);
        recommended = new(problem, FluidModel.Recommended);
        Random random = new(3);
        for (int i = 0; i < Blends; i++)
        {
            double[] z = [.. Enumerable.Range(0, 5).Select(_ => random.NextDouble())];
            double sum = z.Sum();
            fractions[i] = [.. z.Select(x => x / sum)];
        }
    }

    /// <summary>As in exploration: seconds a blend; its inverse is candidates a second and core.</summary>
    [Benchmark(OperationsPerInvoke = Blends)]
    public double QuickCubic() => Sum(cubic, fine: false);

    /// <summary>By isobars with a node at every phase boundary.</summary>
    [Benchmark(OperationsPerInvoke = Blends)]
    public double FineCubic() => Sum(cubic, fine: true);

    /// <summary>As in the local search by the recommended model.</summary>
    [Benchmark(OperationsPerInvoke = Blends)]
    public double QuickRecommended() => Sum(recommended, fine: false);

    private double Sum(BlendEvaluator evaluator, bool fine)
    {
        double sum = 0;
        foreach (double[] z in fractions)
        {
            sum += evaluator.Evaluate(z, 1.5e5, 20e5, fine).Capacity;
        }

        return sum;
    }
}
