using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;
using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

public sealed class IncipientPointTests
{
    public static TheoryData<string> Names => ["wide", "five parts", "twenty-five", "nitrogen and methane", "methane and propane"];

    [Theory]
    [MemberData(nameof(Names))]
    public void FugacitiesAreEqualAndTheFlashChangesPhasesThere(string name)
    {
        WorkingFluid fluid = Named(name);
        MixtureKernel kernel = fluid.Kernel.Equation;
        int compared = 0;
        foreach (double bar in new[] { 0.01, 0.3, 1.5, 6, 12, 20 })
        {
            foreach (bool bubble in new[] { true, false })
            {
                State point = bubble ? fluid.BubblePoint(Pressure.FromBars(bar)) : fluid.DewPoint(Pressure.FromBars(bar));
                double t = point.Temperature.Kelvins;
                double p = bar * 1e5;
                Assert.Equal(bubble ? 0 : 1, point.VaporFraction);
                AssertEqualFugacities(point, kernel, t, p);

                // The same point found by its temperature.
                State other = bubble ? fluid.BubblePoint(Temperature.FromKelvins(t)) : fluid.DewPoint(Temperature.FromKelvins(t));
                Assert.Equal(1, other.Pressure.Pascals / p, 1e-8);

                Assert.False(point.HasUnresolvedPhase);
                compared++;
                int count = point.Phases.Count;
                foreach (double step in new[] { 1e-3, 1e-5 })
                {
                    State inside = fluid.At(Temperature.FromKelvins(bubble ? t + step : t - step), Pressure.FromPascals(p));
                    State outside = fluid.At(Temperature.FromKelvins(bubble ? t - step : t + step), Pressure.FromPascals(p));

                    // A flash may see the vapour beside two liquids without being able to solve for so little of it: it then says so.
                    Assert.True(inside.Phases.Count == count || (count > 2 && inside.HasUnresolvedPhase && inside.Phases.Count == count - 1), $"{name}, {bar} bar, bubble {bubble}: {inside.PhaseDescription} {step} K inside");
                    Assert.True(outside.Phases.Count == count - 1, $"{name}, {bar} bar, bubble {bubble}: {outside.PhaseDescription} {step} K outside");
                    Assert.InRange(bubble ? inside.VaporFraction : 1 - inside.VaporFraction, 0, 0.01);
                }
            }
        }

        Assert.Equal(12, compared);
    }

    [Fact]
    public void PureFluidBoilsAtItsSaturation()
    {
        WorkingFluid fluid = WorkingFluid.Pure("methane");
        Saturation saturation = fluid.Saturation(Pressure.FromBars(5));
        Assert.Equal(saturation.Temperature.Kelvins, fluid.BubblePoint(Pressure.FromBars(5)).Temperature.Kelvins, 1e-11);
        Assert.Equal(saturation.Temperature.Kelvins, fluid.DewPoint(Pressure.FromBars(5)).Temperature.Kelvins, 1e-11);
        Assert.Equal(5e5, fluid.BubblePoint(saturation.Temperature).Pressure.Pascals, 1e-4);
    }

    [Fact]
    public void AdmixtureOfNothingGivesThePureLimit()
    {
        double expected = WorkingFluid.Pure("methane").WithModel(FluidModel.PengRobinson).Saturation(Pressure.FromBars(5)).Temperature.Kelvins;
        WorkingFluid nearly = WorkingFluid.Mixture(("methane", 1 - 1e-12), ("propane", 1e-12)).WithModel(FluidModel.PengRobinson);
        Assert.Equal(expected, nearly.BubblePoint(Pressure.FromBars(5)).Temperature.Kelvins, 1e-8);

        // Only the component that is there: the same as the pure fluid.
        WorkingFluid padded = WorkingFluid.Mixture(("propane", 0), ("methane", 1)).WithModel(FluidModel.PengRobinson);
        Assert.Equal(expected, padded.BubblePoint(Pressure.FromBars(5)).Temperature.Kelvins, 1e-10);
        Assert.Equal(expected, padded.DewPoint(Pressure.FromBars(5)).Temperature.Kelvins, 1e-10);
        Assert.Equal(expected, padded.Saturation(Pressure.FromBars(5)).Temperature.Kelvins, 1e-10);
    }

