using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Insulation;
using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

public sealed class HeatLeakBudgetTests(ITestOutputHelper output)
{
    private static readonly Temperature Cold = Temperature.FromKelvins(90);
    private static readonly Temperature Room = Temperature.FromKelvins(295);
    private static readonly Ratio Carnot = Ratio.FromPercent(8);

    private static IReadOnlyList<HeatLeakItem> Items(Pressure pressure) =>
    [
        HeatLeakItem.Blanket("blanket", new(20, 15, MultilayerInsulation.HandWrapped), Area.FromSquareMeters(0.12), new(WorkingFluid.Pure("nitrogen"), pressure)),
        HeatLeakItem.Bars("supports", [new(SolidMaterial.Named("G-10"), Length.FromMillimeters(60), Area.FromSquareMillimeters(40))], 3),
        HeatLeakItem.Bars("neck", [ConductionBar.Tube(SolidMaterial.Named("stainless steel 304"), Length.FromMillimeters(80), Length.FromMillimeters(30), Length.FromMillimeters(0.5))]),
        HeatLeakItem.Wires("wires", SolidMaterial.Named("copper RRR 50"), Length.FromMillimeters(0.2), Length.FromMeters(0.5), 12),
        HeatLeakItem.Radiation("window", Area.FromSquareCentimeters(5), SurfaceFinish.Named("aluminium, as received"), SurfaceFinish.Named("glass, paint, plastics, ice or oxidised metal"), 0.9),
    ];

    private static HeatLeakBudget At(Pressure pressure) => HeatLeakBudget.Of(Cold, Room, Items(pressure), Carnot);

    [Fact]
    public void SharesRanksAndWorkAddUp()
    {
        HeatLeakBudget budget = At(Pressure.FromPascals(1e-3));
        output.WriteLine(budget.ToString());
        Assert.Equal(1, budget.Items.Sum(i => i.Share.DecimalFractions), 1e-12);
        Assert.Equal([1, 2, 3, 4, 5], budget.Items.Select(i => i.Rank));
        double before = double.PositiveInfinity;
        foreach (HeatLeak leak in budget.Items)
        {
            double ideal = (double)leak.Heat.Nominal.Watts * ((295.0 / 90) - 1);
            Assert.Equal(ideal, (double)leak.IdealWork.Watts, 1e-9);
            Assert.Equal(ideal / 0.08, (double)leak.Work.Watts, 1e-6);
            Assert.True(leak.Heat.Least <= leak.Heat.Nominal && leak.Heat.Nominal <= leak.Heat.Greatest);
            Assert.True((double)leak.Heat.Nominal.Watts <= before);
            Assert.NotEmpty(leak.Sources);
            before = (double)leak.Heat.Nominal.Watts;
        }

        Assert.Equal((double)budget.Total.Nominal.Watts, budget.Items.Sum(i => (double)i.Heat.Nominal.Watts), 1e-12);
        Assert.Equal((double)budget.Total.Greatest.Watts, budget.Items.Sum(i => (double)i.Heat.Greatest.Watts), 1e-12);
        Assert.Equal(6, budget.ToTable().Rows.Count);
    }

    /// <summary>A bar of steel and one of copper in series by a fine march of k(T) dT/dx through both.</summary>
    [Fact]
    public void ACompositeTakesWhatAMarchThroughItGives()
    {
        ConductionBar steel = new(SolidMaterial.Named("stainless steel 304"), Length.FromMillimeters(40), Area.FromSquareMillimeters(50));
        ConductionBar epoxy = new(SolidMaterial.Named("glass-epoxy G-10, across the cloth"), Length.FromMillimeters(3), Area.FromSquareMillimeters(80));
        ConductionBar copper = new(SolidMaterial.Named("copper RRR 50"), Length.FromMillimeters(100), Area.FromSquareMillimeters(20));
        HeatLeakBudget budget = HeatLeakBudget.Of(Cold, Room, [HeatLeakItem.Bars("bar", [steel, epoxy, copper])], Carnot);
        double heat = (double)budget.Total.Nominal.Watts;
        double t = 90;
        foreach (ConductionBar bar in new[] { copper, epoxy, steel })
        {
            const int Steps = 20_000;
            double slope = heat / bar.CrossSection.SquareMeters * bar.Length.Meters / Steps;
            for (int i = 0; i < Steps; i++)
            {
                double middle = t + (0.5 * slope / bar.Material.ConductivityAt(Temperature.FromKelvins(t)).WattsPerMeterKelvin);
                t += slope / bar.Material.ConductivityAt(Temperature.FromKelvins(middle)).WattsPerMeterKelvin;
            }
        }

        output.WriteLine($"{heat:F5} W, the march ends at {t:F5} K");
        Assert.Equal(295, t, 0.001);
    }

