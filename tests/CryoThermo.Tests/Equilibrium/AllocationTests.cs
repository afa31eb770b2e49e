using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

/// <summary>The kernels work on the caller's stack: not one byte on the heap, whatever the number of components.</summary>
public sealed class AllocationTests
{
    public static TheoryData<string> Names => ["one", "two", "four", "twenty-five", "quantum-corrected"];

    [Theory]
    [MemberData(nameof(Names))]
    public void KernelsAllocateNothing(string name)
    {
        WorkingFluid fluid = name switch
        {
            "one" => WorkingFluid.Pure("methane"),
            "two" => Blends.NitrogenEthane,
            "four" => Blends.Wide,
            "quantum-corrected" => Blends.NeonNitrogen.WithModel(FluidModel.PengRobinsonQuantumCorrected),
            _ => Blends.TwentyFive,
        };
        MixtureKernel kernel = fluid.Kernel.Equation;
        double[] z = fluid.Fractions();
        int n = z.Length;
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[n];
        double[] light = new double[n];
        double[] heavy = new double[n];
        double[] middle = new double[n];
        double[] byAmount = new double[n * n];
        double[] byT = new double[n];
        double[] byP = new double[n];

        Nothing(() =>
        {
            kernel.SetTemperature(120, scratch);
            kernel.LnFugacityCoefficients(120, 1e6, z, DensityRoot.Stable, scratch, lnPhi, out _);
            kernel.LnFugacityDerivatives(120, 1e6, z, DensityRoot.Liquid, scratch, lnPhi, byAmount, byT, byP, out _);
            kernel.Residual(120, 1e6, z, DensityRoot.Vapor, scratch, out _);
        });
        Nothing(() =>
        {
            for (int i = 0; i < 4; i++)
            {
                PhaseSplit split = new(light, middle, heavy);
                IsothermalFlash.Solve(kernel, 90 + (40 * i), 1e6, z, scratch, ref split);
            }
        });
        Nothing(() =>
        {
            PureSaturation.TryPressure(kernel, 0, 100, scratch, out _, out _, out _);
            PureSaturation.TryTemperature(kernel, 0, 1e5, scratch, out _, out _, out _);
        });
        Nothing(() =>
        {
            double t = 150;
            double p = 1e6;
            IncipientPoint.TryFind(kernel, z, true, IncipientPoint.Unknown.Temperature, ref t, ref p, scratch, light, out _);
            IncipientPoint.TryFind(kernel, z, false, IncipientPoint.Unknown.Temperature, ref t, ref p, scratch, light, out _);
        });
        Nothing(() =>
        {
            PhaseSplit split = new(light, middle, heavy);
            fluid.Kernel.Flash(150, 1e6, z, scratch, ref split);
        });
    }

    [Fact]
    public void AnAllocationWouldBeSeen() =>
        Assert.NotEqual(0, Allocated(static () => GC.KeepAlive(new object())));

    private static void Nothing(Action action) => Assert.Equal(0, Allocated(action));

    private static long Allocated(Action action)
    {
        action();
        action();
        long before = GC.GetAllocatedBytesForCurrentThread();
        action();
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}
