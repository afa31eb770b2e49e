using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

/// <summary>The analysis against a scan over every composition, which needs no starts and no iteration.</summary>
public sealed class StabilityAnalysisTests
{
    public static TheoryData<string, string> Pairs => new()
    {
        { "nitrogen", "ethane" }, { "nitrogen", "methane" }, { "methane", "propane" }, { "carbon dioxide", "ethane" }, { "neon", "nitrogen" },
        { "methane", "n-hexane" }, { "argon", "oxygen" }, { "methane", "tetrafluoromethane" },
    };

    [Theory]
    [MemberData(nameof(Pairs))]
    public void BinariesAgreeWithAScan(string first, string second)
    {
        MixtureKernel kernel = WorkingFluid.Mixture((first, 0.5), (second, 0.5)).WithModel(FluidModel.PengRobinson).Kernel.Equation;
        Random random = new(51);
        List<double[]> grid = [];
        for (int i = 1; i < 200; i++)
        {
            double x = 0.5 * (1 - Math.Cos(Math.PI * i / 200));
            grid.Add([x, 1 - x]);
        }

        int unstable = Compare(kernel, grid, random, 2, 120);

        // Argon and oxygen boil almost together: few states fall between bubble and dew line.
        Assert.InRange(unstable, first == "argon" ? 2 : 10, 119);
    }

    [Fact]
    public void TernaryLiquidsAgreeWithAScan()
    {
        // Pure-component and ideal starts alone miss the second liquid here (design notes of this library).
        MixtureKernel kernel = WorkingFluid.Mixture(("nitrogen", 0.4), ("methane", 0.3), ("ethane", 0.3)).Kernel.Equation;
        List<double[]> grid = [];
        for (int i = 1; i < 40; i++)
        {
            for (int j = 1; i + j < 40; j++)
            {
                grid.Add([i / 40.0, j / 40.0, (40 - i - j) / 40.0]);
            }
        }

        Random random = new(52);
        int unstable = 0;
        for (int k = 0; k < 60; k++)
        {
            unstable += CompareAt(kernel, grid, RandomFractions(random, 3), 117 + (8 * random.NextDouble()), 1e5 * (5 + (35 * random.NextDouble()))) ? 1 : 0;
        }

        Assert.InRange(unstable, 10, 59);
    }

    private static int Compare(MixtureKernel kernel, List<double[]> grid, Random random, int n, int cases)
    {
        int unstable = 0;
        double heaviest = Math.Max(kernel.CriticalTemperature(0), kernel.CriticalTemperature(1));
        for (int k = 0; k < cases; k++)
        {
            double t = heaviest * (0.3 + (0.75 * random.NextDouble()));

            // From somewhat below the lower to somewhat above the higher of the two vapour pressures, as estimated.
            double[] lnVaporPressure = new double[n];
            kernel.EstimateLnK(t, 1, lnVaporPressure);
            double low = lnVaporPressure.Min() - 0.1;
            double p = Math.Exp(Math.Clamp(low + ((lnVaporPressure.Max() + 0.1 - low) * random.NextDouble()), Math.Log(1e3), Math.Log(2e7)));
            unstable += CompareAt(kernel, grid, RandomFractions(random, n), t, p) ? 1 : 0;
        }

        return unstable;
    }

    [Fact]
    public void OxygenLeavesColdPentane()
    {
        // Met on an isobar: from both sides phases were followed to where a flash saw none of them.
        WorkingFluid fluid = WorkingFluid.Mixture(("argon", 1.31e-6), ("oxygen", 1.64e-5), ("ethane", 0.3626), ("n-pentane", 1 - 0.3626 - 1.771e-5)).WithModel(FluidModel.MultiFluid);
        foreach (double t in (double[])[120, 130, 135.4, 140])
        {
            State state = fluid.At(UnitsNet.Temperature.FromKelvins(t), UnitsNet.Pressure.FromBars(1.1797));
            Assert.Equal(2, state.Phases.Count);
            Assert.InRange(state.Phases[0].Composition["oxygen"], 0.85, 0.95);
        }
    }

    public static TheoryData<string> ModelNames => new() { "Peng-Robinson", "multi-fluid" };

