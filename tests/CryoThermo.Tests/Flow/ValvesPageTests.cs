using CryoThermo.Flow;
using CryoThermo.Machines;
using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Flow;

/// <summary>The examples of docs/concepts/valves.md, run as they stand there.</summary>
public sealed class ValvesPageTests(ITestOutputHelper output)
{
    [Fact]
    public void ThePageShowsWhatRunsHere()
    {
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "valves.md")));
        string[] pieces = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Flow", "ValvesPageTests.cs"))
            .Split("// Page" + ":")[1..];
        Assert.Equal(3, pieces.Length);
        foreach (string piece in pieces)
        {
            string code = Joined(piece.Split("// End" + ".")[0]);
            Assert.Contains(code, page, StringComparison.Ordinal);
        }

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }

    [Fact]
    public void TheSizingAndTheBodyPrintWhatThePageTells()
    {
        // Page:
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));
        State warm = blend.At(Temperature.FromKelvins(298), Pressure.FromBars(15));
        State cold = blend.At(Temperature.FromKelvins(115), Pressure.FromBars(15));
        MolarFlow flow = MolarFlow.FromMolesPerSecond(0.05);

        OpeningCurve curve = new(new(0, 0), new(30, 0), new(100, 0.004), new(200, 0.012), new(300, 0.025), new(400, 0.045), new(500, 0.07));   // steps, Kv in m3/h
        ThrottleSizing sizing = ThrottleSizing.Of(
            [new("start", warm, Pressure.FromBars(2.5), flow), new("cold", cold, Pressure.FromBars(1.5), flow)],
            curve, ValveStyle.Needle, localAtmosphere: Pressure.FromMillibars(970), allowedPressure: Pressure.FromBars(25));
        // End.
        output.WriteLine(sizing.ToTable().ToString());

        // 264 and 103 steps, and 54 bar: computed here.
        Assert.Equal(264, sizing.Openings[0].Opening.Steps, 0.5);
        Assert.Equal(103, sizing.Openings[1].Opening.Steps, 0.5);
        Assert.Equal(54, sizing.Openings[0].PressureAtLeastOpening!.Value.Bars, 0.5);

        // Page:
        ThrottleBody body = new(
            new ConductionPath("body", [ConductionBar.Tube(SolidMaterial.Named("stainless steel"), Length.FromMillimeters(30), Length.FromMillimeters(12), Length.FromMillimeters(3))]),
            new ConductionPath("stem", [ConductionBar.Tube(SolidMaterial.Named("stainless steel"), Length.FromMillimeters(150), Length.FromMillimeters(8), Length.FromMillimeters(0.5))], warmEnd: Temperature.FromKelvins(295)));
        BodyConduction conduction = body.Assess(cold, Pressure.FromBars(1.5), flow);
        // End.
        output.WriteLine(conduction.ToTable().ToString());
        Assert.InRange(conduction.Share!.Value, 0.001, 0.05);
    }

    [Fact]
    public void TheCalibrationGivesAnOpening()
    {
        BenchReading[] readings = [.. Enumerable.Range(0, 20).Select(i => BenchReading.OfGauge(
            120 + (20 * i), new GaugePressure(Pressure.FromBars(6.0 / (1 + (0.5 * i))), Pressure.FromMillibars(970)), Temperature.FromDegreesCelsius(22)))];

        // Page:
        BenchTest test = new()
        {
            Style = ValveStyle.Needle,
            FreeAirDelivery = VolumeFlow.FromLitersPerMinute(25),           // or displaced volume a minute times volumetric efficiency
            IntakePressure = Pressure.FromMillibars(970),
            IntakeTemperature = Temperature.FromDegreesCelsius(22),
            UpstreamLimit = Pressure.FromBars(9),                           // where the switch or relief valve ends the rise
            ClosedUpToSteps = 20,                                           // shut up to here, by its maker
            GaugeReadingShare = 0.02,
            FlowShare = 0.05,                                               // common to all readings: it moves the whole curve
        };
        ValveCalibration calibration = ValveCalibration.FromBenchTest(test, readings);
        OpeningPoint opening = calibration.Curve!.StepsFor(0.012);
        // End.
        output.WriteLine(calibration.ToTable().ToString());
        Assert.InRange(opening.Steps, 20, 130);
        Assert.Empty(calibration.Findings);
    }
}
