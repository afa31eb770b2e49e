using System.Xml.Linq;
using CryoThermo.Charts;
using CryoThermo.HeatTransfer;
using CryoThermo.Machines;
using CryoThermo.Materials;
using CryoThermo.Tests.Charts;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Machines;

/// <summary>The example of docs/concepts/tube-recuperator.md, run as it stands there.</summary>
public sealed class TubeRecuperatorPageTests(ITestOutputHelper output)
{
    [Fact]
    public void TheRecuperatorDoesWhatThePageTells()
    {
        // Page:
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.22), ("isobutane", 0.10));
        State warm = blend.At(Temperature.FromDegreesCelsius(25), Pressure.FromBars(15));            // from the after-cooler
        State cold = blend.At(Temperature.FromKelvins(108), Pressure.FromBars(1.8));                 // from the cold head
        MassFlow flow = MassFlow.FromGramsPerSecond(1.5);

        SolidMaterial copper = SolidMaterial.Named("phosphorus-deoxidised copper");
        TubeRecuperator tubes = TubeRecuperator.TubesInTube(
            Length.FromMeters(8),
            tube: new TubeWall(copper, outerDiameter: Length.FromMillimeters(6), wall: Length.FromMillimeters(0.8)),
            shell: new TubeWall(copper, outerDiameter: Length.FromMillimeters(12.7), wall: Length.FromMillimeters(0.8)),
            coilDiameter: Length.FromMillimeters(250));
        RecuperatorStreams streams = new(warm, flow, cold, flow, new RecuperatorSurroundings(Temperature.FromDegreesCelsius(22), conductanceWattsPerMeterKelvin: 0.01));

        TubeRecuperatorRating rating = tubes.Rate(streams);
        Console.WriteLine(rating.ToTable());
        rating.TemperatureDuty()?.SaveSvg("recuperator.svg");                                        // CryoThermo.Charts

        TubeRecuperatorSizing sizing = tubes.LengthFor(Power.FromWatts(900), streams);
        FlowMaldistribution uneven = tubes.Maldistribution(streams, deviation: 0.1);
        // End.
        output.WriteLine(rating.ToTable().ToString());
        output.WriteLine($"{sizing.Length.Least?.Meters:F2} {sizing.Length.Nominal?.Meters:F2} {sizing.Length.Greatest?.Meters:F2} m; uneven {100 * uneven.Loss:F2} %; mass {tubes.MetalMass.Kilograms:F2} kg; {rating.HeatFromSurroundings.Watts:F1} W");
        foreach (TubeRecuperatorPoint p in rating.Points.Where((_, i) => i % 25 == 0))
        {
            output.WriteLine($"{p.Position.Meters:F1} m {p.HotTemperature.Kelvins:F1} {p.ColdTemperature.Kelvins:F1} K, {p.HotCoefficient.WattsPerSquareMeterKelvin:F0} {p.ColdCoefficient.WattsPerSquareMeterKelvin:F0}");
        }

        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "tube-recuperator.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Machines", "TubeRecuperatorPageTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        // Computed here, as printed on the page.
        Assert.Equal(1000, (double)rating.Duty.Nominal.Watts, 0.5);
        Assert.Equal(843, (double)rating.Duty.Least.Watts, 0.5);
        Assert.Equal(1039, (double)rating.Duty.Greatest.Watts, 0.5);
        Assert.Equal(29.5, rating.ConductanceWattsPerKelvin.Nominal, 0.05);
        Assert.Equal(14.1, rating.ConductanceWattsPerKelvin.Least, 0.05);
        Assert.Equal(42.4, rating.ConductanceWattsPerKelvin.Greatest, 0.05);
        Assert.Equal(0.070, rating.HotPressureDrop.Nominal.Bars, 0.0005);
        Assert.Equal(0.038, rating.ColdPressureDrop.Nominal.Bars, 0.0005);
        Assert.Equal(4.2, sizing.Length.Nominal!.Value.Meters, 0.05);
        Assert.Equal(2.7, sizing.Length.Least!.Value.Meters, 0.05);
        Assert.Equal(10.3, sizing.Length.Greatest!.Value.Meters, 0.05);
        Assert.Equal(129.7, rating.HotOutlet.Temperature.Kelvins, 0.05);
        Assert.Equal(269.5, rating.ColdOutlet.Temperature.Kelvins, 0.05);
        Assert.Equal(21.7, rating.Pinch.Approach.Kelvins, 0.05);
        Assert.Equal(1.4, 100 * uneven.Loss, 0.05);
        Assert.Equal(3.1, tubes.MetalMass.Kilograms, 0.05);
        Assert.Equal(60, (rating.HotContent + rating.ColdContent).Grams, 0.6);

        string[] texts = ChartFiles.Texts(XElement.Parse(rating.TemperatureDuty()!.ToSvg()));
        Assert.Contains(texts, t => t.StartsWith("Recuperator of tubes, 8 m", StringComparison.Ordinal));
        Assert.Contains("hot, two phases", texts);
        Assert.Contains("cold, two phases", texts);
        Assert.Contains(texts, t => t.StartsWith(FormattableString.Invariant($"pinch {rating.Pinch.Approach.Kelvins:F1} K"), StringComparison.Ordinal));
        File.Delete("recuperator.svg");

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
