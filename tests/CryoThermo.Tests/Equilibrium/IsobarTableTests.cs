using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

public class IsobarTableTests
{
    [Fact]
    public void NodeValuesAreReproduced()
    {
        for (int seed = 0; seed < 300; seed++)
        {
            IsobarTable table = SampleIsobars.Random(new Random(seed), 70, 310, jumps: false);
            for (int i = 0; i < table.NodeTemperatures.Length; i++)
            {
                double t = table.NodeTemperatures[i];
                double h = table.NodeEnthalpies[i];
                Assert.Equal(h, table.Enthalpy(t), 1e-9);
                Assert.Equal(h, table.EnthalpyBelow(t), 1e-9);
                Assert.Equal(t, table.TemperatureAtEnthalpy(h), 1e-12 * t);
            }
        }
    }

    [Fact]
    public void TemperatureAndEnthalpyAreInverse()
    {
        double worst = 0;
        for (int seed = 0; seed < 2000; seed++)
        {
            Random random = new(seed);
            IsobarTable table = SampleIsobars.Random(random, 70, 310, jumps: seed % 2 == 1);
            for (int k = 0; k < 50; k++)
            {
                double t = 70 + (240 * random.NextDouble());
                double back = table.TemperatureAtEnthalpy(table.Enthalpy(t));
                worst = Math.Max(worst, Math.Abs(back - t) / t);
            }
        }

        Assert.InRange(worst, 0, 3e-13);
    }

    [Fact]
    public void InversionHoldsWhereEnthalpyIsLargeAgainstItsSpan()
    {
        // The segment's span is 4 J/mol at an enthalpy of -4e6 J/mol: a test on the residual of h itself cannot be met.
        IsobarTable table = SampleIsobars.Build(
            [100, 100.1], [-4e6, -4e6 + 4], [50], [25], [PhaseRegion.Liquid]);
        for (int k = 0; k <= 1000; k++)
        {
            double t = 100 + (0.1 * k / 1000);
            Assert.Equal(t, table.TemperatureAtEnthalpy(table.Enthalpy(t)), 1e-9);
        }
    }

    [Fact]
    public void JumpGivesLiquidBelowAndVaporAbove()
    {
        IsobarTable table = SampleIsobars.Boiling(70, 80, 300, 55, 5500, 30);
        Assert.Equal(550, table.EnthalpyBelow(80), 1e-9);
        Assert.Equal(6050, table.Enthalpy(80), 1e-9);
        Assert.Equal(80, table.TemperatureAtEnthalpy(3000));
        Assert.Equal(80, table.TemperatureAtEnthalpy(550));
        Assert.Equal(80, table.TemperatureAtEnthalpy(6050));
        Assert.Equal(PhaseRegion.Vapor, table.Region(80));
        Assert.Equal(PhaseRegion.Liquid, table.RegionBelow(80));
        Assert.Equal(30, table.HeatCapacity(80), 1e-12);
        Assert.Equal(55, table.HeatCapacityBelow(80), 1e-12);
        double liquid = table.EntropyAtEnthalpy(550);
        Assert.Equal(5500.0 / 80, table.EntropyAtEnthalpy(6050) - liquid, 1e-9);
        Assert.Equal(1000.0 / 80, table.EntropyAtEnthalpy(1550) - liquid, 1e-9);
    }

    [Fact]
    public void JumpAtEitherEndOfTheTable()
    {
        IsobarTable table = SampleIsobars.Build(
            [80, 80, 200, 200], [0, 5000, 9000, 12000], [0, 30, 0], [0, 36, 0], new PhaseRegion[3]);
        Assert.Equal(0, table.EnthalpyBelow(80));
        Assert.Equal(5000, table.Enthalpy(80));
        Assert.Equal(9000, table.EnthalpyBelow(200), 1e-9);
        Assert.Equal(12000, table.Enthalpy(200));
        Assert.Equal(200, table.TemperatureAtEnthalpy(12000));
        Assert.Equal(80, table.TemperatureAtEnthalpy(0));
    }

