using BenchmarkDotNet.Attributes;
using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo.Benchmarks;

/// <summary>Viscosity and thermal conductivity of five components, and of a state as its user asks for them.</summary>
[MemoryDiagnoser]
public class TransportBenchmarks
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(
        ("nitrogen", 0.2), ("methane", 0.3), ("ethane", 0.2), ("propane", 0.2), ("isobutane", 0.1));

    private readonly TransportKernel kernel = Blend.TransportKernel;
    private readonly TransportKernel pure = WorkingFluid.Pure("propane").TransportKernel;
    private readonly double[] x = [0.2, 0.3, 0.2, 0.2, 0.1];
    private readonly double[] one = [1];
    private readonly State state = Blend.At(Temperature.FromKelvins(250), Pressure.FromBars(2));

    /// <summary>Viscosity of the cold liquid.</summary>
    [Benchmark]
    public double Viscosity() => kernel.Viscosity(110, 20000, x);

    /// <summary>Viscosity and conductivity of the cold liquid.</summary>
    [Benchmark]
    public double ViscosityAndConductivity()
    {
        kernel.Evaluate(110, 20000, x, out double viscosity, out double conductivity);
        return viscosity + conductivity;
    }

    /// <summary>Both of a pure liquid by its own correlations.</summary>
    [Benchmark]
    public double PurePropane() => pure.Viscosity(200, 14000, one) + pure.BackgroundConductivity(200, 14000, one);

    /// <summary>Both of a state with methods, uncertainties and notes.</summary>
    [Benchmark]
    public TransportProperties OfAState() => state.Transport;
}
