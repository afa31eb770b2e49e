using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class RecuperatorTests
{
    private static readonly WorkingFluid Argon = WorkingFluid.Pure("argon");

    [Theory]
    [InlineData(1.0, 1.0)]
    [InlineData(1.0, 19.0)]
    [InlineData(0.8, 3.0)]
    [InlineData(0.5, 8.0)]
    [InlineData(0.8, 0.1)]
    public void DiluteArgonFollowsTheEffectivenessFormula(double ratio, double transferUnits)
    {
        // Counter-flow with constant heat capacities (W. M. Kays, A. L. London, Compact Heat Exchangers; from memory). At 1 kPa argon's heat
        // capacity departs from 5/2 R by less than 1e-4 above 120 K.
        Isobar hot = Argon.Isobar(Pressure.FromPascals(2000), Temperature.FromKelvins(120), Temperature.FromKelvins(300));
        Isobar cold = Argon.Isobar(Pressure.FromPascals(1000), Temperature.FromKelvins(120), Temperature.FromKelvins(300));
        const double Flow = 0.01;
        Recuperator recuperator = new(
            hot, MolarFlow.FromMolesPerSecond(Flow * ratio), Temperature.FromKelvins(300), cold, MolarFlow.FromMolesPerSecond(Flow), Temperature.FromKelvins(120));
        double least = Flow * ratio * 2.5 * 8.314462618;
        double exponential = Math.Exp(-transferUnits * (1 - ratio));
        double effectiveness = ratio < 1 ? (1 - exponential) / (1 - (ratio * exponential)) : transferUnits / (1 + transferUnits);
        RecuperatorResult result = recuperator.WithConductance(transferUnits * least);
        Assert.Equal(effectiveness, (double)result.Duty.Watts / (least * 180), 3e-4);
        Assert.Equal(transferUnits * least, recuperator.ForDuty(result.Duty).ConductanceWattsPerKelvin, 1e-6 * transferUnits * least);
    }

    [Fact]
    public void TheLeastApproachIsKeptAndReached()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.3), ("ethane", 0.2), ("propane", 0.2));
        Isobar hot = blend.Isobar(Pressure.FromBars(18), Temperature.FromKelvins(110), Temperature.FromKelvins(295));
        Isobar cold = blend.Isobar(Pressure.FromBars(2), Temperature.FromKelvins(110), Temperature.FromKelvins(295));
        Recuperator recuperator = new(
            hot, MolarFlow.FromMolesPerSecond(0.02), Temperature.FromKelvins(295), cold, MolarFlow.FromMolesPerSecond(0.02), Temperature.FromKelvins(112));
        RecuperatorResult result = recuperator.ForLeastApproach(TemperatureDelta.FromKelvins(2));
        Assert.Equal(2, result.Pinch.Approach.Kelvins, 1e-9);
        Assert.Equal(2, result.Profile.Min(p => p.Hot.Kelvins - p.Cold.Kelvins), 0.02);
        Assert.True((double)result.EntropyProductionPerSecond.JoulesPerKelvin > 0);
        // Neither stream turns back by more than rounding.
        for (int i = 1; i < result.Profile.Count; i++)
        {
            Assert.True(result.Profile[i].Hot.Kelvins >= result.Profile[i - 1].Hot.Kelvins - 1e-9);
            Assert.True(result.Profile[i].Cold.Kelvins >= result.Profile[i - 1].Cold.Kelvins - 1e-9);
        }

        Assert.True(double.IsPositiveInfinity(recuperator.ForDuty(recuperator.GreatestDuty).ConductanceWattsPerKelvin));
        Assert.Throws<ArgumentOutOfRangeException>(() => recuperator.ForDuty(recuperator.GreatestDuty * 1.01m));
        Assert.Throws<ArgumentOutOfRangeException>(() => recuperator.WithConductance(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => recuperator.ForLeastApproach(TemperatureDelta.FromKelvins(200)));
    }
}
