using CryoThermo.Checks.Values;
using UnitsNet;

namespace CryoThermo.Tests.Checks;

/// <summary>The mixture standard against its check point and against states computed here by a separate program (regressions, not proofs).</summary>
public sealed class MultiFluidCheckTests
{
    private const double NineDigits = 5e-10;

    public static TheoryData<int> StateNumbers => [.. Enumerable.Range(0, CheckValues.MultiFluidStates.Count)];

    public static TheoryData<int> EquilibriumNumbers => [.. Enumerable.Range(0, CheckValues.MultiFluidEquilibria.Count)];

    /// <summary>
    /// Well-known check point of the model with all 21 components (400 K, 50 MPa), values from memory, exact place of publication not
    /// confirmed. Enthalpy and entropy differ by what the published constants of the reference state are rounded to: 3.3e-5 J/mol and
    /// 3.4e-8 J/(mol K), as noted when the data were prepared.
    /// </summary>
    [Fact]
    public void TheCheckPointWithAll21ComponentsIsReproduced()
    {
        MultiFluidCheckPoint expected = CheckValues.MultiFluidCheckPoint;
        Assert.Equal(21, expected.Components.Count);
        Assert.Equal(12798.28626, expected.MolarDensity, 5e-6);
        WorkingFluid fluid = FluidOf(expected.Components, expected.MoleFractions);
        Phase phase = Assert.Single(fluid.At(Temperature.FromKelvins(expected.Temperature), Pressure.FromPascals(expected.Pressure)).Phases);
        Near(expected.MolarMass, fluid.Kernel.MolarMass([.. fluid.Composition.MoleFractions]), 1e-12, "molar mass");
        Near(expected.MolarDensity, phase.MolarDensity.MolesPerCubicMeter, 1e-13, "density");
        Near(expected.CompressibilityFactor, phase.CompressibilityFactor, NineDigits, "compressibility factor");
        Near(expected.IsochoricHeatCapacity, phase.IsochoricHeatCapacity.JoulesPerMoleKelvin, NineDigits, "cv");
        Near(expected.IsobaricHeatCapacity, phase.IsobaricHeatCapacity.JoulesPerMoleKelvin, NineDigits, "cp");
        Near(expected.SpeedOfSound, phase.SpeedOfSound.MetersPerSecond, NineDigits, "speed of sound");
        Near(expected.JouleThomsonCoefficient, phase.JouleThomsonCoefficientKelvinsPerBar * 1e-5, NineDigits, "Joule-Thomson coefficient");
        double compressibility = phase.IsothermalCompressibility.InversePascals;
        Near(expected.PressureByDensity, 1 / (compressibility * phase.MolarDensity.MolesPerCubicMeter), NineDigits, "dp/drho");
        Near(
            expected.PressureByTemperature,
            phase.IsobaricExpansionCoefficient.PerKelvin / compressibility,
            NineDigits,
            "dp/dT");
        Near(
            expected.IsentropicExponent,
            phase.IsobaricHeatCapacity.JoulesPerMoleKelvin / phase.IsochoricHeatCapacity.JoulesPerMoleKelvin / (compressibility * expected.Pressure),
            NineDigits,
            "isentropic exponent");

        const double EnthalpyRounding = 3.4e-5;
        const double EntropyRounding = 3.5e-8;
        Assert.Equal(expected.Enthalpy, phase.MolarEnthalpy.JoulesPerMole, EnthalpyRounding);
        Assert.Equal(expected.InternalEnergy, phase.MolarInternalEnergy.JoulesPerMole, EnthalpyRounding);
        Assert.Equal(expected.Entropy, phase.MolarEntropy.JoulesPerMoleKelvin, EntropyRounding);
        Assert.Equal(expected.GibbsEnergy, phase.MolarGibbsEnergy.JoulesPerMole, EnthalpyRounding + (expected.Temperature * EntropyRounding));
    }

