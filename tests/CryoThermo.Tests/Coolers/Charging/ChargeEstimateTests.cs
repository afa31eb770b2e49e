using CryoThermo.Coolers.Charging;
using CryoThermo.Numerics;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Charging;

public sealed class ChargeEstimateTests(ITestOutputHelper output)
{
    private static readonly ReadingUncertainty GaugeAndScale = new() { GaugeReadingShare = 0.01, Weighing = Mass.FromGrams(2) };

    private static ChargeReading[] Exact(ChargeRecipe recipe, Func<ChargeStep, bool> gauge, Func<ChargeStep, bool> mass) =>
        [.. recipe.Steps.Select(s => new ChargeReading(s.Component.Name, gauge(s) ? s.Gauge : null, mass(s) ? s.Mass : null))];

    [Theory]
    [InlineData(true, false)]
    [InlineData(false, true)]
    [InlineData(true, true)]
    public void TheReadingsOfARecipeGiveItsComposition(bool gauge, bool mass)
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request(6, ResidualContents.Air(Pressure.FromMillibars(20))));
        ChargeEstimate estimate = ChargeEstimate.FromReadings(
            BenchCharge.Blend, BenchCharge.Machine, Exact(recipe, _ => gauge, _ => mass), GaugeAndScale, recipe.Request.Residual);
        Assert.All(
            estimate.Components, c => Assert.Equal(recipe.FinalFluid.Composition[c.Component.Name], c.MoleFraction, 1e-10));
        Assert.Equal(recipe.FinalPressure.Pascals, estimate.Pressure.Pascals, 1e-4);
        Assert.Equal(gauge && mass ? 5 : 0, estimate.DegreesOfFreedom);
        Assert.InRange(estimate.Misfit, 0, 1e-9);

        // Fractions sum to one, so each row of their covariance sums to nothing.
        int n = estimate.Components.Count;
        double largest = Enumerable.Range(0, n).Max(i => estimate.Covariance(i, i));
        Assert.All(Enumerable.Range(0, n), i => Assert.Equal(0, Enumerable.Range(0, n).Sum(j => estimate.Covariance(i, j)), 1e-9 * largest));
    }

    [Fact]
    public void PressureAnswersToAmountsAsDifferencesDo()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request(8, ResidualContents.Air(Pressure.FromMillibars(100))));
        FillSequence sequence = new(BenchCharge.Blend, BenchCharge.Machine, [.. recipe.Steps.Select(s => s.Component)], recipe.Request.Residual);
        double[] slopes = new double[sequence.Components.Count];
        for (int step = 0; step < sequence.FillCount; step++)
        {
            sequence.PressureWithSlopes(step, recipe.Added, slopes);
            for (int i = 0; i < sequence.FillCount; i++)
            {
                double h = 1e-4 * recipe.Added[i];
                double[] more = [.. recipe.Added];
                double[] less = [.. recipe.Added];
                more[i] += h;
                less[i] -= h;
                double difference = (sequence.Pressure(step, more) - sequence.Pressure(step, less)) / (2 * h);
                Assert.Equal(difference, slopes[i], 1e-7 * Math.Abs(slopes[0]));
            }
        }
    }

    /// <summary>
    /// Readings of a known charge with 1 % errors of the gauge and 2 g of the scale: the bands hold the truth in 95 % of 500 trials, up to three
    /// standard deviations of the count. Ten such counts leave that by chance about once in thirty seeds, and with another seed one did (91.8 %,
    /// the zero off in common, the bench cooler with its spaces at three temperatures): 5 000 trials of that seed stayed within 94.1 to 95.9 %,
    /// the same three deviations.
    /// </summary>
    [Theory]
    [InlineData("gauge and scale", 0)]
    [InlineData("gauge and scale, zero off by 50 mbar in common", 5000)]
    public void TheBandsHoldTheTruthInNineteenOfTwentyTrials(string what, double zeroPascals)
    {
        const int Trials = 500;
        MachineVolume[] machine = [new("all", Volume.FromLiters(6.65), Temperature.FromDegreesCelsius(24))];
        ChargeRecipe recipe = ChargeRecipe.Solve(new()
        {
            Wanted = BenchCharge.Blend,
            Volumes = machine,
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(6),
            Bottles = BenchCharge.Bottles,
        });
        ReadingUncertainty uncertainty = new() { GaugeReadingShare = 0.01, Weighing = Mass.FromGrams(2), GaugeZero = Pressure.FromPascals(zeroPascals) };
        FillSequence sequence = new(BenchCharge.Blend, machine, [.. recipe.Steps.Select(s => s.Component)], null);
        Random random = new(1);
        double Normal() => NormalDeviate.Next(random);
        int[] inside = new int[recipe.Steps.Count];
        double misfits = 0;
        for (int trial = 0; trial < Trials; trial++)
        {
            double zero = zeroPascals * Normal();
            ChargeReading[] readings = [.. recipe.Steps.Select(s =>
            {
                Pressure gauge = Pressure.FromPascals((s.Gauge.Reading.Pascals * (1 + (0.01 * Normal()))) + zero);
                Mass mass = Mass.FromGrams(s.Mass.Grams + (2 * Normal()));
                return new ChargeReading(s.Component.Name, new GaugePressure(gauge, BenchCharge.Atmosphere), mass);
            })];
            ChargeEstimate estimate = ChargeEstimate.FromReadings(sequence, readings, uncertainty);
            misfits += estimate.Misfit;
            for (int i = 0; i < inside.Length; i++)
            {
                double truth = recipe.FinalFluid.Composition[estimate.Components[i].Component.Name];
                inside[i] += truth >= estimate.Components[i].Lower95 && truth <= estimate.Components[i].Upper95 ? 1 : 0;
            }
        }

        output.WriteLine($"{what}: {string.Join(", ", inside.Select((k, i) => $"{recipe.Steps[i].Component.Name} {100.0 * k / Trials:F1} %"))}; mean misfit {misfits / Trials:F2}");

        // Of 500 trials at 95 %, 461 to 489 lie within three standard deviations of the binomial: 92.1 to 97.9 %.
        double deviation = 3 * Math.Sqrt(Trials * 0.95 * 0.05);
        Assert.All(inside, k => Assert.InRange(k, (Trials * 0.95) - deviation, (Trials * 0.95) + deviation));

        // The misfit is chi-square: its mean the degrees of freedom, with a variance of twice that.
        const int Degrees = 5;
        Assert.Equal(Degrees, misfits / Trials, 3 * Math.Sqrt(2.0 * Degrees / Trials));
    }

    [Fact]
    public void ACommonZeroIsNotTheSameAsErrorsOfEachReading()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request());
        ChargeReading[] readings = Exact(recipe, _ => true, _ => false);
        ChargeEstimate common = ChargeEstimate.FromReadings(
            BenchCharge.Blend, BenchCharge.Machine, readings, new() { GaugeZero = Pressure.FromMillibars(20) });
        ChargeEstimate independent = ChargeEstimate.FromReadings(
            BenchCharge.Blend, BenchCharge.Machine, readings, new() { GaugeReading = Pressure.FromMillibars(20) });
        Assert.True(common.Components[4].StandardUncertainty < 0.2 * independent.Components[4].StandardUncertainty);
        ChargeEstimate span = ChargeEstimate.FromReadings(BenchCharge.Blend, BenchCharge.Machine, readings, new() { GaugeSpan = 0.01 });
        Assert.All(span.Components, c => Assert.InRange(c.StandardUncertainty, 0, 0.002));
    }

    [Fact]
    public void AWrongReadingShowsInTheConsistency()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request());
        ChargeReading[] readings = Exact(recipe, _ => true, _ => true);
        readings[1] = new("propane", recipe.Steps[1].Gauge, recipe.Steps[1].Mass + Mass.FromGrams(12));
        ChargeEstimate estimate = ChargeEstimate.FromReadings(BenchCharge.Blend, BenchCharge.Machine, readings, GaugeAndScale);
        Assert.InRange(estimate.Consistency, 0, 1e-3);
    }

    [Fact]
    public void ReadingsThatContradictThemselvesAreRefused()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request());
        ChargeReading[] falling = Exact(recipe, _ => true, _ => false);
        falling[2] = new("ethane", new GaugePressure(recipe.Steps[1].Gauge.Reading * 0.5, BenchCharge.Atmosphere), null);
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => ChargeEstimate.FromReadings(BenchCharge.Blend, BenchCharge.Machine, falling, GaugeAndScale));
        Assert.Contains("ethane", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new ChargeReading("ethane", null, null));
        Assert.Throws<ArgumentException>(() => ChargeEstimate.FromReadings(
            BenchCharge.Blend, BenchCharge.Machine, Exact(recipe, _ => true, _ => true), new() { GaugeZero = Pressure.FromMillibars(20) }));
    }

    [Fact]
    public void TheToleranceStudyAgreesWithRandomErrors()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request());
        ReadingUncertainty uncertainty = new()
        {
            GaugeZero = Pressure.FromMillibars(10),
            GaugeSpan = 0.005,
            GaugeReadingShare = 0.003,
            GaugeReading = Pressure.FromMillibars(5),
            Weighing = Mass.FromGrams(1),
            Temperature = TemperatureDelta.FromKelvins(1),
            VolumeShare = 0.01,
        };
        ChargeTolerance study = ChargeTolerance.Of(recipe, uncertainty);
        output.WriteLine(study.ToTable().ToString());
        IReadOnlyList<double> simulated = study.SimulatedDeviations(1000, 7);
        output.WriteLine(string.Join(", ", simulated.Zip(study.StandardDeviations, (s, l) => $"{s / l:F3}")));

        // A standard deviation of 1 000 trials is itself uncertain by 1/sqrt(2000) = 2.2 %: four of these, 9 %.
        Assert.All(simulated.Zip(study.StandardDeviations), p => Assert.Equal(1, p.First / p.Second, 0.09));

        // Stopped at the recipe's gauge reading, what the machine's volume is matters to the masses weighed in only.
        ChargeTolerance byGauge = ChargeTolerance.Of(recipe, new() { VolumeShare = 0.02 }, [.. recipe.Steps.Select(_ => ChargeControl.Gauge)]);
        Assert.All(byGauge.StandardDeviations, x => Assert.InRange(x, 0, 1e-6));
    }
}
