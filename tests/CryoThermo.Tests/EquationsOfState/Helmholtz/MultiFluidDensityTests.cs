using CryoThermo.EquationsOfState;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

/// <summary>
/// Long equations have rising stretches between the outermost spinodals whose roots may have by far the lowest Gibbs energy: a density root
/// must lie on an outermost stretch. Compared with a scan of the isotherm.
/// </summary>
public sealed class MultiFluidDensityTests
{
    [Theory]
    [InlineData(false, 51)]
    [InlineData(true, 52)]
    public void EveryRootLiesOnAnOutermostRisingStretch(bool withFurther, int seed)
    {
        Random random = new(seed);
        int loops = 0;
        int looked = 0;
        List<string> misses = [];
        for (int k = 0; k < 150; k++)
        {
            SampleMixture sample = SampleMixture.Random(random, withFurther);
            double highest = 0.95 * sample.ReducingTemperature;
            double lowest = Math.Min(highest, sample.IsContinued ? 40 : 60);
            double t = lowest + ((highest - lowest) * random.NextDouble());
            IsothermScan scan = new(sample, t);
            loops += scan.HasLoopBetween ? 1 : 0;
            for (int m = 0; m < 8; m++)
            {
                double p = Math.Pow(10, 1 + (6.8 * random.NextDouble()));
                if (p > scan.HighestPressure || IsNearALimit(scan, p))
                {
                    continue;
                }

                foreach (DensityRoot root in Enum.GetValues<DensityRoot>())
                {
                    looked++;
                    string? miss = Judge(scan, p, root, Found(sample, t, p, root));
                    if (miss is not null)
                    {
                        misses.Add($"{miss}; {root} at {t:R} K, {p:R} Pa of {sample}");
                    }
                }
            }
        }

        Assert.True(misses.Count == 0, $"{misses.Count} of {looked}:\n" + string.Join("\n", misses.Take(20)));
        Assert.True(looked > 2000, $"{looked} roots looked at");
        Assert.True(loops > 30, $"{loops} isotherms with a loop between");
    }

    [Fact]
    public void APlantedRootOfALoopBetweenIsNoticed()
    {
        Random random = new(53);
        int planted = 0;
        for (int k = 0; k < 60 && planted < 10; k++)
        {
            SampleMixture sample = SampleMixture.Random(random, withFurther: false);
            double t = Math.Max(60, 0.6 * sample.ReducingTemperature);
            IsothermScan scan = new(sample, t);
            const double P = 1e5;
            if (!IsNearALimit(scan, P) && scan.RootBetween(P) is { } wrong)
            {
                planted++;
                foreach (DensityRoot root in Enum.GetValues<DensityRoot>())
                {
                    Assert.NotNull(Judge(scan, P, root, wrong));
                }
            }
        }

        Assert.True(planted >= 5, $"{planted} planted");
    }

    // Where a stretch ends within the width of the grid it is not told whether it holds the pressure.
    private static bool IsNearALimit(IsothermScan scan, double p) =>
        !scan.RisesEverywhere && (Math.Abs(p - scan.VaporLimit) < 1e-3 * p || Math.Abs(p - scan.LiquidLimit) < 1e-2 * (p + Math.Abs(scan.LiquidLimit)));

    private static double Found(SampleMixture sample, double t, double p, DensityRoot root)
    {
        sample.Kernel.SetTemperature(t, sample.Scratch);
        try
        {
            return sample.Kernel.Residual(t, p, sample.X, root, sample.Scratch, out _).MolarDensity;
        }
        catch (ArgumentOutOfRangeException)
        {
            return double.NaN;
        }
    }

    private static string? Judge(IsothermScan scan, double p, DensityRoot root, double found)
    {
        double? vapor = scan.VaporRoot(p);
        double? liquid = scan.LiquidRoot(p);
        double? expected = root switch
        {
            DensityRoot.Vapor => vapor ?? liquid,
            DensityRoot.Liquid => liquid ?? vapor,
            _ when vapor is { } v && liquid is { } l => scan.Gibbs(l, p) < scan.Gibbs(v, p) ? l : v,
            _ => vapor ?? liquid,
        };

        // Without a root on either stretch the state must be refused.
        if (expected is not { } right)
        {
            return double.IsNaN(found) ? null : $"{found:R} mol/m3 where neither stretch reaches (limits {scan.VaporLimit:G6} and {scan.LiquidLimit:G6} Pa)";
        }

        return Math.Abs((found / right) - 1) < 1e-6
            ? null
            : $"{found:R} mol/m3 instead of {right:R} (vapour {vapor:R}, liquid {liquid:R}, limits {scan.VaporLimit:G6} and {scan.LiquidLimit:G6} Pa)";
    }
}
