using BenchmarkDotNet.Attributes;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Benchmarks;

/// <summary>
/// The five-component blend under the multi-fluid model of ISO 20765-2: ln f at (T, rho, x) as in benchmarks/native, ln phi at (T, p, x), flashes,
/// a whole isobar.
/// </summary>
[MemoryDiagnoser]
public class MultiFluidBenchmarks
{
    // The sum over the states that the yardstick prints.
    private const double YardstickSum = 37012355.3772;

    private const int States = FiveComponentBlend.States;
    private readonly WorkingFluid blend = WorkingFluid.Mixture(
        ("nitrogen", 0.30), ("methane", 0.30), ("ethane", 0.15), ("propane", 0.15), ("isobutane", 0.10)).WithModel(FluidModel.MultiFluid);

    private readonly double[] lnPhi = new double[5];
    private readonly double[] byAmount = new double[25];
    private readonly double[] light = new double[5];
    private readonly double[] middle = new double[5];
    private readonly double[] heavy = new double[5];
    private readonly double[] densities = new double[States];
    private MixtureKernel mixture = null!;
    private double[] scratch = null!;
    private double[][] compositions = null!;
    private double[] temperatures = null!;

    /// <summary>Makes the states and compares the yardstick's sum.</summary>
    [GlobalSetup]
    public void Setup()
    {
        mixture = blend.Kernel.Equation;
        scratch = new double[mixture.ScratchLength];
        (compositions, temperatures) = FiveComponentBlend.CreateStates();
        for (int k = 0; k < States; k++)
        {
            densities[k] = 10 + (17990.0 * ((37 * k) % States) / (States - 1));
        }

        double sum = LnFugacityAtDensity();
        if (!(Math.Abs((sum / YardstickSum) - 1) < 1e-10))
        {
            throw new InvalidOperationException($"The sum is {sum:R}, that of the yardstick {YardstickSum:R}.");
        }

        mixture.SetTemperature(180, scratch);
    }

    /// <summary>ln f of every component at (T, rho, x), all three new each time; the yardstick's case.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double LnFugacityAtDensity()
    {
        double sum = 0;
        for (int k = 0; k < States; k++)
        {
            mixture.SetTemperature(temperatures[k], scratch);
            mixture.LnFugacityAtDensity(temperatures[k], densities[k], compositions[k], scratch, lnPhi);
            sum += lnPhi[0] + lnPhi[1] + lnPhi[2] + lnPhi[3] + lnPhi[4];
        }

        mixture.SetTemperature(180, scratch);
        return sum;
    }

    /// <summary>ln phi at (T, p, x), vapour root at 180 K.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double VaporRoot() => Sum(DensityRoot.Vapor);

    /// <summary>ln phi at (T, p, x), liquid root at 180 K.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double LiquidRoot() => Sum(DensityRoot.Liquid);

    /// <summary>ln phi at (T, p, x), the root with the lower Gibbs energy at 180 K.</summary>
    [Benchmark(OperationsPerInvoke = States)]
    public double StableRoot() => Sum(DensityRoot.Stable);

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

        mixture.SetTemperature(180, scratch);
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

        mixture.SetTemperature(180, scratch);
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

        mixture.SetTemperature(180, scratch);
        return sum;
    }

    /// <summary>An isobar from 70 to 310 K within its error bound.</summary>
    [Benchmark]
    public object WholeIsobar() => blend.Isobar(Pressure.FromBars(15), Temperature.FromKelvins(70), Temperature.FromKelvins(310));

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
