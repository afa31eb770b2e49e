using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

/// <summary>Derived figures of several phases against differences of whole flashes at constant volume, entropy or enthalpy.</summary>
public sealed class StateDerivativeTests
{
    private static readonly (WorkingFluid Fluid, double T, double Bar, int Phases)[] Cases =
    [
        (Blends.Wide, 300, 2, 1),
        (Blends.Wide, 160, 6, 2),
        (Blends.Wide, 120, 20, 2),
        (Blends.TwoLiquids, 95, 20, 2),
        (Blends.TwoLiquids, 100, 6, 3),
        (Blends.TwoLiquids.WithModel(FluidModel.Recommended), 124, 20, 3),
        (Blends.FiveParts, 200, 15, 2),
        (Blends.FiveParts.WithModel(FluidModel.Recommended), 180, 5, 2),
        (WorkingFluid.Mixture(("nitrogen", 0.79), ("oxygen", 0.21)), 80, 1.05, 2),
    ];

    public static TheoryData<int> Numbers => [.. Enumerable.Range(0, Cases.Length)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void FiguresAreTheSlopesOfNeighbouringFlashes(int number)
    {
        (WorkingFluid fluid, double t, double bar, int phases) = Cases[number];
        State state = fluid.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));
        Assert.Equal(phases, state.Phases.Count);
        double p = bar * 1e5;
        double step = 2e-4 * p;
        Assert.Equal(1, Slope(x => fluid.AtEnthalpy(Pressure.FromPascals(x), state.MolarEnthalpy).Temperature.Kelvins, p, step) * 1e5 / state.JouleThomsonCoefficientKelvinsPerBar!.Value, 1e-5);

        double byPressure = Slope(x => 1 / fluid.AtEntropy(Pressure.FromPascals(x), state.MolarEntropy).MolarDensity.MolesPerCubicMeter, p, step);
        double volume = 1 / state.MolarDensity.MolesPerCubicMeter;
        double speed = volume / Math.Sqrt(-byPressure * fluid.Composition.MolarMass.KilogramsPerMole);
        Assert.Equal(1, speed / state.EquilibriumSpeedOfSound!.Value.MetersPerSecond, 1e-5);

