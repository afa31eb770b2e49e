using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class ThrottleTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.3), ("ethane", 0.2), ("propane", 0.2));

    [Theory]
    [InlineData(300)]
    [InlineData(220)]
    [InlineData(160)]
    [InlineData(120)]
    public void ExpansionKeepsEnthalpyAndProducesEntropy(double kelvins)
    {
        State inlet = Blend.At(Temperature.FromKelvins(kelvins), Pressure.FromBars(18));
        State outlet = Throttle.Expand(inlet, Pressure.FromBars(1.5));
        State again = Blend.At(outlet.Temperature, outlet.Pressure);
        Assert.Equal(inlet.MolarEnthalpy.JoulesPerMole, again.MolarEnthalpy.JoulesPerMole, 1e-6);
        Assert.True(again.MolarEntropy > inlet.MolarEntropy);
        Assert.Equal(1.5, outlet.Pressure.Bars, 1e-12);
    }

    [Fact]
    public void NoPressureDifferenceChangesNothing()
    {
        State inlet = Blend.At(Temperature.FromKelvins(200), Pressure.FromBars(10));
        Assert.Equal(200, Throttle.Expand(inlet, inlet.Pressure).Temperature.Kelvins, 1e-8);
    }

    [Fact]
    public void APressureAboveTheInletIsRefused()
    {
        State inlet = Blend.At(Temperature.FromKelvins(200), Pressure.FromBars(10));
        Assert.Contains(
            "must not be above the inlet pressure of 10 bar",
            Assert.Throws<ArgumentOutOfRangeException>(() => Throttle.Expand(inlet, Pressure.FromBars(10.1))).Message,
            StringComparison.Ordinal);
    }
}
