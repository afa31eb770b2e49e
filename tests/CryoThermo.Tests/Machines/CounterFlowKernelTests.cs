using System.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using CryoThermo.Tests.Equilibrium;

namespace CryoThermo.Tests.Machines;

public class CounterFlowKernelTests
{
    [Theory]
    [InlineData(30, 40)]
    [InlineData(40, 30)]
    [InlineData(30, 30)]
    [InlineData(30, 30.0003)]
    public void ConstantHeatCapacitiesFollowTheEffectivenessFormula(double hotCapacity, double coldCapacity)
    {
        CounterFlowKernel kernel = Exchanger(hotCapacity, coldCapacity);
        double least = Math.Min(hotCapacity, coldCapacity);
        double ratio = least / Math.Max(hotCapacity, coldCapacity);
        Assert.Equal(least * 200, kernel.GreatestDuty, 1e-9);
        foreach (double e in new[] { 1e-6, 0.1, 0.5, 0.9, 0.95, 0.97, 0.999, 1 - 1e-6, 1 - 1e-9 })
        {
            // Kays and London, Compact Heat Exchangers: counter-flow (from memory; follows from the balances).
            double units = ratio == 1 ? e / (1 - e) : LogOnePlus(e * (1 - ratio) / (1 - e)) / (1 - ratio);
            double conductance = kernel.Conductance(e * kernel.GreatestDuty);
            double rounding = 1e-15 / (1 - e);
            Assert.Equal(1, conductance / (least * units), 2e-8 + (100 * rounding));
            double back = kernel.Duty(least * units);
            Assert.Equal(1, (1 - (back / kernel.GreatestDuty)) / (1 - e), 1e-7 + (100 * rounding));
        }
    }

    [Fact]
    public void CondensingAtOneTemperatureAgainstConstantHeatCapacity()
    {
        // Saturated vapour at 200 K condenses while 30 J/(mol K) warms from 100 K: e = 1 - exp(-NTU).
        IsobarTable hot = SampleIsobars.Boiling(50, 200, 320, 60, 20000, 40);
        IsobarTable cold = SampleIsobars.Linear(60, 320, 30);
        double inlet = hot.Enthalpy(200);
        CounterFlowKernel kernel = new(hot, 0.5, inlet, cold, 0.8, cold.Enthalpy(100));
        Assert.Equal(0.8 * 30 * 100, kernel.GreatestDuty, 1e-9);
        Assert.Equal(200, kernel.LimitingTemperature, 1e-12);
        foreach (double e in new[] { 1e-5, 0.2, 0.7, 0.99, 1 - 1e-7 })
        {
            double conductance = kernel.Conductance(e * kernel.GreatestDuty);
            Assert.Equal(1, conductance / (24 * -Math.Log(1 - e)), 2e-8);
            Assert.Equal(e, kernel.Duty(24 * -Math.Log(1 - e)) / kernel.GreatestDuty, 1e-10);
        }
    }

    [Fact]
    public void BothStreamsAtOneTemperature()
    {
        IsobarTable hot = SampleIsobars.Boiling(50, 200, 320, 60, 20000, 40);
        IsobarTable cold = SampleIsobars.Boiling(60, 190, 330, 55, 15000, 35);
        CounterFlowKernel kernel = new(hot, 1, hot.Enthalpy(200), cold, 1, cold.EnthalpyBelow(190));
        Assert.Equal(1000, kernel.Conductance(10000), 1e-4);
        Assert.Equal(10000, kernel.Duty(1000), 1e-6);
        RecuperatorPinch pinch = kernel.Pinch(10000);
        Assert.Equal(10, pinch.Approach, 1e-9);

        // At the same temperature nothing flows: the plateaus may not overlap at all.
        IsobarTable same = SampleIsobars.Boiling(60, 200, 330, 55, 15000, 35);
        CounterFlowKernel blocked = new(hot, 1, hot.Enthalpy(260), same, 1, same.Enthalpy(150));
        Assert.Equal((40 * 60) + (55 * 50), blocked.GreatestDuty, 1e-9);
        Assert.Equal(200, blocked.LimitingTemperature, 1e-12);
    }

