using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

/// <summary>A flash result outside the caller's stack, with its fugacities recomputed.</summary>
internal sealed record FlashAnswer(
    int PhaseCount,
    bool StillUnstable,
    double LightFraction,
    double MiddleFraction,
    double HeavyFraction,
    double[] Light,
    double[] Middle,
    double[] Heavy,
    double LightDensity,
    double HeavyDensity,
    DensityRoot LightRoot,
    DensityRoot MiddleRoot,
    DensityRoot HeavyRoot,
    bool LightIsVapor)
{
    public static FlashAnswer Of(MixtureKernel kernel, double t, double p, double[] z)
    {
        double[] light = new double[z.Length];
        double[] heavy = new double[z.Length];
        double[] middle = new double[z.Length];
        PhaseSplit split = new(light, middle, heavy);
        IsothermalFlash.Solve(kernel, t, p, z, new double[kernel.ScratchLength], ref split);
        return new(
            split.PhaseCount,
            split.StillUnstable,
            split.LightFraction,
            split.PhaseCount == 3 ? split.MiddleFraction : 0,
            split.HeavyFraction,
            light,
            middle,
            heavy,
            split.LightDensity,
            split.HeavyDensity,
            split.LightRoot,
            split.MiddleRoot,
            split.HeavyRoot,
            split.LightIsVapor);
    }

    /// <summary>Largest difference of ln fugacity between the phases, from the compositions alone.</summary>
    public double FugacityDifference(MixtureKernel kernel, double t, double p)
    {
        double[] first = LnFugacity(kernel, t, p, Light, LightRoot);
        double[] second = LnFugacity(kernel, t, p, Heavy, HeavyRoot);
        double difference = first.Zip(second, (a, b) => double.IsNaN(a) ? 0 : Math.Abs(a - b)).Max();
        return PhaseCount < 3
            ? difference
            : Math.Max(difference, first.Zip(LnFugacity(kernel, t, p, Middle, MiddleRoot), (a, b) => double.IsNaN(a) ? 0 : Math.Abs(a - b)).Max());
    }

    /// <summary>ln(x phi); NaN for a component that is not there.</summary>
    public static double[] LnFugacity(MixtureKernel kernel, double t, double p, double[] x, DensityRoot root)
    {
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[x.Length];
        kernel.SetTemperature(t, scratch);
        kernel.LnFugacityCoefficients(t, p, x, root, scratch, lnPhi, out _);
        return [.. lnPhi.Select((value, i) => x[i] > 0 ? value + Math.Log(x[i]) : double.NaN)];
    }
}
