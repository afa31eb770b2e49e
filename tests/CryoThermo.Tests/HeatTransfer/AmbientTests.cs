using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.HeatTransfer;

public sealed class AmbientTests(ITestOutputHelper output)
{
    private static readonly WorkingFluid Air = WorkingFluid.Pure("air");
    private static readonly Pressure Atmosphere = Pressure.FromAtmospheres(1);

    /// <summary>F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer, examples of the chapter on free convection, from memory. Their air is interpolated in a straight line between
    /// 350 and 400 K, which makes viscosity and diffusivity too great by 1 to 2 % each; Rayleigh numbers were looked at within 3 %, and that of the pipe is 3.6 % off: told, not met.</summary>
    [Fact]
    public void TextbookExamplesAreMet()
    {
        // A glass door, 0.71 m high, 232 degC in a room of 23 degC: Ra 1.813e9, Nu 147, h 7.0 W/(m2 K).
        NaturalConvectionResult door = NaturalConvection.VerticalPlate(Air, Atmosphere, Temperature.FromDegreesCelsius(232), Temperature.FromDegreesCelsius(23), Length.FromMeters(0.71));
        output.WriteLine($"door {door.RayleighNumber:G4} {door.NusseltNumber:F1} {door.Coefficient.WattsPerSquareMeterKelvin:F2}");
        Assert.Equal(1, door.RayleighNumber / 1.813e9, 0.03);
        Assert.Equal(1, door.NusseltNumber / 147, 0.015);
        Assert.Equal(1, door.Coefficient.WattsPerSquareMeterKelvin / 7.0, 0.015);

        // A steam pipe of 0.1 m, emissivity 0.85, 165 degC in a room of 23 degC: Ra 5.073e6, Nu 23.3, with radiation 763 W/m.
        NaturalConvectionResult pipe = NaturalConvection.HorizontalCylinder(Air, Atmosphere, Temperature.FromDegreesCelsius(165), Temperature.FromDegreesCelsius(23), Length.FromMeters(0.1));
        output.WriteLine($"pipe {pipe.RayleighNumber:G4} {pipe.NusseltNumber:F2} {pipe.Coefficient.WattsPerSquareMeterKelvin:F3}");
        Assert.Equal(1.036, pipe.RayleighNumber / 5.073e6, 0.001);
        Assert.Equal(1, pipe.NusseltNumber / 23.3, 0.015);
        BarePipeResult whole = new BarePipe(Length.FromMeters(0.1), 0.85).InRoom(Temperature.FromDegreesCelsius(165), Temperature.FromDegreesCelsius(23), RelativeHumidity.FromPercent(50));
        Assert.Equal(1, -whole.HeatPerLength.WattsPerMeter / 763, 0.015);

        // Between tubes of 0.1 and 0.12 m, 120 and 35 degC: Ra 171, 100 W/m.
        GapConvectionResult gap = GapConvection.HorizontalCylinders(Air, Atmosphere, Temperature.FromDegreesCelsius(120), Temperature.FromDegreesCelsius(35), Length.FromMeters(0.1), Length.FromMeters(0.12));
        double perMeter = gap.Flux.WattsPerSquareMeter * Math.PI * 0.1;
        output.WriteLine($"gap {gap.RayleighNumber:F1} {perMeter:F2} W/m");
        Assert.Equal(1, gap.RayleighNumber / 171, 0.03);
        Assert.Equal(1, perMeter / 100, 0.015);
    }

    /// <summary>Figures of the correlation computed elsewhere, three digits (ElSherbiny, Raithby and Hollands 1982).</summary>
    [Theory]
    [InlineData(1e3, 1.0)]
    [InlineData(1e4, 1.31)]
    [InlineData(1e5, 3.0)]
    [InlineData(1e6, 6.05)]
    public void AVerticalGapFollowsItsCorrelation(double rayleigh, double expected) => Assert.Equal(expected, ConvectionForms.VerticalGap(rayleigh, 20), 0.006);

