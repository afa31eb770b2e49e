using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

public sealed class CompositeIsobarTests
{
    [Fact]
    public void TheSumIsThatOfItsPartsAtEveryTemperature()
    {
        for (int seed = 1; seed <= 60; seed++)
        {
            Random random = new(seed);
            IsobarTable a = SampleIsobars.Random(random, 60 + (seed % 3), 320, jumps: seed % 2 == 0);
            IsobarTable b = SampleIsobars.Random(random, 60, 320 - (seed % 5), jumps: seed % 3 == 0);
            double share = 0.01 + (0.98 * random.NextDouble());
            IsobarTable sum = CompositeIsobar.Sum(a, share, b, 1 - share);
            Assert.Equal(Math.Max(a.MinTemperature, b.MinTemperature), sum.MinTemperature);
            Assert.Equal(Math.Min(a.MaxTemperature, b.MaxTemperature), sum.MaxTemperature);
            double tolerance = 1e-12 * (sum.MaxEnthalpy - sum.MinEnthalpy + 1e5);
            for (int k = 0; k < 200; k++)
            {
                Check(sum.MinTemperature + ((sum.MaxTemperature - sum.MinTemperature) * random.NextDouble()));
            }

            foreach (double t in a.NodeTemperatures.ToArray().Concat(b.NodeTemperatures.ToArray()).Where(t => t > sum.MinTemperature && t < sum.MaxTemperature))
            {
                Assert.Contains(t, sum.NodeTemperatures.ToArray());
                Check(t);
            }

            void Check(double t)
            {
                Assert.Equal((share * a.Enthalpy(t)) + ((1 - share) * b.Enthalpy(t)), sum.Enthalpy(t), tolerance);
                Assert.Equal((share * a.EnthalpyBelow(t)) + ((1 - share) * b.EnthalpyBelow(t)), sum.EnthalpyBelow(t), tolerance);
                Assert.Equal((share * a.HeatCapacity(t)) + ((1 - share) * b.HeatCapacity(t)), sum.HeatCapacity(t), 1e-9 * sum.HeatCapacity(t));
                double entropy = (share * a.EntropyAtEnthalpy(a.Enthalpy(t))) + ((1 - share) * b.EntropyAtEnthalpy(b.Enthalpy(t)));
                Assert.Equal(entropy, sum.EntropyAtEnthalpy(sum.Enthalpy(t)), 1e-7);
            }
        }
    }

    [Fact]
    public void NodesApartByRoundingOnlyAreDrawnTogether()
    {
        IsobarTable a = SampleIsobars.Boiling(80, 200, 320, 60, 5000, 40);
        IsobarTable b = SampleIsobars.Boiling(80, Math.BitIncrement(200), 320, 90, 7000, 30);
        IsobarTable c = SampleIsobars.Boiling(80, 200 + 1e-9, 320, 90, 7000, 30);
        IsobarTable together = CompositeIsobar.Sum(a, 0.5, b, 0.5);
        IsobarTable apart = CompositeIsobar.Sum(a, 0.5, c, 0.5);
        Assert.Equal(4, together.NodeTemperatures.Length);
        Assert.Equal(6, apart.NodeTemperatures.Length);
        Assert.Equal(0.5 * (a.MaxEnthalpy + b.MaxEnthalpy), together.MaxEnthalpy, 1e-9);
        Assert.Equal(together.MaxEnthalpy, apart.MaxEnthalpy, 1e-6);
        Assert.Equal(0.5 * (5000 + 7000), together.Enthalpy(Math.BitIncrement(200)) - together.EnthalpyBelow(200), 1e-6);
    }

    [Fact]
    public void WhatDoesNotFitIsRefused()
    {
        IsobarTable a = SampleIsobars.Linear(100, 200, 30);
        Assert.Equal("shareA", Assert.Throws<ArgumentOutOfRangeException>(() => CompositeIsobar.Sum(a, 0, a, 1)).ParamName);
        Assert.Equal("b", Assert.Throws<ArgumentException>(() => CompositeIsobar.Sum(a, 0.5, SampleIsobars.Linear(200, 300, 30), 0.5)).ParamName);
    }
}