    /// <summary>An intercept takes most of the heat at a higher temperature: less into the cold, less work; what enters from the room is what both levels take.</summary>
    [Fact]
    public void AnInterceptSavesWork()
    {
        ConductionBar neck = ConductionBar.Tube(SolidMaterial.Named("stainless steel 304"), Length.FromMillimeters(100), Length.FromMillimeters(40), Length.FromMillimeters(0.5));
        HeatLeakBudget plain = HeatLeakBudget.Of(Cold, Room, [HeatLeakItem.Bars("neck", [neck])], Carnot);
        HeatLeakBudget tied = HeatLeakBudget.Of(Cold, Room, HeatLeakItem.Anchored("neck", neck, Length.FromMillimeters(50), Temperature.FromKelvins(180)), Carnot);
        output.WriteLine(tied.ToString());
        Assert.Equal(2, tied.Levels.Count);
        Assert.Equal(180, tied.Levels[1].Temperature.Kelvins, 1e-9);
        Assert.True(tied.Total.Nominal < plain.Total.Nominal);
        Assert.True(tied.IdealWork < plain.IdealWork);
        double entering = (double)tied.Items.Single(i => i.WarmEnd.Kelvins > 294).Heat.Nominal.Watts;
        Assert.Equal(entering, tied.Levels.Sum(l => (double)l.Heat.Nominal.Watts), 1e-9);
        Assert.Equal((double)tied.IdealWork.Watts, tied.Levels.Sum(l => (double)l.IdealWork.Watts), 1e-9);

        // By hand: integrals of the fit over both halves.
        double section = Math.PI * 0.0005 * 0.0395;
        double below = section / 0.05 * SolidMaterial.Named("stainless steel 304").ConductivityIntegralWattsPerMeter(Cold, Temperature.FromKelvins(180));
        Assert.Equal(below, (double)tied.Total.Nominal.Watts, 1e-6);
    }

    [Fact]
    public void BareMetalCarriesItsCautions()
    {
        RelativeHumidity humidity = RelativeHumidity.FromPercent(50);
        HeatLeakItem[] items =
        [
            HeatLeakItem.Bare("pipe", new BarePipe(Length.FromMillimeters(12), 0.9), Length.FromMeters(0.3), humidity),
            HeatLeakItem.BareWall("flange", Area.FromSquareCentimeters(100), Length.FromCentimeters(10), 0.5, humidity),
            HeatLeakItem.BareLid("lid", Area.FromSquareCentimeters(300), Length.FromMeters(0.6), 0.9, humidity),
            HeatLeakItem.Insulated("lid under foam", new(InsulatedBody.Wall(Area.FromSquareCentimeters(300)), PorousInsulation.Named("polystyrene foam, 39 kg/m3"), Length.FromMillimeters(50))),
        ];
        HeatLeakBudget budget = HeatLeakBudget.Of(Temperature.FromKelvins(79), Room, items, Carnot);
        output.WriteLine(budget.ToString());
        Assert.Contains(budget.Cautions, c => c.Severity == CautionSeverity.Danger && c.Title.StartsWith("Air condenses", StringComparison.Ordinal));
        HeatLeak lid = budget.Items.Single(i => i.Name == "lid");
        HeatLeak covered = budget.Items.Single(i => i.Name == "lid under foam");
        Assert.True((double)lid.Heat.Nominal.Watts > 5 * (double)covered.Heat.Nominal.Watts);
        Assert.All(budget.Cautions, c => Assert.Contains("licensed practice", c.Advice, StringComparison.Ordinal));
        BarePipeResult direct = new BarePipe(Length.FromMillimeters(12), 0.9).InRoom(Temperature.FromKelvins(79), Room, humidity);
        Assert.Equal(0.3 * direct.HeatPerLength.WattsPerMeter, (double)budget.Items.Single(i => i.Name == "pipe").Heat.Nominal.Watts, 1e-9);

        // A zinc casting or any seal not fit is told by the bar's own material.
        Assert.Contains(
            HeatLeakBudget.Of(Cold, Room, [HeatLeakItem.Bars("strap", [new(SolidMaterial.Named("titanium alloy Ti-6Al-4V"), Length.FromCentimeters(5), Area.FromSquareMillimeters(10))])], Carnot).Cautions,
            c => c.Severity == CautionSeverity.Notice);
    }

