using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

public sealed class IsobarBuilderTests
{
    private const double Low = 70;
    private const double High = 310;

    public static TheoryData<string, double> Cases => new()
    {
        { "wide", 1.5 }, { "wide", 15 }, { "two liquids", 3 }, { "two liquids", 20 }, { "five parts", 8 }, { "neon and nitrogen", 10 },
        { "nitrogen and ethane", 3 }, { "nitrogen and ethane", 22 }, { "methane", 3 }, { "methane", 80 }, { "five parts", 150 },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void EnthalpyAndEntropyAgreeWithFlashesWithinTheStatedBound(string name, double bar)
    {
        WorkingFluid fluid = Named(name);
        IsobarTable table = IsobarBuilder.Build(fluid.Kernel, fluid.Fractions(), bar * 1e5, Low, High);
        double bound = Math.Min(1, 1e-4 * (table.MaxEnthalpy - table.MinEnthalpy));
        Random random = new(81);
        double worst = 0;
        for (int k = 0; k < 200; k++)
        {
            double t = Low + ((High - Low) * random.NextDouble());
            State s = At(fluid, t, bar);
            double error = table.Enthalpy(t) - s.MolarEnthalpy.JoulesPerMole;
            worst = Math.Max(worst, Math.Abs(error));
            Assert.True(Math.Abs(error) <= bound, $"h is off by {error:G4} J/mol at {t:R} K, {bar} bar ({s.PhaseDescription})");

            // An enthalpy error carries an entropy error of its size over T; the entropy's own interpolation may add as much.
            Assert.Equal(s.MolarEntropy.JoulesPerMoleKelvin, table.EntropyAtEnthalpy(table.Enthalpy(t)), 2 * bound / t);
            Assert.Equal(t, table.TemperatureAtEnthalpy(table.Enthalpy(t)), 1e-9 * t);
        }

        Assert.True(worst > 0, "the flashes cannot be the table's own values");
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void EnthalpyRisesThroughout(string name, double bar)
    {
        WorkingFluid fluid = Named(name);
        IsobarTable table = IsobarBuilder.Build(fluid.Kernel, fluid.Fractions(), bar * 1e5, Low, High);
        Assert.Equal(Low, table.MinTemperature);
        Assert.Equal(High, table.MaxTemperature);
        double last = double.NegativeInfinity;
        double lastEntropy = double.NegativeInfinity;
        for (int k = 0; k <= 20000; k++)
        {
            double h = table.Enthalpy(Low + ((High - Low) * k / 20000));
            Assert.True(h > last);
            double s = table.EntropyAtEnthalpy(h);
            Assert.True(s > lastEntropy);
            last = h;
            lastEntropy = s;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void EveryChangeOfPhasesIsANode(string name, double bar)
    {
        WorkingFluid fluid = Named(name);
        IsobarTable table = IsobarBuilder.Build(fluid.Kernel, fluid.Fractions(), bar * 1e5, Low, High);
        double[] nodes = table.NodeTemperatures.ToArray();
        List<double> boundaries = [];
        const double step = 0.5;
        string previous = At(fluid, Low, bar).PhaseDescription;
        for (double t = Low + step; t <= High; t += step)
        {
            string next = At(fluid, t, bar).PhaseDescription;
            if (next != previous)
            {
                double low = t - step;
                double high = t;
                while (high - low > 1e-8)
                {
                    double middle = 0.5 * (low + high);
                    (low, high) = At(fluid, middle, bar).PhaseDescription == previous ? (middle, high) : (low, middle);
                }

                boundaries.Add(high);
                double nearest = nodes.Min(x => Math.Abs(x - high));

                // Where three phases are unresolved, figures jump and the builder gives up at stretches of a millikelvin.
                double tolerance = (previous + next).Contains("unresolved", StringComparison.Ordinal) ? 1e-3 : 1e-6;
                Assert.True(nearest < tolerance, $"{previous} to {next} at {high:R} K, {bar} bar: the nearest node is {nearest:G3} K away");
                previous = next;
            }
        }

        // A supercritical fluid passes from liquid-like to vapour-like somewhere too, but not between 70 and 310 K at 150 bar.
        Assert.True(boundaries.Count >= 1 || bar > 100, "no boundary found");

        // And the regions told on both sides are those of flashes in the middle of each segment.
        for (int i = 0; i + 1 < nodes.Length; i++)
        {
            double width = nodes[i + 1] - nodes[i];
            if (width < 0.01)
            {
                continue;
            }

            double middle = 0.5 * (nodes[i] + nodes[i + 1]);
            State there = At(fluid, middle, bar);
            Assert.Equal(Describe(table.Regions[i]), there.HasUnresolvedPhase ? "unresolved" : there.PhaseDescription);
        }
    }

    [Fact]
    public void PureFluidHasItsPlateau()
    {
        WorkingFluid fluid = WorkingFluid.Pure("methane");
        Isobar isobar = fluid.Isobar(Pressure.FromBars(3), Temperature.FromKelvins(Low), Temperature.FromKelvins(High));
        Saturation saturation = fluid.Saturation(Pressure.FromBars(3));
        Assert.Equal(
            [PhaseRegion.Liquid, PhaseRegion.ConstantTemperatureBoiling, PhaseRegion.Vapor], isobar.Stretches.Select(s => s.Region));
        IsobarStretch plateau = isobar.Stretches[1];
        Assert.Equal(plateau.From.Kelvins, plateau.To.Kelvins);

        // The boundary is found to a nanokelvin by halving; heat capacities of 60 J/(mol K) make 1e-7 J/mol of it.
        Assert.Equal(saturation.Temperature.Kelvins, plateau.From.Kelvins, 2e-9);
        double boiling = plateau.From.Kelvins;
        Assert.Equal(saturation.Vapor.MolarEnthalpy.JoulesPerMole, isobar.Table.Enthalpy(boiling), 1e-6);
        Assert.Equal(saturation.Liquid.MolarEnthalpy.JoulesPerMole, isobar.Table.EnthalpyBelow(boiling), 1e-6);
        double half = saturation.Liquid.MolarEnthalpy.JoulesPerMole + (0.5 * saturation.EnthalpyOfVaporization.JoulesPerMole);
        Assert.Equal(boiling, isobar.TemperatureAt(MolarEnergy.FromJoulesPerMole(half)).Kelvins, 1e-12);
        double expected = 0.5 * (saturation.Liquid.MolarEntropy.JoulesPerMoleKelvin + saturation.Vapor.MolarEntropy.JoulesPerMoleKelvin);
        Assert.Equal(expected, isobar.Table.EntropyAtEnthalpy(half), 1e-7);
    }

    [Fact]
    public void BubbleAndDewPointAreNodes()
    {
        WorkingFluid fluid = Blends.FiveParts;
        Isobar isobar = fluid.Isobar(Pressure.FromBars(8), Temperature.FromKelvins(Low), Temperature.FromKelvins(High));
        double bubble = fluid.BubblePoint(Pressure.FromBars(8)).Temperature.Kelvins;
        double dew = fluid.DewPoint(Pressure.FromBars(8)).Temperature.Kelvins;
        double[] nodes = isobar.Table.NodeTemperatures.ToArray();
        Assert.True(nodes.Min(t => Math.Abs(t - bubble)) < 1e-6, $"bubble point at {bubble:R} K");
        Assert.True(nodes.Min(t => Math.Abs(t - dew)) < 1e-6, $"dew point at {dew:R} K");
    }

    [Theory]
    [InlineData(299.9, 300)]
    [InlineData(100, 100.001)]
    [InlineData(10, 1000)]
    public void ShortAndLongSpans(double low, double high)
    {
        Isobar isobar = Blends.Wide.Isobar(Pressure.FromBars(2), Temperature.FromKelvins(low), Temperature.FromKelvins(high));
        double span = isobar.Table.MaxEnthalpy - isobar.Table.MinEnthalpy;
        for (int k = 0; k <= 50; k++)
        {
            double t = Math.Min(high, low + ((high - low) * k / 50));
            Assert.Equal(At(Blends.Wide, t, 2).MolarEnthalpy.JoulesPerMole, isobar.MolarEnthalpy(Temperature.FromKelvins(t)).JoulesPerMole, Math.Min(1, 1e-4 * span));
        }
    }

    private static string Describe(PhaseRegion region) => region switch
    {
        PhaseRegion.Liquid => "liquid",
        PhaseRegion.Vapor => "vapor",
        PhaseRegion.LiquidVapor => "liquid + vapor",
        PhaseRegion.TwoLiquids => "two liquids",
        PhaseRegion.TwoLiquidsVapor => "two liquids + vapor",
        PhaseRegion.ThreeLiquids => "three liquids",
        PhaseRegion.UnresolvedPhases => "unresolved",
        _ => "boiling",
    };

    private static State At(WorkingFluid fluid, double t, double bar) => fluid.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));

    private static WorkingFluid Named(string name) => name switch
    {
        "methane" => WorkingFluid.Pure("methane"),
        "wide" => Blends.Wide,
        "two liquids" => Blends.TwoLiquids,
        "nitrogen and ethane" => Blends.NitrogenEthane,
        "five parts" => Blends.FiveParts,
        _ => Blends.NeonNitrogen,
    };
}
