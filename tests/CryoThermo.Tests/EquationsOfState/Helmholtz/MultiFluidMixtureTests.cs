using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;
using CryoThermo.Tests.DualNumbers;
using UnitsNet;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

public sealed class MultiFluidMixtureTests
{
    /// <summary>
    /// Derivatives at constant pressure divide by dp/dv: rounding grows with R T/(v^2 |dp/dv|). States beyond this factor are left out of the
    /// comparison and counted.
    /// </summary>
    private const double LargestCondition = 100;

    private const double Tolerance = 1e-9;

    public static TheoryData<string> StandardNames => [.. SampleMixture.Standard.Select(s => s.Name)];

    public static TheoryData<string> FurtherNames => [.. SampleMixture.Further.Select(s => s.Name)];

    [Fact]
    public void TheStandardHas21Components() => Assert.Equal(21, SampleMixture.Standard.Count);

    [Theory]
    [MemberData(nameof(StandardNames))]
    public void AComponentAloneInAMixtureHasItsOwnEquation(string name)
    {
        Random random = new(31);
        Substance component = SubstanceCatalog.Default.Find(name);
        for (int k = 0; k < 12; k++)
        {
            Substance[] others = [.. SampleMixture.Standard.Where(s => s != component).OrderBy(_ => random.Next()).Take(1 + random.Next(6))];
            int place = random.Next(others.Length + 1);
            Substance[] components = [.. others[..place], component, .. others[place..]];
            SampleMixture sample = new(components, [.. components.Select(c => c == component ? 1.0 : 0.0)], isContinued: false);
            HelmholtzEquation equation = sample.Equations[place];
            HelmholtzResidual own = new(equation);
            double temperature = equation.ReducingTemperature * (0.45 + (2 * random.NextDouble()));
            double delta = 3 * random.NextDouble();
            sample.Kernel.SetTemperature(temperature, sample.Scratch);
            MixtureDerivatives found = sample.Kernel.At(temperature, delta * equation.ReducingMolarDensity, sample.X, sample.Scratch);
            double tau = equation.ReducingTemperature / temperature;
            ResidualDerivatives expected = own.At(tau, delta);

            // By logarithms there: each second derivative holds the first.
            double scale = 1 + PlainHelmholtz.Magnitude(equation, tau, delta);
            Near(expected.Alpha, found.Alpha, "alpha");
            Near(expected.ByTau, found.ByTau, "by tau");
            Near(expected.ByDelta, found.ByDelta, "by delta");
            Near(expected.ByTauTau + expected.ByTau, found.ByTauTau, "by tau, tau");
            Near(expected.ByTauDelta, found.ByTauDelta, "by tau, delta");
            Near(expected.ByDeltaDelta + expected.ByDelta, found.ByDeltaDelta, "by delta, delta");

            void Near(double one, double other, string what) =>
                Assert.True(
                    Math.Abs(one - other) <= 1e-12 * (Math.Abs(one) + scale), $"{name}, {temperature:R} K, delta {delta:R}: {what} {other:R} instead of {one:R}");
        }
    }

    [Theory]
    [MemberData(nameof(FurtherNames))]
    public void AFurtherComponentAloneHasItsOwnEquationByTheRatioOfGasConstants(string name)
    {
        WorkingFluid pure = WorkingFluid.Pure(name);
        WorkingFluid mixture = WorkingFluid.Mixture((name, 1), ("methane", 0), ("nitrogen", 0)).WithModel(FluidModel.Recommended);
        HelmholtzEquation equation = pure.Pedigree.Equation!;
        Assert.Same(equation, mixture.Pedigree.ComponentEquations[0]);
        double ratio = equation.GasConstant / PlainMixture.R;
        foreach (double reduced in new[] { 1.15, 1.4 })
        {
            foreach (double delta in new[] { 0.01, 0.4, 1.7 })
            {
                Temperature temperature = Temperature.FromKelvins(reduced * equation.ReducingTemperature);
                Molarity density = Molarity.FromMolesPerCubicMeter(delta * equation.ReducingMolarDensity);
                State one = pure.AtDensity(temperature, density);
                State other = mixture.AtDensity(temperature, density);
                double pressure = other.Pressure.Pascals * ratio;
                Assert.Equal(1, pressure / one.Pressure.Pascals, 1e-9);
                double scale = PlainMixture.R * temperature.Kelvins;
                Assert.Equal(one.MolarEnthalpy.JoulesPerMole, other.MolarEnthalpy.JoulesPerMole * ratio, 1e-9 * (scale + Math.Abs(one.MolarEnthalpy.JoulesPerMole)));
            }
        }
    }