    [Fact]
    public void DewPointInTheRetrogradeRegion()
    {
        // Methane/n-butane at 0.9/0.1: its cricondentherm lies above its critical temperature, so between the two the vapour
        // has two dew pressures; the lower one is asked for.
        WorkingFluid fluid = WorkingFluid.Mixture(("methane", 0.9), ("n-butane", 0.1));
        int retrograde = 0;
        for (double t = 250; t <= 300; t += 2)
        {
            Temperature temperature = Temperature.FromKelvins(t);
            if (!fluid.TryDewPoint(temperature, out State? dew))
            {
                continue;
            }

            double p = dew.Pressure.Pascals;
            AssertEqualFugacities(dew, fluid.Kernel.Equation, t, p);
            Assert.Single(fluid.At(temperature, Pressure.FromPascals(p * 0.9999)).Phases);
            Assert.Equal(2, fluid.At(temperature, Pressure.FromPascals(p * 1.0001)).Phases.Count);
            // A gas again at high pressure, and no bubble point on the way: the upper end is a second dew point.
            if (fluid.At(temperature, Pressure.FromBars(170)).Phases.Count == 1)
            {
                Assert.False(fluid.TryBubblePoint(temperature, out _));
                retrograde++;
            }
        }

        Assert.True(retrograde > 3, $"{retrograde} temperatures");
    }

