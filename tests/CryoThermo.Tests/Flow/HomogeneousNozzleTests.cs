using CryoThermo.Flow;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Flow;

public sealed class HomogeneousNozzleTests(ITestOutputHelper output)
{
    private static readonly WorkingFluid Bench =
        WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));

    private static double R(WorkingFluid fluid) => 8.314462618 / fluid.Composition.MolarMass.KilogramsPerMole;

    // Choked flow: p*/p0 and G sqrt(R T0)/p0 of the perfect gas (NACA Report 1135 (1953): 0.5283 for 1.4; 0.4871 for 5/3).
    [Theory]
    [InlineData("nitrogen", 300, 1.4, 0.528282)]
    [InlineData("oxygen", 200, 1.4, 0.528282)]
    [InlineData("argon", 300, 1.666667, 0.487139)]
    [InlineData("helium", 300, 1.666667, 0.487139)]
    public void ADiluteGasChokesAsTheTablesOfGasDynamicsTell(string gas, double kelvins, double ratio, double pressureRatio)
    {
        WorkingFluid fluid = WorkingFluid.Pure(gas);
        State inlet = fluid.At(Temperature.FromKelvins(kelvins), Pressure.FromPascals(1000));
        NozzleFlow choked = new HomogeneousNozzle(inlet).Choked;
        double expected = Math.Sqrt(ratio * Math.Pow(2 / (ratio + 1), (ratio + 1) / (ratio - 1)));
        double found = choked.Flux.KilogramsPerSecondPerSquareMeter * Math.Sqrt(R(fluid) * kelvins) / 1000;
        output.WriteLine($"{gas}: {found / expected - 1:E2}, {choked.Throat.Pressure.Pascals / 1000:F6}");
        Assert.Equal(1, found / expected, 1e-4);
        Assert.Equal(pressureRatio, choked.Throat.Pressure.Pascals / 1000, 1e-4);
        Assert.True(choked.IsChoked);
    }

    // NACA Report 1135, gamma 1.4: at M = 0.5 p/p0 0.84302 and A/A* 1.33984; at M = 0.2 0.97250 and 2.96352.
    [Theory]
    [InlineData(0.84302, 1.33984)]
    [InlineData(0.97250, 2.96352)]
    public void SubsonicFlowFollowsTheTables(double pressureRatio, double areaRatio)
    {
        HomogeneousNozzle nozzle = new(WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(300), Pressure.FromPascals(1000)));
        NozzleFlow flow = nozzle.FlowTo(Pressure.FromPascals(1000 * pressureRatio));
        Assert.False(flow.IsChoked);
        Assert.Equal(areaRatio, nozzle.Choked.Flux / flow.Flux, 2e-4);
        Assert.Equal(nozzle.Choked.Flux, nozzle.FlowTo(Pressure.FromPascals(200)).Flux);
        Assert.Equal(0, nozzle.FlowTo(Pressure.FromPascals(1000)).Flux.KilogramsPerSecondPerSquareMeter);
    }

    [Fact]
    public void TheOrificeConstantOfAirIsMet()
    {
        // m sqrt(T)/(A p) = 0.0404 s K^0.5/m, ISO 9300 and texts of gas dynamics (from memory).
        State inlet = WorkingFluid.Pure("air").At(Temperature.FromKelvins(293.15), Pressure.FromBars(1));
        double constant = new HomogeneousNozzle(inlet).Choked.Flux.KilogramsPerSecondPerSquareMeter * Math.Sqrt(293.15) / 1e5;
        output.WriteLine($"{constant:F6}");
        Assert.Equal(0.0404, constant, 5e-5);
    }

    public static TheoryData<string, double, double> Inlets() => new()
    {
        // Subcooled liquid, two phases, gas that condenses, gas; the cubic where it is not the model that is tried.
        { "bench", 150, 17 },
        { "bench cubic", 110, 17 },
        { "bench cubic", 125, 17 },
        { "bench cubic", 200, 17 },
        { "bench cubic", 295, 17 },
        { "bench cubic", 330, 17 },
        { "nitrogen-propane", 250, 20 },
        { "argon-methane-ethane-butane", 160, 25 },
        { "propane", 300, 12 },
        { "propane", 300, 9 },
        { "methane", 195, 50 },
        { "nitrogen", 130, 40 },
        { "fluorocarbons", 200, 15 },
    };

    [Theory]
    [MemberData(nameof(Inlets))]
    public void TheGreatestFluxIsThatOfAnIndependentSearch(string name, double kelvins, double bars)
    {
        WorkingFluid fluid = name switch
        {
            "bench" => Bench,
            "bench cubic" => Bench.WithModel(FluidModel.PengRobinson),
            "nitrogen-propane" => WorkingFluid.Mixture(("nitrogen", 0.5), ("propane", 0.5)),
            "argon-methane-ethane-butane" => WorkingFluid.Mixture(("argon", 0.3), ("methane", 0.3), ("ethane", 0.2), ("n-butane", 0.2)).WithModel(FluidModel.PengRobinson),
            "fluorocarbons" => WorkingFluid.Mixture(("R-14", 0.4), ("R-23", 0.3), ("R-134a", 0.3)),
            _ => WorkingFluid.Pure(name),
        };
        State inlet = fluid.At(Temperature.FromKelvins(kelvins), Pressure.FromBars(bars));
        NozzleFlow choked = new HomogeneousNozzle(inlet).Choked;
        (double p, double flux) = Independent(inlet);
        output.WriteLine($"{name} {inlet}: {choked.Flux.KilogramsPerSecondPerSquareMeter:F2} at {choked.Throat.Pressure.Bars:F5} bar; search {flux:F2} at {p / 1e5:F5}; {choked.Throat.PhaseDescription}");
        Assert.Equal(1, choked.Flux.KilogramsPerSecondPerSquareMeter / flux, 1e-3);
    }

    [Fact]
    public void TheFluxOfALiquidThatChokesAtItsBubblePointIsThatOfBernoulli()
    {
        WorkingFluid propane = WorkingFluid.Pure("propane");
        State inlet = propane.At(Temperature.FromKelvins(290), Pressure.FromBars(15));
        NozzleFlow choked = new HomogeneousNozzle(inlet).Choked;

        // The isentrope of the liquid cools by a few hundredths of a kelvin, so its bubble point is near that of the inlet temperature.
        double vapor = propane.Saturation(choked.Throat.Temperature).Pressure.Pascals;
        Assert.Equal(1, choked.Throat.Pressure.Pascals / vapor, 1e-6);
        double bernoulli = Math.Sqrt(2 * inlet.Density.KilogramsPerCubicMeter * (15e5 - vapor));
        Assert.Equal(1, choked.Flux.KilogramsPerSecondPerSquareMeter / bernoulli, 5e-3);
    }

    [Fact]
    public void TheFluxNeverFallsWithTheBackPressure()
    {
        foreach (double t in new[] { 150.0, 175, 230, 300 })
        {
            HomogeneousNozzle nozzle = new(Bench.WithModel(FluidModel.PengRobinson).At(Temperature.FromKelvins(t), Pressure.FromBars(17)));
            double before = 0;
            for (int i = 0; i <= 60; i++)
            {
                double flux = nozzle.FlowTo(Pressure.FromBars(17 * Math.Pow(0.93, i) * (1 - 1e-7))).Flux.KilogramsPerSecondPerSquareMeter;
                Assert.True(flux >= before * (1 - 1e-12), $"{t} K, step {i}: {flux} after {before}");
                before = flux;
            }
        }
    }

    [Fact]
    public void BadInputIsRefused()
    {
        HomogeneousNozzle nozzle = new(WorkingFluid.Pure("argon").At(Temperature.FromKelvins(300), Pressure.FromBars(10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => nozzle.FlowTo(Pressure.FromBars(11)));
        Assert.Throws<ArgumentOutOfRangeException>(() => nozzle.FlowTo(Pressure.FromBars(0)));
        Assert.Throws<ArgumentNullException>(() => new HomogeneousNozzle(null!));
    }

    // 120 pressures by flashes of their own, then golden section about the best.
    private static (double Pressure, double Flux) Independent(State inlet)
    {
        double p0 = inlet.Pressure.Pascals;
        double Flux(double p)
        {
            State s = inlet.Fluid.AtEntropy(Pressure.FromPascals(p), inlet.MolarEntropy);
            double work = (inlet.MolarEnthalpy - s.MolarEnthalpy).JoulesPerMole / inlet.Fluid.Composition.MolarMass.KilogramsPerMole;
            return s.Density.KilogramsPerCubicMeter * Math.Sqrt(2 * Math.Max(0, work));
        }

        const int Points = 120;
        double At(int i) => p0 * Math.Pow(0.1, (double)i / Points);
        int best = Enumerable.Range(1, Points).MaxBy(i => Flux(At(i)));
        double a = At(Math.Min(best + 1, Points));
        double b = At(best - 1);
        double ratio = (Math.Sqrt(5) - 1) / 2;
        for (int i = 0; i < 25; i++)
        {
            double c = b - (ratio * (b - a));
            double d = a + (ratio * (b - a));
            (a, b) = Flux(c) < Flux(d) ? (c, b) : (a, d);
        }

        return (0.5 * (a + b), Flux(0.5 * (a + b)));
    }
}
