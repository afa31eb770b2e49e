using CryoThermo.HeatTransfer;
using UnitsNet;

namespace CryoThermo.Tests.HeatTransfer;

/// <summary>The example of docs/concepts/heat-transfer.md, run as it stands there.</summary>
public sealed class HeatTransferPageTests
{
    [Fact]
    public void TheFilmsAreThoseOfThePage()
    {
        // Page:
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.10), ("methane", 0.30), ("ethane", 0.30), ("propane", 0.15), ("isobutane", 0.15));
        FlowPassage highSide = FlowPassage.RoundTube(Length.FromMillimeters(4), coilDiameter: Length.FromMillimeters(150));
        FlowPassage lowSide = FlowPassage.Annulus(Length.FromMillimeters(6), Length.FromMillimeters(10), coilDiameter: Length.FromMillimeters(150));
        MassFlow flow = MassFlow.FromGramsPerSecond(1.2);

        State high = blend.At(Temperature.FromKelvins(190), Pressure.FromBars(20));                  // condensing
        State low = blend.At(Temperature.FromKelvins(180), Pressure.FromBars(2));                    // evaporating at the same place
        State warm = blend.At(Temperature.FromKelvins(290), Pressure.FromBars(2));                   // gas at the warm end

        PassageFilm condensing = highSide.Film(high, flow, HeatDirection.Cooled);
        PassageFilm evaporating = lowSide.Film(low, flow, HeatDirection.Heated);
        PassageFilm gas = lowSide.Film(warm, flow, HeatDirection.Heated);
        // End.
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "heat-transfer.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "HeatTransfer", "HeatTransferPageTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        // Computed here, as printed on the page.
        foreach ((string name, PassageFilm film) in new[] { ("condensing, 20 bar, 190 K", condensing), ("evaporating, 2 bar, 180 K", evaporating), ("gas, 2 bar, 290 K", gas) })
        {
            string row = $"| {name} | {film.Coefficient.WattsPerSquareMeterKelvin:0} within {film.UncertaintyPercent:0} % | {film.SensibleShare:0.00} | {film.FrictionPascalsPerMeter:0} within {film.FrictionUncertaintyPercent:0} % | {film.VoidFraction:0.00} | {film.LiquidHoldUp.GramsPerMeter:0.0} |";
            Assert.Contains(row, page, StringComparison.Ordinal);
        }

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