    [Fact]
    public void AHorizontalGapTurnsOverAtTheCriticalRayleighNumber()
    {
        Assert.Equal(1, ConvectionForms.GapHeatedBelow(1708));
        Assert.True(ConvectionForms.GapHeatedBelow(1720) > 1);
        Temperature warm = Temperature.FromKelvins(310);
        Temperature cold = Temperature.FromKelvins(290);
        GapConvectionResult below = GapConvection.Horizontal(Air, Atmosphere, warm, cold, Length.FromMillimeters(30));
        GapConvectionResult above = GapConvection.Horizontal(Air, Atmosphere, cold, warm, Length.FromMillimeters(30));
        Assert.True(below.Flux > 2 * above.Flux);
        Assert.Equal(1, above.NusseltNumber);
        Assert.Equal(1, GapConvection.Vertical(Air, Atmosphere, warm, cold, Length.FromMillimeters(2), Length.FromMillimeters(500)).NusseltNumber, 0.01);
    }

    [Fact]
    public void ASlenderCylinderTakesMoreThanAPlate()
    {
        // 5 % at a diameter of 35 heights over the fourth root of Grashof: where textbooks begin to count curvature (from memory).
        Assert.Equal(1.05, ConvectionForms.Curvature(Math.Sqrt(32) / 35), 0.015);

        // E. J. Le Fevre, A. J. Ede (1956), from memory: an integral solution of the first order, which lies low.
        const double Pr = 0.71;
        foreach (double slenderness in (double[])[0.1, 1, 5, 15])
        {
            const double Gr = 1e8;
            double ratio = slenderness / Math.Sqrt(32) * Math.Pow(Gr, 0.25);
            double plate = 4.0 / 3 * Math.Pow(7 * Gr * Pr * Pr / (5 * (20 + (21 * Pr))), 0.25);
            double theirs = 1 + (4 * (272 + (315 * Pr)) * ratio / (35 * (64 + (63 * Pr))) / plate);
            output.WriteLine($"{slenderness}: {ConvectionForms.Curvature(slenderness):F3}, Le Fevre and Ede {theirs:F3}");
            Assert.InRange(ConvectionForms.Curvature(slenderness) / theirs, 0.95, 1.25);
        }
    }

    [Fact]
    public void APlateKnowsItsBuoyantSide()
    {
        Area area = Area.FromSquareMeters(0.04);
        Length around = Length.FromMeters(0.8);
        Temperature room = Temperature.FromKelvins(295);
        NaturalConvectionResult At(double t, bool up) => NaturalConvection.HorizontalPlate(Air, Atmosphere, Temperature.FromKelvins(t), room, area, around, up);
        Assert.True(At(330, true).Coefficient > At(330, false).Coefficient);
        Assert.True(At(260, false).Coefficient > At(260, true).Coefficient);
        Assert.True(At(260, false).Flux.WattsPerSquareMeter < 0);
    }

    [Fact]
    public void RadiationFollowsItsLaw()
    {
        // Arithmetic of the law: black plates of 300 and 77 K 457.3 W/m2, of emissivity 0.05 11.73 W/m2 (computed elsewhere).
        Assert.Equal(457.3, GreySurfaces.Plates(Temperature.FromKelvins(300), 1, Temperature.FromKelvins(77), 1).Flux.WattsPerSquareMeter, 0.06);
        Assert.Equal(11.73, GreySurfaces.Plates(Temperature.FromKelvins(300), 0.05, Temperature.FromKelvins(77), 0.05).Flux.WattsPerSquareMeter, 0.006);

        // What one gives the other takes.
        RadiationResult inner = GreySurfaces.Enclosed(Temperature.FromKelvins(90), 0.1, Temperature.FromKelvins(300), 0.3, 0.6);
        double outer = 1 / ((1 / 0.3) - 1 + (1 / 0.6 / 0.1));
        Assert.Equal(inner.ExchangeFactor * 0.6, outer, 1e-12);
        Assert.True(inner.Flux.WattsPerSquareMeter < 0);
        Assert.Equal(4 * 5.670374419e-8 * 0.9 * 2.7e7, GreySurfaces.ToRoom(Temperature.FromKelvins(300), 0.9, Temperature.FromKelvins(300)).Coefficient.WattsPerSquareMeterKelvin, 1e-9);
        Assert.Throws<ArgumentOutOfRangeException>(() => GreySurfaces.ToRoom(Temperature.FromKelvins(300), 0, Temperature.FromKelvins(300)));
    }

