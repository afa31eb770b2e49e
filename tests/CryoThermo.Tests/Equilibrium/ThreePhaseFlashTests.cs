using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

public sealed class ThreePhaseFlashTests
{
    private static readonly (string Name, WorkingFluid Fluid, double Low, double High, double[] Bars)[] Cases =
    [
        ("nitrogen, methane, ethane", WorkingFluid.Mixture(("nitrogen", 0.6), ("methane", 0.1), ("ethane", 0.3)).WithModel(FluidModel.PengRobinson), 112, 128, [18, 23.8, 28]),
        ("two liquids", Blends.TwoLiquids, 84, 126, [2, 6, 12, 20]),
        ("two liquids, multi-fluid", Blends.TwoLiquids.WithModel(FluidModel.Recommended), 84, 126, [2, 6, 12, 20]),
    ];

    public static TheoryData<int> Numbers => [.. Enumerable.Range(0, Cases.Length)];

    /// <summary>
    /// Figures recomputed from the reported compositions: fugacities, material balance, no trial phase below the plane, and a Gibbs energy below
    /// that of the best two phases.
    /// </summary>
    [Theory]
    [MemberData(nameof(Numbers))]
    public void ThreePhasesAreInEquilibriumAndLowerThanTwo(int number)
    {
        (string name, WorkingFluid fluid, double low, double high, double[] bars) = Cases[number];
        MixtureKernel kernel = fluid.Kernel.Equation;
        double[] z = fluid.Fractions();
        double[] scratch = new double[kernel.ScratchLength];
        int found = 0;
        foreach ((double t, double p) in ThreePhaseStates(fluid, low, high, bars))
        {
            FlashAnswer answer = FlashAnswer.Of(kernel, t, p, z);
            Assert.Equal(3, answer.PhaseCount);
            Assert.False(answer.StillUnstable);
            Assert.InRange(answer.FugacityDifference(kernel, t, p), 0, 1e-9);
            Assert.True(answer.LightDensity < answer.HeavyDensity);
            for (int i = 0; i < z.Length; i++)
            {
                double total = (answer.LightFraction * answer.Light[i]) + (answer.MiddleFraction * answer.Middle[i]) + (answer.HeavyFraction * answer.Heavy[i]);
                Assert.Equal(1, total / z[i], 1e-12);
            }

            PhaseSplit two = new(new double[z.Length], new double[z.Length], new double[z.Length]);
            IsothermalFlash.Solve(kernel, t, p, z, scratch, ref two, twoPhasesOnly: true);
            PhaseSplit three = new(new double[z.Length], new double[z.Length], new double[z.Length]);
            IsothermalFlash.Solve(kernel, t, p, z, scratch, ref three);
            Assert.Equal(2, two.PhaseCount);
            Assert.True(two.StillUnstable);
            Assert.True(three.GibbsGain < two.GibbsGain, $"{name} {t} K {p} Pa: {three.GibbsGain} against {two.GibbsGain}");
            found++;
        }

        Assert.True(found >= 5, $"{name}: {found} states with three phases");
    }

