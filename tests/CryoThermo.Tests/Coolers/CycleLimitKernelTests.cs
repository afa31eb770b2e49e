using CryoThermo.Coolers;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using CryoThermo.Tests.Equilibrium;

namespace CryoThermo.Tests.Coolers;

public class CycleLimitKernelTests
{
    // Liquid 55 J/(mol K) from 60 K at either pressure. Low: boils at 80 K with 5500 J/mol, then 30 J/(mol K).
    // High: boils at 110 K with 3500 J/mol, then 36 J/(mol K).
    private static readonly IsobarTable PureLow = SampleIsobars.Boiling(60, 80, 330, 55, 5500, 30);
    private static readonly IsobarTable PureHigh = SampleIsobars.Boiling(60, 110, 330, 55, 3500, 36);

    [Fact]
    public void PureFluidIsLimitedByItsWarmEnd()
    {
        CycleLimitKernel limit = new(PureLow, PureHigh, 300);

        // h_low(300) = 1100 + 5500 + 30*220 = 13200; h_high(300) = 2750 + 3500 + 36*190 = 13090.
        CycleCapacity capacity = limit.GreatestCooling(80);
        Assert.Equal(110, capacity.Cooling, 1e-9);
        Assert.Equal(PinchLocation.WarmEnd, capacity.Location);
        Assert.Equal(300, capacity.PinchTemperature);

        // A warm end 5 K colder: D rises by (36 - 30) 5.
        PinchFacts facts = limit.Explain(80);
        Assert.Equal(30, facts.GainFromColderWarmEnd!.Value, 1e-9);
        Assert.True(facts.HighGasAtWarmEnd);
        Assert.Equal(110, facts.HighDewPoint!.Value);
        Assert.Equal(80, facts.LowBubblePoint!.Value);
        Assert.Equal(30.0 / 36, facts.CapacityRatioBelow!.Value, 1e-12);
        Assert.Null(facts.CapacityRatioAbove);
        string sentence = PinchExplanation.Describe(facts);
        Assert.Contains("warm end", sentence, StringComparison.Ordinal);
        Assert.Contains("190.0 K above its dew point of 110.0 K", sentence, StringComparison.Ordinal);
        Assert.Contains("add 30 J/mol", sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void BoilingTemperatureIsTheLowestThatCarriesALeak()
    {
        CycleLimitKernel limit = new(PureLow, PureHigh, 300);
        Assert.Equal(new ColdLimit(80, false), limit.LowestTemperature(50));
        Assert.Equal(new ColdLimit(80, false), limit.LowestTemperature(110 - 1e-9));

        // Both liquids lie on one line: D = 0 below 80 K, so without leak nothing ends the search but the table.
        Assert.Equal(new ColdLimit(60, true), limit.LowestTemperature(0));
        Assert.Null(limit.LowestTemperature(111));
        Assert.Equal(0, limit.GreatestCooling(79.9).Cooling, 1e-9);
    }

    [Fact]
    public void PureFluidPinchesAtTheDewPointWhenTheWarmEndIsCold()
    {
        // Warm end at the high-pressure dew point: D(110+) = 1100 + 5500 + 900 - 6250 = 1250.
        CycleLimitKernel limit = new(PureLow, PureHigh, 110);
        Assert.Equal(1250, limit.GreatestCooling(85).Cooling, 1e-9);
        Assert.Equal(PinchLocation.WarmEnd, limit.GreatestCooling(85).Location);
    }

    [Fact]
    public void GreatestCoolingAgreesWithAFineScanAndNeverFalls()
    {
        for (int seed = 0; seed < 1500; seed++)
        {
            Sample(seed, out IsobarTable low, out IsobarTable high, out double warm, out CycleLimitKernel limit);
            List<double> places = [];
            for (int k = 0; k <= 3000; k++)
            {
                places.Add(60 + ((warm - 60) * k / 3000));
            }

            places.AddRange(low.NodeTemperatures.ToArray());
            places.AddRange(high.NodeTemperatures.ToArray());
            places = [.. places.Where(t => t <= warm).Distinct().OrderDescending()];
            double scale = Math.Abs(high.MaxEnthalpy - high.MinEnthalpy);
            double least = low.EnthalpyBelow(warm) - high.Enthalpy(warm);
            double previous = double.PositiveInfinity;
            foreach (double t in places)
            {
                double here = low.Enthalpy(t) - high.Enthalpy(t);
                CycleCapacity capacity = limit.GreatestCooling(t);
                double scan = t < warm ? Math.Min(least, here) : here;
                Assert.True(capacity.Cooling <= scan + (1e-12 * scale), $"seed {seed}, {t} K: {capacity.Cooling} above {scan}");
                Assert.True(capacity.Cooling >= scan - (1e-3 * scale), $"seed {seed}, {t} K: {capacity.Cooling} far below {scan}");
                Assert.True(t >= warm || capacity.Cooling <= previous + (1e-12 * scale), $"seed {seed}, {t} K: rises downwards");
                previous = t < warm ? capacity.Cooling : double.PositiveInfinity;

                // The least value is taken where it is said to be.
                double there = capacity.Location == PinchLocation.ColdEnd || t >= warm
                    ? here
                    : low.EnthalpyBelow(capacity.PinchTemperature) - high.Enthalpy(capacity.PinchTemperature);
                Assert.Equal(there, capacity.Cooling, 1e-9 * scale);
                least = Math.Min(least, low.EnthalpyBelow(t) - high.Enthalpy(t));
            }
        }
    }

    [Fact]
    public void LowestTemperatureIsWhereTheCoolingLastCoversTheLeak()
    {
        int bounded = 0;
        int impossible = 0;
        for (int seed = 0; seed < 3000; seed++)
        {
            Sample(seed, out IsobarTable low, out IsobarTable high, out double warm, out CycleLimitKernel limit);
            Random random = new(seed + 9);
            double leak = limit.GreatestCooling(60 + ((warm - 60) * random.NextDouble())).Cooling
                + (seed % 4 == 0 ? 500 * (random.NextDouble() - 0.5) : 0);
            if (limit.LowestTemperature(leak) is not { } found)
            {
                impossible++;
                Assert.True(limit.EnthalpyDifference(warm) < leak);
                continue;
            }

            double scale = Math.Abs(high.MaxEnthalpy - high.MinEnthalpy);
            if (found.AtEndOfIsobars)
            {
                Assert.True(limit.GreatestCooling(limit.LowestTemperatureCovered).Cooling >= leak - (1e-12 * scale));
                continue;
            }

            bounded++;
            double above = Math.Min(found.Temperature + 1e-9, warm);
            Assert.True(limit.GreatestCooling(above).Cooling >= leak - (1e-9 * scale), $"seed {seed}: {found} does not carry {leak}");
            Assert.True(limit.GreatestCooling(found.Temperature - 1e-6).Cooling < leak, $"seed {seed}: colder than {found} carries {leak}");
        }

        Assert.True(bounded > 1000);
        Assert.True(impossible > 10);
    }

    [Fact]
    public void InfiniteConductanceGivesTheLimit()
    {
        for (int seed = 0; seed < 1000; seed++)
        {
            Sample(seed, out _, out IsobarTable high, out double warm, out CycleLimitKernel limit);
            double scale = Math.Abs(high.MaxEnthalpy - high.MinEnthalpy);
            double cold = 60 + ((warm - 61) * new Random(seed).NextDouble());
            double flow = 0.01 + new Random(seed + 1).NextDouble();
            Assert.Equal(
                limit.GreatestCooling(cold).Cooling, limit.Cooling(cold, flow, double.PositiveInfinity) / flow, 1e-10 * scale);
        }
    }

    [Fact]
    public void CoolingConvergesToTheLimitFromBelowAsConductanceGrows()
    {
        for (int seed = 0; seed < 300; seed++)
        {
            Sample(seed, out _, out IsobarTable high, out double warm, out CycleLimitKernel limit);
            double scale = Math.Abs(high.MaxEnthalpy - high.MinEnthalpy);
            double cold = 60 + (0.6 * (warm - 60) * new Random(seed).NextDouble());
            const double flow = 0.1;
            double bound = flow * limit.GreatestCooling(cold).Cooling;
            double unit = limit.Recuperator(cold, flow).GreatestDuty / (warm - cold);
            double previous = double.NegativeInfinity;
            foreach (double factor in new[] { 0.1, 1.0, 10, 100, 1e3, 1e4, 1e6 })
            {
                double cooling = limit.Cooling(cold, flow, factor * unit);
                Assert.True(cooling >= previous - (1e-12 * flow * scale), $"seed {seed}: falls at {factor}");
                Assert.True(factor > 10 || cooling > previous);
                Assert.True(cooling <= bound + (1e-12 * flow * scale), $"seed {seed}: above the limit at {factor}");
                previous = cooling;
            }

            // The slowest approach, at a smooth inner pinch, misses (pi curvature-scaled/UA)^2.
            Assert.Equal(bound, previous, 1e-6 * flow * scale);
        }
    }

    [Fact]
    public void LowestTemperatureWithARecuperatorAgreesWithItsCooling()
    {
        int compared = 0;
        int sharp = 0;
        for (int seed = 0; seed < 2000; seed++)
        {
            Sample(seed, out IsobarTable low, out IsobarTable high, out double warm, out CycleLimitKernel limit);
            Random random = new(seed + 3);
            double scale = Math.Abs(high.MaxEnthalpy - high.MinEnthalpy);
            double cold = 62 + (0.8 * (warm - 62) * random.NextDouble());
            double flow = 0.01 + (0.2 * random.NextDouble());
            double unit = limit.Recuperator(cold, flow).GreatestDuty / (warm - cold);
            if (!(unit > 0))
            {
                continue;
            }

            // A recuperator that gives some cooling at a known temperature must be found to reach just that.
            double conductance = unit * Math.Pow(10, (4 * random.NextDouble()) - 1);
            double cooling = limit.Cooling(cold, flow, conductance);
            if (limit.GreatestCooling(cold).Cooling - (cooling / flow) < 1e-10 * scale)
            {
                // At the limit itself rounding decides whether the leak can be carried at all.
                continue;
            }

            ColdLimit? found = limit.LowestTemperature(flow, conductance, cooling);
            Assert.NotNull(found);
            compared++;

            // Judged by cooling, for the temperature is ill-conditioned where the isobar is flat.
            double again = limit.Cooling(Math.Min(found.Value.Temperature + 1e-7, warm), flow, conductance);
            Assert.True(again >= cooling - (1e-7 * flow * scale), $"seed {seed}: {again} under {cooling} at {found}, asked {cold}");
            double colder = found.Value.Temperature - 1e-4;
            Assert.True(
                colder < limit.LowestTemperatureCovered || limit.Cooling(colder, flow, conductance) <= cooling + (1e-8 * flow * scale),
                $"seed {seed}: {found} is not the lowest");

            // At an inner pinch almost closed the cooling hardly depends on the cold temperature any more.
            double missing = limit.GreatestCooling(cold).Cooling - (cooling / flow);
            if (missing > 0.01 * scale)
            {
                sharp++;
                Assert.Equal(cold, found.Value.Temperature, 1e-4);
            }
        }

        Assert.True(compared > 1000 && sharp > 300);
    }

    [Fact]
    public void LowestTemperatureFallsWithConductanceToTheIdealOne()
    {
        int compared = 0;
        for (int seed = 0; seed < 500; seed++)
        {
            Sample(seed, out _, out _, out double warm, out CycleLimitKernel limit);
            const double flow = 0.05;
            double leak = flow * (limit.GreatestCooling(60 + (0.5 * (warm - 60))).Cooling - 20);
            if (limit.LowestTemperature(leak / flow) is not { } ideal)
            {
                continue;
            }

            compared++;
            double previous = double.PositiveInfinity;
            foreach (double conductance in new[] { 0, 0.1, 1.0, 10, 100, 1e3, 1e5, 1e7 })
            {
                double temperature = limit.LowestTemperature(flow, conductance, leak)!.Value.Temperature;
                Assert.True(temperature <= previous + 1e-9, $"seed {seed}");
                Assert.True(temperature >= ideal.Temperature - 1e-9, $"seed {seed}");
                previous = temperature;
            }

            Assert.Equal(ideal.Temperature, previous, 0.02);
            Assert.Equal(ideal, limit.LowestTemperature(flow, double.PositiveInfinity, leak));
        }

        Assert.True(compared > 200);
    }

    [Fact]
    public void ConductanceForACooling()
    {
        CycleLimitKernel limit = new(MixtureLow(), MixtureHigh(290), 300);
        double bound = 0.1 * limit.GreatestCooling(100).Cooling;
        Assert.True(bound > 0);
        Assert.True(limit.TryConductance(100, 0.1, 0.8 * bound, out double conductance));
        Assert.Equal(0.8 * bound, limit.Cooling(100, 0.1, conductance), 1e-8 * bound);
        Assert.False(limit.TryConductance(100, 0.1, 1.0001 * bound, out double none));
        Assert.Equal(double.PositiveInfinity, none);
        Assert.True(limit.TryConductance(100, 0.1, -1e6, out double nothing));
        Assert.Equal(0, nothing);
        Assert.True(limit.Cooling(100, 0.1, 1e-3) < 0);
    }

    [Fact]
    public void InnerPinchAtTheDewPointIsExplained()
    {
        CycleLimitKernel limit = new(MixtureLow(), MixtureHigh(230), 300);
        PinchFacts facts = limit.Explain(110);
        Assert.Equal(PinchLocation.Inside, facts.Location);

        // By definition: D falls towards the pinch from below (ratio under 1) and rises above it (ratio over 1).
        Assert.True(facts.CapacityRatioBelow < 1 + 1e-6);
        Assert.True(facts.CapacityRatioAbove > 1 - 1e-6);
        Assert.Equal(230, facts.Temperature, 1e-9);
        Assert.Equal(PhaseBoundaryKind.Dew, facts.NearestHighBoundary!.Value.Kind);
        Assert.Equal(0, facts.NearestHighBoundary.Value.Distance, 1e-9);
        Assert.Equal(PhaseRegion.Vapor, facts.HighRegionAbove);
        Assert.Equal(PhaseRegion.LiquidVapor, facts.HighRegionBelow);
        Assert.Equal(0, facts.GainFromColderWarmEnd!.Value, 1e-9);
        Assert.True(facts.Cooling < 0);
        Assert.Contains("leaves no cooling", PinchExplanation.Describe(facts), StringComparison.Ordinal);
        Assert.Contains("begins to condense (230.0 K)", PinchExplanation.Describe(facts), StringComparison.Ordinal);
    }

    [Fact]
    public void ColdEndIsExplained()
    {
        CycleLimitKernel limit = new(MixtureLow(), MixtureHigh(290), 300);
        PinchFacts facts = limit.Explain(91);
        Assert.Equal(PinchLocation.ColdEnd, facts.Location);
        Assert.Null(facts.CapacityRatioBelow);
        Assert.Equal(90, facts.LowBubblePoint!.Value);
        Assert.Equal(-1, facts.NearestLowBoundary!.Value.Distance, 1e-9);
        Assert.Contains("1.0 K above the low-pressure bubble point of 90.0 K", PinchExplanation.Describe(facts), StringComparison.Ordinal);
    }

    [Fact]
    public void ColderWarmEndNeverLosesCooling()
    {
        for (int seed = 0; seed < 500; seed++)
        {
            Sample(seed, out IsobarTable low, out IsobarTable high, out double warm, out CycleLimitKernel limit);
            double cold = 60 + (0.5 * (warm - 60));
            PinchFacts facts = limit.Explain(cold);
            Assert.False(string.IsNullOrWhiteSpace(PinchExplanation.Describe(facts)));
            if (facts.GainFromColderWarmEnd is { } gain)
            {
                Assert.True(gain >= 0);
                Assert.True(facts.Location == PinchLocation.WarmEnd || facts.Temperature > warm - 5 || gain == 0);
                double direct = new CycleLimitKernel(low, high, warm - 5).GreatestCooling(cold).Cooling - facts.Cooling;
                Assert.Equal(direct, gain);
            }
        }
    }

    [Fact]
    public void WrongInputIsNamed()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new CycleLimitKernel(PureLow, PureHigh, 331));
        CycleLimitKernel limit = new(PureLow, PureHigh, 300);
        Assert.Throws<ArgumentOutOfRangeException>(() => limit.GreatestCooling(301));
        Assert.Throws<ArgumentOutOfRangeException>(() => limit.GreatestCooling(59));
        Assert.Throws<ArgumentOutOfRangeException>(() => limit.LowestTemperature(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => limit.LowestTemperature(0.1, double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => limit.TryConductance(80, 0.1, double.NaN, out _));
    }

    private static void Sample(int seed, out IsobarTable low, out IsobarTable high, out double warm, out CycleLimitKernel limit)
    {
        Random random = new(seed);
        low = SampleIsobars.Random(random, 60, 320, jumps: seed % 2 == 0);
        high = SampleIsobars.Random(random, 60, 320, jumps: seed % 3 == 0);
        warm = 150 + (169 * random.NextDouble());
        limit = new CycleLimitKernel(low, high, warm);
    }

    private static IsobarTable MixtureLow() => SampleIsobars.MixtureLike(70, 90, 260, 330, 80, 11000, -5000, 0.1);

    private static IsobarTable MixtureHigh(double dew) => SampleIsobars.MixtureLike(70, 125, dew, 330, 90, 9500, -5000, 0.1);
}
