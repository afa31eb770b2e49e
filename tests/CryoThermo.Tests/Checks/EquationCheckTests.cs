using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests.Checks;

/// <summary>Pure-fluid equations of state against published and computed values.</summary>
public sealed class EquationCheckTests
{
    [Fact]
    public void PublishedValuesAreMetToTheirPrintedDigits()
    {
        List<string> misses = [];
        foreach (EquationCheck check in CheckValues.EquationChecks)
        {
            double computed = EquationCalculations.Compute(check);
            if (!(Math.Abs(computed - check.Value) <= EquationCalculations.Allowed(check) * (1 + 1e-9)))
            {
                misses.Add(check.Subject);
            }
        }

        Assert.Equal(string.Join('\n', CheckValues.EquationMisses.Select(m => m.Subject).Order()), string.Join('\n', misses.Order()));
        Assert.True(CheckValues.EquationChecks.Count > 200);
    }

    [Fact]
    public void StatesOfAnIndependentProgramAreReproduced()
    {
        List<string> misses = [];
        foreach (ComputedEquationState expected in CheckValues.EquationStates)
        {
            WorkingFluid fluid = EquationCalculations.Fluid(expected.Fluid, expected.Standard);
            State state = fluid.AtDensity(Temperature.FromKelvins(expected.Temperature), Molarity.FromMolesPerCubicMeter(expected.MolarDensity));
            string where = $"{expected.Fluid}, {expected.Standard}, {expected.Temperature} K, {expected.MolarDensity} mol/m3";

            // Nine figures are kept of the density and of the results; the pressure of a liquid magnifies the first.
            double stiffness = 1 / (state.Phases[0].IsothermalCompressibility.InversePascals * expected.Pressure);
            Near(expected.Pressure, state.Pressure.Pascals, 2e-8 * (1 + stiffness), "pressure");
            Near(expected.IsochoricHeatCapacity, state.IsochoricHeatCapacity!.Value.JoulesPerMoleKelvin, 1e-6, "cv");
            Near(expected.IsobaricHeatCapacity, state.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin, 1e-6, "cp");
            Near(expected.SpeedOfSound, state.SpeedOfSound!.Value.MetersPerSecond, 1e-6, "speed of sound");
            double scale = fluid.Pedigree.Equation!.GasConstant * expected.Temperature;
            Within(expected.Enthalpy, state.MolarEnthalpy.JoulesPerMole, 2e-7 * (scale + Math.Abs(expected.Enthalpy)), "enthalpy");
            Within(expected.Entropy, state.MolarEntropy.JoulesPerMoleKelvin, 2e-7 * (10 + Math.Abs(expected.Entropy)), "entropy");
            if (expected.JouleThomson is { } jouleThomson)
            {
                Within(jouleThomson, state.JouleThomsonCoefficientKelvinsPerBar!.Value * 10, 2e-6 * (1 + Math.Abs(jouleThomson)), "Joule-Thomson coefficient");
            }

            if (expected.Residual is { } residual)
            {
                HelmholtzFluid kernel = (HelmholtzFluid)fluid.Kernel.Equation;
                Within(residual, kernel.At(expected.Temperature, expected.MolarDensity).Alpha, 2e-8 * (1 + Math.Abs(residual)), "residual Helmholtz energy");
            }

            void Near(double value, double actual, double relative, string what) => Within(value, actual, relative * Math.Abs(value), what);

            void Within(double value, double actual, double tolerance, string what)
            {
                if (!(Math.Abs(actual - value) <= tolerance))
                {
                    misses.Add($"{where}: {what} {actual:R} instead of {value:R}");
                }
            }
        }

        Assert.Empty(misses);
        Assert.True(CheckValues.EquationStates.Count > 200);
    }