    /// <summary>The pressure found gives the leak wanted when the budget is made anew; a smaller leak than the solid items bring is refused with their names.</summary>
    [Fact]
    public void TheWorstVacuumForALeakIsFound()
    {
        double best = (double)At(Pressure.FromPascals(1e-4)).Total.Nominal.Watts;
        Power wanted = Power.FromWatts(best * 1.5);
        HeatLeakAnswer<Pressure> answer = HeatLeakGoal.HighestPressure(wanted, At);
        output.WriteLine(answer.Explanation);
        Assert.True(answer.IsReachable);
        double there = (double)At(answer.Value!.Value).Total.Nominal.Watts;
        Assert.InRange(there, (double)wanted.Watts * (1 - 1e-5), (double)wanted.Watts);
        Assert.True((double)At(Pressure.FromPascals(answer.Value.Value.Pascals * 1.01)).Total.Nominal.Watts > (double)wanted.Watts);

        HeatLeakAnswer<Pressure> refused = HeatLeakGoal.HighestPressure(Power.FromWatts(0.05), At);
        output.WriteLine(refused.Explanation);
        Assert.False(refused.IsReachable);
        Assert.Null(refused.Value);
        Assert.Contains("'neck' alone brings", refused.Explanation, StringComparison.Ordinal);

        HeatLeakAnswer<Pressure> each = HeatLeakGoal.HighestPressure(Power.FromWatts(best * 0.95), At);
        Assert.False(each.IsReachable);
        Assert.Contains("no item exceeds it alone", each.Explanation, StringComparison.Ordinal);
        Assert.Contains("Met already", HeatLeakGoal.HighestPressure(Power.FromWatts(1e4), At).Explanation, StringComparison.Ordinal);
    }

    [Fact]
    public void TheThicknessForALeakIsFound()
    {
        PorousInsulation foam = PorousInsulation.Named("polyurethane foam, 32 kg/m3");
        HeatLeakBudget Box(Length x) => HeatLeakBudget.Of(
            Cold, Room, [HeatLeakItem.Insulated("box", new(InsulatedBody.Box(Length.FromMillimeters(200), Length.FromMillimeters(200), Length.FromMillimeters(300)), foam, x))], Carnot);
        HeatLeakAnswer<Length> answer = HeatLeakGoal.LeastThickness(Power.FromWatts(15), Box, Length.FromMillimeters(5), Length.FromMillimeters(300));
        output.WriteLine(answer.Explanation);
        Assert.Equal(15, (double)Box(answer.Value!.Value).Total.Nominal.Watts, 1e-4);

        // Edges and corners keep a box from being as tight as one likes: with thickness the corners grow.
        HeatLeakAnswer<Length> never = HeatLeakGoal.LeastThickness(Power.FromWatts(3), Box, Length.FromMillimeters(5), Length.FromMillimeters(900));
        output.WriteLine(never.Explanation);
        Assert.False(never.IsReachable);
        Assert.Contains("'box' alone brings", never.Explanation, StringComparison.Ordinal);

        HeatTransferCoefficient film = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(8);
        HeatLeakBudget Pipe(Length x) => HeatLeakBudget.Of(
            Temperature.FromKelvins(150),
            Room,
            [HeatLeakItem.Insulated("line", new(InsulatedBody.Cylinder(Length.FromMillimeters(3), Length.FromMeters(1)), PorousInsulation.Named("polystyrene foam, 39 kg/m3"), x, outsideCoefficient: film))],
            Carnot);
        HeatLeakAnswer<Length> line = HeatLeakGoal.LeastThickness(Power.FromWatts(8), Pipe, Length.FromMillimeters(0.2), Length.FromMillimeters(200));
        output.WriteLine(line.Explanation);
        Assert.True(line.IsReachable);
        Assert.Contains("critical radius", line.Explanation, StringComparison.Ordinal);
        Assert.Equal(8, (double)Pipe(line.Value!.Value).Total.Nominal.Watts, 1e-4);
    }

