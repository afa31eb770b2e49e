using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

public sealed class CubicMixtureTests
{
    /// <summary>
    /// Derivatives at constant pressure divide by dp/dv: rounding grows with R T/(v^2 |dp/dv|), without bound at a spinodal.
    /// States beyond this factor are left out of the comparison and counted.
    /// </summary>
    private const double LargestCondition = 100;

    /// <summary>Ten times better than asked for; the terms are at most some hundreds in size, the condition at most 100.</summary>
    private const double Tolerance = 1e-10;

    [Theory]
    [InlineData(false, false, false)]
    [InlineData(true, false, false)]
    [InlineData(false, true, false)]
    [InlineData(true, true, false)]
    [InlineData(true, false, true)]
    [InlineData(false, true, true)]
    public void EveryDerivativeIsThatOfThePlainHelmholtzEnergy(bool shifted, bool quantum, bool sloped)
    {
        Random random = new((shifted ? 21 : 22) + (quantum ? 100 : 0) + (sloped ? 1000 : 0));
        int compared = 0;
        int leftOut = 0;
        for (int k = 0; k < 200; k++)
        {
            SampleCubics sample = SampleCubics.Random(random, shifted, quantum, sloped);
            double t = TemperatureFor(sample, random);
            double p = Math.Pow(10, -3 + (11 * random.NextDouble()));
            DensityRoot root = (DensityRoot)random.Next(3);
            if (Compare(sample, t, p, root))
            {
                compared++;
            }
            else
            {
                leftOut++;
            }
        }

        Assert.True(leftOut < 0.05 * compared, $"{leftOut} left out, {compared} compared");
    }