    [Fact]
    public void SaturationsOfAnIndependentProgramAreReproduced()
    {
        foreach (ComputedSaturation expected in CheckValues.EquationSaturations)
        {
            Saturation found = EquationCalculations.Fluid(expected.Fluid, expected.Standard).Saturation(Temperature.FromKelvins(expected.Temperature));
            string where = $"{expected.Fluid}, {expected.Standard}, {expected.Temperature} K";

            // Eight figures are kept: half a unit of the last is up to 5e-8.
            Assert.True(Math.Abs((found.Pressure.Pascals / expected.Pressure) - 1) < 6e-8, $"{where}: {found.Pressure.Pascals:R} Pa");
            Assert.True(Math.Abs((found.Liquid.MolarDensity.MolesPerCubicMeter / expected.LiquidMolarDensity) - 1) < 6e-8, $"{where}: {found.Liquid.MolarDensity.MolesPerCubicMeter:R} mol/m3");
            Assert.True(Math.Abs((found.Vapor.MolarDensity.MolesPerCubicMeter / expected.VaporMolarDensity) - 1) < 6e-8, $"{where}: {found.Vapor.MolarDensity.MolesPerCubicMeter:R} mol/m3");
        }
    }

    [Fact]
    public void HeliumFollowsTheVaporPressureScaleOfIts90()
    {
        // Preston-Thomas, Metrologia 27 (1990) 3, equation 3 and table 3, helium-4 from 2.1768 to 5.0 K; from memory. The data state 2 mK.
        double[] a = [3.146631, 1.357655, 0.413923, 0.091159, 0.016349, 0.001826, -0.004325, -0.004973];
        Assert.Equal(4.2221, Scale(101325), 0.00005);
        WorkingFluid helium = WorkingFluid.Pure("helium");
        for (double p = 5600; p < 196000; p *= 1.1)
        {
            double boiling = helium.Saturation(Pressure.FromPascals(p)).Temperature.Kelvins;
            Assert.True(Math.Abs(boiling - Scale(p)) < 0.002, $"{p:F0} Pa: {boiling:F5} K, scale {Scale(p):F5} K");
        }

        double Scale(double pascals)
        {
            double x = (Math.Log(pascals) - 10.3) / 1.9;
            double sum = 0;
            for (int i = a.Length - 1; i >= 0; i--)
            {
                sum = (sum * x) + a[i];
            }

            return sum;
        }
    }

    [Theory]

    // p/pc - 1 at the stated critical point, as noted when the data were verified; a regression of the coefficients.
    [InlineData("nitrogen", 6.0e-12)]
    [InlineData("methane", 1.9e-8)]
    [InlineData("argon", 1.1e-7)]
    [InlineData("oxygen", -4.2e-5)]
    [InlineData("propane", -8.3e-6)]
    [InlineData("ethane", -4.6e-9)]
    [InlineData("n-butane", 4.6e-9)]
    [InlineData("isobutane", 4.5e-9)]
    [InlineData("ethylene", 1.2e-9)]
    [InlineData("carbon dioxide", -2.2e-7)]
    public void CriticalConditionsAreAsNotedWithTheData(string name, double noted)
    {
        Substance substance = SubstanceCatalog.Default.Find(name);
        HelmholtzEquation equation = substance.Equations[0];
        HelmholtzFluid fluid = new(equation, substance.AcentricFactor);
        double[] scratch = new double[fluid.ScratchLength];
        fluid.SetIsotherm(substance.CriticalTemperature, scratch);
        IsothermDerivatives at = fluid.AlongIsotherm(substance.CriticalMolarDensity, scratch);
        double pressure = substance.CriticalMolarDensity * equation.GasConstant * substance.CriticalTemperature * at.Compressibility;

        Assert.Equal(noted, (pressure / substance.CriticalPressure) - 1, (0.06 * Math.Abs(noted)) + 5e-13);
        Assert.True(Math.Abs(at.Stiffness) < (name == "oxygen" ? 1.5e-4 : 5e-8), $"dp/drho/(R T) is {at.Stiffness:E1}.");
    }
}
