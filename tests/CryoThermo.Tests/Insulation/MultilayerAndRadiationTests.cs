using CryoThermo.HeatTransfer;
using CryoThermo.Insulation;
using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

public sealed class MultilayerAndRadiationTests(ITestOutputHelper output)
{
    private static Temperature K(double kelvins) => Temperature.FromKelvins(kelvins);

    /// <summary>The layer-density form of Keller, Cunnington and Glassford (1974), computed elsewhere, to the digits printed.</summary>
    [Theory]
    [InlineData(20, 10, 0.374)]
    [InlineData(30, 20, 0.466)]
    [InlineData(40, 20, 0.351)]
    [InlineData(30, 30, 0.939)]
    public void TheLayerDensityFormIsReproduced(int layers, double density, double expected) =>
        Assert.Equal(expected, new MultilayerInsulation(layers, density, MultilayerInsulation.Calorimeter).Between(K(77), K(300)).Flux.Nominal.WattsPerSquareMeter, 0.0005);

    /// <summary>Accelerator cryostats, 30 layers from 300 to 80 K as built: 1.0 to 1.5 W/m2 (from memory). The band of hand wrapping holds that range.</summary>
    [Fact]
    public void ThirtyLayersAsBuiltLieInTheBandOfHandWrapping()
    {
        MultilayerResult result = new MultilayerInsulation(30, 20, MultilayerInsulation.HandWrapped).Between(K(80), K(300));
        output.WriteLine($"{result.Flux.Least.WattsPerSquareMeter:F2} to {result.Flux.Greatest.WattsPerSquareMeter:F2} W/m2");
        Assert.True(result.Flux.Least.WattsPerSquareMeter <= 1.0 && result.Flux.Greatest.WattsPerSquareMeter >= 1.5);
    }

    /// <summary>Kinetic theory for nitrogen: 5.5e3 W/(m2 torr K^0.5) times the pressure and the difference of the roots, over the number of gaps (computed elsewhere); a torr is 133.322 Pa.</summary>
    [Fact]
    public void TheGasBetweenLayersIsThatOfKineticTheory()
    {
        ResidualGas thin = new(WorkingFluid.Pure("nitrogen"), Pressure.FromPascals(1e-4));
        MultilayerInsulation blanket = new(30, 20, MultilayerInsulation.HandWrapped);
        double expected = 5.5e3 * 1e-4 / 133.322 * (Math.Sqrt(300) - Math.Sqrt(77)) / 31;
        MultilayerResult result = blanket.Between(K(77), K(300), thin);
        Assert.Equal(1, result.GasFlux.WattsPerSquareMeter / expected, 0.01);

        // Gas is not multiplied by the wrapping.
        Assert.Equal(3 * (result.SolidFlux + result.RadiationFlux).WattsPerSquareMeter, (result.Flux.Nominal - result.GasFlux).WattsPerSquareMeter, 1e-9);

        // Never more than still gas over the whole blanket.
        MultilayerResult full = blanket.Between(K(77), K(300), new(WorkingFluid.Pure("nitrogen"), Pressure.FromBars(1)));
        double still = new ResidualGas(WorkingFluid.Pure("nitrogen"), Pressure.FromBars(1)).Across(GasGap.StillPlates(blanket.Thickness), new(K(77)), new(K(300))).ContinuumFlux.WattsPerSquareMeter;
        Assert.InRange(full.GasFlux.WattsPerSquareMeter / still, 0.98, 1);
        Assert.NotEmpty(full.Notes);
    }

    /// <summary>Black walls 300 to 77 K 457.3 W/m2, emissivities of 0.05 11.73 W/m2 (arithmetic, done elsewhere).</summary>
    [Fact]
    public void RadiationBetweenPlatesIsThatOfArithmetic()
    {
        Assert.Equal(457.3, VacuumRadiation.Across(K(77), 1, K(300), 1).Flux.WattsPerSquareMeter, 0.05);
        Assert.Equal(11.73, VacuumRadiation.Across(K(77), 0.05, K(300), 0.05).Flux.WattsPerSquareMeter, 0.005);

        // Alike shields divide by one more than their number.
        for (int n = 1; n <= 5; n++)
        {
            FloatingShield[] shields = [.. Enumerable.Repeat(new FloatingShield(0.05, 0.05), n)];
            Assert.Equal(11.73 / (n + 1), VacuumRadiation.Across(K(77), 0.05, K(300), 0.05, 1, shields).Flux.WattsPerSquareMeter, 0.005);
        }
    }

    /// <summary>Between every two neighbours, at the temperatures found, the plain law gives the heat told.</summary>
    [Fact]
    public void ShieldsFloatWhereTheirHeatBalances()
    {
        Random random = new(3);
        for (int i = 0; i < 200; i++)
        {
            double e = 0.02 + (0.9 * random.NextDouble());
            double area = 1;
            List<FloatingShield> shields = [];
            for (int n = random.Next(5); n >= 0; n--)
            {
                area *= 1 + (0.3 * random.NextDouble());
                shields.Add(new(0.01 + (0.9 * random.NextDouble()), 0.01 + (0.9 * random.NextDouble()), area));
            }

            double outer = area * 1.2;
            VacuumRadiationResult result = VacuumRadiation.Across(K(80), e, K(300), 0.3, 1 / outer, shields);
            Assert.Equal(shields.Count, result.Shields.Count);
            (double Temperature, double Area, double Emissivity) inner = (80, 1, e);
            for (int s = 0; s <= shields.Count; s++)
            {
                double t = s < shields.Count ? result.Shields[s].Kelvins : 300;
                double a = s < shields.Count ? shields[s].AreaOverInner : outer;
                double emissivity = s < shields.Count ? shields[s].InnerSideEmissivity : 0.3;
                double heat = 5.670374419e-8 * inner.Area * (Math.Pow(t, 4) - Math.Pow(inner.Temperature, 4)) / ((1 / inner.Emissivity) + (inner.Area / a * ((1 / emissivity) - 1)));
                Assert.Equal(1, heat / result.Flux.WattsPerSquareMeter, 1e-7);
                inner = (t, a, s < shields.Count ? shields[s].OuterSideEmissivity : 1);
            }
        }

        Assert.Throws<ArgumentException>(() => VacuumRadiation.Across(K(80), 0.1, K(300), 0.1, 1, [new(0.1, 0.1, 1.5)]));
    }

    [Fact]
    public void FinishesGiveABand()
    {
        var band = VacuumRadiation.BetweenFinishes(K(85), SurfaceFinish.Named("copper, polished"), K(295), SurfaceFinish.Named("stainless steel, as received"), 0.8);
        output.WriteLine($"{band.Least.WattsPerSquareMeter:F2} {band.Nominal.WattsPerSquareMeter:F2} {band.Greatest.WattsPerSquareMeter:F2} W/m2");
        Assert.True(band.Least < band.Nominal && band.Nominal < band.Greatest);
        double direct = GreySurfaces.Enclosed(
            K(85), SurfaceFinish.Named("copper, polished").EmissivityAt(K(85)).Typical, K(295), SurfaceFinish.Named("stainless steel, as received").EmissivityAt(K(295)).Typical, 0.8).Flux.WattsPerSquareMeter;
        Assert.Equal(-direct, band.Nominal.WattsPerSquareMeter, 1e-9);
        Assert.Throws<ArgumentOutOfRangeException>(() => VacuumRadiation.BetweenFinishes(K(40), SurfaceFinish.Named("gold plate"), K(295), SurfaceFinish.Named("gold plate"), 1));
    }
}