    [Fact]
    public void CondensingStreamPinchesWhereItBeginsToCondense()
    {
        // The classic inner pinch: superheated vapour against one heat capacity. Desuperheating 40*(300-200) = 4000 W at
        // 1 mol/s; the cold stream (70 W/K) reaches 200 K with Q - 4000 below: Q = 4000 + 70*100 = 11000.
        IsobarTable hot = SampleIsobars.Boiling(50, 200, 320, 60, 20000, 40);
        IsobarTable cold = SampleIsobars.Linear(60, 320, 70);
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(hot, 1, 300, cold, 1, 100);
        Assert.Equal(11000, kernel.GreatestDuty, 1e-8);
        Assert.Equal(200, kernel.LimitingTemperature, 1e-12);

        // Exact for a duty Q: two stretches with constant capacities, one with a plateau.
        const double duty = 10800;
        double coldOutlet = 100 + (duty / 70);
        double coldAtDew = coldOutlet - (4000.0 / 70);
        double warm = LogMeanConductance(4000, 300 - coldOutlet, 200 - coldAtDew);
        double plateau = LogMeanConductance(duty - 4000, 200 - coldAtDew, 200 - 100);
        Assert.Equal(1, kernel.Conductance(duty) / (warm + plateau), 2e-8);
        RecuperatorPinch pinch = kernel.Pinch(duty);
        Assert.Equal(PinchLocation.Inside, pinch.Location);
        Assert.Equal(200, pinch.HotTemperature, 1e-9);
        Assert.Equal(200 - coldAtDew, pinch.Approach, 1e-9);
        Assert.Equal(duty - 4000, pinch.DutyBelow, 1e-6);
        Assert.Equal(duty, kernel.DutyAtLeastApproach(200 - coldAtDew), 1e-8);
    }

    [Fact]
    public void SmoothInnerPinchIsExact()
    {
        // Cold: cp 40. Hot: cp falls linearly from 60 at 100 K to 20 at 300 K, so h = 80 T - 0.1 T^2 and the capacities
        // meet at 200 K: G(T) = hHot(300) - hHot(T) + 40 (T - 100) has its least value there:
        // 15000 - 12000 + 4000 = 7000 W, against 8000 at the warm and 8000 at the cold end.
        IsobarTable hot = SampleIsobars.Build(
            [100, 150, 300], [7000, 9750, 15000], [60, 50], [50, 20], new PhaseRegion[2]);
        IsobarTable cold = SampleIsobars.Linear(90, 310, 40);
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(hot, 1, 300, cold, 1, 100);
        Assert.Equal(7000, kernel.GreatestDuty, 1e-9);
        Assert.Equal(200, kernel.LimitingTemperature, 1e-9);

        foreach (double missing in new[] { 3000.0, 500, 10, 0.1, 1e-3, 1e-6 })
        {
            // At equal places the hot temperature is T, the cold one T - (7000 - Q + 0.1 (T - 200)^2)/40, and dq = (80 - 0.2 T) dT:
            // UA = integral from T_a to 300 of 40 (80 - 0.2 T)/(missing + 0.1 (T - 200)^2) dT
            //    = 40 [40 arctan(y sqrt(0.1/missing))/sqrt(0.1 missing) - ln(missing + 0.1 y^2)], y = T - 200.
            double duty = 7000 - missing;
            double coldEnd = hot.TemperatureAtEnthalpy(15000 - duty) - 200;
            double Primitive(double y)
                => 40 * ((40 * Math.Atan(y * Math.Sqrt(0.1 / missing)) / Math.Sqrt(0.1 * missing)) - Math.Log(missing + (0.1 * y * y)));
            double exact = Primitive(100) - Primitive(coldEnd);
            Assert.Equal(1, kernel.Conductance(duty) / exact, 2e-8 + (1e-9 / missing));
            RecuperatorPinch pinch = kernel.Pinch(duty);
            Assert.Equal(PinchLocation.Inside, pinch.Location);
            Assert.Equal(kernel.DutyAtLeastApproach(pinch.Approach), duty, 1e-9 * duty);
            Assert.Equal(7000 - missing, kernel.Duty(exact), 1e-7 * 7000);
        }
    }

