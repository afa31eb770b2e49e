using CryoThermo.IdealGas;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class OrthoParaHydrogenTests
{
    [Theory]

    // Computed by an independent program from the same levels while the data were prepared; not published values.
    [InlineData(14, 0.999954, 1417.42, 1063.0, 2.5069)]
    [InlineData(20, 0.998215, 1417.42, 1060.53, 2.6295)]
    [InlineData(30, 0.970267, 1417.42, 1020.92, 3.4316)]
    [InlineData(50, 0.770739, 1416.63, 737.69, 4.5668)]
    [InlineData(77.355, 0.503347, 1388.83, 351.86, 3.8162)]
    [InlineData(100, 0.3863, 1295.36, 176.56, 3.386)]
    [InlineData(200, 0.259751, 440.83, 4.3, 3.3012)]
    [InlineData(298.15, 0.250753, 76.95, 0.06, 3.4682)]
    [InlineData(500, 0.250005, 1.23, 0.0, 3.5182)]
    public void TableOfTheRotationalLevelsIsReproduced(double kelvins, double para, double conversion, double released, double heatCapacityOverR)
    {
        Temperature t = Temperature.FromKelvins(kelvins);
        double fraction = OrthoParaHydrogen.EquilibriumParaFraction(t);

        Assert.Equal(para, fraction, 6e-7);
        Assert.Equal(conversion, OrthoParaHydrogen.ConversionEnthalpy(t).JoulesPerMole, 0.006);
        Assert.Equal(released, OrthoParaHydrogen.HeatReleased(OrthoParaHydrogen.NormalParaFraction, fraction, t).JoulesPerMole, 0.006);
        Assert.Equal(heatCapacityOverR, OrthoParaHydrogen.EquilibriumHeatCapacity(t).JoulesPerMoleKelvin / RotationalHydrogen.GasConstant, 6e-5);
    }

    [Fact]
    public void WellKnownFiguresAreMet()
    {
        // Common practice, no source: 99.8 % para at the normal boiling point, half and half at 77 K, 527 kJ/kg from normal to para.
        Assert.Equal(0.998, OrthoParaHydrogen.EquilibriumParaFraction(Temperature.FromKelvins(20.3)), 0.0005);
        Assert.Equal(0.50, OrthoParaHydrogen.EquilibriumParaFraction(Temperature.FromKelvins(77.35)), 0.006);
        double released = OrthoParaHydrogen.HeatReleased(0.25, 1, Temperature.FromKelvins(20)).JoulesPerMole / 2.01588;
        Assert.Equal(527, released, 0.5);
    }

    [Fact]
    public void SlopesAreThoseOfTheValues()
    {
        foreach (double t in new[] { 2.0, 8, 15, 25, 60, 120, 300, 590 })
        {
            double h = 1e-4 * t;
            RotationalHydrogen.EquilibriumParaFraction(t, out double slope);
            double above = RotationalHydrogen.EquilibriumParaFraction(t + h, out _);
            double below = RotationalHydrogen.EquilibriumParaFraction(t - h, out _);
            Assert.Equal((above - below) / (2 * h), slope, 1e-9);

            double cp = (EquilibriumEnthalpy(t + h) - EquilibriumEnthalpy(t - h)) / (2 * h);
            Assert.Equal(cp, RotationalHydrogen.EquilibriumHeatCapacity(t), 1e-6 * cp);
        }

        static double EquilibriumEnthalpy(double t)
        {
            double para = RotationalHydrogen.EquilibriumParaFraction(t, out _);
            return (para * RotationalHydrogen.Enthalpy(t, false, out _)) + ((1 - para) * RotationalHydrogen.Enthalpy(t, true, out _));
        }
    }

    [Fact]
    public void LimitsAreFinite()
    {
        Assert.Equal(1, OrthoParaHydrogen.EquilibriumParaFraction(Temperature.FromKelvins(1)), 1e-15);
        Assert.Equal(0.25, OrthoParaHydrogen.EquilibriumParaFraction(Temperature.FromKelvins(600)), 1e-5);
        Assert.Throws<ArgumentOutOfRangeException>(() => OrthoParaHydrogen.EquilibriumParaFraction(Temperature.FromKelvins(0.9)));
        Assert.Throws<ArgumentOutOfRangeException>(() => OrthoParaHydrogen.HeatReleased(0.25, 1.1, Temperature.FromKelvins(20)));
        Assert.Throws<ArgumentOutOfRangeException>(() => HydrogenForm.Frozen(-0.1));
    }

    [Theory]
    [InlineData(16)]
    [InlineData(20)]
    [InlineData(28)]
    public void LiquidOfJoinedFormsIsThatOfTheNormalEquation(double kelvins)
    {
        Temperature t = Temperature.FromKelvins(kelvins);
        Saturation joined = WorkingFluid.Hydrogen(HydrogenForm.Frozen(0.25)).Saturation(t);
        Saturation normal = WorkingFluid.Hydrogen(HydrogenForm.Normal).Saturation(t);

        // While the data were prepared the saturated liquids of the three independent equations were found to obey
        // h_normal = 0.25 h_para + 0.75 h_ortho within 0.6 to 1.0 kJ/kg; the joined equation takes both at one density instead.
        double mixed = (0.25 * EnthalpyOf(HydrogenForm.Para)) + (0.75 * EnthalpyOf(HydrogenForm.Frozen(0)));
        Assert.Equal(normal.Liquid.SpecificEnthalpy.KilojoulesPerKilogram, mixed, 1.05);
        Assert.Equal(mixed, joined.Liquid.SpecificEnthalpy.KilojoulesPerKilogram, 0.1);

        // What the equations state for themselves (0.1 % in density, 1 % in vapour pressure) and a margin for their being three.
        Assert.Equal(1, joined.Liquid.MolarDensity.MolesPerCubicMeter / normal.Liquid.MolarDensity.MolesPerCubicMeter, 0.005);
        Assert.Equal(1, joined.Pressure / normal.Pressure, 0.02);

        double EnthalpyOf(HydrogenForm form) => WorkingFluid.Hydrogen(form).Saturation(t).Liquid.SpecificEnthalpy.KilojoulesPerKilogram;
    }

    [Fact]
    public void LiquidNormalHoldsTheHeatOfConversionMoreThanLiquidPara()
    {
        Temperature t = Temperature.FromKelvins(20.3);
        double difference = WorkingFluid.Hydrogen(HydrogenForm.Normal).Saturation(t).Liquid.SpecificEnthalpy.KilojoulesPerKilogram
            - WorkingFluid.Hydrogen(HydrogenForm.Para).Saturation(t).Liquid.SpecificEnthalpy.KilojoulesPerKilogram;

        // Computed by an independent program while the data were prepared.
        Assert.Equal(524.3, difference, 0.3);
    }

    [Theory]
    [InlineData(25, 20)]
    [InlineData(40, 15)]
    [InlineData(77, 2)]
    [InlineData(150, 30)]
    public void EquilibriumHydrogenIsConsistent(double kelvins, double bar)
    {
        WorkingFluid fluid = WorkingFluid.Hydrogen(HydrogenForm.Equilibrium);
        Pressure p = Pressure.FromBars(bar);
        State at = fluid.At(Temperature.FromKelvins(kelvins), p);
        const double Step = 1e-3;
        State above = fluid.At(Temperature.FromKelvins(kelvins + Step), p);
        State below = fluid.At(Temperature.FromKelvins(kelvins - Step), p);
        double cp = (above.MolarEnthalpy.JoulesPerMole - below.MolarEnthalpy.JoulesPerMole) / (2 * Step);
        double byEntropy = kelvins * (above.MolarEntropy.JoulesPerMoleKelvin - below.MolarEntropy.JoulesPerMoleKelvin) / (2 * Step);

        Assert.Equal(cp, at.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin, 2e-6 * cp);

        // The share follows the ideal gases; the dense fluid would shift it a little, which leaves this much between dh and T ds.
        Assert.Equal(cp, byEntropy, 0.01 * cp);
        State back = fluid.AtEnthalpy(p, at.MolarEnthalpy);
        Assert.Equal(kelvins, back.Temperature.Kelvins, 1e-9);
    }

    [Fact]
    public void ShareOfTheFluidIsThatOfTheLevels()
    {
        WorkingFluid equilibrium = WorkingFluid.Hydrogen(HydrogenForm.Equilibrium);
        WorkingFluid normal = WorkingFluid.Hydrogen(HydrogenForm.Normal);
        Pressure p = Pressure.FromPascals(100);
        foreach (double t in new[] { 30.0, 60, 100, 200 })
        {
            Temperature temperature = Temperature.FromKelvins(t);
            double released = normal.At(temperature, p).MolarEnthalpy.JoulesPerMole - equilibrium.At(temperature, p).MolarEnthalpy.JoulesPerMole;
            double expected = OrthoParaHydrogen.HeatReleased(0.25, OrthoParaHydrogen.EquilibriumParaFraction(temperature), temperature).JoulesPerMole;

            // The offsets of the equations are constant within 0.7 J/mol.
            Assert.Equal(expected, released, 2.0);
        }
    }

    [Fact]
    public void FormsKeepTheirModelAndReference()
    {
        WorkingFluid fluid = WorkingFluid.Hydrogen(HydrogenForm.Frozen(0.5));
        Assert.Throws<InvalidOperationException>(() => fluid.WithModel(FluidModel.PengRobinson));
        Assert.Throws<InvalidOperationException>(() => fluid.WithReferenceState(ReferenceState.AsPublished));
        Assert.Contains("50 % para", fluid.ToString(), StringComparison.Ordinal);
        Assert.Contains("joined", fluid.Pedigree.ToString(), StringComparison.Ordinal);
    }
}
