using CryoThermo.Flow;
using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Flow;

public sealed class ThrottleBodyTests(ITestOutputHelper output)
{
    private static readonly SolidMaterial Steel = SolidMaterial.Named("stainless steel");
    private static readonly Temperature Room = Temperature.FromKelvins(300);
    private static readonly Temperature Cold = Temperature.FromKelvins(77);

    private static double Watts(ConductionPath path) => (double)ThrottleBody.HeatThrough(path, Room, Cold).Heat.Watts;

    [Fact]
    public void ABarConductsTheIntegralOfItsConductivity()
    {
        // 2 704.7 W/m from 77 to 300 K: 1 cm2 over 10 cm conduct 2.7047 W.
        ConductionBar bar = new(Steel, Length.FromCentimeters(10), Area.FromSquareCentimeters(1));
        Assert.Equal(2.7047, Watts(new("bar", [bar])), 1e-4);

        // Halves in series are the whole; back is the same with the other sign.
        ConductionBar half = new(Steel, Length.FromCentimeters(5), Area.FromSquareCentimeters(1));
        Assert.Equal(Watts(new("bar", [bar])), Watts(new("halves", [half, half])), 1e-9);
        Assert.Equal(-2.7047, (double)ThrottleBody.HeatThrough(new("bar", [bar]), Cold, Room).Heat.Watts, 1e-4);

        // Steel and copper in series: the copper takes hardly any of the difference; against the temperature between, found by hand.
        ConductionBar copper = new(SolidMaterial.Named("copper"), Length.FromCentimeters(5), Area.FromSquareCentimeters(1));
        double both = Watts(new("both", [half, copper]));
        double low = 77, high = 300;
        while (high - low > 1e-9)
        {
            double t = 0.5 * (low + high);
            double steel = 1e-4 / 0.05 * Steel.ConductivityIntegralWattsPerMeter(Temperature.FromKelvins(t), Room);
            double rest = 1e-4 / 0.05 * SolidMaterial.Named("copper").ConductivityIntegralWattsPerMeter(Cold, Temperature.FromKelvins(t));
            (low, high) = steel > rest ? (t, high) : (low, t);
        }

        Assert.Equal(1e-4 / 0.05 * Steel.ConductivityIntegralWattsPerMeter(Temperature.FromKelvins(low), Room), both, 1e-7);
        Assert.Equal(Math.PI * 0.5 * 5.5, ConductionBar.Tube(Steel, Length.FromCentimeters(5), Length.FromMillimeters(6), Length.FromMillimeters(0.5)).CrossSection.SquareMillimeters, 1e-9);
    }

    [Fact]
    public void TheConductionStandsBesideTheCooling()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18))
            .WithModel(FluidModel.PengRobinson);
        State inlet = blend.At(Temperature.FromKelvins(130), Pressure.FromBars(17));
        ConductionBar body = ConductionBar.Tube(Steel, Length.FromMillimeters(30), Length.FromMillimeters(12), Length.FromMillimeters(3));
        ThrottleBody throttle = new(
            new ConductionPath("body", [body]),
            new ConductionPath("stem", [ConductionBar.Tube(Steel, Length.FromMillimeters(150), Length.FromMillimeters(8), Length.FromMillimeters(0.5))], Temperature.FromKelvins(303)));
        BodyConduction result = throttle.Assess(inlet, Pressure.FromBars(1.5), MolarFlow.FromMolesPerSecond(0.05));
        output.WriteLine(result.ToTable().ToString());
        State outlet = blend.AtEnthalpy(Pressure.FromBars(1.5), inlet.MolarEnthalpy);
        double expected = 0.05 * (blend.At(inlet.Temperature, Pressure.FromBars(1.5)).MolarEnthalpy - inlet.MolarEnthalpy).JoulesPerMole;
        Assert.Equal(expected, (double)result.Refrigeration.Watts, 1e-6);
        double stem = Math.PI * 0.0005 * 0.0075 / 0.15 * (Steel.ConductivityIntegralWattsPerMeter(outlet.Temperature, Room) + (3 * Steel.ConductivityAt(Room).WattsPerMeterKelvin));
        Assert.Equal(stem, (double)result.FromSurroundings.Watts, 1e-9);
        Assert.Single(result.Notes);
        Assert.Equal((double)result.Total.Watts / expected, result.Share!.Value, 1e-12);
        Assert.Contains("lost in full", result.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void BadInputIsRefused()
    {
        Assert.Throws<ArgumentException>(() => new ThrottleBody());
        Assert.Throws<ArgumentException>(() => new ConductionPath("stem", []));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ConductionBar(Steel, Length.Zero, Area.FromSquareMeters(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductionBar.Tube(Steel, Length.FromMeters(1), Length.FromMillimeters(6), Length.FromMillimeters(4)));
        ConductionPath spring = new("spring", [new(SolidMaterial.Named("beryllium copper"), Length.FromMeters(0.01), Area.FromSquareMillimeters(1))]);
        Assert.Contains("beryllium copper", Assert.Throws<ArgumentOutOfRangeException>(() => ThrottleBody.HeatThrough(spring, Room, Cold)).Message, StringComparison.Ordinal);
        Assert.True((double)ThrottleBody.HeatThrough(spring, Temperature.FromKelvins(110), Cold).Heat.Watts > 0);
        ConductionPath stem = new("stem", [new(Steel, Length.FromMeters(0.01), Area.FromSquareMillimeters(1))]);
        Assert.Throws<ArgumentOutOfRangeException>(() => ThrottleBody.HeatThrough(stem, Temperature.FromKelvins(400), Cold));
    }
}