    /// <summary>
    /// Traces of permanent gases in cold heavy liquids leave them as a gas of a few parts in a million, which neither ideal K values nor a
    /// liquid-like pure component lead to. Judged by substitution from the pure gas.
    /// </summary>
    [Theory]
    [MemberData(nameof(ModelNames))]
    public void GasesOfTracesAreSeen(string model)
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", 0.25), ("oxygen", 0.25), ("ethane", 0.25), ("n-pentane", 0.25))
            .WithModel(model == "multi-fluid" ? FluidModel.MultiFluid : FluidModel.PengRobinson);
        MixtureKernel kernel = fluid.Kernel.Equation;
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[4];
        double[] trial = new double[4];
        Random random = new(52);
        int seen = 0;
        for (int k = 0; k < 400; k++)
        {
            double t = 95 + (50 * random.NextDouble());
            double p = Math.Pow(10, 4.5 + (1.3 * random.NextDouble()));
            double ethane = 0.1 + (0.8 * random.NextDouble());
            double[] z = [Math.Pow(10, -6 + (5 * random.NextDouble())), Math.Pow(10, -6 + (5 * random.NextDouble())), 0.89 * ethane, 0];
            z[3] = 1 - z[0] - z[1] - z[2];
            kernel.SetTemperature(t, scratch);
            double density = kernel.LnFugacityCoefficients(t, p, z, DensityRoot.Stable, scratch, lnPhi, out _);
            double[] d = [.. lnPhi.Select((v, i) => v + Math.Log(z[i]))];
            double sum = Math.Max(GasOf(0), GasOf(1));
            bool found = StabilityAnalysis.FindUnstable(kernel, t, p, new TestedPhases(d, z, density), scratch, trial, out _, out _, thorough: false);
            Assert.True(found || sum < 1 + 1e-6, $"a gas with a sum of {sum:G6} is missed at {t:R} K, {p:R} Pa, z = {string.Join(" ", z)}");
            seen += found ? 1 : 0;

            // Sum of the amounts of the gas that substitution from the pure component leads to; above 1 it lies below the tangent plane.
            double GasOf(int pure)
            {
                double[] y = new double[4];
                y[pure] = 1;
                double total = 0;
                for (int step = 0; step < 60; step++)
                {
                    double[] own = new double[4];
                    double thin = kernel.LnFugacityCoefficients(t, p, y, DensityRoot.Vapor, scratch, own, out _);
                    if (kernel.ReducedVolume(thin, y) < 1)
                    {
                        return 0;
                    }

                    double[] w = [.. d.Select((v, i) => Math.Exp(v - own[i]))];
                    total = w.Sum();
                    y = [.. w.Select(v => v / total)];
                }

                return total;
            }
        }

        Assert.InRange(seen, 25, 375);
    }

    private static bool CompareAt(MixtureKernel kernel, List<double[]> grid, double[] z, double t, double p)
    {
        int n = z.Length;
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[n];
        kernel.SetTemperature(t, scratch);
        double density = kernel.LnFugacityCoefficients(t, p, z, DensityRoot.Stable, scratch, lnPhi, out _);
        double[] d = [.. lnPhi.Select((v, i) => v + Math.Log(z[i]))];
        double[] trial = new double[n];
        bool found = StabilityAnalysis.FindUnstable(kernel, t, p, new TestedPhases(d, z, density), scratch, trial, out DensityRoot root, out double distance, thorough: true);

        double least = grid.Min(x => PlaneDistance(kernel, t, p, x, DensityRoot.Stable, d, scratch));

        // A grid point clearly below the tangent plane proves instability; 1e-9 is far above rounding of ln phi (1e-12).
        if (least < -1e-9)
        {
            Assert.True(found, $"a scan finds {least:G3} below the plane at {t:R} K, {p:R} Pa, z = {string.Join(" ", z)}");

            // A minimum of tm is 1 - exp(-tpd) at its own distance tpd, which cannot lie above the scan's. The analysis stops
            // early once tm is below -0.05: clearly unstable, and no better start is needed.
            Assert.True(distance < 1e-12 + Math.Max(-0.05, 1 - Math.Exp(-least)), $"distance {distance:G5} is not below the scan's {least:G5} at {t:R} K, {p:R} Pa");
        }

        if (found)
        {
            double recomputed = PlaneDistance(kernel, t, p, trial, root, d, scratch);
            Assert.True(recomputed < 0, $"the trial phase lies {recomputed:G3} above the plane at {t:R} K, {p:R} Pa");
            Assert.Equal(1, trial.Sum(), 1e-12);
        }

        return found;
    }

    private static double PlaneDistance(MixtureKernel kernel, double t, double p, double[] x, DensityRoot root, double[] d, double[] scratch)
    {
        double[] lnPhi = new double[x.Length];
        kernel.LnFugacityCoefficients(t, p, x, root, scratch, lnPhi, out _);
        double sum = 0;
        for (int i = 0; i < x.Length; i++)
        {
            sum += x[i] > 0 ? x[i] * (Math.Log(x[i]) + lnPhi[i] - d[i]) : 0;
        }

        return sum;
    }

    private static double[] RandomFractions(Random random, int n)
    {
        double[] z = [.. Enumerable.Range(0, n).Select(_ => 0.02 + random.NextDouble())];
        double sum = z.Sum();
        return [.. z.Select(v => v / sum)];
    }
}