    [Fact]
    public void GreatestDutyAgreesWithAFineScan()
    {
        for (int seed = 0; seed < 1500; seed++)
        {
            CounterFlowKernel kernel = RandomExchanger(seed, out IsobarTable hot, out IsobarTable cold, out double[] figures);
            double least = double.PositiveInfinity;
            const int steps = 4000;
            List<double> places = [];
            for (int k = 0; k <= steps; k++)
            {
                places.Add(figures[2] + ((figures[3] - figures[2]) * k / steps));
            }

            foreach (double t in hot.NodeTemperatures)
            {
                places.Add(t);
            }

            foreach (double t in cold.NodeTemperatures)
            {
                places.Add(t);
            }

            foreach (double t in places)
            {
                if (t < figures[2] || t > figures[3])
                {
                    continue;
                }

                double given = figures[0] * (hot.Enthalpy(figures[3]) - hot.Enthalpy(t));
                double taken = figures[1] * (Math.Max(cold.EnthalpyBelow(t), cold.Enthalpy(figures[2])) - cold.Enthalpy(figures[2]));
                least = Math.Min(least, given + taken);
            }

            // A scan lies above the true minimum by at most curvature * step^2 / 8.
            Assert.True(kernel.GreatestDuty <= least + (1e-10 * least), $"seed {seed}: {kernel.GreatestDuty} above the scan {least}");
            Assert.True(kernel.GreatestDuty >= least * (1 - 1e-3), $"seed {seed}: {kernel.GreatestDuty} far below the scan {least}");

            // And the claim itself: no crossing along the exchanger, contact at the limiting temperature.
            RecuperatorProfile profile = kernel.Profile(kernel.GreatestDuty, 20);
            for (int i = 0; i < profile.Duty.Length; i++)
            {
                Assert.True(profile.HotTemperature[i] >= profile.ColdTemperature[i] - 1e-9, $"seed {seed}: crossing");
            }

            RecuperatorPinch touch = kernel.Pinch(kernel.GreatestDuty);
            Assert.Equal(0, touch.Approach);
            double hotThere = hot.TemperatureAtEnthalpy(hot.Enthalpy(figures[3]) - ((kernel.GreatestDuty - touch.DutyBelow) / figures[0]));
            double coldThere = cold.TemperatureAtEnthalpy(cold.Enthalpy(figures[2]) + (touch.DutyBelow / figures[1]));
            Assert.Equal(touch.ColdTemperature, coldThere, 1e-7);
            Assert.Equal(touch.HotTemperature, hotThere, 1e-7);
        }
    }

    [Fact]
    public void ConductanceAgreesWithABruteForceIntegral()
    {
        double worst = 0;
        for (int seed = 0; seed < 400; seed++)
        {
            CounterFlowKernel kernel = RandomExchanger(seed, out IsobarTable hot, out IsobarTable cold, out double[] figures);
            foreach (double e in new[] { 0.03, 0.6, 0.97, 0.9999, 1 - 1e-7 })
            {
                double duty = e * kernel.GreatestDuty;
                double reference = BruteForceConductance(kernel, hot, cold, figures, duty);
                worst = Math.Max(worst, Math.Abs((kernel.Conductance(duty) / reference) - 1));
            }
        }

        Assert.InRange(worst, 0, 1e-7);
    }

    [Fact]
    public void DutyAndConductanceAreInverse()
    {
        double worst = 0;
        for (int seed = 0; seed < 3000; seed++)
        {
            CounterFlowKernel kernel = RandomExchanger(seed, out _, out _, out _);
            Random random = new(seed + 77);
            double e = seed % 3 == 0 ? Math.Pow(10, -6 * random.NextDouble()) : 1 - Math.Pow(10, -9 * random.NextDouble());
            double duty = e * kernel.GreatestDuty;
            double back = kernel.Duty(kernel.Conductance(duty));
            double error = Math.Abs((back / duty) - 1);
            Assert.True(error < 1e-8, $"seed {seed}, effectiveness {e:R}: {error:G3}");
            worst = Math.Max(worst, error);
        }

        Assert.InRange(worst, 0, 1e-8);
    }