        double byTemperature = Slope(x => fluid.AtDensity(Temperature.FromKelvins(x), state.MolarDensity).MolarInternalEnergy.JoulesPerMole, t, 1e-3);
        Assert.Equal(1, byTemperature / state.IsochoricHeatCapacity!.Value.JoulesPerMoleKelvin, 1e-5);
        Assert.True(state.FrozenSpeedOfSound.MetersPerSecond >= state.EquilibriumSpeedOfSound.Value.MetersPerSecond * (1 - 1e-12));
        if (phases == 1)
        {
            Assert.Equal(state.SpeedOfSound!.Value.MetersPerSecond, state.FrozenSpeedOfSound.MetersPerSecond, 1e-9);
        }
        else
        {
            Assert.Null(state.SpeedOfSound);
        }
    }

    [Theory]
    [InlineData(0.03)]
    [InlineData(0.5)]
    [InlineData(0.97)]
    public void APureFluidThatBoilsKeepsToItsVaporPressure(double vapor)
    {
        WorkingFluid fluid = WorkingFluid.Pure("nitrogen");
        Saturation saturation = fluid.Saturation(Temperature.FromKelvins(90));
        double h = (vapor * saturation.Vapor.MolarEnthalpy.JoulesPerMole) + ((1 - vapor) * saturation.Liquid.MolarEnthalpy.JoulesPerMole);
        State state = fluid.AtEnthalpy(saturation.Pressure, MolarEnergy.FromJoulesPerMole(h));
        Assert.Equal(2, state.Phases.Count);
        double p = saturation.Pressure.Pascals;
        double step = 1e-4 * p;
        double slope = Slope(x => fluid.Saturation(Pressure.FromPascals(x)).Temperature.Kelvins, p, step);
        Assert.Equal(1, slope * 1e5 / state.JouleThomsonCoefficientKelvinsPerBar!.Value, 1e-6);
        double byPressure = Slope(x => 1 / fluid.AtEntropy(Pressure.FromPascals(x), state.MolarEntropy).MolarDensity.MolesPerCubicMeter, p, step);
        double speed = 1 / state.MolarDensity.MolesPerCubicMeter / Math.Sqrt(-byPressure * fluid.Composition.MolarMass.KilogramsPerMole);
        Assert.Equal(1, speed / state.EquilibriumSpeedOfSound!.Value.MetersPerSecond, 1e-6);
        Assert.Null(state.IsobaricHeatCapacity);
        Assert.Null(state.IsochoricHeatCapacity);
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void EveryFlashComesBackToTheState(int number)
    {
        (WorkingFluid fluid, double t, double bar, int _) = Cases[number];
        State state = fluid.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));
        (string Kind, State Back)[] all =
        [
            ("pressure, enthalpy", fluid.AtEnthalpy(state.Pressure, state.MolarEnthalpy)),
            ("pressure, entropy", fluid.AtEntropy(state.Pressure, state.MolarEntropy)),
            ("temperature, density", fluid.AtDensity(state.Temperature, state.MolarDensity)),
            ("internal energy, density", fluid.AtInternalEnergy(state.MolarInternalEnergy, state.MolarDensity)),
            ("entropy, density", fluid.AtEntropy(state.MolarEntropy, state.MolarDensity)),
        ];
        foreach ((string kind, State back) in all)
        {
            Assert.True(Math.Abs((back.Temperature.Kelvins / t) - 1) < 1e-7, $"{kind}: {back.Temperature.Kelvins:R} K for {t} K");
            Assert.True(Math.Abs((back.Pressure.Bars / bar) - 1) < 1e-7, $"{kind}: {back.Pressure.Bars:R} bar for {bar} bar");
            Assert.Equal(state.Phases.Count, back.Phases.Count);
        }

        Assert.True(fluid.TryAt(state.Temperature, state.Pressure, out State? tried));
        Assert.Equal(state.MolarEnthalpy, tried.MolarEnthalpy);
        Assert.True(fluid.TryAtDensity(state.Temperature, state.MolarDensity, out _));
        Assert.True(fluid.TryAtInternalEnergy(state.MolarInternalEnergy, state.MolarDensity, out _));
        Assert.True(fluid.TryAtEntropy(state.MolarEntropy, state.MolarDensity, out _));
        Assert.False(fluid.TryAt(Temperature.FromKelvins(5000), state.Pressure, out _));
        Assert.False(fluid.TryAtDensity(state.Temperature, Molarity.FromMolesPerCubicMeter(1e6), out _));
        Assert.False(fluid.TryAtInternalEnergy(MolarEnergy.FromJoulesPerMole(1e9), state.MolarDensity, out _));
        Assert.False(fluid.TryAtEntropy(MolarEntropy.FromJoulesPerMoleKelvin(1e9), state.MolarDensity, out _));
    }

    [Fact]
    public void ThreePhasesOfTwoComponentsHaveNoSlopes()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", 0.6), ("ethane", 0.4)).WithModel(FluidModel.PengRobinson);
        State state = Enumerable.Range(0, 15)
            .Select(k => fluid.AtEnthalpy(Pressure.FromBars(20), MolarEnergy.FromJoulesPerMole(-14500 + (250 * k))))
            .First(s => s.Phases.Count == 3);
        Assert.Null(state.IsobaricHeatCapacity);
        Assert.Null(state.IsochoricHeatCapacity);
        Assert.Null(state.EquilibriumSpeedOfSound);
        Assert.Null(state.JouleThomsonCoefficientKelvinsPerBar);
        Assert.True(state.FrozenSpeedOfSound.MetersPerSecond > 10);
    }

    private static double Slope(Func<double, double> f, double x, double step) =>
        (f(x - (2 * step)) - (8 * f(x - step)) + (8 * f(x + step)) - f(x + (2 * step))) / (12 * step);
}