    [Theory]
    [InlineData(false, false)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    [InlineData(true, true)]
    public void SumOfLnPhiIsTheResidualGibbsEnergyAndGibbsDuhemHolds(bool quantum, bool sloped)
    {
        Random random = new((quantum ? 123 : 23) + (sloped ? 1000 : 0));
        for (int k = 0; k < 2000; k++)
        {
            SampleCubics sample = SampleCubics.Random(random, shifted: k % 2 == 0, quantum, sloped);
            double t = TemperatureFor(sample, random);
            double p = Math.Pow(10, -3 + (11 * random.NextDouble()));
            DensityRoot root = (DensityRoot)random.Next(3);
            int n = sample.X.Length;
            double[] scratch = new double[sample.Kernel.ScratchLength];
            double[] lnPhi = new double[n];
            double[] again = new double[n];
            double[] byAmount = new double[n * n];
            double[] byT = new double[n];
            double[] byP = new double[n];
            sample.Kernel.SetTemperature(t, scratch);
            double density = sample.Kernel.LnFugacityCoefficients(t, p, sample.X, root, scratch, lnPhi, out DensityRoot found);
            double same = sample.Kernel.LnFugacityDerivatives(t, p, sample.X, root, scratch, again, byAmount, byT, byP, out DensityRoot foundAgain);
            ResidualProperties residual = sample.Kernel.Residual(t, p, sample.X, root, scratch, out DensityRoot foundResidual);
            double rt = PlainCubic.R * t;
            Assert.Equal(found, foundAgain);
            Assert.Equal(found, foundResidual);
            Assert.Equal(1, same / density, 1e-14);
            Assert.Equal(1, residual.MolarDensity / density, 1e-14);
            double gibbs = 0;
            for (int i = 0; i < n; i++)
            {
                gibbs += sample.X[i] * lnPhi[i];
                Assert.Equal(lnPhi[i], again[i], 1e-11 * (1 + Math.Abs(lnPhi[i])));
            }

            // Residual enthalpy and T times residual entropy are each up to some tens of R T, as ln phi is.
            Assert.Equal(gibbs, (residual.Enthalpy - (t * residual.Entropy)) / rt, 1e-10);
            double largest = byAmount.Max(Math.Abs);
            double byPressureSum = 0;
            double byTemperatureSum = 0;
            for (int j = 0; j < n; j++)
            {
                double sum = 0;
                for (int i = 0; i < n; i++)
                {
                    sum += sample.X[i] * byAmount[(i * n) + j];
                    Assert.Equal(byAmount[(j * n) + i], byAmount[(i * n) + j]);
                }

                Assert.Equal(0, sum, 1e-10 * (1 + largest));
                byPressureSum += sample.X[j] * byP[j] * p;
                byTemperatureSum += sample.X[j] * byT[j] * t;
            }

            // The sum rules over pressure and temperature: residual volume and enthalpy.
            Assert.Equal((p / (rt * density)) - 1, byPressureSum, 1e-10 * (1 + Math.Abs(byPressureSum)));
            Assert.Equal(-residual.Enthalpy / rt, byTemperatureSum, 1e-10 * (1 + Math.Abs(byTemperatureSum)));
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void PressureOfTheSolvedDensityIsTheGivenOne(bool quantum)
    {
        Random random = new(quantum ? 124 : 24);
        for (int k = 0; k < 2000; k++)
        {
            SampleCubics sample = SampleCubics.Random(random, shifted: true, quantum);
            double t = 25 + (400 * random.NextDouble());
            double p = Math.Pow(10, -3 + (11 * random.NextDouble()));
            double[] scratch = new double[sample.Kernel.ScratchLength];
            sample.Kernel.SetTemperature(t, scratch);
            double density = sample.Kernel.LnFugacityCoefficients(t, p, sample.X, (DensityRoot)random.Next(3), scratch, new double[sample.X.Length], out _);
            double back = sample.Kernel.Pressure(t, density, sample.X, scratch, out double slope);

            // One rounding of the density moves the pressure of a liquid by its bulk modulus times 1e-16; a dozen are allowed.
            double modulus = Math.Abs(slope) / density;
            Assert.InRange(Math.Abs(back - p), 0, (2e-14 * modulus) + (1e-12 * p) + (1e-14 * density * PlainCubic.R * t * 100));
            Assert.True(density < sample.Kernel.DensityLimit(sample.X, scratch));
            double step = 1e-6 * density;
            double high = sample.Kernel.Pressure(t, density + step, sample.X, scratch, out _);
            double low = sample.Kernel.Pressure(t, density - step, sample.X, scratch, out _);
            double byVolume = -(high - low) / (2 * step) * density * density;

            // Central difference: third derivatives leave 1e-10 or so, rounding of the pressure 1e-16/1e-6.
            Assert.Equal(slope, byVolume, (1e-6 * Math.Abs(slope)) + (1e-8 * density * density * PlainCubic.R * t));
        }
    }

    [Fact]
    public void TranslationMovesDensityAndLnPhiByTheWorkOfTheShift()
    {
        Random random = new(25);
        for (int k = 0; k < 300; k++)
        {
            int seed = random.Next();
            SampleCubics shifted = SampleCubics.Random(new Random(seed), shifted: true);
            CryoThermo.EquationsOfState.Cubic.CubicComponent[] plain = [.. shifted.Components.Select(c => c with { VolumeShift = 0 })];
            double[] kij = new double[plain.Length * plain.Length];
            var form = k % 2 == 0 ? CryoThermo.EquationsOfState.Cubic.CubicForm.PengRobinson : CryoThermo.EquationsOfState.Cubic.CubicForm.SoaveRedlichKwong;
            CryoThermo.EquationsOfState.Cubic.CubicMixture with = new(form, shifted.Components, kij);
            CryoThermo.EquationsOfState.Cubic.CubicMixture without = new(form, plain, kij);
            double t = 40 + (300 * random.NextDouble());
            double p = Math.Pow(10, 2 + (6 * random.NextDouble()));
            double[] scratch = new double[with.ScratchLength];
            double[] lnPhi = new double[plain.Length];
            double[] lnPhiWithout = new double[plain.Length];
            with.SetTemperature(t, scratch);
            double density = with.LnFugacityCoefficients(t, p, shifted.X, DensityRoot.Liquid, scratch, lnPhi, out _);
            ResidualProperties residual = with.Residual(t, p, shifted.X, DensityRoot.Liquid, scratch, out _);
            double densityWithout = without.LnFugacityCoefficients(t, p, shifted.X, DensityRoot.Liquid, scratch, lnPhiWithout, out _);
            ResidualProperties residualWithout = without.Residual(t, p, shifted.X, DensityRoot.Liquid, scratch, out _);
            double shift = 0;
            for (int i = 0; i < plain.Length; i++)
            {
                double c = shifted.Components[i].VolumeShift;
                shift += shifted.X[i] * c;
                Assert.Equal(lnPhiWithout[i] - (p * c / (PlainCubic.R * t)), lnPhi[i], 1e-12 * (1 + Math.Abs(lnPhi[i])));
            }

            Assert.Equal((1 / densityWithout) - shift, 1 / density, 1e-13 / density);
            Assert.Equal(residualWithout.Enthalpy - (p * shift), residual.Enthalpy, 1e-10);
            Assert.Equal(residualWithout.Entropy, residual.Entropy, 1e-12);
            Assert.Equal(residualWithout.IsobaricHeatCapacity, residual.IsobaricHeatCapacity, 1e-12);
        }
    }

    [Theory]
    [InlineData(false, false)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void VirialCoefficientsAreTheLimitsOfTheCompressibilityFactor(bool quantum, bool sloped)
    {
        Random random = new((quantum ? 126 : 26) + (sloped ? 1000 : 0));
        for (int k = 0; k < 300; k++)
        {
            SampleCubics sample = SampleCubics.Random(random, shifted: k % 2 == 0, quantum, sloped);
            double t = Math.Max(40 + (360 * random.NextDouble()), sloped ? sample.Kernel.LowestTemperature : 0);
            double[] scratch = new double[sample.Kernel.ScratchLength];
            sample.Kernel.SetTemperature(t, scratch);
            sample.Kernel.Virials(t, sample.X, scratch, out double second, out double secondByTemperature, out double third);

            // Z = 1 + B rho + C rho^2 + D rho^3, differentiated by dual numbers; the volume of the unshifted cubic is v + c.
            Dual<Dual<Real>>[] x = [.. sample.X.Select(f => Seed.Mixed(f, false, false))];
            Dual<Dual<Real>> shift = Seed.Mixed(sample.X.Zip(sample.Components, (f, c) => f * c.VolumeShift).Sum(), false, false);
            Dual<Dual<Real>> rho = Seed.Twice(0.1);
            Dual<Dual<Real>> constantT = Seed.Mixed(t, false, false);
            Dual<Dual<Real>> volume = (Dual<Dual<Real>>.Of(1) / rho) + shift;
            Dual<Dual<Real>> z = sample.Plain.Pressure(constantT, volume, x) / (rho * Dual<Dual<Real>>.Of(PlainCubic.R) * constantT);

            // At 0.1 mol/m3 what D leaves is 0.03 D of B, D about the cube of a molar volume, 1e-12 to 1e-11.
            double scale = Math.Abs(second) + 1e-5;
            Assert.Equal(second, z.First() - (0.2 * third), 1e-8 * scale);

            // Half the second derivative is C + 3 D rho + ..., with rounding that falls with the square of the density: from two higher ones, without D.
            Assert.Equal(third, (2 * ThirdAt(1)) - ThirdAt(2), 1e-4 * (Math.Abs(third) + (scale * scale)));

            // d2Z/(drho dT) = dB/dT + 2 rho dC/dT + ...: from two densities without the second term.
            double slope = (2 * MixedAt(0.01)) - MixedAt(0.02);
            Assert.Equal(slope * t, secondByTemperature * t, 1e-8 * scale);

            double ThirdAt(double density)
            {
                Dual<Dual<Real>> twice = Seed.Twice(density);
                return 0.5 * (sample.Plain.Pressure(constantT, (Dual<Dual<Real>>.Of(1) / twice) + shift, x) / (twice * Dual<Dual<Real>>.Of(PlainCubic.R) * constantT)).Second();
            }

            double MixedAt(double density)
            {
                Dual<Dual<Real>> variableRho = Seed.Mixed(density, true, false);
                Dual<Dual<Real>> variableT = Seed.Mixed(t, false, true);
                return (sample.Plain.Pressure(variableT, (Dual<Dual<Real>>.Of(1) / variableRho) + shift, x)
                    / (variableRho * Dual<Dual<Real>>.Of(PlainCubic.R) * variableT)).Second();
            }
        }
    }

    [Fact]
    public void WithoutCoefficientsTheKernelIsTheOneWithConstantParameters()
    {
        Random random = new(31);
        SampleCubics sample = SampleCubics.Random(random, shifted: true);
        int n = sample.Components.Length;
        CubicMixture constant = new(CubicForm.PengRobinson, sample.Components, new double[n * n]);
        CubicMixture zero = new(CubicForm.PengRobinson, sample.Components, new double[n * n], inverseTemperatureCoefficients: new double[n * n]);
        Assert.Equal(5 * n, constant.ScratchLength);
        Assert.Equal(5 * n, zero.ScratchLength);
        Assert.Equal(10, zero.LowestTemperature);
        double[] slopes = new double[n * n];
        Assert.True(n > 1);
        slopes[1] = slopes[n] = 0.1;
        Assert.Equal((5 * n) + (2 * n * n), new CubicMixture(CubicForm.PengRobinson, sample.Components, new double[n * n], inverseTemperatureCoefficients: slopes).ScratchLength);
    }

    /// <summary>The range ends where k + c (298.15 K/T - 1) is 1 or -1: solved by hand for each row.</summary>
    [Theory]
    [InlineData(0.1, 0.02, 10, 1000)]
    [InlineData(0.1, 0.3, 298.15 / 4, 1000)]
    [InlineData(0.1, -0.5, 298.15 / 3.2, 1000)]
    [InlineData(-0.6, 0.8, 298.15 / 3, 298.15 / 0.5)]
    [InlineData(1, 0.5, 298.15, 1000)]
    public void TheRangeEndsWhereAParameterLeavesMinusOneToOne(double k, double c, double lowest, double highest)
    {
        CubicComponent component = new(200, 4e6, 0.01, TwuGeneralizedAlpha.PengRobinson(200, 0.01), 0);
        CubicMixture kernel = new(CubicForm.PengRobinson, [component, component], [0, k, k, 0], inverseTemperatureCoefficients: [0, c, c, 0]);
        Assert.Equal(lowest, kernel.LowestTemperature, 1e-9);
        Assert.Equal(highest, kernel.HighestTemperature, 1e-9);
        Assert.InRange(Math.Abs(k + (c * ((298.15 / kernel.LowestTemperature) - 1))), 0, 1 + 1e-12);
        Assert.InRange(Math.Abs(k + (c * ((298.15 / kernel.HighestTemperature) - 1))), 0, 1 + 1e-12);
    }

    [Fact]
    public void NothingIsAllocatedWithCoefficients()
    {
        SampleCubics sample;
        Random random = new(33);
        do
        {
            sample = SampleCubics.Random(random, shifted: true, quantum: true, sloped: true);
        }
        while (sample.X.Length < 4);

        int n = sample.X.Length;
        double[] scratch = new double[sample.Kernel.ScratchLength];
        double[] lnPhi = new double[n];
        double[] byAmount = new double[n * n];
        double[] byT = new double[n];
        double[] byP = new double[n];
        double sum = Evaluate(300) + Evaluate(301);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int k = 0; k < 100; k++)
        {
            sum += Evaluate(300 + k);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.True(double.IsFinite(sum));

        double Evaluate(double t)
        {
            sample.Kernel.SetTemperature(t, scratch);
            sample.Kernel.LnFugacityDerivatives(t, 1e5, sample.X, DensityRoot.Stable, scratch, lnPhi, byAmount, byT, byP, out _);
            ResidualProperties residual = sample.Kernel.Residual(t, 1e5, sample.X, DensityRoot.Stable, scratch, out _);
            sample.Kernel.Virials(t, sample.X, scratch, out double second, out _, out _);
            return residual.Enthalpy + second + lnPhi[0];
        }
    }

    // The random temperature of all tests; with a coefficient not colder than the kernel allows.
    private static double TemperatureFor(SampleCubics sample, Random random)
    {
        double t = 25 + (400 * random.NextDouble());
        return sample.Kernel.ScratchLength > 8 * sample.X.Length ? Math.Max(t, sample.Kernel.LowestTemperature) : t;
    }

    private static bool Compare(SampleCubics sample, double t, double p, DensityRoot root)
    {
        int n = sample.X.Length;
        double[] scratch = new double[sample.Kernel.ScratchLength];
        double[] lnPhi = new double[n];
        double[] byAmount = new double[n * n];
        double[] byT = new double[n];
        double[] byP = new double[n];
        sample.Kernel.SetTemperature(t, scratch);
        sample.Kernel.LnFugacityDerivatives(t, p, sample.X, root, scratch, lnPhi, byAmount, byT, byP, out _);
        ResidualProperties residual = sample.Kernel.Residual(t, p, sample.X, root, scratch, out _);
        double shift = sample.X.Zip(sample.Components, (x, c) => x * c.VolumeShift).Sum();
        double start = (1 / residual.MolarDensity) + shift;
        double rt = PlainCubic.R * t;
        Dual<Dual<Real>>[] fixedAmounts = [.. sample.X.Select(x => Seed.Mixed(x, false, false))];
        Dual<Dual<Real>> constantT = Seed.Mixed(t, false, false);
        Dual<Dual<Real>> constantP = Seed.Mixed(p, false, false);

        Real cubicVolume = sample.Plain.Volume(new Real(t), new Real(p), [.. sample.X.Select(x => new Real(x))], start);
        double v = cubicVolume.Value;
        double slope = sample.Plain.Pressure(Seed.Once(t, false), Seed.Once(v), [.. sample.X.Select(x => Seed.Once(x, false))]).Slope.Value;
        double condition = rt / (v * v * Math.Abs(slope));
        if (condition > LargestCondition)
        {
            return false;
        }

        Near(1, residual.MolarDensity * (v - shift), 1, "density");
        Near(slope, residual.PressureByVolume, Math.Abs(slope) + (rt / (v * v)), "dp/dv");
        double byTemperature = sample.Plain.Pressure(Seed.Once(t), Seed.Once(v, false), [.. sample.X.Select(x => Seed.Once(x, false))]).Slope.Value;
        Near(byTemperature, residual.PressureByTemperature, Math.Abs(byTemperature) + (PlainCubic.R / v), "dp/dT");

        // cv from A = R T F at constant volume: cv = -T d2(R T F)/dT2.
        Dual<Dual<Real>> variableT = Seed.Twice(t);
        Dual<Dual<Real>> helmholtz = Dual<Dual<Real>>.Of(PlainCubic.R) * variableT * sample.Plain.Helmholtz(variableT, Seed.Mixed(v, false, false), fixedAmounts);
        Near(-t * helmholtz.Second(), residual.IsochoricHeatCapacity, PlainCubic.R * 10, "cv");

        // Enthalpy, entropy and cp from G = R T g at constant pressure.
        Dual<Dual<Real>> g = sample.Plain.Gibbs(variableT, constantP, fixedAmounts, start);
        Dual<Dual<Real>> gibbs = Dual<Dual<Real>>.Of(PlainCubic.R) * variableT * g;
        Near(-rt * t * g.First(), residual.Enthalpy, rt * 10, "h");
        Near(-gibbs.First(), residual.Entropy, PlainCubic.R * 10, "s");
        Near(-t * gibbs.Second(), residual.IsobaricHeatCapacity, PlainCubic.R * 10, "cp");

        for (int i = 0; i < n; i++)
        {
            Dual<Dual<Real>>[] firstIsI = [.. sample.X.Select((x, k) => Seed.Mixed(x, k == i, false))];
            Dual<Dual<Real>> byIAndT = sample.Plain.Gibbs(Seed.Mixed(t, false, true), constantP, firstIsI, start);
            Dual<Dual<Real>> byIAndP = sample.Plain.Gibbs(constantT, Seed.Mixed(p, false, true), firstIsI, start);
            Near(byIAndT.First(), lnPhi[i], 1, "ln phi");
            Near(byIAndT.Second() * t, byT[i] * t, 10, "d ln phi/dT");
            Near(byIAndP.Second() * p, byP[i] * p, 1, "d ln phi/dp");
            for (int j = 0; j < n; j++)
            {
                Dual<Dual<Real>>[] both = [.. sample.X.Select((x, k) => Seed.Mixed(x, k == i, k == j))];
                Near(sample.Plain.Gibbs(constantT, constantP, both, start).Second(), byAmount[(i * n) + j], 1, "n d ln phi/dn");
            }
        }

        return true;

        void Near(double expected, double actual, double scale, string what) =>
            Assert.True(
                Math.Abs(expected - actual) <= Tolerance * (scale + Math.Abs(expected)),
                $"{what}: {actual:R} is not {expected:R} at {t:R} K, {p:R} Pa, {root}, {n} components, condition {condition:G3}");
    }
}
