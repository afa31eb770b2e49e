using System.Xml.Linq;
using CryoThermo.Charts;
using CryoThermo.Insulation;
using CryoThermo.Tests.Charts;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

/// <summary>The example of docs/concepts/vacuum.md, run as it stands there.</summary>
public sealed class VacuumPageTests(ITestOutputHelper output)
{
    [Fact]
    public void TheVacuumDoesWhatThePageTells()
    {
        // Page:
        GasLoad seal = new("lid seal", gas: "air", pascalCubicMetersPerSecond: 2e-6);                           // 2e-5 mbar L/s
        OutgassingSurface metal = new("metal", Area.FromSquareMeters(0.9), rateAfterAnHourPascalMetersPerSecond: 2e-5);
        OutgassingSurface rings = new("rubber rings", Area.FromSquareCentimeters(120), rateAfterAnHourPascalMetersPerSecond: 2e-3, exponent: 0.5);
        VacuumSpace box = new(Volume.FromLiters(18), Temperature.FromDegreesCelsius(22), [seal], [metal, rings]);

        PumpingLine hose = new(Length.FromMeters(1.2), bore: Length.FromMillimeters(16));
        VacuumPump large = new(VolumeFlow.FromCubicMetersPerHour(8), compressionRatio: 400, sealantVaporPressure: Pressure.FromPascals(0.02));
        VacuumPump small = new(VolumeFlow.FromCubicMetersPerHour(3), compressionRatio: 400, sealantVaporPressure: Pressure.FromPascals(0.02));
        VacuumCourse one = box.PumpDown(new PumpSet([(hose, large)]), Pressure.FromBars(1), Duration.FromHours(24));
        VacuumCourse both = box.PumpDown(new PumpSet([(hose, large), (null, small)]), Pressure.FromBars(1), Duration.FromHours(24));
        Console.WriteLine(both.Explanation);
        Console.WriteLine(both.ToTable());
        both.AgainstTime().SaveSvg("pump-down.svg");                                                            // CryoThermo.Charts

        VacuumSpace cold = new(box.Volume, box.Temperature, [seal], [metal, rings], [new ColdSurface(Area.FromSquareCentimeters(500), Temperature.FromKelvins(100), stickingShare: 0.9)]);
        VacuumCourse frozen = cold.GoOn(both.Pumps!, both.Last, Duration.FromHours(1));

        VacuumCourse shut = box.Shut(both.Last, Duration.FromHours(5));
        RateOfRise rise = RateOfRise.Fit(
            box.Volume,
            [.. Enumerable.Range(0, 31).Select(i => new RateOfRisePoint(Duration.FromMinutes(10 * i), shut.PressureAt(both.Last.Time + Duration.FromMinutes(10 * i))))],
            pumpedBefore: both.Last.Time);
        // End.
        foreach (VacuumCourse course in new[] { one, both, frozen, shut })
        {
            output.WriteLine(course.Explanation);
            output.WriteLine(course.ToTable().ToString());
        }

        output.WriteLine(rise.ToTable().ToString());
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "vacuum.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Insulation", "VacuumPageTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        // Computed here, as printed on the page.
        Assert.Equal(253, one.Last.AbsolutePressure.Pascals, 0.5);
        Assert.Equal(0.67, both.Last.AbsolutePressure.Pascals, 0.005);
        Assert.Equal(0.65, both.Pumps!.Ultimate.Pascals, 0.005);
        Assert.Equal(1, both.TimeTo(Pressure.FromMillibars(1))!.Value.Minutes, 0.05);
        Assert.Equal(0.75, both.Last.PartialPressures["water"] / both.Last.AbsolutePressure, 0.02);
        Assert.Equal(0.57, frozen.Last.AbsolutePressure.Pascals, 0.005);
        Assert.True(frozen.Last.PartialPressures["water"].Pascals < 0.01);
        Assert.Equal(9e-6, box.GreatestLeakPascalCubicMetersPerSecond(both.Pumps, Pressure.FromPascals(0.7), Duration.FromHours(24)), 0.5e-6);
        Assert.Equal(8, shut.Last.AbsolutePressure.Pascals, 0.1);
        Assert.Equal(4.3e-6, rise.LeakRatePascalCubicMetersPerSecond, 0.05e-6);
        Assert.Equal(3.3e-6, rise.OutgassingRatePascalCubicMetersPerSecond, 0.05e-6);
        Assert.Equal(5.6e-6, metal.RatePascalCubicMetersPerSecond(Duration.FromHours(24)) + rings.RatePascalCubicMetersPerSecond(Duration.FromHours(24)), 0.06e-6);

        string[] texts = ChartFiles.Texts(XElement.Parse(both.AgainstTime().ToSvg()));
        Assert.Contains("absolute pressure, mbar", texts);
        Assert.Contains("water", texts);
        Assert.Contains(texts, t => t.StartsWith("Vacuum of 18 L, pumped: 0.0067 mbar", StringComparison.Ordinal));
        File.Delete("pump-down.svg");

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
