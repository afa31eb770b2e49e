using CryoThermo.Coolers;
using CryoThermo.Machines;

namespace CryoThermo.Tests.Coolers;

public sealed class CoolerDesignTests
{
    private static readonly CoolerDesign Bench = BenchCoolerFile.Design(static _ => { });

    [Fact]
    public void MoreConductanceTendsToThePerfectRecuperatorFromBelow()
    {
        double limit = (double)Bench.GreatestCooling.Watts;
        double[] gross =
        [
            .. new[] { 1.0, 10, 100, 1000 }.Select(factor =>
                (double)BenchCoolerFile.Design(c => c.SetValue("recuperator", "conductance", 40 * factor)).GrossCooling.Watts),
        ];
        for (int i = 1; i < gross.Length; i++)
        {
            // Both sides carry the isobars' error: 1 J/mol of flow.
            Assert.True(gross[i] >= gross[i - 1] - (2 * Bench.Compression.MolarFlow.MolesPerSecond), $"{gross[i - 1]:R} to {gross[i]:R} W");
            Assert.True(limit - gross[i] <= limit - gross[i - 1] + (2 * Bench.Compression.MolarFlow.MolesPerSecond));
        }

        Assert.True(limit > gross[0]);
        Assert.Equal(limit, gross[^1], 2 * Bench.Compression.MolarFlow.MolesPerSecond);
    }

    [Theory]
    [InlineData(10, 105)]
    [InlineData(12, 105)]
    [InlineData(16, 120)]
    [InlineData(14, 160)]
    public void TheRequiredConductanceGivesTheDemandedLoad(double load, double cold)
    {
        CoolerDesign first = BenchCoolerFile.Design(c => Demand(c, load, cold));
        Assert.NotNull(first.RequiredConductanceWattsPerKelvin);
        CoolerDesign second = BenchCoolerFile.Design(c =>
        {
            Demand(c, load, cold);
            c.SetValue("recuperator", "conductance", first.RequiredConductanceWattsPerKelvin!.Value);
        });

        // The demand and the leak; the isobars' error of 1 J/mol of flow comes on top.
        Assert.Equal(load, (double)second.NetCooling.Watts, (1e-4 * load) + (0.5 * second.Compression.MolarFlow.MolesPerSecond));
        Assert.Equal(first.RequiredConductanceWattsPerKelvin!.Value, second.RequiredConductanceWattsPerKelvin!.Value, 1e-9 * first.RequiredConductanceWattsPerKelvin!.Value);
    }

    [Fact]
    public void MoreThanTheLimitNeedsNoConductanceThatExists()
    {
        double limit = (double)Bench.GreatestCooling.Watts - 4;
        Assert.Null(BenchCoolerFile.Design(c => Demand(c, limit * 1.001, 105)).RequiredConductanceWattsPerKelvin);

        // Pinched at a break point, the conductance rises only with the logarithm of what is missing.
        double previous = 0;
        foreach (double missing in (double[])[1e-2, 1e-3, 1e-4])
        {
            double needed = BenchCoolerFile.Design(c => Demand(c, limit * (1 - missing), 105)).RequiredConductanceWattsPerKelvin!.Value;
            Assert.True(needed > previous + 1, $"{needed} W/K after {previous} W/K");
            previous = needed;
        }
    }

    [Fact]
    public void AtTheLowestTemperatureWithTheConductanceNothingIsLeft()
    {
        LowestTemperature lowest = Bench.LowestTemperatureWithConductance!;
        Assert.False(lowest.EndOfSearch);

        // Where the blend boils at one temperature the cooling jumps: nothing is left below, all of it above.
        Assert.True(NetAt(lowest.Temperature.Kelvins - 0.05) < 0);
        Assert.True(NetAt(lowest.Temperature.Kelvins + 0.05) > -1e-3);

        static double NetAt(double kelvins)
        {
            CoolerDesign there = BenchCoolerFile.Design(c =>
            {
                c.SetValue("load", "temperature", kelvins);
                c["coolingCurve"]!["lowest"]!["value"] = kelvins;
            });

            // The curve is made by the isobars the limit was found with; the loop by flashes.
            Assert.Equal((double)there.Curve[0].NetCooling.Watts, (double)there.NetCooling.Watts, 1.0 * there.Compression.MolarFlow.MolesPerSecond);
            return (double)there.NetCooling.Watts;
        }
    }

    [Fact]
    public void AtTheIdealLowestTemperatureAPerfectRecuperatorGivesNothing()
    {
        LowestTemperature lowest = Bench.IdealLowestTemperature!;
        Assert.False(lowest.EndOfSearch);
        Assert.Equal(0, Bench.Cycle.GreatestCooling(lowest.Temperature).GreatestCooling.JoulesPerMole, 1e-3);
        Assert.True(lowest.Temperature < Bench.LowestTemperatureWithConductance!.Temperature);
    }