    [Theory]
    [MemberData(nameof(StateNumbers))]
    public void ASinglePhaseStateAgrees(int number)
    {
        MultiFluidState expected = CheckValues.MultiFluidStates[number];
        WorkingFluid fluid = FluidOf(expected.Components, expected.MoleFractions);
        State state = fluid.At(Temperature.FromKelvins(expected.Temperature), Pressure.FromPascals(expected.Pressure));
        Phase phase = Assert.Single(state.Phases);
        Near(expected.MolarDensity, phase.MolarDensity.MolesPerCubicMeter, 1e-9, "density");
        Near(expected.IsobaricHeatCapacity, phase.IsobaricHeatCapacity.JoulesPerMoleKelvin, 1e-9, "cp");
        Near(expected.IsochoricHeatCapacity, phase.IsochoricHeatCapacity.JoulesPerMoleKelvin, 1e-9, "cv");
        Near(expected.SpeedOfSound, phase.SpeedOfSound.MetersPerSecond, 1e-9, "speed of sound");
        Near(
            expected.PressureByDensity,
            1 / (phase.IsothermalCompressibility.InversePascals * phase.MolarDensity.MolesPerCubicMeter),
            1e-9,
            "dp/drho");

        // Joule-Thomson: (T alpha - 1) v/cp, a difference of parts of the size v/cp.
        double part = 1 / (phase.MolarDensity.MolesPerCubicMeter * expected.IsobaricHeatCapacity);
        Assert.Equal(expected.JouleThomsonCoefficient, phase.JouleThomsonCoefficientKelvinsPerBar * 1e-5, 1e-9 * (part + Math.Abs(expected.JouleThomsonCoefficient)));

        // The rounding of the reference constants is up to 5.1e-5 J/mol and 1.1e-7 J/(mol K) for a component.
        Assert.Equal(expected.Enthalpy, phase.MolarEnthalpy.JoulesPerMole, 6e-5);
        Assert.Equal(expected.Entropy, phase.MolarEntropy.JoulesPerMoleKelvin, 2e-7);
        for (int i = 0; i < expected.Components.Count; i++)
        {
            double lnPhi = Math.Log(phase.FugacityOf(expected.Components[i]).Pascals / (expected.MoleFractions[i] * expected.Pressure));
            Assert.Equal(expected.LnFugacityCoefficients[i], lnPhi, 1e-9 * (1 + Math.Abs(expected.LnFugacityCoefficients[i])));
        }
    }

    [Theory]
    [MemberData(nameof(EquilibriumNumbers))]
    public void ABubbleOrDewPointAgrees(int number)
    {
        MultiFluidEquilibrium expected = CheckValues.MultiFluidEquilibria[number];
        WorkingFluid fluid = FluidOf(expected.Components, expected.MoleFractions);
        Temperature temperature = Temperature.FromKelvins(expected.Temperature);
        State point = expected.IsBubblePoint ? fluid.BubblePoint(temperature) : fluid.DewPoint(temperature);
        Near(expected.Pressure, point.Pressure.Pascals, 1e-9, "pressure");
        Phase vapor = point.Phases.Single(p => p.Kind == PhaseKind.Vapor);
        Phase liquid = point.Phases.Single(p => p.Kind != PhaseKind.Vapor);
        Near(expected.LiquidMolarDensity, liquid.MolarDensity.MolesPerCubicMeter, 1e-9, "liquid density");
        Near(expected.VaporMolarDensity, vapor.MolarDensity.MolesPerCubicMeter, 1e-9, "vapour density");
        Composition incipient = (expected.IsBubblePoint ? vapor : liquid).Composition;
        for (int i = 0; i < expected.Components.Count; i++)
        {
            Near(expected.Incipient[i], incipient[expected.Components[i]], 1e-9, expected.Components[i]);
        }
    }

    [Fact]
    public void TheListsAreWhole()
    {
        Assert.Equal(18, CheckValues.MultiFluidStates.Count);
        Assert.Equal(17, CheckValues.MultiFluidEquilibria.Count(e => e.IsBubblePoint));
        Assert.Equal(4, CheckValues.MultiFluidEquilibria.Count(e => !e.IsBubblePoint));
    }

    private static WorkingFluid FluidOf(IReadOnlyList<string> components, IReadOnlyList<double> moleFractions) =>
        WorkingFluid.Mixture([.. components.Zip(moleFractions)]).WithModel(FluidModel.MultiFluid);

    private static void Near(double expected, double actual, double relative, string what) =>
        Assert.True(Math.Abs(actual - expected) <= relative * Math.Abs(expected), $"{what}: {actual:R} instead of {expected:R}, off by {(actual / expected) - 1:E2}");
}
