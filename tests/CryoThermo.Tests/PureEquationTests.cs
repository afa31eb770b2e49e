using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using CryoThermo.Tests.EquationsOfState.Helmholtz;
using UnitsNet;

namespace CryoThermo.Tests;

/// <summary>Pure fluids under their Helmholtz equations at the front door.</summary>
public sealed class PureEquationTests
{
    public static TheoryData<string> PureNames => ShippedEquations.PureNames;

    [Theory]
    [MemberData(nameof(PureNames))]
    public void SlopeOfTheVaporPressureIsThatOfClausiusAndClapeyron(string name)
    {
        WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
        HelmholtzEquation equation = ShippedEquations.Equation(name);
        double low = equation.Range.LowestTemperature;
        double high = 0.99 * equation.CriticalPoint.Temperature;
        for (int k = 0; k <= 12; k++)
        {
            double t = low + ((high - low) * (k + 0.5) / 13);

            // Fourth-order difference of ln p in 1/T, from separate solves.
            double h = 2e-3 * t;
            double slope = ((8 * (LnPressure(t + h) - LnPressure(t - h))) - (LnPressure(t + (2 * h)) - LnPressure(t - (2 * h)))) / (12 * h);
            Saturation at = fluid.Saturation(Temperature.FromKelvins(t));
            double volumes = (1 / at.Vapor.MolarDensity.MolesPerCubicMeter) - (1 / at.Liquid.MolarDensity.MolesPerCubicMeter);
            double expected = at.EnthalpyOfVaporization.JoulesPerMole / (t * volumes * at.Pressure.Pascals);

            Assert.True(Math.Abs((slope / expected) - 1) < 1e-6, $"{name} at {t:F3} K: {slope:R} against {expected:R} 1/K");
        }

        double LnPressure(double t) => Math.Log(fluid.Saturation(Temperature.FromKelvins(t)).Pressure.Pascals);
    }

    [Theory]
    [MemberData(nameof(PureNames))]
    public void HeatCapacityIsTheSlopeOfTheEnthalpyAlongIsobars(string name)
    {
        WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
        HelmholtzEquation equation = ShippedEquations.Equation(name);
        double tc = equation.CriticalPoint.Temperature;
        double pc = equation.CriticalPoint.Pressure;
        int compared = 0;
        foreach (double reducedPressure in new[] { 1e-3, 0.1, 0.5, 2, 6 })
        {
            for (double reduced = 0.5; reduced <= 2.0; reduced += 0.0731)
            {
                double t = reduced * tc;
                double h = 1e-3 * t;
                Pressure p = Pressure.FromPascals(Math.Min(reducedPressure * pc, equation.Range.HighestPressure));
                if (t - (2 * h) < equation.Range.LowestTemperature
                    || t + (2 * h) > equation.Range.HighestTemperature
                    || (fluid.At(Temperature.FromKelvins(t - (2 * h)), p).Phases[0].Kind != fluid.At(Temperature.FromKelvins(t + (2 * h)), p).Phases[0].Kind)
                    || Math.Abs(reduced - 1) + Math.Abs(reducedPressure - 1) < 0.6)
                {
                    continue;
                }

                double slope = ((8 * (H(t + h) - H(t - h))) - (H(t + (2 * h)) - H(t - (2 * h)))) / (12 * h);
                double cp = fluid.At(Temperature.FromKelvins(t), p).IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin;
                Assert.True(Math.Abs((slope / cp) - 1) < 1e-6, $"{name} at {t:F3} K, {p.Bars:G5} bar: {slope:R} against {cp:R} J/(mol K)");
                compared++;

                double H(double kelvins) => fluid.At(Temperature.FromKelvins(kelvins), p).MolarEnthalpy.JoulesPerMole;
            }
        }

        Assert.True(compared > 25, $"{name}: only {compared} states compared.");
    }

    [Theory]
    [InlineData("nitrogen", 25.30, 25.3)]
    [InlineData("argon", 12.23, 12.0)]
    [InlineData("oxygen", 10.31, 10.3)]
    [InlineData("methane", 1.935, 1.9)]
    public void VaporPressuresAtTheTemperatureOfBoilingMethaneUnderPressure(string name, double computed, double commonPractice)
    {
        double bar = WorkingFluid.Pure(name).Saturation(Temperature.FromKelvins(120.15)).Pressure.Bars;

        // Computed from the reference equations while the data were prepared, within 0.1 %; rounded figures: common practice, no source.
        Assert.Equal(1, bar / computed, 0.001);
        Assert.Equal(1, bar / commonPractice, 0.021);
    }