    [Fact]
    public void AlmostEqualColdLiquidsAreNoDewPoint()
    {
        // Next to the critical point of two liquids the equations hold to all digits for phases that are no vapour at all.
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.5));
        foreach (double bar in new[] { 60.0, 100, 300, 1000, 2000 })
        {
            foreach (State? state in new[] { fluid.TryDewPoint(Pressure.FromBars(bar), out State? dew) ? dew : null, fluid.TryBubblePoint(Pressure.FromBars(bar), out State? bubble) ? bubble : null })
            {
                if (state is not null)
                {
                    double[] vapor = [.. state.Phases[0].Composition.MoleFractions];
                    double volume = fluid.Kernel.Equation.ReducedVolume(state.Phases[0].MolarDensity.MolesPerCubicMeter, vapor);
                    Assert.True(volume > 0.66 || Math.Abs(vapor[0] - state.Phases[1].Composition.MoleFractions[0]) > 0.01, $"{bar} bar: {state}");
                }
            }
        }

        Assert.False(fluid.TryDewPoint(Pressure.FromBars(300), out _));
    }

    [Fact]
    public void DewLineBeyondTheCriticalPressureIsFollowedUpToTheCricondentherm()
    {
        // At fixed pressure above the lower dew branch's end there is still a dew temperature: check with a flash on both sides.
        WorkingFluid fluid = WorkingFluid.Mixture(("methane", 0.9), ("n-butane", 0.1));
        foreach (double bar in new[] { 20.0, 40, 60, 80, 90 })
        {
            State dew = fluid.DewPoint(Pressure.FromBars(bar));
            double t = dew.Temperature.Kelvins;
            AssertEqualFugacities(dew, fluid.Kernel.Equation, t, bar * 1e5);
            Assert.Single(fluid.At(Temperature.FromKelvins(t + 0.01), Pressure.FromBars(bar)).Phases);
            Assert.Equal(2, fluid.At(Temperature.FromKelvins(t - 0.01), Pressure.FromBars(bar)).Phases.Count);
        }
    }

    /// <summary>The two-phase region is a few hundredths of the pressure wide there, and the bubble line starts where the liquid is split in two.</summary>
    [Theory]
    [InlineData("argon")]
    [InlineData("nitrogen")]
    [InlineData("oxygen")]
    [InlineData("carbon monoxide")]
    [InlineData("methane")]
    public void ALittleLightGasInWarmCarbonDioxideHasItsBubblePoint(string gas)
    {
        foreach (double fraction in new[] { 0.0005, 0.003, 0.0069, 0.0183, 0.0419 })
        {
            WorkingFluid fluid = WorkingFluid.Mixture((gas, fraction), ("carbon dioxide", 1 - fraction));
            foreach (double t in new[] { 230, 255, 273.26, 288.23, 293.1, 296 })
            {
                State bubble = fluid.BubblePoint(Temperature.FromKelvins(t));
                State dew = fluid.DewPoint(Temperature.FromKelvins(t));
                double p = bubble.Pressure.Pascals;
                AssertEqualFugacities(bubble, fluid.Kernel.Equation, t, p);
                Assert.True(p > dew.Pressure.Pascals);
                State inside = fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p * (1 - 1e-6)));
                Assert.Equal(2, inside.Phases.Count);
                Assert.InRange(inside.VaporFraction, 0, 0.01);
                Assert.Single(fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p * (1 + 1e-6))).Phases);
            }
        }
    }

    [Fact]
    public void BeyondTheEndOfTheLineTheErrorTellsInputsAndAdvice()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.5));
        ConvergenceException error = Assert.Throws<ConvergenceException>(() => fluid.BubblePoint(Temperature.FromKelvins(250)));
        Assert.Equal("Bubble point", error.Calculation);
        Assert.Contains("T = 250 K", error.Inputs, StringComparison.Ordinal);
        Assert.Contains("nitrogen 0.5", error.Inputs, StringComparison.Ordinal);
        Assert.Contains("critical point", error.Advice, StringComparison.Ordinal);
        Assert.Contains(error.Inputs, error.Message, StringComparison.Ordinal);
        Assert.False(double.IsNaN(error.Residual));
        error = Assert.Throws<ConvergenceException>(() => fluid.DewPoint(Pressure.FromBars(300)));
        Assert.Equal("Dew point", error.Calculation);
        Assert.Contains("p = 300 bar", error.Inputs, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void TryNeverThrows(string name)
    {
        WorkingFluid fluid = Named(name);
        int found = 0;
        foreach (double t in new[] { 10.0, 11, 14, 20, 40, 80, 150, 250, 400, 700, 1000, 1, 5000 })
        {
            found += fluid.TryBubblePoint(Temperature.FromKelvins(t), out State? bubble) ? 1 : 0;
            found += fluid.TryDewPoint(Temperature.FromKelvins(t), out State? dew) ? 1 : 0;
            AssertSane(bubble, fluid);
            AssertSane(dew, fluid);
        }

        foreach (double p in new[] { 0, 1e-3, 0.1, 10, 1e3, 1e5, 1e6, 1e7, 1e8, 2e8, 1e12 })
        {
            found += fluid.TryBubblePoint(Pressure.FromPascals(p), out State? bubble) ? 1 : 0;
            found += fluid.TryDewPoint(Pressure.FromPascals(p), out State? dew) ? 1 : 0;
            AssertSane(bubble, fluid);
            AssertSane(dew, fluid);
        }

        foreach (double h in new[] { -1e9, -2e4, 0, 1e4, 1e9 })
        {
            found += fluid.TryAtEnthalpy(Pressure.FromBars(1.5), MolarEnergy.FromJoulesPerMole(h), out _) ? 1 : 0;
            found += fluid.TryAtEnthalpy(Pressure.FromPascals(1e-3), MolarEnergy.FromJoulesPerMole(h), out _) ? 1 : 0;
            found += fluid.TryAtEnthalpy(Pressure.FromPascals(2e8), MolarEnergy.FromJoulesPerMole(h), out _) ? 1 : 0;
            found += fluid.TryAtEntropy(Pressure.FromPascals(0), MolarEntropy.FromJoulesPerMoleKelvin(h / 300), out _) ? 1 : 0;
            found += fluid.TryAtEntropy(Pressure.FromBars(1.5), MolarEntropy.FromJoulesPerMoleKelvin(h / 300), out _) ? 1 : 0;
        }

        Assert.True(found > 15, $"{found} answers");
    }

    private static void AssertSane(State? state, WorkingFluid fluid)
    {
        if (state is null)
        {
            return;
        }

        Assert.True(state.Pressure.Pascals > 0);
        Assert.InRange(state.Phases.Count, 2, 4);
        AssertEqualFugacities(state, fluid.Kernel.Equation, state.Temperature.Kelvins, state.Pressure.Pascals);
    }

    private static void AssertEqualFugacities(State point, MixtureKernel kernel, double t, double p)
    {
        Assert.Contains(point.Phases, p => p.IsIncipient);
        Assert.Equal(PhaseKind.Vapor, point.Phases[0].Kind);
        Assert.True(point.Phases[0].MolarDensity < point.Phases[^1].MolarDensity);
        double[] vapor = FlashAnswer.LnFugacity(kernel, t, p, [.. point.Phases[0].Composition.MoleFractions], DensityRoot.Vapor);
        foreach (Phase phase in point.Phases.Skip(1))
        {
            double[] liquid = FlashAnswer.LnFugacity(kernel, t, p, [.. phase.Composition.MoleFractions], DensityRoot.Liquid);
            for (int i = 0; i < vapor.Length; i++)
            {
                // Solved to 1e-11; 1e-9 in the library where Newton stalls in rounding next to a critical point. ln f reaches -1000 when very cold.
                Assert.True(double.IsNaN(vapor[i]) == double.IsNaN(liquid[i]));
                if (double.IsFinite(vapor[i]))
                {
                    Assert.True(Math.Abs(liquid[i] - vapor[i]) < 2e-9, $"{point.Fluid} at {t:R} K, {p:R} Pa: ln f of {i} differs by {liquid[i] - vapor[i]:G3}");
                }
            }
        }
    }

    private static WorkingFluid Named(string name) => name switch
    {
        "wide" => Blends.Wide,
        "five parts" => Blends.FiveParts,
        "twenty-five" => Blends.TwentyFive,
        "nitrogen and methane" => WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.5)).WithModel(FluidModel.PengRobinson),
        _ => WorkingFluid.Mixture(("methane", 0.6), ("propane", 0.4)),
    };
}
