using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Tests.Flow;

/// <summary>The example of docs/concepts/capillary.md, run as it stands there.</summary>
public sealed class CapillaryPageTests
{
    [Fact]
    public void TheSizingGivesWhatThePageTells()
    {
        // Page:
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.10), ("methane", 0.30), ("ethane", 0.30), ("propane", 0.15), ("isobutane", 0.15));
        State cold = blend.At(Temperature.FromKelvins(160), Pressure.FromBars(20));                  // before the throttle when the machine is cold
        State warm = blend.At(Temperature.FromDegreesCelsius(25), Pressure.FromBars(20));            // and on the start

        CapillarySizing sizing = CapillarySizing.ForLength(
            Length.FromMillimeters(0.7), cold, Pressure.FromBars(2), MassFlow.FromGramsPerSecond(1.2),
            warmInlet: warm, warmDelivery: MassFlow.FromGramsPerSecond(1.0), greatestPressure: Pressure.FromBars(25));
        // End.
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "capillary.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Flow", "CapillaryPageTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        // Computed here, as printed on the page.
        Assert.Equal(1.37, sizing.Nominal.Capillary.Length.Meters, 0.005);
        Assert.Equal(1.11, sizing.LeastFlow.GramsPerSecond, 0.005);
        Assert.Equal(1.29, sizing.GreatestFlow.GramsPerSecond, 0.005);
        Assert.Equal(0.41, sizing.WarmStart!.Warm.MassFlow.GramsPerSecond, 0.005);
        Assert.True(sizing.WarmStart.IsWarmMachineChoked);

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