    [Theory]
    [InlineData("hydrogen", 195, 205)]
    [InlineData("helium", 40, 50)]
    [InlineData("neon", 215, 225)]
    [InlineData("nitrogen", 600, 625)]
    public void InversionTemperatureAtLowPressure(string name, double low, double high)
    {
        // Ranges: common practice, no source.
        WorkingFluid fluid = WorkingFluid.Pure(name);
        Temperature? inversion = fluid.JouleThomsonInversion.HighestTemperature;
        Assert.NotNull(inversion);
        Assert.InRange(inversion.Value.Kelvins, low, high);

        // The limit agrees with the coefficient of a state at low pressure, which changes its sign there.
        Pressure thin = Pressure.FromPascals(10);
        Assert.True(fluid.At(Temperature.FromKelvins(inversion.Value.Kelvins * 0.999), thin).JouleThomsonCoefficientKelvinsPerBar > 0);
        Assert.True(fluid.At(Temperature.FromKelvins(inversion.Value.Kelvins * 1.001), thin).JouleThomsonCoefficientKelvinsPerBar < 0);
    }

    [Fact]
    public void InversionCurveSeparatesCoolingFromWarming()
    {
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");
        foreach (double t in new[] { 110.0, 200, 300, 500 })
        {
            Temperature temperature = Temperature.FromKelvins(t);
            Pressure inversion = nitrogen.JouleThomsonInversion.PressureAt(temperature)!.Value;
            Assert.True(nitrogen.At(temperature, inversion * 0.999).JouleThomsonCoefficientKelvinsPerBar > 0, $"{t} K");
            Assert.True(nitrogen.At(temperature, inversion * 1.001).JouleThomsonCoefficientKelvinsPerBar < 0, $"{t} K");
        }

        Assert.Null(nitrogen.JouleThomsonInversion.PressureAt(Temperature.FromKelvins(700)));
        Assert.Null(WorkingFluid.Pure("propane").JouleThomsonInversion.HighestTemperature);
    }

