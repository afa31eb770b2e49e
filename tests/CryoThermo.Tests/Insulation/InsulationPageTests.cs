using CryoThermo.Flow;
using CryoThermo.Insulation;
using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

/// <summary>The example of docs/concepts/insulation.md, run as it stands there.</summary>
public sealed class InsulationPageTests(ITestOutputHelper output)
{
    [Fact]
    public void TheExampleGivesWhatThePageTells()
    {
        // Page:
        Temperature cold = Temperature.FromKelvins(95);
        Temperature room = Temperature.FromKelvins(295);
        SolidMaterial steel = SolidMaterial.Named("stainless steel 304");

        HeatLeakBudget Box(Pressure vacuum) => HeatLeakBudget.Of(
            cold,
            room,
            [
                HeatLeakItem.Blanket("blanket", new MultilayerInsulation(20, 15, MultilayerInsulation.HandWrapped), Area.FromSquareMeters(0.15), new ResidualGas(WorkingFluid.Pure("air"), vacuum)),
                HeatLeakItem.Bars("neck", [ConductionBar.Tube(steel, Length.FromMillimeters(100), Length.FromMillimeters(30), Length.FromMillimeters(0.5))]),
                HeatLeakItem.Bars("valve stem", [ConductionBar.Tube(steel, Length.FromMillimeters(200), Length.FromMillimeters(8), Length.FromMillimeters(0.5))]),
                HeatLeakItem.Bars("three supports", [new ConductionBar(SolidMaterial.Named("G-10"), Length.FromMillimeters(60), Area.FromSquareMillimeters(40))], count: 3),
                HeatLeakItem.Wires("wires of the detector", SolidMaterial.Named("copper"), Length.FromMillimeters(0.2), Length.FromMeters(0.5), count: 12),
            ],
            carnotShare: Ratio.FromPercent(8));

        HeatLeakBudget good = Box(Pressure.FromPascals(0.001));
        HeatLeakBudget poor = Box(Pressure.FromPascals(10));
        Console.WriteLine(good);
        HeatLeakAnswer<Pressure> worst = HeatLeakGoal.HighestPressure(Power.FromWatts(3), Box);

        InsulatedSurface foam = new(InsulatedBody.Box(Length.FromMillimeters(150), Length.FromMillimeters(150), Length.FromMillimeters(200)),
            PorousInsulation.Named("polyurethane foam, 32 kg/m3"), Length.FromMillimeters(60));
        PlateLoad lid = new CircularPlate(Length.FromMillimeters(200), Length.FromMillimeters(6), PlateEdge.Supported).Under();
        // End.
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "insulation.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Insulation", "InsulationPageTests.cs"));

        HeatLeak first = good.Items[0];
        string told = $"At 0.001 Pa {W(good.Total.Nominal)} W come into the cold ({W(good.Total.Least)} to {W(good.Total.Greatest)} W). The {first.Name} alone brings {W(first.Heat.Nominal)} W, {first.Share.Percent:F0} %; "
            + $"the blanket {W(good.Items.Single(i => i.Name == "blanket").Heat.Nominal)} W. At 8 % of Carnot all of it costs {(double)good.Work.Watts:F0} W of work. "
            + $"At 10 Pa the blanket brings {W(poor.Items.Single(i => i.Name == "blanket").Heat.Nominal)} W and the whole {W(poor.Total.Nominal)} W. For 3 W the vacuum may be as bad as {worst.Value!.Value.Pascals:F2} Pa.";
        string rest = $"The same box without a vacuum, under 60 mm of foam, takes {W(foam.Heat(cold, room).Nominal)} W fresh and up to {W(foam.Heat(cold, room).Greatest)} W aged. "
            + $"Its lid of 200 mm carries {lid.Force.Newtons:F0} N of the atmosphere, with {lid.BendingStress.Megapascals:F0} MPa at 6 mm.";
        output.WriteLine(told);
        output.WriteLine(rest);
        output.WriteLine(good.ToString());
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);
        Assert.Contains(told, page, StringComparison.Ordinal);
        Assert.Contains(rest, page, StringComparison.Ordinal);

        static string W(Power power) => $"{(double)power.Watts:F2}";
        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