    [Fact]
    public void WhatDoesNotFitIsNamed()
    {
        Assert.Equal("items", Assert.Throws<ArgumentException>(() => HeatLeakBudget.Of(Cold, Room, [], Carnot)).ParamName);
        HeatLeakItem known = HeatLeakItem.Known("load", new(Power.FromWatts(1), Power.FromWatts(0.9), Power.FromWatts(1.2)), new("measured", FromMemory: false));
        Assert.Contains("'load' 2 times", Assert.Throws<ArgumentException>(() => HeatLeakBudget.Of(Cold, Room, [known, known], Carnot)).Message, StringComparison.Ordinal);
        Assert.Contains("80 K", Assert.Throws<ArgumentException>(() => HeatLeakBudget.Of(Cold, Room, [known.To(Temperature.FromKelvins(80), null)], Carnot)).Message, StringComparison.Ordinal);
        Assert.Equal("cold", Assert.Throws<ArgumentOutOfRangeException>(() => HeatLeakBudget.Of(Room, Room, [known], Carnot)).ParamName);
        Assert.Equal("carnotShare", Assert.Throws<ArgumentOutOfRangeException>(() => HeatLeakBudget.Of(Cold, Room, [known], Ratio.Zero)).ParamName);
        Assert.Equal("heat", Assert.Throws<ArgumentException>(() => HeatLeakItem.Known("load", new(Power.FromWatts(1), Power.FromWatts(2), Power.FromWatts(3)), new("measured", FromMemory: false))).ParamName);
        Assert.Empty(HeatLeakBudget.Of(Cold, Room, [known], Carnot).Items[0].FromMemory);
        Assert.Equal("innerArea", Assert.Throws<ArgumentOutOfRangeException>(() => HeatLeakItem.Gas("gas", new(WorkingFluid.Pure("air"), Pressure.FromPascals(1)), GasGap.StillPlates(Length.FromCentimeters(1)), Area.Zero)).ParamName);
    }

    [Fact]
    public void RandomBudgetsGrowWithTheRoomAndStayInTheirBand()
    {
        Random random = new(17);
        for (int i = 0; i < 60; i++)
        {
            double cold = 78 + (60 * random.NextDouble());
            Pressure p = Pressure.FromPascals(Math.Pow(10, -4 + (9 * random.NextDouble())));
            Length size = Length.FromMeters(0.05 + random.NextDouble());
            double before = 0;
            foreach (double room in (double[])[250, 275, 300])
            {
                HeatLeakItem[] items =
                [
                    .. Items(p),
                    HeatLeakItem.Insulated("jacket", new(InsulatedBody.Sphere(size), PorousInsulation.Named("perlite, coarse"), Length.FromMillimeters(60), p)),
                    HeatLeakItem.Gas("space", new(WorkingFluid.Pure("helium"), p), GasGap.HorizontalCylinders(Length.FromMillimeters(80), Length.FromMillimeters(120)), Area.FromSquareMeters(0.05)),
                    HeatLeakItem.ShieldedRadiation("shielded", Area.FromSquareMeters(0.1), 0.05, 0.2, 0.8, [new(0.03, 0.05, 1.1)]),
                ];
                HeatLeakBudget budget = HeatLeakBudget.Of(Temperature.FromKelvins(cold), Temperature.FromKelvins(room), items, Carnot);
                double total = (double)budget.Total.Nominal.Watts;
                Assert.True(total > 0 && double.IsFinite(total));
                Assert.All(budget.Items, l => Assert.True(l.Heat.Least <= l.Heat.Nominal && l.Heat.Nominal <= l.Heat.Greatest, $"case {i}, {l.Name}"));
                Assert.True(total > before, $"case {i} at {room} K");
                before = total;
            }
        }
    }
}
