using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Machines;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Rating;

/// <summary>The example of docs/concepts/phase-separator.md, run as it stands there.</summary>
public sealed class SeparatorPageTests(ITestOutputHelper output)
{
    [Fact]
    public void TheSeparatorDoesWhatThePageTells()
    {
        // Page:
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.18), ("methane", 0.30), ("ethane", 0.22), ("propane", 0.10), ("isobutane", 0.20));
        Pressure low = Pressure.FromBars(1.5);
        Pressure high = Pressure.FromBars(18);
        Temperature room = Temperature.FromKelvins(298);
        Temperature lowest = Temperature.FromKelvins(82);
        Temperature detector = Temperature.FromKelvins(100);
        MolarFlow flow = MolarFlow.FromMolesPerSecond(0.03);

        SeparatorCycle cycle = new(blend, low, high, room, lowest, warmConductanceWattsPerKelvin: 12, coldConductanceWattsPerKelvin: 12, flow);
        SeparatorCycleResult result = cycle.At(detector);
        Console.WriteLine(result.ToTable());
        Console.WriteLine(result.CompositionTable());

        // The same blend without a separator, with one recuperator of 24 W/K.
        ThrottleCycle single = new(blend, low, high, room, lowest);
        Recuperator recuperator = new(single.HighPressureIsobar, flow, single.WarmEnd, single.LowPressureIsobar, flow, detector);
        MolarEnergy taken = single.LowPressureIsobar.MolarEnthalpy(detector) - single.HighPressureIsobar.MolarEnthalpy(room);
        Power without = Power.FromWatts(flow.MolesPerSecond * taken.JoulesPerMole) + recuperator.WithConductance(24).Duty;
        // End.
        output.WriteLine(result.ToTable().ToString());
        output.WriteLine(result.CompositionTable().ToString());

        // Computed here, as printed on the page.
        Assert.Equal(6.63, (double)result.Cooling.Watts, 0.005);
        Assert.Equal(4.65, (double)without.Watts, 0.005);
        Assert.Equal(4.6, 100 * (1 - cycle.VaporShare), 0.05);
        Assert.Equal(66.4, 100 * cycle.Liquid.Composition["isobutane"], 0.05);
        Assert.Equal(17.8, 100 * cycle.Vapor.Composition["isobutane"], 0.05);
        Assert.Equal(196.3, result.MiddleTemperature.Kelvins, 0.05);
        Assert.Equal(0.906, result.VaporThrottle.MassFlow.GramsPerSecond, 0.0005);
        Assert.Equal(0.069, result.LiquidThrottle.MassFlow.GramsPerSecond, 0.0005);
        Assert.Equal(1, result.Suction.VaporFraction);
        Assert.Equal(29.80, (double)cycle.GreatestCooling(detector).Watts, 0.005);
        Assert.Equal(28.05, flow.MolesPerSecond * single.GreatestCooling(detector).GreatestCooling.JoulesPerMole, 0.005);
        Assert.Equal(89.7, cycle.LowestTemperature()!.Temperature.Kelvins, 0.05);

        // Single stage and other figures of the box without a table of its own.
        SeparatorColdBox box = new(blend, low.Pascals, high.Pascals, room.Kelvins, lowest.Kelvins, 12, 12);
        foreach ((double cold, double alone, double parted) in ((double, double, double)[])[(120, 15.98, 18.35), (150, 30.59, 32.34), (200, 47.70, 47.64)])
        {
            Assert.Equal(alone, single.Kernel.Cooling(cold, 0.03, 24), 0.005);
            Assert.Equal(parted, 0.03 * box.Solve(cold, 0.03).CoolingPerMole, 0.005);
        }

        Assert.Equal(92.5, single.Kernel.LowestTemperature(0.03, 24, 0)!.Value.Temperature, 0.05);
        Assert.Equal(9.35, single.Kernel.Cooling(100, 0.01, 24), 0.005);
        Assert.Equal(9.17, 0.01 * box.Solve(100, 0.01).CoolingPerMole, 0.005);
        Assert.Equal(7.56, 0.03 * box.With(8, 16).Solve(100, 0.03).CoolingPerMole, 0.005);
        Assert.Equal(89.1, box.With(8, 16).LowestTemperature(0.03, 0)!.Value.Temperature, 0.05);

        WorkingFluid more = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.20), ("propane", 0.06), ("isobutane", 0.30));
        SeparatorCycle heavy = new(more, low, high, room, lowest, 12, 12, flow);
        CycleLimitKernel heavyAlone = new ThrottleCycle(more, low, high, room, lowest).Kernel;
        SeparatorCycleResult ofHeavy = heavy.At(detector);
        Assert.Equal(10.77, (double)ofHeavy.Cooling.Watts, 0.005);
        Assert.True(ofHeavy.Suction.VaporFraction < 1);
        Assert.Equal(1.75, heavyAlone.Cooling(100, 0.03, 24), 0.005);
        Assert.Equal(88.2, heavy.LowestTemperature()!.Temperature.Kelvins, 0.05);
        Assert.Equal(98.3, heavyAlone.LowestTemperature(0.03, 24, 0)!.Value.Temperature, 0.05);

        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "phase-separator.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Coolers", "Rating", "SeparatorPageTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
