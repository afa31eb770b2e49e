using BenchmarkDotNet.Attributes;
using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;

namespace CryoThermo.Benchmarks;

/// <summary>The long equation of nitrogen, 32 density and 4 bell terms: its derivatives at the states of benchmarks/native, density roots and saturation.</summary>
[MemoryDiagnoser]
public class HelmholtzBenchmarks
{
    private const int States = 64;
    private readonly HelmholtzResidual residual;
    private readonly HelmholtzFluid fluid;
    private readonly double[] scratch;
    private readonly double[] taus = new double[States];
    private readonly double[] deltas = new double[States];
    private readonly double[] temperatures = new double[States];
    private readonly double[] pressures = new double[States];
    private readonly double[] saturationTemperatures = new double[States];
    private readonly double[] saturationPressures = new double[States];

    /// <summary>Makes the states.</summary>
    public HelmholtzBenchmarks()
    {
        Substance nitrogen = SubstanceCatalog.Default.Find("nitrogen");
        HelmholtzEquation equation = nitrogen.Equations[0];
        residual = new(equation);
        fluid = new(equation, nitrogen.AcentricFactor);
        scratch = new double[fluid.ScratchLength];
        for (int k = 0; k < States; k++)
        {
            // As in benchmarks/native.
            double temperature = 80 + (520.0 * k / (States - 1));
            double density = 10 + (24990.0 * ((37 * k) % States) / (States - 1));
            taus[k] = equation.ReducingTemperature / temperature;
            deltas[k] = density / equation.ReducingMolarDensity;

            temperatures[k] = 70 + (330.0 * ((k * 37) % States) / (States - 1));
            pressures[k] = 1e4 * Math.Pow(2000, (double)((k * 11) % States) / (States - 1));
            saturationTemperatures[k] = 64 + (62.0 * k / (States - 1));
            fluid.TrySaturation(saturationTemperatures[k], scratch, out saturationPressures[k], out _, out _);
        }
    }

    /// <summary>alpha and all derivatives to second order at one (tau, delta).</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double AllDerivatives()
    {
        double sum = 0;
        for (int k = 0; k < States; k++)
        {
            ResidualDerivatives at = residual.At(taus[k], deltas[k]);
            sum += at.Alpha + at.ByTau + at.ByDelta + at.ByTauTau + at.ByTauDelta + at.ByDeltaDelta;
        }

        return sum;
    }

    /// <summary>The stable density root at (T, p), temperature set anew.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double DensityAtTemperatureAndPressure()
    {
        double sum = 0;
        for (int k = 0; k < States; k++)
        {
            fluid.SetTemperature(temperatures[k], scratch);
            sum += fluid.Density(temperatures[k], pressures[k], DensityRoot.Stable, scratch, out _, out _);
        }

        return sum;
    }

    /// <summary>Saturation at a temperature.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double SaturationAtTemperature()
    {
        double sum = 0;
        foreach (double temperature in saturationTemperatures)
        {
            fluid.TrySaturation(temperature, scratch, out double pressure, out _, out _);
            sum += pressure;
        }

        return sum;
    }

    /// <summary>Saturation at a pressure.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double SaturationAtPressure()
    {
        double sum = 0;
        foreach (double pressure in saturationPressures)
        {
            fluid.TryBoiling(pressure, scratch, out double temperature, out _, out _);
            sum += temperature;
        }

        return sum;
    }
}
