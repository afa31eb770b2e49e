using BenchmarkDotNet.Attributes;
using CryoThermo.Equilibrium;

namespace CryoThermo.Benchmarks;

/// <summary>
/// Temperature at enthalpy, the inner step of every recuperator walk, on a made-up isobar of 61 nodes from 80 to 300 K:
/// liquid, a wide two-phase stretch and vapour, with a smooth heat capacity inside each.
/// </summary>
[MemoryDiagnoser]
public class IsobarTableBenchmarks
{
    private const int Calls = 1024;
    private readonly double[] enthalpies = new double[Calls];
    private IsobarTable table = null!;

    /// <summary>Builds the table and the enthalpies, scattered over the whole isobar in a fixed order.</summary>
    [GlobalSetup]
    public void Setup()
    {
        table = MadeUpIsobar();
        var random = new Random(20);
        for (int i = 0; i < Calls; i++)
        {
            enthalpies[i] = table.MinEnthalpy + (random.NextDouble() * (table.MaxEnthalpy - table.MinEnthalpy));
        }
    }

    /// <summary>One temperature at an enthalpy; the sum keeps the result alive.</summary>
    [Benchmark(OperationsPerInvoke = Calls)]
    public double TemperatureAtEnthalpy()
    {
        double sum = 0;
        foreach (double enthalpy in enthalpies)
        {
            sum += table.TemperatureAtEnthalpy(enthalpy);
        }

        return sum;
    }

    private static IsobarTable MadeUpIsobar()
    {
        const int segments = 60;
        const double bubble = 110;
        const double dew = 250;
        double[] temperature = new double[segments + 1];
        double[] enthalpy = new double[segments + 1];
        double[] entropy = new double[segments + 1];
        double[] slopeAtStart = new double[segments];
        double[] slopeAtEnd = new double[segments];
        var region = new PhaseRegion[segments];
        for (int i = 0; i <= segments; i++)
        {
            // 10 segments of liquid, 40 of boiling, 10 of vapour: both phase boundaries are nodes.
            temperature[i] = i <= 10 ? 80 + (i * 3.0) : i <= 50 ? bubble + ((i - 10) * 3.5) : dew + ((i - 50) * 5.0);
        }

        for (int i = 0; i < segments; i++)
        {
            region[i] = i < 10 ? PhaseRegion.Liquid : i < 50 ? PhaseRegion.LiquidVapor : PhaseRegion.Vapor;
            double width = temperature[i + 1] - temperature[i];
            slopeAtStart[i] = HeatCapacity(region[i], temperature[i]);
            slopeAtEnd[i] = HeatCapacity(region[i], temperature[i + 1]);
            double middle = HeatCapacity(region[i], temperature[i] + (0.5 * width));
            double rise = width * (slopeAtStart[i] + (4 * middle) + slopeAtEnd[i]) / 6;
            enthalpy[i + 1] = enthalpy[i] + rise;
            entropy[i + 1] = entropy[i] + (rise / (temperature[i] + (0.5 * width)));
        }

        return new IsobarTable(1.5e5, temperature, enthalpy, entropy, slopeAtStart, slopeAtEnd, region);
    }

    private static double HeatCapacity(PhaseRegion region, double t) => region switch
    {
        PhaseRegion.Liquid => 70 + (0.1 * (t - 80)),
        PhaseRegion.LiquidVapor => 110 + (60 * Math.Exp(-Math.Pow((t - 170) / 40, 2))),
        _ => 45 + (0.02 * (t - 250)),
    };
}
