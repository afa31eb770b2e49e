using UnitsNet;

namespace CryoThermo.Tests;

public sealed class GaugePressureTests
{
    // ISO 2533:1975 / U.S. Standard Atmosphere 1976, table by geometric altitude (five digits printed there); from memory.
    [Theory]
    [InlineData(0, 101325)]
    [InlineData(1000, 89876)]
    [InlineData(2000, 79501)]
    [InlineData(3000, 70121)]
    [InlineData(5000, 54048)]
    [InlineData(9000, 30800)]
    public void StandardAtmosphereAgreesWithThePublishedTable(double altitudeMetres, double pascals) =>
        Assert.Equal(pascals, GaugePressure.StandardAtmosphere(Length.FromMeters(altitudeMetres)).Pascals, 1.0);

    [Theory]
    [InlineData(-500.1)]
    [InlineData(9000.1)]
    public void AltitudeOutOfRangeIsRefusedWithItsRange(double altitudeMetres)
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(
            () => GaugePressure.StandardAtmosphere(Length.FromMeters(altitudeMetres)));
        Assert.Equal("altitude", error.ParamName);
        Assert.Contains("-500 to 9000 m", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-500)]
    [InlineData(9000)]
    public void AltitudeAtTheEndOfTheRangeIsAccepted(double altitudeMetres) =>
        Assert.InRange(GaugePressure.StandardAtmosphere(Length.FromMeters(altitudeMetres)).Pascals, 30000, 108000);

    [Fact]
    public void AbsoluteIsReadingPlusAtmosphere()
    {
        GaugePressure pressure = new(Pressure.FromBars(0.5), Pressure.FromKilopascals(95));
        Assert.Equal(1.45, pressure.Absolute.Bars, 12);
        Assert.Equal(0.5, pressure.Reading.Bars, 12);
        Assert.Equal(95, pressure.Atmosphere.Kilopascals, 12);
    }

    [Fact]
    public void TheSameReadingMeansLessAtAltitude()
    {
        Pressure reading = Pressure.FromBars(1);
        double seaLevel = GaugePressure.AtAltitude(reading, Length.FromMeters(0)).Absolute.Bars;
        double mountain = GaugePressure.AtAltitude(reading, Length.FromMeters(2000)).Absolute.Bars;
        Assert.Equal(2.01325, seaLevel, 10);
        Assert.Equal(1.01325 - 0.79501, seaLevel - mountain, 1e-5); // the table value above
    }

    [Fact]
    public void VacuumDownToMinusTheAtmosphereIsAllowed()
    {
        Pressure atmosphere = Pressure.FromPascals(98000);
        Assert.Equal(0, new GaugePressure(Pressure.FromPascals(-98000), atmosphere).Absolute.Pascals);
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(
            () => new GaugePressure(Pressure.FromPascals(-98000.1), atmosphere));
        Assert.Equal("reading", error.ParamName);
        Assert.Contains("-98000.1 Pa gauge", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(24999)]
    [InlineData(115001)]
    [InlineData(1.013)]
    public void ImplausibleAtmosphereIsRefused(double pascals) =>
        Assert.Equal(
            "atmosphere",
            Assert.Throws<ArgumentOutOfRangeException>(
                () => new GaugePressure(Pressure.FromBars(1), Pressure.FromPascals(pascals))).ParamName);

    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(1.7)]
    [InlineData(250)]
    public void FromAbsoluteIsTheInverse(double bars)
    {
        GaugePressure pressure = GaugePressure.FromAbsolute(Pressure.FromBars(bars), Pressure.FromMillibars(987.6));
        Assert.Equal(bars, pressure.Absolute.Bars, 12);
        Assert.Equal(bars - 0.9876, pressure.Reading.Bars, 12);
    }

    [Fact]
    public void FromAbsoluteRefusesNegativePressure() =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => GaugePressure.FromAbsolute(Pressure.FromBars(-0.1), Pressure.FromBars(1)));

    [Fact]
    public void TheDefaultValueIsZeroGaugeAtTheStandardAtmosphere()
    {
        GaugePressure pressure = default;
        Assert.Equal(101325, pressure.Absolute.Pascals);
        Assert.Equal(new GaugePressure(Pressure.Zero, Pressure.FromPascals(101325)), pressure);
    }

    [Fact]
    public void EqualityDoesNotDependOnTheUnit()
    {
        Pressure atmosphere = Pressure.FromPascals(100000);
        Assert.True(
            new GaugePressure(Pressure.FromBars(2), atmosphere) == new GaugePressure(Pressure.FromKilopascals(200), atmosphere));
        Assert.True(
            new GaugePressure(Pressure.FromBars(2), atmosphere) != new GaugePressure(Pressure.FromBars(2), Pressure.FromPascals(99000)));
    }

    [Fact]
    public void TextSaysGaugeAndKeepsTheUnit() =>
        Assert.Equal(
            "15 psi gauge (29.6959 psi absolute)", // 1 atm = 14.6959 psi by definition of the units
            new GaugePressure(Pressure.FromPoundsForcePerSquareInch(15), Pressure.FromAtmospheres(1)).ToString());
}