    [Theory]
    [InlineData(false, 41)]
    [InlineData(true, 42)]
    public void EveryDerivativeIsThatOfThePlainHelmholtzEnergy(bool withFurther, int seed)
    {
        Random random = new(seed);
        int compared = 0;
        int leftOut = 0;
        for (int k = 0; k < 36; k++)
        {
            SampleMixture sample = SampleMixture.Random(random, withFurther);
            if (Compare(sample, random, k))
            {
                compared++;
            }
            else
            {
                leftOut++;
            }
        }

        Assert.True(leftOut <= 0.1 * compared, $"{leftOut} left out, {compared} compared");
    }

    [Fact]
    public void EquationsWithNonAnalyticTermsAreJoinedToo()
    {
        // The reference equation of carbon dioxide has such terms; the frame takes any equation.
        Random random = new(43);
        SubstanceCatalog catalog = SubstanceCatalog.Default;
        SampleMixture sample = new([catalog.Find("carbon dioxide"), catalog.Find("methane"), catalog.Find("nitrogen")], [0.55, 0.35, 0.1], isContinued: true, ownEquations: true);
        Assert.NotEmpty(sample.Equations[0].CriticalTerms);
        for (int k = 0; k < 6; k++)
        {
            Compare(sample, random, k);
        }
    }

    /// <summary>
    /// From a liquid root the pressure rises at every higher density, whatever liquid was looked for before: a root from which it does not lies
    /// on a loop of the equations, where ln phi is absurd.
    /// </summary>
    [Fact]
    public void LiquidRootsLieOutsideTheLoops()
    {
        const int Parts = 60;
        (string First, string Second)[] pairs =
        [
            ("propylene", "ethylene"), ("nitrogen", "ethane"), ("methane", "isobutane"), ("argon", "propane"), ("krypton", "R-23"), ("nitrous oxide", "xenon"),
        ];
        Random random = new(83);
        int liquids = 0;
        foreach ((string first, string second) in pairs)
        {
            MixtureKernel kernel = WorkingFluid.Mixture((first, 0.5), (second, 0.5)).Kernel.Equation;
            double[] scratch = new double[kernel.ScratchLength];
            double[] lnPhi = new double[2];
            double hottest = Math.Max(kernel.CriticalTemperature(0), kernel.CriticalTemperature(1));
            for (int k = 0; k < 4000; k++)
            {
                double t = hottest * (0.55 + (0.43 * random.NextDouble()));
                double p = Math.Pow(10, 4.5 + (2 * random.NextDouble()));
                double before = random.NextDouble();
                double x = random.NextDouble();
                kernel.SetTemperature(t, scratch);
                kernel.LnFugacityCoefficients(t, p, [before, 1 - before], DensityRoot.Liquid, scratch, lnPhi, out _);
                double density = kernel.LnFugacityCoefficients(t, p, [x, 1 - x], DensityRoot.Liquid, scratch, lnPhi, out DensityRoot found);
                if (found != DensityRoot.Liquid)
                {
                    continue;
                }

                liquids++;
                for (int i = 0; i <= Parts; i++)
                {
                    double denser = density * (1 + (0.6 * i / Parts));
                    kernel.Pressure(t, denser, [x, 1 - x], scratch, out double byVolume);
                    bool rises = byVolume < 0 || denser > kernel.DensityLimit([x, 1 - x], scratch);
                    Assert.True(
                        rises || IsSoleRoot(t, p, density, [x, 1 - x]),
                        $"{first} and {second}, {x:R}, after {before:R}: {density:R} mol/m3 at {t:R} K, {p:R} Pa is no liquid, the pressure falls at {denser:R} mol/m3");
                }
            }

            // Near the critical point both outer branches may end before the pressure; what is left between is then the fluid.
            bool IsSoleRoot(double t, double p, double density, double[] x)
            {
                const int Steps = 400;
                double limit = Math.Min(2.5 * density, kernel.DensityLimit(x, scratch));
                double last = 0;
                int rising = 0;
                for (int i = 1; i <= Steps; i++)
                {
                    double next = kernel.Pressure(t, limit * i / Steps, x, scratch, out _);
                    rising += last < p && next >= p ? 1 : 0;
                    last = next;
                }

                return rising == 1;
            }
        }

        Assert.InRange(liquids, 8000, 24000);
    }

