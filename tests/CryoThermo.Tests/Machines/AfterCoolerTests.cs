using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class AfterCoolerTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("methane", 0.4), ("ethane", 0.2), ("isobutane", 0.4));

    [Fact]
    public void TheOutletIsAtItsTemperatureBelowTheInletPressure()
    {
        State outlet = new AfterCooler(Temperature.FromDegreesCelsius(25), Pressure.FromBars(0.3))
            .Cool(Blend.At(Temperature.FromKelvins(390), Pressure.FromBars(15)));
        Assert.Equal(298.15, outlet.Temperature.Kelvins, 1e-9);
        Assert.Equal(14.7, outlet.Pressure.Bars, 1e-9);
        Assert.InRange(outlet.VaporFraction, 0.5, 1 - 1e-6);
    }

    [Fact]
    public void FiguresOutOfRangeAreRefused()
    {
        Assert.Equal("pressureDrop", Assert.Throws<ArgumentOutOfRangeException>(() => new AfterCooler(Temperature.FromKelvins(300), Pressure.FromBars(-1))).ParamName);
        State inlet = Blend.At(Temperature.FromKelvins(390), Pressure.FromBars(15));
        Assert.Contains(
            "pressure",
            Assert.ThrowsAny<ArgumentException>(() => new AfterCooler(Temperature.FromKelvins(300), Pressure.FromBars(15)).Cool(inlet)).Message,
            StringComparison.Ordinal);
    }
}