    [Fact]
    public void DewAndRimeFormWhereTablesSay()
    {
        // 20 degC and 50 %: 9.3 degC (psychrometric tables, from memory). Saturated air is at its dew point.
        Assert.Equal(9.3, MoistAir.DewPoint(Temperature.FromDegreesCelsius(20), RelativeHumidity.FromPercent(50)).DegreesCelsius, 0.06);
        Assert.Equal(20, MoistAir.DewPoint(Temperature.FromDegreesCelsius(20), RelativeHumidity.FromPercent(100)).DegreesCelsius, 1e-9);

        // Vapour pressure of water 23.39 hPa at 20 degC, 6.11 hPa at 0 degC (steam tables, from memory).
        Assert.Equal(2339, MoistAir.VaporPressure(Temperature.FromDegreesCelsius(20), RelativeHumidity.FromPercent(100)), 8.0);
        Assert.Equal(MoistAir.AtSurface(0), MoistAir.AtSurface(-1e-9), 0.5);

        // Rime before dew below 0 degC.
        Temperature cold = Temperature.FromDegreesCelsius(-5);
        RelativeHumidity humid = RelativeHumidity.FromPercent(60);
        Assert.True(MoistAir.FrostPoint(cold, humid) > MoistAir.DewPoint(cold, humid));
        Assert.Equal("humidity", Assert.Throws<ArgumentOutOfRangeException>(() => MoistAir.DewPoint(cold, RelativeHumidity.FromPercent(0))).ParamName);
    }

    [Fact]
    public void ABarePipeTellsWhatSettlesOnIt()
    {
        BarePipe pipe = new(Length.FromMillimeters(12), 0.9);
        Temperature room = Temperature.FromDegreesCelsius(22);
        RelativeHumidity humidity = RelativeHumidity.FromPercent(50);
        BarePipeResult At(double kelvins) => pipe.InRoom(Temperature.FromKelvins(kelvins), room, humidity);
        Assert.Empty(At(room.Kelvins + 5).Cautions);
        Assert.Equal(0, At(room.Kelvins).HeatPerLength.WattsPerMeter, 1e-9);
        Assert.Equal(CautionSeverity.Notice, Assert.Single(At(280).Cautions).Severity);
        Assert.Equal("Rime on the pipe", Assert.Single(At(150).Cautions).Title);
        Assert.Equal(CautionSeverity.Danger, At(78).Cautions[0].Severity);
        Assert.Equal("Hot pipe", Assert.Single(At(360).Cautions).Title);
        Assert.Equal(0, At(300).MoistureHeatPerLength.WattsPerMeter);
        double before = double.NegativeInfinity;
        for (double t = 400; t > 70; t -= 10)
        {
            BarePipeResult result = At(t);
            Assert.True(result.HeatPerLength.WattsPerMeter > before);
            before = result.HeatPerLength.WattsPerMeter;
        }

        // Still room and painted pipe: about 10 W/(m2 K) in all (common practice, no source).
        Assert.InRange(At(310).CombinedCoefficient.WattsPerSquareMeterKelvin, 8, 15);
        Assert.Equal(5, At(150).ToTable().Rows.Count);
    }

    [Fact]
    public void RandomSurfacesGiveFigures()
    {
        Random random = new(5);
        for (int i = 0; i < 400; i++)
        {
            Temperature surface = Temperature.FromKelvins(66 + (600 * random.NextDouble()));
            Temperature room = Temperature.FromDegreesCelsius(-35 + (90 * random.NextDouble()));
            Length diameter = Length.FromMeters(Math.Pow(10, (-3.9 * random.NextDouble()) + 0.9));
            BarePipe pipe = new(diameter, Math.Pow(10, -3.9 * random.NextDouble()), random.Next(2) == 0 ? null : Length.FromMeters(Math.Pow(10, (4.9 * random.NextDouble()) - 2.95)));
            BarePipeResult result = pipe.InRoom(surface, room, RelativeHumidity.FromPercent(1 + (99 * random.NextDouble())), Pressure.FromBars(0.3 + (1.7 * random.NextDouble())));
            Assert.True(double.IsFinite(result.HeatPerLength.WattsPerMeter) && double.IsFinite(result.MoistureHeatPerLength.WattsPerMeter), $"{surface.Kelvins} {room.Kelvins} {pipe}");
            Assert.True(result.HeatPerLength.WattsPerMeter * (room.Kelvins - surface.Kelvins) >= 0);
            Assert.True(result.MoistureHeatPerLength.WattsPerMeter >= 0);
        }
    }
}