    /// <summary>cp and T ds/dT against differences of neighbouring flashes, all with three phases.</summary>
    [Theory]
    [MemberData(nameof(Numbers))]
    public void HeatCapacityIsTheSlopeOfEnthalpy(int number)
    {
        (string name, WorkingFluid fluid, double low, double high, double[] bars) = Cases[number];
        const double Step = 0.002;
        int compared = 0;
        foreach ((double t, double p) in ThreePhaseStates(fluid, low, high, bars))
        {
            State[] around = [.. new[] { -2, -1, 1, 2 }.Select(k => fluid.At(Temperature.FromKelvins(t + (k * Step)), Pressure.FromPascals(p)))];
            if (around.Any(s => s.Phases.Count != 3))
            {
                continue;
            }

            double Slope(Func<State, double> of) => (of(around[0]) - (8 * of(around[1])) + (8 * of(around[2])) - of(around[3])) / (12 * Step);
            State state = fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));
            double cp = state.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin;
            Assert.Equal(1, Slope(s => s.MolarEnthalpy.JoulesPerMole) / cp, 2e-6);
            Assert.Equal(1, t * Slope(s => s.MolarEntropy.JoulesPerMoleKelvin) / cp, 2e-6);
            compared++;
        }

        Assert.True(compared >= 3, $"{name}: {compared} compared");
    }

    /// <summary>Temperature from enthalpy and from entropy, pressure from density, and an answer from its neighbour.</summary>
    [Theory]
    [MemberData(nameof(Numbers))]
    public void EveryRoundTripComesBack(int number)
    {
        (string name, WorkingFluid fluid, double low, double high, double[] bars) = Cases[number];
        MixtureKernel kernel = fluid.Kernel.Equation;
        double[] z = fluid.Fractions();
        int compared = 0;
        foreach ((double t, double p) in ThreePhaseStates(fluid, low, high, bars))
        {
            State state = fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));
            Assert.Equal("two liquids + vapor", state.PhaseDescription);
            Assert.Equal(1, fluid.AtEnthalpy(state.Pressure, state.MolarEnthalpy).Temperature.Kelvins / t, 1e-9);
            Assert.Equal(1, fluid.AtEntropy(state.Pressure, state.MolarEntropy).Temperature.Kelvins / t, 1e-9);
            Assert.Equal(1, fluid.AtDensity(state.Temperature, state.MolarDensity).Pressure.Pascals / p, 1e-9);
            State vessel = fluid.AtInternalEnergy(state.MolarInternalEnergy, state.MolarDensity);
            Assert.Equal(1, vessel.Temperature.Kelvins / t, 1e-7);
            Assert.Equal(1, vessel.Pressure.Pascals / p, 1e-7);
            compared++;
        }

        Assert.True(compared >= 5, $"{name}: {compared} compared");
        Assert.Equal(z.Length, kernel.ComponentCount);
    }

    /// <summary>Three phases of two components stand at one temperature: enthalpies between the two sides give mixes of them.</summary>
    [Fact]
    public void ABinaryHasThreePhasesAtOneTemperature()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", 0.6), ("ethane", 0.4)).WithModel(FluidModel.PengRobinson);
        Pressure pressure = Pressure.FromBars(20);
        HashSet<double> temperatures = [];
        int three = 0;
        for (double h = -14500; h < -11000; h += 250)
        {
            State state = fluid.AtEnthalpy(pressure, MolarEnergy.FromJoulesPerMole(h));
            Assert.Equal(h, state.MolarEnthalpy.JoulesPerMole, 1e-6);
            if (state.Phases.Count < 3)
            {
                continue;
            }

            three++;
            temperatures.Add(Math.Round(state.Temperature.Kelvins, 8));
            Assert.Equal(1, state.Phases.Sum(f => f.Fraction), 1e-12);
            Assert.Null(state.IsobaricHeatCapacity);
            for (int i = 0; i < 2; i++)
            {
                Assert.Equal(fluid.Composition.MoleFractions[i], state.Phases.Sum(f => f.Fraction * f.Composition.MoleFractions[i]), 1e-10);
            }
        }

        Assert.True(three >= 3, $"{three} states with three phases");
        Assert.Single(temperatures);
    }

    [Fact]
    public void OrderOfComponentsChangesNothing()
    {
        (string _, WorkingFluid fluid, double low, double high, double[] bars) = Cases[1];
        double[] z = fluid.Fractions();
        int[] order = [2, 0, 3, 1];
        WorkingFluid other = WorkingFluid.Mixture([.. order.Select(i => (fluid.Composition.Components[i].Name, z[i]))]).WithModel(FluidModel.PengRobinson);
        foreach ((double t, double p) in ThreePhaseStates(fluid, low, high, bars))
        {
            State one = fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));
            State two = other.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));
            for (int k = 0; k < 3; k++)
            {
                Assert.Equal(one.Phases[k].Fraction, two.Phases[k].Fraction, 1e-9);
                for (int i = 0; i < 4; i++)
                {
                    Assert.Equal(one.Phases[k].Composition.MoleFractions[order[i]], two.Phases[k].Composition.MoleFractions[i], 1e-9);
                }
            }
        }
    }

    /// <summary>Both are solid there and the equations jump between liquids: fugacities that differ must be told.</summary>
    [Fact]
    public void PhasesWithoutEqualFugacitiesAreFlagged()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("R-32", 0.0638234666080397), ("xenon", 0.9361765333919604));
        int flagged = 0;
        for (double bar = 0.02; bar < 0.03; bar += 0.0005)
        {
            State state = fluid.At(Temperature.FromKelvins(110.3656946476583), Pressure.FromBars(bar));
            flagged += state.HasUnresolvedPhase ? 1 : 0;
            Assert.True(state.HasUnresolvedPhase || state.Result.Residual < 1e-8, $"{state}: {state.Result.Residual}");
        }

        Assert.True(flagged > 0);
    }

    private static List<(double T, double P)> ThreePhaseStates(WorkingFluid fluid, double low, double high, double[] bars)
    {
        List<(double, double)> states = [];
        foreach (double bar in bars)
        {
            for (double t = low; t <= high; t += 0.25)
            {
                State state = fluid.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));
                if (state.Phases.Count == 3)
                {
                    states.Add((t, bar * 1e5));
                }
            }
        }

        return states;
    }
}
