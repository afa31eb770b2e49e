using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

public sealed class IsothermalFlashTests
{
    /// <summary>
    /// Fugacities are solved to 1e-11; a phase of small amount next to a boundary has them flat in its composition, and the
    /// library's own limit there is 1e-9.
    /// </summary>
    private const double FugacityTolerance = 1e-9;

    public static TheoryData<string> Names => ["wide", "two liquids", "nitrogen and ethane", "five parts", "neon and nitrogen", "twenty-five"];

    [Theory]
    [MemberData(nameof(Names))]
    public void AnswersBalanceAndHaveEqualFugacities(string name)
    {
        (MixtureKernel kernel, double[] z) = Named(name);
        Random random = new(61);
        int split = 0;
        int count = name == "twenty-five" ? 150 : 500;
        for (int k = 0; k < count; k++)
        {
            (double t, double p) = RandomPoint(random);
            FlashAnswer answer = FlashAnswer.Of(kernel, t, p, z);
            if (answer.PhaseCount == 1)
            {
                Assert.Equal(z, answer.Light);
                Assert.Equal(z, answer.Heavy);
                Assert.Equal(1, answer.LightFraction + answer.HeavyFraction);
                continue;
            }

            split++;
            Assert.InRange(answer.PhaseCount, 2, 3);
            Assert.InRange(answer.FugacityDifference(kernel, t, p), 0, FugacityTolerance);
            Assert.True(answer.LightDensity <= answer.HeavyDensity, $"the first phase is denser at {t:R} K, {p:R} Pa");
            Assert.Equal(1, answer.LightFraction + answer.MiddleFraction + answer.HeavyFraction, 1e-14);
            Assert.Equal(1, answer.Light.Sum(), 1e-13);
            Assert.Equal(1, answer.Heavy.Sum(), 1e-13);
            for (int i = 0; i < z.Length; i++)
            {
                double total = (answer.LightFraction * answer.Light[i]) + (answer.MiddleFraction * answer.Middle[i]) + (answer.HeavyFraction * answer.Heavy[i]);
                Assert.Equal(1, total / z[i], 1e-13);
            }
        }

        Assert.True(split > count / 16, $"only {split} of {count} states with two phases");
    }

    [Theory]
    [InlineData("nitrogen", "ethane")]
    [InlineData("methane", "propane")]
    [InlineData("carbon dioxide", "ethane")]
    [InlineData("neon", "nitrogen")]
    public void NoCompositionLiesBelowTheTangentPlaneOfABinaryAnswer(string first, string second)
    {
        MixtureKernel kernel = WorkingFluid.Mixture((first, 0.5), (second, 0.5)).WithModel(FluidModel.PengRobinson).Kernel.Equation;
        Random random = new(62);
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[2];
        int checkedAnswers = 0;
        for (int k = 0; k < 250; k++)
        {
            double t = Math.Max(kernel.CriticalTemperature(0), kernel.CriticalTemperature(1)) * (0.25 + (0.7 * random.NextDouble()));
            double p = Math.Pow(10, 3.5 + (3.7 * random.NextDouble()));
            double z = 0.01 + (0.98 * random.NextDouble());
            FlashAnswer answer = FlashAnswer.Of(kernel, t, p, [z, 1 - z]);
            if (answer.StillUnstable)
            {
                continue;
            }

            checkedAnswers++;
            double[] plane = FlashAnswer.LnFugacity(kernel, t, p, answer.Heavy, answer.HeavyRoot);
            kernel.SetTemperature(t, scratch);
            for (int i = 1; i < 300; i++)
            {
                double x = 0.5 * (1 - Math.Cos(Math.PI * i / 300));
                kernel.LnFugacityCoefficients(t, p, [x, 1 - x], DensityRoot.Stable, scratch, lnPhi, out _);
                double distance = (x * (Math.Log(x) + lnPhi[0] - plane[0])) + ((1 - x) * (Math.Log(1 - x) + lnPhi[1] - plane[1]));
                Assert.True(distance > -1e-9, $"x = {x:G4} lies {-distance:G3} below the plane at {t:R} K, {p:R} Pa, z = {z:R}, {answer.PhaseCount} phases");
            }
        }

        Assert.True(checkedAnswers > 200, $"{checkedAnswers} answers checked");
    }