    [Fact]
    public void VirialsAreTheDerivativesAtZeroDensity()
    {
        Random random = new(44);
        for (int k = 0; k < 30; k++)
        {
            SampleMixture sample = SampleMixture.Random(random, withFurther: k % 2 == 0);
            double t = sample.ReducingTemperature * (0.5 + (2 * random.NextDouble()));
            sample.Kernel.SetTemperature(t, sample.Scratch);
            sample.Kernel.Virials(t, sample.X, sample.Scratch, out double second, out double byTemperature, out double third);

            // Z = p V/(R T) = 1 + B rho + C rho^2: the density as a dual number about a small one, extrapolated to none.
            (double B, double C, double ByT) Plain(double density)
            {
                Dual<Dual<Real>> rho = Seed.Twice(density);
                Dual<Dual<Real>>[] x = [.. sample.X.Select(v => Seed.Mixed(v, false, false))];
                Dual<Dual<Real>> alpha = sample.Plain.Helmholtz(Seed.Mixed(t, false, false), Dual<Dual<Real>>.Of(1) / rho, x);
                Dual<Dual<Real>> mixed = sample.Plain.Helmholtz(Seed.Mixed(t, false, true), Dual<Dual<Real>>.Of(1) / Seed.Mixed(density, true, false), x);
                return (alpha.First(), alpha.Second(), mixed.Second());
            }

            double small = 1e-4 * sample.ReducingMolarDensity;
            (double B, double C, double ByT) full = Plain(small);
            (double B, double C, double ByT) half = Plain(small / 2);
            (double B, double C, double ByT) quarter = Plain(small / 4);
            double scale = 1 / sample.ReducingMolarDensity;
            Assert.Equal(Limit(full.B, half.B, quarter.B), second, 1e-8 * (scale + Math.Abs(second)));
            Assert.Equal(Limit(full.ByT, half.ByT, quarter.ByT) * t, byTemperature * t, 1e-7 * (scale + Math.Abs(byTemperature * t)));
            Assert.Equal(Limit(full.C, half.C, quarter.C), third, 1e-5 * ((scale * scale) + Math.Abs(third)));
        }

        static double Limit(double full, double half, double quarter) => ((8 * quarter) - (6 * half) + full) / 3;
    }