    [Theory]
    [InlineData(45)]
    [InlineData(3)]
    [InlineData(1000)]
    public void EntropyFollowsHeatOverTemperature(int nodes)
    {
        // Constant heat capacity: s = cp ln T, whatever the width of the segments.
        IsobarTable table = SampleIsobars.Linear(80, 300, 30, nodes);
        double worst = 0;
        for (int k = 0; k <= 2200; k++)
        {
            double t = Math.Min(80 + (0.1 * k), 300);
            worst = Math.Max(worst, Math.Abs(table.EntropyAtEnthalpy(table.Enthalpy(t)) - (30 * Math.Log(t / 80))));
        }

        // The sample's own node entropies come from 20 three-point rules a segment: some 1e-9 where one spans 110 K.
        Assert.InRange(worst, 0, 1e-9);
    }

    [Fact]
    public void EntropySlopeIsOneOverTemperature()
    {
        for (int seed = 0; seed < 200; seed++)
        {
            Random random = new(seed);
            IsobarTable table = SampleIsobars.Random(random, 70, 310, jumps: seed % 2 == 1);
            for (int i = 0; i + 1 < table.NodeEnthalpies.Length; i++)
            {
                double h = table.NodeEnthalpies[i] + ((0.1 + (0.8 * random.NextDouble())) * (table.NodeEnthalpies[i + 1] - table.NodeEnthalpies[i]));
                double step = 1e-3 * (table.NodeEnthalpies[i + 1] - table.NodeEnthalpies[i]);
                double slope = (table.EntropyAtEnthalpy(h + step) - table.EntropyAtEnthalpy(h - step)) / (2 * step);
                Assert.Equal(1, slope * table.TemperatureAtEnthalpy(h), 2e-5);
            }
        }
    }

    [Fact]
    public void SegmentThatDoesNotRiseThroughoutIsRefused()
    {
        Assert.False(IsobarTable.RisesThroughout(1, 1, 4.5, 4.5));
        Assert.False(IsobarTable.RisesThroughout(1, 1, 0, 1));
        Assert.False(IsobarTable.RisesThroughout(1, 1, double.NaN, 1));
        Assert.True(IsobarTable.RisesThroughout(1, 1, 2.9, 2.9));
        Assert.True(IsobarTable.RisesThroughout(1, 1, 0.01, 0.01));
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => SampleIsobars.Build([100, 110], [0, 10], [4.5], [4.5], [PhaseRegion.Vapor]));
        Assert.Contains("100", error.Message, StringComparison.Ordinal);
        Assert.Contains("another node", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void RefusalOfFallingSegmentsAgreesWithAFineScan()
    {
        Random random = new(7);
        int refused = 0;
        for (int k = 0; k < 20000; k++)
        {
            double d0 = 6 * random.NextDouble();
            double d1 = 6 * random.NextDouble();
            double c2 = 3 - (2 * d0) - d1;
            double c3 = d0 + d1 - 2;
            double least = double.PositiveInfinity;
            for (int j = 0; j <= 400; j++)
            {
                double u = j / 400.0;
                least = Math.Min(least, d0 + (u * ((2 * c2) + (3 * u * c3))));
            }

            if (Math.Abs(least) < 1e-3)
            {
                continue;
            }

            bool rises = IsobarTable.RisesThroughout(1, 1, d0, d1);
            refused += rises ? 0 : 1;
            Assert.Equal(least > 0, rises);
        }

        Assert.InRange(refused, 2000, 18000);
    }

    [Fact]
    public void LengthsAreChecked()
    {
        Assert.Throws<ArgumentException>(
            () => new IsobarTable(1e5, [100, 110], [0, 10], [0], [1], [1], [PhaseRegion.Vapor]));
        Assert.Throws<ArgumentException>(
            () => new IsobarTable(1e5, [100, 110], [0, 10], [0, 0.1], [1, 1], [1], [PhaseRegion.Vapor]));
    }

    [Fact]
    public void OutsideTheTableIsAnErrorNamingTheRange()
    {
        IsobarTable table = SampleIsobars.Linear(80, 300, 30);
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => table.Enthalpy(79.9));
        Assert.Contains("80 to 300 K", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => table.Enthalpy(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => table.TemperatureAtEnthalpy(1e9));
    }
}