    [Fact]
    public void AComponentThatIsNotThereChangesNothing()
    {
        double[] z = Blends.Wide.Fractions();
        MixtureKernel with = WorkingFluid.Mixture(("nitrogen", 0.30), ("argon", 0), ("methane", 0.30), ("ethane", 0.15), ("propane", 0.25)).WithModel(FluidModel.PengRobinson).Kernel.Equation;
        double[] padded = [z[0], 0, z[1], z[2], z[3]];
        Random random = new(63);
        for (int k = 0; k < 300; k++)
        {
            (double t, double p) = RandomPoint(random);
            FlashAnswer expected = FlashAnswer.Of(Blends.Wide.Kernel.Equation, t, p, z);
            FlashAnswer actual = FlashAnswer.Of(with, t, p, padded);
            AssertSame(expected, actual, [0, 2, 3, 4], 1e-9, t, p);
            if (actual.PhaseCount == 2)
            {
                Assert.Equal(0, actual.Light[1]);
                Assert.Equal(0, actual.Heavy[1]);
            }
        }
    }

    [Fact]
    public void OrderOfComponentsChangesNothing()
    {
        double[] z = Blends.FiveParts.Fractions();
        int[] order = [3, 0, 4, 1, 2];
        MixtureKernel other = WorkingFluid.Mixture([.. order.Select(i => (Blends.FiveParts.Composition.Components[i].Name, z[i]))]).WithModel(FluidModel.PengRobinson).Kernel.Equation;
        double[] permuted = [.. order.Select(i => z[i])];
        int[] place = [.. Enumerable.Range(0, 5).Select(i => Array.IndexOf(order, i))];
        Random random = new(64);
        for (int k = 0; k < 300; k++)
        {
            (double t, double p) = RandomPoint(random);
            AssertSame(FlashAnswer.Of(Blends.FiveParts.Kernel.Equation, t, p, z), FlashAnswer.Of(other, t, p, permuted), place, 1e-9, t, p);
        }
    }

    [Fact]
    public void VanishingAdmixtureGivesThePureFluid()
    {
        WorkingFluid pure = WorkingFluid.Pure("methane").WithModel(FluidModel.PengRobinson);
        MixtureKernel pair = WorkingFluid.Mixture(("methane", 1 - 1e-9), ("propane", 1e-9)).WithModel(FluidModel.PengRobinson).Kernel.Equation;
        double[] z = [1 - 1e-13, 1e-13];
        foreach (double t in new[] { 100.0, 130, 160, 180 })
        {
            double boiling = pure.Saturation(UnitsNet.Temperature.FromKelvins(t)).Pressure.Pascals;
            foreach (double factor in new[] { 0.5, 0.999, 1.001, 3 })
            {
                FlashAnswer expected = FlashAnswer.Of(pure.Kernel.Equation, t, factor * boiling, [1]);
                FlashAnswer actual = FlashAnswer.Of(pair, t, factor * boiling, z);
                Assert.Equal(1, actual.PhaseCount);
                Assert.Equal(expected.LightIsVapor, actual.LightIsVapor);
                Assert.Equal(factor < 1, actual.LightIsVapor);
                Assert.Equal(1, actual.LightDensity / expected.LightDensity, 1e-10);
            }
        }
    }

    [Fact]
    public void TracesObeyHenrysLaw()
    {
        // A trace far below 1e-10 shares itself between the phases in the ratio of its fugacity coefficients there.
        MixtureKernel kernel = WorkingFluid.Mixture(("nitrogen", 0.4), ("methane", 0.6), ("n-butane", 0), ("neon", 0)).Kernel.Equation;
        FlashAnswer without = FlashAnswer.Of(kernel, 120, 1e6, [0.4, 0.6, 0, 0]);
        Assert.Equal(2, without.PhaseCount);
        foreach (double trace in new[] { 1e-10, 1e-14, 1e-30, 1e-100 })
        {
            FlashAnswer with = FlashAnswer.Of(kernel, 120, 1e6, [0.4 - (2 * trace), 0.6, trace, trace]);
            Assert.Equal(2, with.PhaseCount);
            Assert.Equal(without.LightFraction, with.LightFraction, 1e-8);
            Assert.InRange(with.FugacityDifference(kernel, 120, 1e6), 0, 1e-9);
            for (int i = 2; i < 4; i++)
            {
                Assert.Equal(1, ((with.LightFraction * with.Light[i]) + (with.HeavyFraction * with.Heavy[i])) / trace, 1e-12);
            }

            Assert.True(with.Heavy[2] > 100 * with.Light[2]);
            Assert.True(with.Light[3] > 10 * with.Heavy[3]);
        }
    }