    [Fact]
    public void SumOfLnPhiIsTheResidualGibbsEnergyAndGibbsDuhemHolds()
    {
        Random random = new(45);
        int byDifferences = 0;
        int refused = 0;
        for (int k = 0; k < 1500; k++)
        {
            SampleMixture sample = SampleMixture.Random(random, withFurther: k % 2 == 0);
            (double t, double p) = State(sample, random);
            DensityRoot root = (DensityRoot)random.Next(3);
            int n = sample.X.Length;
            MultiFluidMixture kernel = sample.Kernel;
            double[] scratch = sample.Scratch;
            double[] lnPhi = new double[n];
            double[] again = new double[n];
            double[] byAmount = new double[n * n];
            double[] byT = new double[n];
            double[] byP = new double[n];
            kernel.SetTemperature(t, scratch);
            double density = kernel.LnFugacityCoefficients(t, p, sample.X, root, scratch, lnPhi, out DensityRoot found);
            double same = kernel.LnFugacityDerivatives(t, p, sample.X, root, scratch, again, byAmount, byT, byP, out DensityRoot foundAgain);
            if (Refused(sample, t, p, root))
            {
                refused++;
                continue;
            }

            ResidualProperties residual = kernel.Residual(t, p, sample.X, root, scratch, out DensityRoot foundResidual);
            double[] atDensity = new double[n];
            double pressure = kernel.LnFugacityAtDensity(t, density, sample.X, scratch, atDensity);
            double rt = PlainMixture.R * t;
            string where = $"{sample} at {t:R} K, {p:R} Pa, {root}";
            Assert.True(found == foundAgain && found == foundResidual, where);
            Near(1, same / density, 1e-8, "density again");
            Near(1, residual.MolarDensity / density, 1e-8, "density of the residual properties");

            // One rounding of the density moves the pressure of a liquid by its stiffness.
            double stiffness = -residual.PressureByVolume / (density * p);
            if (!(stiffness > 0 && 1 / stiffness < LargestCondition * density * rt / p))
            {
                continue;
            }

            Near(1, pressure / p, 1e-13 * (1 + stiffness) * 100, "pressure");
            double gibbs = 0;
            for (int i = 0; i < n; i++)
            {
                gibbs += sample.X[i] * lnPhi[i];
                Near(lnPhi[i], again[i], 1e-9 * (1 + Math.Abs(lnPhi[i])), "ln phi again");
                Near(lnPhi[i] + Math.Log(p), atDensity[i], 1e-9 * (1 + Math.Abs(lnPhi[i])), "ln phi at density");
            }

            Near(gibbs, (residual.Enthalpy - (t * residual.Entropy)) / rt, 1e-10 * (1 + Math.Abs(residual.Enthalpy / rt)), "residual Gibbs energy");
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

                Near(0, sum, 1e-10 * (1 + largest), "Gibbs-Duhem sum");
                byPressureSum += sample.X[j] * byP[j] * p;
                byTemperatureSum += sample.X[j] * byT[j] * t;
            }

            Near((p / (rt * density)) - 1, byPressureSum, 1e-9 * (1 + Math.Abs(byPressureSum)), "residual volume");
            Near(-residual.Enthalpy / rt, byTemperatureSum, 1e-9 * (1 + Math.Abs(byTemperatureSum)), "residual enthalpy");

            // Gibbs-Duhem by differences: sum x d(ln phi) is zero along any change of composition at T, p.
            if (k % 3 == 0 && root != DensityRoot.Stable && sample.X.All(v => v > 1e-3))
            {
                byDifferences++;
                double step = 2e-4 * sample.X.Min();
                int from = random.Next(n);
                int to = (from + 1) % n;
                double[] up = Shifted(step);
                double[] down = Shifted(-step);
                double up2 = 0;
                double sum = 0;
                for (int i = 0; i < n; i++)
                {
                    double slope = (up[i] - down[i]) / (2 * step);
                    sum += sample.X[i] * slope;
                    up2 = Math.Max(up2, Math.Abs(slope));
                }

                Near(0, sum, 1e-6 * (1 + up2), "Gibbs-Duhem by differences");

                double[] Shifted(double by)
                {
                    double[] x = [.. sample.X];
                    x[from] -= by;
                    x[to] += by;
                    double[] result = new double[n];
                    kernel.LnFugacityCoefficients(t, p, x, root, scratch, result, out _);
                    return result;
                }
            }

            void Near(double expected, double actual, double tolerance, string what) =>
                Assert.True(Math.Abs(expected - actual) <= tolerance, $"{what}: {actual:R} is not {expected:R} for {where}");
        }

