using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class VaporFractionTests
{
    public static TheoryData<string> Fluids => ["five", "multi-fluid", "refrigerant", "narrow"];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void TheFractionIsMetAndAnIndependentFlashConfirmsIt(string name)
    {
        WorkingFluid fluid = Of(name);
        foreach (double fraction in (double[])[0.001, 0.1, 0.5, 0.9, 0.999])
        {
            State byPressure = fluid.AtVaporFraction(Pressure.FromBars(3), fraction);
            Assert.Equal(fraction, byPressure.VaporFraction, 1e-8);
            Assert.Equal(3, byPressure.Pressure.Bars, 1e-9);
            State flash = fluid.At(byPressure.Temperature, byPressure.Pressure);
            Assert.Equal(fraction, flash.VaporFraction, 1e-6);
            Assert.Equal(flash.MolarEnthalpy.JoulesPerMole, byPressure.MolarEnthalpy.JoulesPerMole, 0.05);

            State byTemperature = fluid.AtVaporFraction(byPressure.Temperature, fraction);
            Assert.Equal(3, byTemperature.Pressure.Bars, 1e-6);
        }
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void TheEndsAreBubbleAndDewPoint(string name)
    {
        WorkingFluid fluid = Of(name);
        Pressure pressure = Pressure.FromBars(2);
        Assert.Equal(fluid.BubblePoint(pressure).Temperature.Kelvins, fluid.AtVaporFraction(pressure, 0).Temperature.Kelvins, 1e-9);
        Assert.Equal(fluid.DewPoint(pressure).Temperature.Kelvins, fluid.AtVaporFraction(pressure, 1).Temperature.Kelvins, 1e-9);
        Temperature temperature = fluid.DewPoint(pressure).Temperature;
        Assert.Equal(2, fluid.AtVaporFraction(temperature, 1).Pressure.Bars, 1e-6);

        // The fraction rises with temperature from end to end.
        double[] temperatures = [.. Enumerable.Range(0, 11).Select(i => fluid.AtVaporFraction(pressure, i / 10.0).Temperature.Kelvins)];
        Assert.Equal(temperatures.Order(), temperatures);
    }

    [Fact]
    public void APureFluidBoilsAtAnyFraction()
    {
        foreach (FluidModel model in (FluidModel[])[FluidModel.PengRobinson, FluidModel.Recommended])
        {
            WorkingFluid fluid = WorkingFluid.Pure("nitrogen").WithModel(model);
            Saturation saturation = fluid.Saturation(Pressure.FromBars(5));
            State state = fluid.AtVaporFraction(Pressure.FromBars(5), 0.25);
            Assert.Equal(0.25, state.VaporFraction, 1e-15);
            Assert.Equal(saturation.Temperature.Kelvins, state.Temperature.Kelvins, 1e-9);
            Assert.Equal(
                (0.25 * saturation.Vapor.MolarEnthalpy.JoulesPerMole) + (0.75 * saturation.Liquid.MolarEnthalpy.JoulesPerMole),
                state.MolarEnthalpy.JoulesPerMole,
                1e-6);
            Assert.Equal(5, fluid.AtVaporFraction(state.Temperature, 0.5).Pressure.Bars, 1e-7);
            Assert.Equal(saturation.Liquid.MolarEnthalpy.JoulesPerMole, fluid.AtVaporFraction(Pressure.FromBars(5), 0).MolarEnthalpy.JoulesPerMole, 1e-6);
            Assert.False(fluid.TryAtVaporFraction(Pressure.FromBars(50), 0.5, out _));
        }
    }

    [Fact]
    public void AnAzeotropeBoilsAtAnyFraction()
    {
        // form an azeotrope; where vapour and liquid are closest is found from bubble and dew points.
        double[] gaps = [.. Enumerable.Range(30, 45).Select(i => Gap(i / 100.0))];
        double fraction = 0.30 + (0.01 * Array.IndexOf(gaps, gaps.Min()));
        Assert.True(gaps.Min() < 0.02, $"narrowest {gaps.Min()} K");
        double low = fraction - 0.01;
        double high = fraction + 0.01;
        for (int i = 0; i < 60; i++)
        {
            (double a, double b) = (low + ((high - low) / 3), high - ((high - low) / 3));
            (low, high) = Gap(a) < Gap(b) ? (low, b) : (a, high);
        }

        WorkingFluid azeotrope = Blend(0.5 * (low + high));
        foreach (double share in (double[])[0.1, 0.5, 0.9])
        {
            State state = azeotrope.AtVaporFraction(Pressure.FromBars(5), share);
            Assert.Equal(share, state.VaporFraction, 1e-6);
            Assert.Equal(azeotrope.BubblePoint(Pressure.FromBars(5)).Temperature.Kelvins, state.Temperature.Kelvins, 1e-3);
        }

        static WorkingFluid Blend(double x) => WorkingFluid.Mixture(("R-23", x), ("R-116", 1 - x)).WithModel(FluidModel.PengRobinson);

        static double Gap(double x)
        {
            WorkingFluid fluid = Blend(x);
            return fluid.DewPoint(Pressure.FromBars(5)).Temperature.Kelvins - fluid.BubblePoint(Pressure.FromBars(5)).Temperature.Kelvins;
        }
    }

    [Fact]
    public void WithASecondLiquidTheFlashDecides()
    {
        WorkingFluid fluid = Blends.TwoLiquids;
        int flashed = 0;
        foreach (double fraction in (double[])[0.02, 0.05, 0.1, 0.2, 0.3])
        {
            State state = fluid.AtVaporFraction(Pressure.FromBars(3), fraction);
            Assert.Equal(fraction, state.VaporFraction, 1e-6);
            State flash = fluid.At(state.Temperature, state.Pressure);
            Assert.Equal(flash.HasUnresolvedPhase, state.HasUnresolvedPhase);
            flashed += state.HasUnresolvedPhase || state.Phases.Count > 2 ? 1 : 0;
        }

        // Some of these states have three phases (computed here).
        Assert.True(flashed > 0, $"{flashed} states with a further phase");
    }

    [Fact]
    public void ArgumentsAreChecked()
    {
        Assert.Contains("vaporFraction", Assert.Throws<ArgumentOutOfRangeException>(() => Blends.Wide.AtVaporFraction(Pressure.FromBars(1), -0.1)).Message, StringComparison.Ordinal);
        Assert.False(Blends.Wide.TryAtVaporFraction(Temperature.FromKelvins(500), 0.5, out _));
        Assert.Throws<ArgumentOutOfRangeException>(() => WorkingFluid.Pure("air").AtVaporFraction(Pressure.FromBars(1), 0.5));
    }

    private static WorkingFluid Of(string name) => name switch
    {
        "five" => Blends.FiveParts,
        "multi-fluid" => Blends.FurtherMultiFluid,
        "narrow" => WorkingFluid.Mixture(("argon", 0.5), ("oxygen", 0.5)).WithModel(FluidModel.PengRobinson),
        _ => WorkingFluid.Mixture(("argon", 0.25), ("R-14", 0.35), ("R-23", 0.4)).WithModel(FluidModel.PengRobinson),
    };
}