    [Fact]
    public void KnownTwoLiquids()
    {
        // The blend splits into two liquids at 90 to 120 K (design notes of this library). Under 20 bar no vapour is left at 100 K.
        FlashAnswer answer = FlashAnswer.Of(Blends.TwoLiquids.Kernel.Equation, 100, 20e5, Blends.TwoLiquids.Fractions());
        Assert.Equal(2, answer.PhaseCount);
        Assert.False(answer.LightIsVapor);
        Assert.False(answer.StillUnstable);
        Assert.InRange(answer.LightFraction, 0.05, 0.95);

        // The lighter-named one holds the nitrogen or the propane, never both alike.
        Assert.True(Math.Abs(answer.Light[0] - answer.Heavy[0]) > 0.2);
    }

    [Fact]
    public void KnownVaporAndLiquid()
    {
        // Methane boils at 111.7 K (normal boiling point), propane at 231 K: between them both phases, the vapour mostly methane.
        MixtureKernel kernel = WorkingFluid.Mixture(("methane", 0.5), ("propane", 0.5)).Kernel.Equation;
        FlashAnswer answer = FlashAnswer.Of(kernel, 170, 101325, [0.5, 0.5]);
        Assert.Equal(2, answer.PhaseCount);
        Assert.True(answer.LightIsVapor);
        Assert.True(answer.Light[0] > 0.97);
        Assert.True(answer.Heavy[1] > 0.9);
    }

    [Fact]
    public void NextToTheCriticalPointPhasesMergeWithoutFailure()
    {
        // Methane/ethane at 0.7 to 0.3: up along a temperature near the mixture's critical one, phases approach each other.
        MixtureKernel kernel = WorkingFluid.Mixture(("methane", 0.7), ("ethane", 0.3)).Kernel.Equation;
        double[] z = [0.7, 0.3];
        int two = 0;
        double closest = 1;
        for (int i = 0; i <= 40; i++)
        {
            for (int j = 0; j <= 40; j++)
            {
                double t = 225 + (0.5 * i);
                double p = 5.5e6 + (5e4 * j);
                FlashAnswer answer = FlashAnswer.Of(kernel, t, p, z);
                Assert.False(answer.StillUnstable, $"{t} K, {p} Pa");
                if (answer.PhaseCount == 2)
                {
                    two++;
                    Assert.InRange(answer.FugacityDifference(kernel, t, p), 0, FugacityTolerance);
                    closest = Math.Min(closest, Math.Abs(answer.Light[0] - answer.Heavy[0]));
                }
            }
        }

        Assert.InRange(two, 100, 1500);
        Assert.True(closest < 0.03, $"closest {closest}");
    }