    [Fact]
    public void AirHasSeparateBubbleAndDewLines()
    {
        WorkingFluid air = WorkingFluid.Pure("air");
        Assert.True(air.Pedigree.Equation!.IsPseudoPure);

        // Lemmon, Jacobsen, Penoncello, Friend, J. Phys. Chem. Ref. Data 29 (2000) 331, from memory: bubble point 78.903 K and dew point
        // 81.72 K at 101325 Pa; dew pressure at 120.15 K computed from the same curve while the data were prepared.
        Pressure atmosphere = Pressure.FromPascals(101325);
        Assert.Equal(78.903, air.BubblePoint(atmosphere).Temperature.Kelvins, 0.0006);
        Assert.Equal(81.72, air.DewPoint(atmosphere).Temperature.Kelvins, 0.006);
        Assert.Equal(20.2, air.DewPoint(Temperature.FromKelvins(120.15)).Pressure.Bars, 0.05);
        Assert.Equal(PhaseKind.Liquid, air.BubblePoint(atmosphere).Phases[0].Kind);
        Assert.Equal(PhaseKind.Vapor, air.DewPoint(atmosphere).Phases[0].Kind);

        Temperature between = Temperature.FromKelvins(80);
        Assert.Contains("mixture", Assert.Throws<ArgumentOutOfRangeException>(() => air.At(between, atmosphere)).Message, StringComparison.Ordinal);
        Assert.Throws<InvalidOperationException>(() => air.Saturation(between));
        State liquid = air.At(Temperature.FromKelvins(78), atmosphere);
        State vapor = air.At(Temperature.FromKelvins(82), atmosphere);
        Assert.Throws<ArgumentOutOfRangeException>(() => air.AtEnthalpy(atmosphere, (liquid.MolarEnthalpy + vapor.MolarEnthalpy) / 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => air.Isobar(atmosphere, Temperature.FromKelvins(70), Temperature.FromKelvins(100)));
        Assert.Equal(82, air.AtEnthalpy(atmosphere, vapor.MolarEnthalpy).Temperature.Kelvins, 1e-8);
        Assert.NotNull(air.Isobar(atmosphere, Temperature.FromKelvins(85), Temperature.FromKelvins(300)));
    }

    [Fact]
    public void MeltingAndSublimationLinesMeetAtTheTriplePoint()
    {
        foreach (Substance substance in SubstanceCatalog.Default.All.Where(s => s.Equations.Any(e => e.MeltingPressure is not null && !e.IsPseudoPure)))
        {
            PhaseBoundaries boundaries = WorkingFluid.Pure(substance.Name).Boundaries;
            SaturationCurve melting = boundaries.MeltingLine!;
            Temperature warm = Temperature.FromKelvins(melting.LowestTemperature + (0.4 * (melting.HighestTemperature - melting.LowestTemperature)));
            Pressure p = boundaries.MeltingPressure(warm);
            Assert.Equal(warm.Kelvins, boundaries.MeltingTemperature(p).Kelvins, 1e-6);
            Assert.Throws<ArgumentOutOfRangeException>(() => boundaries.MeltingPressure(Temperature.FromKelvins(melting.LowestTemperature - 1)));
        }

        PhaseBoundaries dioxide = WorkingFluid.Pure("carbon dioxide").Boundaries;

        // Span, Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509, from memory: 194.6857 K at 101325 Pa, 216.592 K and 0.51795 MPa.
        Assert.Equal(101325, dioxide.SublimationPressure(Temperature.FromKelvins(194.6857)).Pascals, 5.0);
        Assert.Equal(194.6857, dioxide.SublimationTemperature(Pressure.FromPascals(101325)).Kelvins, 0.001);
        Assert.Equal(1, dioxide.SublimationPressure(Temperature.FromKelvins(216.592)).Pascals / 517950, 1e-4);
        Assert.Equal(1, dioxide.MeltingPressure(Temperature.FromKelvins(216.592)).Pascals / 517950, 1e-4);
        Assert.Contains("no sublimation line", Assert.Throws<InvalidOperationException>(() => WorkingFluid.Pure("isobutene").Boundaries.SublimationPressure(Temperature.FromKelvins(120))).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nitrogen")]
    [InlineData("propane")]
    [InlineData("carbon dioxide")]
    public void MetastablePhasesExistBetweenSaturationAndTheirLimits(string name)
    {
        WorkingFluid fluid = WorkingFluid.Pure(name);
        Temperature t = Temperature.FromKelvins(0.9 * fluid.Pedigree.Equation!.CriticalPoint.Temperature);
        Saturation saturation = fluid.Saturation(t);
        MetastableLimits limits = fluid.Boundaries.MetastableLimits(t);
        Assert.True(limits.LiquidPressure < saturation.Pressure && saturation.Pressure < limits.VaporPressure);

        State superheated = fluid.MetastableAt(t, (limits.LiquidPressure + saturation.Pressure) / 2, PhaseKind.Liquid);
        State supersaturated = fluid.MetastableAt(t, (limits.VaporPressure + saturation.Pressure) / 2, PhaseKind.Vapor);
        Assert.True(superheated.MolarDensity > limits.LiquidDensity);
        Assert.True(supersaturated.MolarDensity < limits.VaporDensity);
        Assert.True(superheated.MolarGibbsEnergy > fluid.At(t, superheated.Pressure).MolarGibbsEnergy);
        Assert.True(supersaturated.MolarGibbsEnergy > fluid.At(t, supersaturated.Pressure).MolarGibbsEnergy);
        Assert.Throws<ArgumentOutOfRangeException>(() => fluid.MetastableAt(t, limits.VaporPressure * 1.001, PhaseKind.Vapor));
        Assert.Throws<ArgumentOutOfRangeException>(() => fluid.MetastableAt(t, limits.LiquidPressure * 0.99, PhaseKind.Liquid));
        Assert.Throws<ArgumentOutOfRangeException>(() => fluid.Boundaries.MetastableLimits(Temperature.FromKelvins(fluid.Pedigree.Equation.CriticalPoint.Temperature)));
    }

    [Fact]
    public void StrictRangePolicyRefusesWhatOtherwiseIsNoted()
    {
        WorkingFluid oxygen = WorkingFluid.Pure("oxygen");
        State hot = oxygen.At(Temperature.FromKelvins(400), Pressure.FromBars(1));
        Assert.Contains("300 K", Assert.Single(hot.Notes).Message, StringComparison.Ordinal);
        WorkingFluid strict = oxygen.WithRangePolicy(RangePolicy.Strict);
        ModelRangeException refused = Assert.Throws<ModelRangeException>(() => strict.At(Temperature.FromKelvins(400), Pressure.FromBars(1)));
        Assert.Contains("oxygen", refused.Message, StringComparison.Ordinal);
        Assert.Empty(strict.At(Temperature.FromKelvins(200), Pressure.FromBars(1)).Notes);
        Assert.Equal(RangePolicy.Strict, strict.WithModel(FluidModel.PengRobinson).RangePolicy);

        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");
        Assert.Contains("melting", Assert.Single(nitrogen.At(Temperature.FromKelvins(70), Pressure.FromBars(900)).Notes).Message, StringComparison.Ordinal);
        Assert.Contains("triple", Assert.Single(nitrogen.At(Temperature.FromKelvins(60), Pressure.FromBars(1)).Notes).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FiguresOfAPhaseBelongTogether()
    {
        WorkingFluid propane = WorkingFluid.Pure("propane");
        State state = propane.At(Temperature.FromKelvins(350), Pressure.FromBars(12));
        Phase phase = Assert.Single(state.Phases);
        const double Step = 1e-3;
        double t = 350;
        double p = 12e5;
        double byPressure = (H(t, p + 10) - H(t, p - 10)) / 20;
        double expansion = (V(t + Step, p) - V(t - Step, p)) / (2 * Step) / V(t, p);
        double compressibility = -(V(t, p + 10) - V(t, p - 10)) / 20 / V(t, p);

        Assert.Equal(byPressure * 1e5, phase.IsothermalThrottlingCoefficientJoulesPerMoleBar, 1e-6 * Math.Abs(byPressure) * 1e5);
        Assert.Equal(1, phase.IsobaricExpansionCoefficient.PerKelvin / expansion, 1e-6);
        Assert.Equal(1, phase.IsothermalCompressibility.InversePascals / compressibility, 1e-6);
        Assert.Equal(state.MolarEnthalpy.JoulesPerMole - (350 * state.MolarEntropy.JoulesPerMoleKelvin), phase.MolarGibbsEnergy.JoulesPerMole, 1e-8);
        Assert.Equal(state.MolarInternalEnergy.JoulesPerMole - (350 * state.MolarEntropy.JoulesPerMoleKelvin), state.MolarHelmholtzEnergy.JoulesPerMole, 1e-8);

        // d(ln f)/dp = v/(R T), from separate fugacities.
        double lnSlope = (Math.Log(F(p + 100)) - Math.Log(F(p - 100))) / 200;
        double expected = V(t, p) / (propane.Pedigree.Equation!.GasConstant * t);
        Assert.Equal(1, lnSlope / expected, 1e-7);
        Assert.Throws<ArgumentException>(() => phase.FugacityOf("methane"));

        double H(double kelvins, double pascals) => At(kelvins, pascals).MolarEnthalpy.JoulesPerMole;
        double V(double kelvins, double pascals) => 1 / At(kelvins, pascals).MolarDensity.MolesPerCubicMeter;
        double F(double pascals) => At(t, pascals).Phases[0].FugacityOf("propane").Pascals;
        State At(double kelvins, double pascals) => propane.At(Temperature.FromKelvins(kelvins), Pressure.FromPascals(pascals));
    }

    [Fact]
    public void VirialCoefficientsAreThoseOfThinGas()
    {
        foreach (WorkingFluid fluid in new[] { WorkingFluid.Pure("nitrogen"), WorkingFluid.Pure("nitrogen").WithModel(FluidModel.PengRobinson.WithVolumeTranslation()), WorkingFluid.Mixture(("methane", 0.6), ("propane", 0.4)) })
        {
            Temperature t = Temperature.FromKelvins(310);
            VirialCoefficients virials = fluid.VirialCoefficientsAt(t);
            (double z1, double rho1) = At(2e3);
            (double z2, double rho2) = At(4e3);
            double b1 = (z1 - 1) / rho1;
            double b2 = (z2 - 1) / rho2;
            double third = (b2 - b1) / (rho2 - rho1);
            Assert.Equal(b1 - (third * rho1), virials.SecondCubicCentimetersPerMole * 1e-6, 1e-5 * Math.Abs(b1));
            Assert.Equal(third, virials.ThirdCentimeters6PerSquareMole * 1e-12, 0.01 * Math.Abs(third));
            const double Step = 0.01;
            double slope = (fluid.VirialCoefficientsAt(Temperature.FromKelvins(310 + Step)).SecondCubicCentimetersPerMole
                - fluid.VirialCoefficientsAt(Temperature.FromKelvins(310 - Step)).SecondCubicCentimetersPerMole) / (2 * Step);
            Assert.Equal(slope, virials.SecondSlopeCubicCentimetersPerMoleKelvin, 1e-6 * Math.Abs(slope));

            (double Z, double Density) At(double pascals)
            {
                Phase phase = fluid.At(t, Pressure.FromPascals(pascals)).Phases[0];
                return (phase.CompressibilityFactor, phase.MolarDensity.MolesPerCubicMeter);
            }
        }
    }

    [Fact]
    public void ModelsAreChosenAndRefused()
    {
        WorkingFluid nitrogen = WorkingFluid.Pure("nitrogen");
        Assert.Same(FluidModel.ReferenceEquation, nitrogen.Model);
        Assert.Same(FluidModel.TechnicalEquation, nitrogen.WithModel(FluidModel.TechnicalEquation).Model);
        Assert.Same(FluidModel.TechnicalEquation, WorkingFluid.Pure("krypton").Model);
        Assert.Same(FluidModel.PengRobinson, WorkingFluid.Pure("ammonia").Model);
        Assert.Contains("no Helmholtz equation", WorkingFluid.Pure("ammonia").Pedigree.Reason, StringComparison.Ordinal);
        Assert.Same(FluidModel.ReferenceEquation, nitrogen.WithModel(FluidModel.PengRobinson).WithModel(FluidModel.Recommended).Model);
        Assert.Contains("cubic", Assert.Throws<ArgumentException>(() => WorkingFluid.Pure("ammonia").WithModel(FluidModel.ReferenceEquation)).Message, StringComparison.Ordinal);
        Assert.Contains("technical", Assert.Throws<ArgumentException>(() => WorkingFluid.Pure("krypton").WithModel(FluidModel.ReferenceEquation)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => WorkingFluid.Mixture(("nitrogen", 0.5), ("argon", 0.5)).WithModel(FluidModel.ReferenceEquation));
        Assert.Throws<InvalidOperationException>(() => FluidModel.ReferenceEquation.WithVolumeTranslation());
        Assert.NotNull(nitrogen.Pedigree.Equation!.Uncertainty.Density);
    }

    [Fact]
    public void StatesWithinAMillikelvinOfTheCriticalPointAreFound()
    {
        foreach (string name in new[] { "nitrogen, Reference", "oxygen, Reference", "carbon dioxide, Reference", "nitrogen, Technical", "helium, Reference", "hydrogen, Reference" })
        {
            WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
            FluidPoint critical = ShippedEquations.Equation(name).CriticalPoint;
            Random random = new(5);
            for (int k = 0; k < 300; k++)
            {
                Temperature t = Temperature.FromKelvins(critical.Temperature + (1e-3 * ((2 * random.NextDouble()) - 1)));
                double density = critical.MolarDensity * (1 + (0.3 * ((2 * random.NextDouble()) - 1)));
                State byDensity = fluid.AtDensity(t, Molarity.FromMolesPerCubicMeter(density));
                Assert.Equal(1, byDensity.MolarDensity.MolesPerCubicMeter / density, 1e-9);
                Pressure p = Pressure.FromPascals(critical.Pressure * (1 + (1e-4 * ((2 * random.NextDouble()) - 1))));
                State byPressure = fluid.At(t, p);
                Assert.True(byPressure.MolarDensity.MolesPerCubicMeter > 0 && double.IsFinite(byPressure.MolarEnthalpy.JoulesPerMole));
            }
        }
    }
}
