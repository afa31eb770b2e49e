using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

public sealed class VolumeFlashTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(
        ("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));

    [Fact]
    public void RandomStatesComeBackFromDensityAndFromInternalEnergy()
    {
        Random random = new(7);
        for (int i = 0; i < 120; i++)
        {
            double t = 95 + (250 * random.NextDouble());
            double p = Math.Exp(Math.Log(2e3) + (random.NextDouble() * Math.Log(5e3)));
            State state = Blend.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));
            if (state.HasUnresolvedPhase)
            {
                continue;
            }

            // 1e-7 is what a round trip is held to; a liquid's pressure hangs on the last digits of its volume, so that the
            // density is compared there.
            State back = Blend.AtDensity(state.Temperature, state.MolarDensity);
            Assert.Equal(1, back.MolarDensity.MolesPerCubicMeter / state.MolarDensity.MolesPerCubicMeter, 1e-10);
            if (state.VaporFraction > 0)
            {
                Assert.Equal(1, back.Pressure.Pascals / p, 1e-7);
            }

            if (i % 4 == 0)
            {
                State warmed = Blend.AtInternalEnergy(state.MolarInternalEnergy, state.MolarDensity);
                Assert.Equal(1, warmed.Temperature.Kelvins / t, 1e-7);
            }
        }
    }

    [Fact]
    public void APureFluidBoilsAtItsVaporPressure()
    {
        WorkingFluid methane = WorkingFluid.Pure("methane");
        Saturation boiling = methane.Saturation(Temperature.FromKelvins(120));
        double volume = (0.3 / boiling.Vapor.MolarDensity.MolesPerCubicMeter) + (0.7 / boiling.Liquid.MolarDensity.MolesPerCubicMeter);
        State state = methane.AtDensity(Temperature.FromKelvins(120), Molarity.FromMolesPerCubicMeter(1 / volume));
        Assert.Equal(boiling.Pressure.Pascals, state.Pressure.Pascals, 1e-6);
        Assert.Equal(0.3, state.VaporFraction, 1e-10);
        State again = methane.AtInternalEnergy(state.MolarInternalEnergy, state.MolarDensity);
        Assert.Equal(120, again.Temperature.Kelvins, 1e-6);
    }

    [Fact]
    public void InternalEnergyIsThatOfTheHeatTakenUp()
    {
        // At constant volume the heat taken up is the change of internal energy: the slope is the isochoric heat capacity.
        State a = Blend.AtDensity(Temperature.FromKelvins(320), Molarity.FromMolesPerCubicMeter(300));
        State b = Blend.AtDensity(Temperature.FromKelvins(320.01), Molarity.FromMolesPerCubicMeter(300));
        double slope = (b.MolarInternalEnergy.JoulesPerMole - a.MolarInternalEnergy.JoulesPerMole) / 0.01;
        Assert.Equal(1, slope / a.Phases[0].IsochoricHeatCapacity.JoulesPerMoleKelvin, 1e-4);
    }

    [Theory]
    [InlineData(1e6)]
    [InlineData(-1)]
    [InlineData(0)]
    public void ImpossibleDensitiesAreRefusedByName(double density)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() =>
            Blend.AtDensity(Temperature.FromKelvins(300), Molarity.FromMolesPerCubicMeter(density)));
        Assert.Contains("molarDensity", error.Message, StringComparison.Ordinal);
        Assert.Contains("mol/m3", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void TrappedLiquidRisesToHundredsOfBar()
    {
        // Nitrogen filled to the brim at 78 K and warmed to ambient at constant volume: the relief rule's reason.
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen").WithModel(FluidModel.PengRobinson.WithVolumeTranslation());
        State cold = nitrogen.Saturation(Temperature.FromKelvins(78)).Liquid;
        State warm = nitrogen.AtDensity(Temperature.FromKelvins(130), cold.MolarDensity);
        Assert.True(warm.Pressure.Bars > 300, $"only {warm.Pressure.Bars:F0} bar at 130 K");
    }
}