    [Theory]
    [InlineData("wide")]
    [InlineData("five parts")]
    public void VolumeTranslationLeavesEquilibriumAsItIs(string name)
    {
        WorkingFluid fluid = name == "wide" ? Blends.Wide : Blends.FiveParts;
        WorkingFluid translated = fluid.WithModel(fluid.Model.WithVolumeTranslation());
        double[] z = fluid.Fractions();
        Random random = new(65);
        int two = 0;
        for (int k = 0; k < 300; k++)
        {
            (double t, double p) = RandomPoint(random);
            FlashAnswer expected = FlashAnswer.Of(fluid.Kernel.Equation, t, p, z);
            FlashAnswer actual = FlashAnswer.Of(translated.Kernel.Equation, t, p, z);
            Assert.Equal(expected.PhaseCount, actual.PhaseCount);
            if (expected.PhaseCount == 1)
            {
                continue;
            }

            two++;
            bool sameOrder = Math.Abs(expected.Light[0] - actual.Light[0]) <= Math.Abs(expected.Light[0] - actual.Heavy[0]);
            double[] light = sameOrder ? actual.Light : actual.Heavy;
            double[] heavy = sameOrder ? actual.Heavy : actual.Light;
            Assert.Equal(expected.LightFraction, sameOrder ? actual.LightFraction : actual.HeavyFraction, 1e-10);
            for (int i = 0; i < z.Length; i++)
            {
                Assert.Equal(expected.Light[i], light[i], 1e-10);
                Assert.Equal(expected.Heavy[i], heavy[i], 1e-10);
            }

            Assert.True(Math.Abs(expected.HeavyDensity - (sameOrder ? actual.HeavyDensity : actual.LightDensity)) > 1e-4 * expected.HeavyDensity);
        }

        Assert.True(two > 50);
    }

    [Fact]
    public void ANeighboursAnswerLeadsToTheSameAnswer()
    {
        double[] z = Blends.Wide.Fractions();
        MixtureKernel kernel = Blends.Wide.Kernel.Equation;
        double[] scratch = new double[kernel.ScratchLength];
        for (double t = 130; t < 230; t += 5)
        {
            PhaseSplit split = new(new double[4], new double[4], new double[4]);
            IsothermalFlash.Solve(kernel, t, 10e5, z, scratch, ref split);
            Assert.Equal(2, split.PhaseCount);
            Assert.True(IsothermalFlash.SolveFrom(kernel, t + 1, 10e5, z, scratch, ref split));
            FlashAnswer expected = FlashAnswer.Of(kernel, t + 1, 10e5, z);
            Assert.Equal(expected.LightFraction, split.LightFraction, 1e-9);
            for (int i = 0; i < 4; i++)
            {
                Assert.Equal(expected.Light[i], split.Light[i], 1e-9);
                Assert.Equal(expected.Heavy[i], split.Heavy[i], 1e-9);
            }
        }
    }

    private static (MixtureKernel Kernel, double[] Z) Named(string name)
    {
        WorkingFluid fluid = name switch
        {
            "wide" => Blends.Wide,
            "two liquids" => Blends.TwoLiquids,
            "nitrogen and ethane" => Blends.NitrogenEthane,
            "five parts" => Blends.FiveParts,
            "neon and nitrogen" => Blends.NeonNitrogen,
            _ => Blends.TwentyFive,
        };
        return (fluid.Kernel.Equation, fluid.Fractions());
    }

    private static (double T, double P) RandomPoint(Random random) =>
        (65 + (235 * random.NextDouble()), Math.Pow(10, 4 + (3 * random.NextDouble())));

    private static void AssertSame(FlashAnswer expected, FlashAnswer actual, int[] place, double tolerance, double t, double p)
    {
        Assert.True(expected.PhaseCount == actual.PhaseCount && expected.StillUnstable == actual.StillUnstable, $"{expected.PhaseCount} phases against {actual.PhaseCount} at {t:R} K, {p:R} Pa");
        Assert.Equal(expected.LightIsVapor, actual.LightIsVapor);
        if (expected.StillUnstable)
        {
            // The best two-phase answer of three phases need not be unique.
            return;
        }

        string where = $"at {t:R} K, {p:R} Pa";
        Assert.True(Math.Abs(expected.LightFraction - actual.LightFraction) < tolerance, $"{expected.LightFraction:R} against {actual.LightFraction:R} {where}");
        for (int i = 0; i < place.Length; i++)
        {
            Assert.True(Math.Abs(expected.Light[i] - actual.Light[place[i]]) < tolerance, $"light {i}: {expected.Light[i]:R} against {actual.Light[place[i]]:R} {where}");
            Assert.True(Math.Abs(expected.Heavy[i] - actual.Heavy[place[i]]) < tolerance, $"heavy {i}: {expected.Heavy[i]:R} against {actual.Heavy[place[i]]:R} {where}");
        }
    }
}
