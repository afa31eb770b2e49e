using CryoThermo.Equilibrium;
using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class IsobarTests
{
    private static readonly Isobar Sample = Blends.FiveParts.Isobar(Pressure.FromBars(8), Temperature.FromKelvins(70), Temperature.FromKelvins(310));

    [Fact]
    public void TellsItsRangeAndStretches()
    {
        Assert.Same(Blends.FiveParts, Sample.Fluid);
        Assert.Equal(8e5, Sample.Pressure.Pascals);
        Assert.Equal(70, Sample.Lowest.Kelvins);
        Assert.Equal(310, Sample.Highest.Kelvins);
        Assert.Equal(70, Sample.Stretches[0].From.Kelvins);
        Assert.Equal(310, Sample.Stretches[^1].To.Kelvins);
        for (int i = 1; i < Sample.Stretches.Count; i++)
        {
            Assert.Equal(Sample.Stretches[i - 1].To.Kelvins, Sample.Stretches[i].From.Kelvins);
            Assert.NotEqual(Sample.Stretches[i - 1].Region, Sample.Stretches[i].Region);
        }

        Assert.Equal(PhaseRegion.Vapor, Sample.Stretches[^1].Region);
        Assert.Contains(Sample.Stretches, s => s.Region == PhaseRegion.LiquidVapor);
    }

    [Fact]
    public void EveryTemperatureOfItsRangeIsAnswered()
    {
        for (int k = 0; k <= 1000; k++)
        {
            Temperature t = Temperature.FromKelvins(k == 1000 ? 310 : 70 + (0.24 * k));
            Assert.Equal(t.Kelvins, Sample.TemperatureAt(Sample.MolarEnthalpy(t)).Kelvins, 1e-9);
            Assert.True(double.IsFinite(Sample.MolarEntropy(t).JoulesPerMoleKelvin));
        }
    }

    [Fact]
    public void OutsideItsRangeTheErrorTellsTheRange()
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => Sample.MolarEnthalpy(Temperature.FromKelvins(69)));
        Assert.Contains("70 to 310 K", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Sample.TemperatureAt(MolarEnergy.FromJoulesPerMole(1e6)));
    }
}