    [Fact]
    public void TheCoolingCurveNeverFallsWithTemperature()
    {
        for (int i = 1; i < Bench.Curve.Count; i++)
        {
            CoolingPoint colder = Bench.Curve[i - 1];
            CoolingPoint warmer = Bench.Curve[i];
            Assert.True(warmer.ColdTemperature > colder.ColdTemperature);
            Assert.True((double)warmer.GreatestCooling.Watts >= (double)colder.GreatestCooling.Watts - 1e-6);
            Assert.True((double)warmer.GrossCooling.Watts >= (double)colder.GrossCooling.Watts - 1e-6);
            Assert.True((double)warmer.GrossCooling.Watts <= (double)warmer.GreatestCooling.Watts + 1e-6);
            Assert.Equal((double)warmer.GrossCooling.Watts - 4, (double)warmer.NetCooling.Watts, 1e-9);
        }
    }

    [Fact]
    public void TheCurvePassesThroughTheDesignPoint()
    {
        CoolerDesign design = BenchCoolerFile.Design(c => c["coolingCurve"]!["lowest"]!["value"] = 105);
        Assert.Equal((double)design.GrossCooling.Watts, (double)design.Curve[0].GrossCooling.Watts, 0.5 * design.Compression.MolarFlow.MolesPerSecond);
        Assert.Equal((double)design.GreatestCooling.Watts, (double)design.Curve[0].GreatestCooling.Watts, 1e-9);
    }

    [Fact]
    public void TheLimitOfTheIsobarsIsThatOfFlashes()
    {
        // Stated error of an isobar: 1 J/mol and 1e-4 of its span; two of them here.
        for (double t = 82; t < 296; t += 1.7)
        {
            UnitsNet.Temperature temperature = UnitsNet.Temperature.FromKelvins(t);
            double flashes = Bench.Fluid.At(temperature, Bench.Cycle.LowPressureIsobar.Pressure).MolarEnthalpy.JoulesPerMole
                - Bench.Fluid.At(temperature, Bench.Cycle.HighPressureIsobar.Pressure).MolarEnthalpy.JoulesPerMole;
            Assert.Equal(flashes, Bench.Cycle.IsothermalEnthalpyDifference(temperature).JoulesPerMole, 2.0);
        }
    }

    [Fact]
    public void AColdEndBelowEverythingTheBlendReachesIsReportedNotThrown()
    {
        CoolerDesign design = BenchCoolerFile.Design(c => Demand(c, 10, 70));
        Assert.False(design.MeetsLoad);
        Assert.Null(design.RequiredConductanceWattsPerKelvin);
        Assert.True(design.Limit.GreatestCooling.JoulesPerMole < 0);
        Assert.Equal(PinchLocation.Inside, design.Limit.Location);
        Assert.Contains("no cooling at all", design.Limit.Explanation, StringComparison.Ordinal);
    }

    [Fact]
    public void ATinyRecuperatorIsReportedNotThrown()
    {
        CoolerDesign design = BenchCoolerFile.Design(c => c.SetValue("recuperator", "conductance", 1e-3));
        Assert.False(design.MeetsLoad);
        Assert.True((double)design.NetCooling.Watts < 0);
        Assert.True(design.RequiredConductanceWattsPerKelvin > 1);
        Assert.Contains(design.Remarks, static r => r.Contains("Liquid reaches the compressor", StringComparison.Ordinal));
    }

    [Fact]
    public void ADropThatBringsTheWarmEndBelowTheColdEndIsAnErrorThatNamesBoth()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => BenchCoolerFile.Design(c =>
        {
            Demand(c, 1, 294);
            c["coolingCurve"] = null;
            c.Remove("coolingCurve");
            c["recuperator"]!["highSidePressureDrop"]!["value"] = 14;
        }));
        Assert.Contains("load.temperature is 294 K; it must be below", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ADischargeBeyondTheModelIsAnErrorThatNamesTheFields()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => BenchCoolerFile.Design(c => c["compressor"]!["isentropicEfficiency"] = 0.01));
        Assert.Contains("discharge hotter than 1000 K", error.Message, StringComparison.Ordinal);
        Assert.Contains("isentropicEfficiency", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void BothModelsOfTheFileAreUsed()
    {
        CoolerDesign other = BenchCoolerFile.Design(c => c["model"] = "soave-redlich-kwong");
        Assert.Equal("multi-fluid model", Bench.Fluid.Model.Name);
        Assert.Same(FluidModel.SoaveRedlichKwong, other.Fluid.Model);
        Assert.NotEqual((double)Bench.GrossCooling.Watts, (double)other.GrossCooling.Watts, 1e-3);
    }

    [Fact]
    public void AnAfterCoolerBelowAmbientIsRemarkedOn()
    {
        CoolerDesign design = BenchCoolerFile.Design(c => c["afterCoolerOutletTemperature"]!["value"] = 15);
        Assert.Contains(design.Remarks, static r => r.Contains("below ambient", StringComparison.Ordinal));
        Assert.DoesNotContain(Bench.Remarks, static r => r.Contains("below ambient", StringComparison.Ordinal));
    }

    private static void Demand(System.Text.Json.Nodes.JsonObject cooler, double load, double cold)
    {
        cooler.SetValue("load", "power", load);
        cooler.SetValue("load", "temperature", cold);
    }
}