    [Fact]
    public void ConductanceRisesWithDutyAndDutyWithConductance()
    {
        for (int seed = 0; seed < 300; seed++)
        {
            CounterFlowKernel kernel = RandomExchanger(seed, out _, out _, out double[] figures);
            double previous = 0;
            for (int k = 1; k < 60; k++)
            {
                double conductance = kernel.Conductance(kernel.GreatestDuty * k / 60);
                Assert.True(conductance > previous, $"seed {seed}: conductance at step {k}");
                previous = conductance;
            }

            Assert.Equal(double.PositiveInfinity, kernel.Conductance(kernel.GreatestDuty));
            double scale = kernel.GreatestDuty / (figures[3] - figures[2]);
            double before = 0;
            for (double power = -6; power <= 9; power += 0.5)
            {
                double duty = kernel.Duty(scale * Math.Pow(10, power));
                Assert.True(duty >= before * (1 - 1e-12), $"seed {seed}: duty at 10^{power}: {duty:R} after {before:R}");
                Assert.True(power > 1 || duty > before, $"seed {seed}: duty does not rise at 10^{power}");
                Assert.InRange(duty, 0, kernel.GreatestDuty);
                before = duty;
            }

            // A smooth inner pinch closes slowest, missing ~ UA^-2; equal capacities miss 1/UA.
            Assert.Equal(1, before / kernel.GreatestDuty, 1e-8);
        }
    }

    [Fact]
    public void DerivativeOfTheConductanceAgreesWithDifferences()
    {
        for (int seed = 0; seed < 200; seed++)
        {
            CounterFlowKernel kernel = RandomExchanger(seed, out IsobarTable hot, out IsobarTable cold, out double[] figures);
            foreach (double e in new[] { 0.1, 0.7, 0.99, 0.99999 })
            {
                double duty = e * kernel.GreatestDuty;
                double step = 1e-4 * (1 - e) * duty;
                ConductanceWalk walk = new(
                    hot, figures[0], hot.Enthalpy(figures[3]), cold, figures[1], cold.Enthalpy(figures[2]) + (duty / figures[1]));
                walk.Run(duty);
                double differences = (kernel.Conductance(duty + step) - kernel.Conductance(duty - step)) / (2 * step);
                Assert.Equal(1, walk.Derivative / differences, 1e-3);
            }
        }
    }

    [Fact]
    public void LeastApproachIsMetAndFoundAgain()
    {
        for (int seed = 0; seed < 1000; seed++)
        {
            CounterFlowKernel kernel = RandomExchanger(seed, out _, out _, out double[] figures);
            Random random = new(seed + 5);
            double approach = (figures[3] - figures[2]) * Math.Pow(10, -5 * random.NextDouble());
            double duty = kernel.DutyAtLeastApproach(approach);
            RecuperatorProfile profile = kernel.Profile(duty, 60);
            double least = double.PositiveInfinity;
            for (int i = 0; i < profile.Duty.Length; i++)
            {
                least = Math.Min(least, profile.HotTemperature[i] - profile.ColdTemperature[i]);
            }

            // The charted points miss a smooth minimum by little, and only upwards.
            Assert.True(least >= approach - 1e-9, $"seed {seed}: {least} below {approach}");
            Assert.True(least <= approach + 0.02, $"seed {seed}: {least} far above {approach}");
            RecuperatorPinch pinch = kernel.Pinch(duty);
            Assert.Equal(approach, pinch.Approach, 1e-8);
        }
    }

    [Fact]
    public void EntropyProductionIsThatOfTheHeatAndNeverNegative()
    {
        CounterFlowKernel kernel = Exchanger(30, 40, nodes: 60);
        const double duty = 4500;
        double exact = (40 * Math.Log((100 + (duty / 40)) / 100)) - (30 * Math.Log(300 / (300 - (duty / 30))));
        Assert.Equal(exact, kernel.EntropyProduction(duty), 1e-5);

        IsobarTable hot = SampleIsobars.MixtureLike(70, 115, 290, 330, 100, 9000, -6000, 0.3);
        IsobarTable cold = SampleIsobars.MixtureLike(70, 90, 260, 330, 100, 11000, -5000, 0.2);
        CounterFlowKernel mixture = CounterFlowKernel.FromInletTemperatures(hot, 0.1, 300, cold, 0.1, 95);
        double previous = 0;
        for (int k = 1; k <= 20; k++)
        {
            double q = mixture.GreatestDuty * k / 20;
            double produced = mixture.EntropyProduction(q);
            RecuperatorProfile profile = mixture.Profile(q, 200);
            double sum = 0;
            for (int i = 1; i < profile.Duty.Length; i++)
            {
                double hotMean = 0.5 * (profile.HotTemperature[i] + profile.HotTemperature[i - 1]);
                double coldMean = 0.5 * (profile.ColdTemperature[i] + profile.ColdTemperature[i - 1]);
                sum += (profile.Duty[i] - profile.Duty[i - 1]) * ((1 / coldMean) - (1 / hotMean));
            }

            Assert.Equal(sum, produced, 1e-5 * sum);
            Assert.True(produced > 0 && (k > 10 || produced > previous));
            previous = produced;
        }
    }

