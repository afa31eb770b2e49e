using CryoThermo.HeatTransfer;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.HeatTransfer;

/// <summary>The example of docs/concepts/walls-and-surroundings.md, run as it stands there.</summary>
public sealed class WallsPageTests(ITestOutputHelper output)
{
    [Fact]
    public void TheExampleGivesWhatThePageTells()
    {
        // Page:
        CondensingSurface head = CondensingSurface.VerticalWall(height: Length.FromMillimeters(60), width: Length.FromMillimeters(200));
        State feed = WorkingFluid.Mixture(("nitrogen", 0.99), ("helium", 0.01)).At(Temperature.FromKelvins(85), Pressure.FromBars(1.2));
        WallCondensationResult still = WallCondensation.On(head, feed, wall: Temperature.FromKelvins(74));
        WallCondensationResult blown = WallCondensation.On(head, feed, wall: Temperature.FromKelvins(74), speed: Speed.FromMetersPerSecond(1));
        Console.WriteLine(still.ToTable());

        BarePipeResult suction = new BarePipe(Length.FromMillimeters(12), emissivity: 0.9)
            .InRoom(Temperature.FromKelvins(200), Temperature.FromDegreesCelsius(22), RelativeHumidity.FromPercent(50));
        AxialConductionLoss along = AxialConductionLoss.Of(transferUnits: 50, capacityRatio: 0.95, conductionParameter: 0.02);
        // End.
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "walls-and-surroundings.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "HeatTransfer", "WallsPageTests.cs"));
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);

        // Every figure of the paragraph below the example, computed here and printed as there.
        double pure = still.PureHeatFlux.WattsPerSquareMeter * head.Area.SquareMeters;
        string told = $"Pure nitrogen would bring {pure:F0} W to this head. One percent of helium takes {still.CostPercent:F0} % of it, "
            + $"since helium stays at the wall: {100 * still.NonCondensableAtInterface:F0} % of the vapour there is helium, and the surface of the film is at {still.Interface.Kelvins:F1} K "
            + $"where pure nitrogen would be at 78.8 K. A stream of 1 m/s along the wall brings the cost down to {blown.CostPercent:F0} %.";
        string pipe = $"A bare suction line of 12 mm at 200 K takes {suction.HeatPerLength.WattsPerMeter:F0} W/m from the room, and rime {suction.MoistureHeatPerLength.WattsPerMeter:F0} W/m more at first. "
            + $"In an exchanger of 50 transfer units, conduction along the wall raises the ineffectiveness from {100 * along.IneffectivenessWithoutConduction:F2} to {100 * along.Ineffectiveness:F2} %.";
        output.WriteLine(told);
        output.WriteLine(pipe);
        Assert.Contains(told, page, StringComparison.Ordinal);
        Assert.Contains(pipe, page, StringComparison.Ordinal);
        Assert.Equal(78.8, WorkingFluid.Pure("nitrogen").Saturation(Pressure.FromBars(1.2)).Temperature.Kelvins, 0.05);

        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