        Assert.True(byDifferences > 50, $"{byDifferences} by differences");
        Assert.True(refused < 75, $"{refused} refused");
    }

    [Fact]
    public void AComponentsPlaceMakesNoDifference()
    {
        Random random = new(46);
        for (int k = 0; k < 40; k++)
        {
            SampleMixture sample = SampleMixture.Random(random, withFurther: k % 2 == 0);
            int n = sample.X.Length;
            SampleMixture reversed = new([.. sample.Components.Reverse()], [.. sample.X.Reverse()], sample.IsContinued);
            (double t, double p) = State(sample, random);
            double[] lnPhi = new double[n];
            double[] other = new double[n];
            double[] byAmount = new double[n * n];
            double[] otherByAmount = new double[n * n];
            double[] by = new double[n];
            sample.Kernel.SetTemperature(t, sample.Scratch);
            reversed.Kernel.SetTemperature(t, reversed.Scratch);
            double density = sample.Kernel.LnFugacityDerivatives(t, p, sample.X, DensityRoot.Vapor, sample.Scratch, lnPhi, byAmount, by, by, out _);
            double density2 = reversed.Kernel.LnFugacityDerivatives(t, p, reversed.X, DensityRoot.Vapor, reversed.Scratch, other, otherByAmount, by, by, out _);
            Assert.Equal(1, density2 / density, 1e-9);
            double largest = 1 + byAmount.Max(Math.Abs);
            for (int i = 0; i < n; i++)
            {
                Assert.Equal(lnPhi[i], other[n - 1 - i], 1e-9 * (1 + Math.Abs(lnPhi[i])));
                for (int j = 0; j < n; j++)
                {
                    // A pair of which neither is there has no single second derivative: the middle of its directions differs.
                    if (sample.X[i] > 0 || sample.X[j] > 0)
                    {
                        Assert.Equal(byAmount[(i * n) + j], otherByAmount[((n - 1 - i) * n) + n - 1 - j], 1e-8 * largest * largest);
                    }
                }
            }
        }
    }

    // Far below the range of its equations a mixture may have no fluid phase at a pressure; properties are refused there.
    private static bool Refused(SampleMixture sample, double t, double p, DensityRoot root)
    {
        try
        {
            sample.Kernel.Residual(t, p, sample.X, root, sample.Scratch, out _);
            return false;
        }
        catch (ArgumentOutOfRangeException)
        {
            return true;
        }
    }

    private static (double Temperature, double Pressure) State(SampleMixture sample, Random random)
    {
        double t = sample.IsContinued && random.Next(3) == 0
            ? Math.Max(20, sample.ReducingTemperature * (0.17 + (0.23 * random.NextDouble())))
            : Math.Max(60, sample.ReducingTemperature * (0.4 + (1.6 * random.NextDouble())));
        return (t, Math.Pow(10, 2 + (5.5 * random.NextDouble())));
    }

    private static bool Compare(SampleMixture sample, Random random, int number)
    {
        int n = sample.X.Length;
        (double t, double p) = State(sample, random);
        DensityRoot root = (DensityRoot)(number % 3);
        MultiFluidMixture kernel = sample.Kernel;
        double[] scratch = sample.Scratch;
        double[] lnPhi = new double[n];
        double[] byAmount = new double[n * n];
        double[] byT = new double[n];
        double[] byP = new double[n];
        kernel.SetTemperature(t, scratch);
        kernel.LnFugacityDerivatives(t, p, sample.X, root, scratch, lnPhi, byAmount, byT, byP, out _);
        if (Refused(sample, t, p, root))
        {
            return false;
        }

        ResidualProperties residual = kernel.Residual(t, p, sample.X, root, scratch, out _);
        double rt = PlainMixture.R * t;
        (double v, double slope) = sample.Plain.PlainVolume(t, p, sample.X, 1 / residual.MolarDensity);
        double condition = rt / (v * v * Math.Abs(slope));
        if (condition > LargestCondition)
        {
            return false;
        }

        Near(1, residual.MolarDensity * v, 1, "density");
        Near(slope, residual.PressureByVolume, Math.Abs(slope) + (rt / (v * v)), "dp/dv");
        double byTemperature = sample.Plain.Pressure(Seed.Once(t), Seed.Once(v, false), [.. sample.X.Select(x => Seed.Once(x, false))]).Slope.Value;
        Near(byTemperature, residual.PressureByTemperature, Math.Abs(byTemperature) + (PlainMixture.R / v), "dp/dT");

        Dual<Dual<Real>>[] fixedAmounts = [.. sample.X.Select(x => Seed.Mixed(x, false, false))];
        Dual<Dual<Real>> constantT = Seed.Mixed(t, false, false);
        Dual<Dual<Real>> constantP = Seed.Mixed(p, false, false);
        Dual<Dual<Real>> variableT = Seed.Twice(t);
        Dual<Dual<Real>> gas = Dual<Dual<Real>>.Of(PlainMixture.R) * variableT;
        Dual<Dual<Real>> helmholtz = gas * sample.Plain.Helmholtz(variableT, Seed.Mixed(v, false, false), fixedAmounts);
        Near(-t * helmholtz.Second(), residual.IsochoricHeatCapacity, PlainMixture.R * 10, "cv");
        Dual<Dual<Real>> g = sample.Plain.Gibbs(variableT, constantP, fixedAmounts, v, slope);
        Dual<Dual<Real>> gibbs = gas * g;
        Near(-rt * t * g.First(), residual.Enthalpy, rt * 10, "h");
        Near(-gibbs.First(), residual.Entropy, PlainMixture.R * 10, "s");
        Near(-t * gibbs.Second(), residual.IsobaricHeatCapacity, PlainMixture.R * 10, "cp");

        for (int i = 0; i < n; i++)
        {
            Dual<Dual<Real>>[] firstIsI = [.. sample.X.Select((x, k) => Seed.Mixed(x, k == i, false))];
            Dual<Dual<Real>> byIAndT = sample.Plain.Gibbs(Seed.Mixed(t, false, true), constantP, firstIsI, v, slope);
            Dual<Dual<Real>> byIAndP = sample.Plain.Gibbs(constantT, Seed.Mixed(p, false, true), firstIsI, v, slope);
            Near(byIAndT.First(), lnPhi[i], 1, "ln phi");
            Near(byIAndT.Second() * t, byT[i] * t, 10, "d ln phi/dT");
            Near(byIAndP.Second() * p, byP[i] * p, 1, "d ln phi/dp");
            for (int j = 0; j <= i; j++)
            {
                // Of two absent components the second derivative depends on the direction.
                if (sample.X[i] == 0 && sample.X[j] == 0 && i != j)
                {
                    continue;
                }

                Dual<Dual<Real>>[] both = [.. sample.X.Select((x, k) => Seed.Mixed(x, k == i, k == j))];
                double expected = sample.Plain.Gibbs(constantT, constantP, both, v, slope).Second();
                Near(expected, byAmount[(i * n) + j], 1 + Math.Abs(byP[i] * p * byP[j] * p), "n d ln phi/dn");
                Assert.Equal(byAmount[(i * n) + j], byAmount[(j * n) + i]);
            }
        }

        return true;

        void Near(double expected, double actual, double scale, string what) =>
            Assert.True(
                Math.Abs(expected - actual) <= Tolerance * (scale + Math.Abs(expected)),
                $"{what}: {actual:R} is not {expected:R} at {t:R} K, {p:R} Pa, {root}, {sample}, condition {condition:G3}");
    }
}