    [Fact]
    public void ProfileHoldsEveryBreakPointInOrder()
    {
        IsobarTable hot = SampleIsobars.Boiling(50, 200, 320, 60, 20000, 40);
        IsobarTable cold = SampleIsobars.Linear(60, 320, 70);
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(hot, 1, 300, cold, 1, 100);
        RecuperatorProfile profile = kernel.Profile(10800, 0);
        Assert.Contains(profile.Duty, q => Math.Abs(q - 6800) < 1e-9);
        Assert.Contains(profile.ColdTemperature, t => Math.Abs(t - 125) < 1e-9);
        Assert.Equal(0, profile.Duty[0]);
        Assert.Equal(10800, profile.Duty[^1]);
        for (int i = 1; i < profile.Duty.Length; i++)
        {
            Assert.True(profile.Duty[i] > profile.Duty[i - 1]);
        }
    }

    [Fact]
    public void WrongInputIsNamed()
    {
        IsobarTable hot = SampleIsobars.Linear(80, 320, 30);
        IsobarTable cold = SampleIsobars.Linear(80, 320, 30);
        Assert.Throws<ArgumentException>(() => CounterFlowKernel.FromInletTemperatures(hot, 1, 100, cold, 1, 200));
        Assert.Throws<ArgumentOutOfRangeException>(() => CounterFlowKernel.FromInletTemperatures(hot, 0, 300, cold, 1, 200));
        Assert.Throws<ArgumentException>(() => CounterFlowKernel.FromInletTemperatures(hot, 1, 300, SampleIsobars.Linear(80, 250, 30), 1, 100));
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(hot, 1, 300, cold, 1, 100);
        Assert.Throws<ArgumentOutOfRangeException>(() => kernel.Duty(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => kernel.Conductance(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => kernel.DutyAtLeastApproach(201));
        Assert.Throws<ArgumentOutOfRangeException>(() => kernel.Pinch(1e9));
    }

    [Fact]
    public void EqualInletTemperaturesExchangeNothing()
    {
        IsobarTable table = SampleIsobars.Linear(80, 320, 30);
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(table, 1, 150, table, 1, 150);
        Assert.Equal(0, kernel.GreatestDuty);
        Assert.Equal(0, kernel.Duty(1e5));
    }

    [Fact]
    public void AConductanceTakesLessThanAMillisecond()
    {
        // The design figure is 100 microseconds; this guards against an accident, not against a busy machine.
        IsobarTable hot = SampleIsobars.MixtureLike(70, 115, 290, 330, 100, 9000, -6000, 0.3);
        IsobarTable cold = SampleIsobars.MixtureLike(70, 90, 260, 330, 100, 11000, -5000, 0.2);
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(hot, 0.1, 300, cold, 0.1, 95);
        double sum = 0;
        for (int k = 0; k < 300; k++)
        {
            sum += kernel.Conductance(kernel.GreatestDuty * (0.5 + (0.001 * k)));
        }

        long start = Stopwatch.GetTimestamp();
        for (int k = 0; k < 300; k++)
        {
            sum += kernel.Conductance(kernel.GreatestDuty * (0.5 + (0.001 * k)));
        }

        Assert.True(double.IsFinite(sum));
        Assert.InRange(Stopwatch.GetElapsedTime(start).TotalMilliseconds / 300, 0, 1);
    }

    internal static CounterFlowKernel RandomExchanger(int seed, out IsobarTable hot, out IsobarTable cold, out double[] figures)
    {
        Random random = new(seed);
        hot = SampleIsobars.Random(random, 60, 320, jumps: seed % 2 == 0);
        cold = SampleIsobars.Random(random, 60, 320, jumps: seed % 3 == 0);
        double coldInlet = 65 + (100 * random.NextDouble());
        double hotInlet = coldInlet + 5 + ((310 - coldInlet) * random.NextDouble());
        figures = [0.1 + random.NextDouble(), 0.1 + random.NextDouble(), coldInlet, Math.Min(hotInlet, 319)];
        return CounterFlowKernel.FromInletTemperatures(hot, figures[0], figures[3], cold, figures[1], figures[2]);
    }

    private static CounterFlowKernel Exchanger(double hotCapacity, double coldCapacity, int nodes = 5)
        => CounterFlowKernel.FromInletTemperatures(
            SampleIsobars.Linear(80, 320, hotCapacity, nodes, -3000), 1, 300, SampleIsobars.Linear(90, 310, coldCapacity, nodes + 2), 1, 100);

    private static double LogOnePlus(double x) => Math.Abs(x) > 1e-4 ? Math.Log(1 + x) : x * (1 - (x * (0.5 - (x / 3))));

    private static double LogMeanConductance(double duty, double a, double b) => duty * Math.Log(a / b) / (a - b);

    /// <summary>Gauss-Legendre rules of 5 and 2 x 5 points compared and halved, on every stretch between break points.</summary>
    private static double BruteForceConductance(CounterFlowKernel kernel, IsobarTable hot, IsobarTable cold, double[] figures, double duty)
    {
        double hotInlet = hot.Enthalpy(figures[3]);
        double coldInlet = cold.Enthalpy(figures[2]);
        double Integrand(double q)
            => 1 / (hot.TemperatureAtEnthalpy(hotInlet - ((duty - q) / figures[0])) - cold.TemperatureAtEnthalpy(coldInlet + (q / figures[1])));
        double[] x = [-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831, 0.9061798459386640];
        double[] w = [0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891];
        double Rule(double a, double b)
        {
            double sum = 0;
            for (int k = 0; k < 5; k++)
            {
                sum += w[k] * Integrand((0.5 * (a + b)) + (0.5 * (b - a) * x[k]));
            }

            return 0.5 * (b - a) * sum;
        }

        double Adaptive(double a, double b, double whole, int depth)
        {
            double middle = 0.5 * (a + b);
            double left = Rule(a, middle);
            double right = Rule(middle, b);
            return Math.Abs(left + right - whole) <= 1e-8 * whole || depth > 45
                ? left + right
                : Adaptive(a, middle, left, depth + 1) + Adaptive(middle, b, right, depth + 1);
        }

        double total = 0;
        double[] points = kernel.Profile(duty, 0).Duty;
        for (int i = 1; i < points.Length; i++)
        {
            total += Adaptive(points[i - 1], points[i], Rule(points[i - 1], points[i]), 0);
        }

        return total;
    }

    // Against the integral of dq/(difference + 0.2 K) by the midpoint rule on 200 000 steps.
    [Fact]
    public void PartsTakeEqualSharesOfTheSurface()
    {
        const double added = 0.2;
        IsobarTable hot = SampleIsobars.MixtureLike(70, 115, 290, 330, 100, 9000, -6000, 0.3);
        IsobarTable cold = SampleIsobars.MixtureLike(70, 90, 260, 330, 100, 11000, -5000, 0.2);
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(hot, 0.1, 300, cold, 0.1, 95);
        foreach (double duty in new[] { 0.6 * kernel.GreatestDuty, 0.99 * kernel.GreatestDuty, kernel.GreatestDuty })
        {
            double[] heats = kernel.HeatInMiddleOfParts(duty, 5, added);
            const int steps = 200000;
            double[] sum = new double[steps + 1];
            for (int i = 0; i < steps; i++)
            {
                sum[i + 1] = sum[i] + (duty / steps / (kernel.Difference(duty, duty * (i + 0.5) / steps) + added));
            }

            for (int part = 0; part < 5; part++)
            {
                int at = (int)(heats[part] / duty * steps);
                Assert.Equal((part + 0.5) / 5, sum[at] / sum[steps], 1e-4);
            }
        }
    }
}
