using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Rating;

/// <summary>Every expected figure is computed here by other means than the cold box: flashes, a walk the other way round, a march, the single stage.</summary>
public sealed class SeparatorColdBoxTests(ITestOutputHelper output)
{
    private const double Low = 1.5e5;
    private const double High = 18e5;
    private const double Warm = 298;
    private const double Lowest = 85;
    private const double Flow = 0.03;

    private static readonly WorkingFluid Blend = WorkingFluid
        .Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.20), ("propane", 0.06), ("isobutane", 0.30))
        .WithModel(FluidModel.PengRobinson);

    [Fact]
    public void TheHotStreamsAreVapourAndLiquidApart()
    {
        SeparatorColdBox box = Shared.Box;
        State arriving = Blend.At(K(Warm), P(High));
        Assert.Equal(arriving.VaporFraction, box.VaporShare, 1e-12);
        Assert.Equal(arriving.MolarEnthalpy.JoulesPerMole, box.WarmEndEnthalpy, 1e-3);
        double worst = 0;
        for (double t = Lowest; t <= Warm; t += 3.7)
        {
            State vapor = box.Vapor.At(K(t), P(High));
            State liquid = box.Liquid.At(K(t), P(High));
            double enthalpy = (box.VaporShare * vapor.MolarEnthalpy.JoulesPerMole) + ((1 - box.VaporShare) * liquid.MolarEnthalpy.JoulesPerMole);
            double entropy = (box.VaporShare * vapor.MolarEntropy.JoulesPerMoleKelvin) + ((1 - box.VaporShare) * liquid.MolarEntropy.JoulesPerMoleKelvin);
            double found = box.Composite.Enthalpy(t);
            worst = Math.Max(worst, Math.Abs(found - enthalpy));
            Assert.Equal(enthalpy, found, 1.0);
            Assert.Equal(entropy, box.Composite.EntropyAtEnthalpy(found), 1.0 / Lowest);
        }

        output.WriteLine($"worst {worst:G3} J/mol");
    }

    [Theory]
    [InlineData(95)]
    [InlineData(120)]
    [InlineData(180)]
    [InlineData(240)]
    public void PerfectExchangersTouchAndNoOthersGiveMore(double cold)
    {
        double last = double.NegativeInfinity;
        foreach (double conductance in (double[])[1, 3, 10, 30, 100, 1000, 1e4, double.PositiveInfinity])
        {
            SeparatorColdBoxState state = Shared.Box.With(conductance, conductance).Solve(cold, Flow);
            output.WriteLine($"{conductance} W/K: {state.CoolingPerMole:F3} J/mol, {state.MiddleTemperature:F3} K, approaches {state.WarmPinch.Approach:G3} {state.ColdPinch.Approach:G3} K");
            Assert.True(state.CoolingPerMole >= last - 1e-6);
            last = state.CoolingPerMole;
            if (double.IsPositiveInfinity(conductance))
            {
                Assert.Equal(0, state.WarmPinch.Approach, 1e-6);
                Assert.Equal(0, state.ColdPinch.Approach, 1e-6);
                Assert.Equal(Shared.Box.GreatestCooling(cold), state.CoolingPerMole, 1e-6);
            }
            else
            {
                Assert.True(state.WarmPinch.Approach >= 0 && state.ColdPinch.Approach >= 0);
                Assert.True(conductance > 30 || (state.WarmPinch.Approach > 0 && state.ColdPinch.Approach > 0));
            }
        }
    }

    /// <summary>
    /// The other way round: from a suction enthalpy both exchangers are walked down their conductances, which gives the cold temperature without any iteration. It must rise with the suction
    /// enthalpy, which is why a cold temperature has one state, and come back to the cold temperature solved for.
    /// </summary>
    [Theory]
    [InlineData(15, 15)]
    [InlineData(6, 20)]
    [InlineData(25, 4)]
    public void WalkingBackFromTheSuctionComesToTheSameColdTemperature(double warmConductance, double coldConductance)
    {
        SeparatorColdBox box = Shared.Box.With(warmConductance, coldConductance);
        IsobarTable Table(WorkingFluid fluid, double pressure) => fluid.Isobar(P(pressure), K(Lowest), K(Warm + 1)).Table;
        IsobarTable vaporHigh = Table(box.Vapor, High);
        IsobarTable vaporLow = Table(box.Vapor, Low);
        IsobarTable liquidHigh = Table(box.Liquid, High);
        IsobarTable wholeLow = Table(Blend, Low);
        List<double> suctions = [];
        for (double cold = 100; cold <= 200; cold += 12.5)
        {
            SeparatorColdBoxState state = box.Solve(cold, Flow);
            suctions.Add(state.SuctionEnthalpy);
            Assert.Equal(cold, ColdOf(state.SuctionEnthalpy), 1e-3);
        }

        double last = 0;
        for (int i = 0; i <= 40; i++)
        {
            double cold = ColdOf(suctions[0] + ((suctions[^1] - suctions[0]) * i / 40));
            Assert.True(cold > last);
            last = cold;
        }

        double ColdOf(double suction)
        {
            ConductanceWalk warm = new(box.Composite, Flow, box.WarmEndEnthalpy, wholeLow, Flow, suction);
            Assert.True(warm.Run(1e9, warmConductance));
            double duty = warm.Duty / Flow;
            double middle = box.Composite.TemperatureAtEnthalpy(box.WarmEndEnthalpy - duty);
            double vapor = vaporHigh.Enthalpy(middle);
            double back = (suction - duty - ((1 - box.VaporShare) * liquidHigh.Enthalpy(middle))) / box.VaporShare;
            ConductanceWalk cold = new(vaporHigh, Flow * box.VaporShare, vapor, vaporLow, Flow * box.VaporShare, back);
            Assert.True(cold.Run(1e9, coldConductance));
            return vaporLow.TemperatureAtEnthalpy(back - (cold.Duty / (Flow * box.VaporShare)));
        }
    }

    /// <summary>A march along both exchangers from their warm ends, Runge and Kutta of fourth order, every state by its own flash.</summary>
    [Theory]
    [InlineData(110, 15, 15)]
    [InlineData(150, 8, 12)]
    public void AMarchAlongTheExchangersExchangesTheSame(double cold, double warmConductance, double coldConductance)
    {
        SeparatorColdBox box = Shared.Box.With(warmConductance, coldConductance);
        SeparatorColdBoxState state = box.Solve(cold, Flow);
        double share = state.VaporShare;
        double top = (share * H(state.Vapor, Warm, High)) + ((1 - share) * H(state.Liquid, Warm, High));
        double guess = Warm;
        double warmDuty = March(
            Flow, warmConductance, 120, exchanged => HotOf(top - exchanged) - TemperatureOf(Blend, Low, state.SuctionEnthalpy - exchanged));
        double coldDuty = March(
            share * Flow,
            coldConductance,
            120,
            exchanged => TemperatureOf(state.Vapor, High, state.VaporMiddleEnthalpy - exchanged) - TemperatureOf(state.Vapor, Low, state.ColdReturnEnthalpy - exchanged));
        output.WriteLine($"warm {state.WarmDuty:F4} and {warmDuty:F4} W, cold {state.ColdDuty:F4} and {coldDuty:F4} W");
        Assert.Equal(state.WarmDuty, warmDuty, 1e-4 * state.WarmDuty);
        Assert.Equal(state.ColdDuty, coldDuty, 1e-4 * state.ColdDuty);

        // And the march ends where the states of the result say.
        Assert.Equal(state.MiddleTemperature, HotOf(top - (warmDuty / Flow)), 0.3);
        Assert.Equal(cold, TemperatureOf(state.Vapor, Low, state.ColdReturnEnthalpy - (coldDuty / (share * Flow))), 0.3);

        // Temperature of both hot streams at an enthalpy of theirs together.
        double HotOf(double enthalpy)
        {
            for (int i = 0; i < 50; i++)
            {
                State vapor = state.Vapor.At(K(guess), P(High));
                State liquid = state.Liquid.At(K(guess), P(High));
                double off = (share * vapor.MolarEnthalpy.JoulesPerMole) + ((1 - share) * liquid.MolarEnthalpy.JoulesPerMole) - enthalpy;
                double capacity = (share * vapor.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin) + ((1 - share) * liquid.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin);
                guess = Math.Min(Warm, guess - (off / capacity));
                if (Math.Abs(off) < 1e-6)
                {
                    return guess;
                }
            }

            throw new InvalidOperationException("The hot streams have no such enthalpy.");
        }
    }

    [Fact]
    public void WithHardlyAnyLiquidItIsTheSingleStage()
    {
        double dew = Blend.DewPoint(P(High)).Temperature.Kelvins;
        double last = double.PositiveInfinity;
        foreach (double below in (double[])[1, 0.1, 0.01, 0.001])
        {
            SeparatorColdBox box = new(Blend, Low, High, dew - below, Lowest, 12, 18);
            CycleLimitKernel single = new ThrottleCycle(Blend, P(Low), P(High), K(dew - below), K(Lowest)).Kernel;
            double liquid = 1 - box.VaporShare;
            double worst = 0;
            foreach (double cold in (double[])[100, 130, 170, 220])
            {
                double finite = single.Cooling(cold, Flow, 30) / Flow;
                double greatest = single.GreatestCooling(cold).Cooling;
                worst = Math.Max(worst, Math.Abs(box.Solve(cold, Flow).CoolingPerMole - finite));
                worst = Math.Max(worst, Math.Abs(box.GreatestCooling(cold) - greatest));
            }

            double lowest = box.LowestTemperature(Flow, 0)!.Value.Temperature - single.LowestTemperature(Flow, 30, 0)!.Value.Temperature;
            output.WriteLine($"{below} K below the dew point: liquid {liquid:G4}, off by {worst:G4} J/mol, lowest {lowest:G4} K");
            Assert.InRange(liquid, 0, 0.02);
            Assert.True(worst < last);
            last = worst;
            if (below <= 0.001)
            {
                // Isobars of three streams and of two are each within 1 J/mol of the flashes.
                Assert.Equal(0, worst, 2.0);
                Assert.Equal(0, lowest, 0.05);
            }
        }
    }

    [Fact]
    public void TheLowestTemperatureIsWhereTheCoolingIsTheLeak()
    {
        foreach (double leak in (double[])[6, 10, 40])
        {
            ColdLimit limit = Shared.Box.LowestTemperature(Flow, leak)!.Value;
            output.WriteLine($"{leak} W: {limit}; {Shared.Box.Solve(limit.Temperature, Flow).CoolingPerMole * Flow:R} W");
            Assert.False(limit.AtEndOfIsobars);
            Assert.Equal(leak / Flow, Shared.Box.Solve(limit.Temperature, Flow).CoolingPerMole, 1e-3);
        }

        Assert.Null(Shared.Box.LowestTemperature(Flow, 1e5));
        Assert.True(Shared.Box.LowestTemperature(Flow, -1e5)!.Value.AtEndOfIsobars);
    }

    [Fact]
    public void AWarmColdHeadRunsTheColdExchangerBackwards()
    {
        SeparatorColdBoxState state = Shared.Box.Solve(290, Flow);
        Assert.True(state.ColdDuty < 0 && state.MiddleTemperature < 290);

        // The return gives what the vapour stream takes, and leaves no colder than that enters.
        Assert.Equal(-state.ColdDuty, Flow * state.VaporShare * (state.VaporThrottleInletEnthalpy - state.VaporMiddleEnthalpy), 1e-9 * -state.ColdDuty);
        Assert.True(TemperatureOf(state.Vapor, Low, state.ColdReturnEnthalpy) >= state.MiddleTemperature - 0.01);
        Assert.True(TemperatureOf(state.Vapor, High, state.VaporThrottleInletEnthalpy) <= 290.01);

        // Less of it gives more then, and none the most.
        double last = state.CoolingPerMole;
        foreach (double conductance in (double[])[5, 1, 0])
        {
            double cooling = Shared.Box.With(15, conductance).Solve(290, Flow).CoolingPerMole;
            Assert.True(cooling > last);
            last = cooling;
        }

        Assert.True(last <= Shared.Box.GreatestCooling(290));

        // Between, where both streams of the cold exchanger enter at one temperature, nothing jumps.
        double crossing = Numerics(t => Shared.Box.Solve(t, Flow).MiddleTemperature - t, 240, 290);
        SeparatorColdBoxState before = Shared.Box.Solve(crossing - 1e-4, Flow);
        SeparatorColdBoxState after = Shared.Box.Solve(crossing + 1e-4, Flow);
        Assert.True(before.ColdDuty >= 0 && after.ColdDuty <= 0);
        Assert.Equal(before.CoolingPerMole, after.CoolingPerMole, 0.1);

        static double Numerics(Func<double, double> function, double low, double high) => CryoThermo.Numerics.BracketedRoot.Solve(function, low, high, 1e-9);
    }

    [Fact]
    public void EachObstacleIsNamed()
    {
        Assert.Equal(SeparatorObstacle.NothingToSeparate, Assert.Throws<SeparatorRefusedException>(() => new SeparatorColdBox(Blend, Low, High, 340, Lowest, 10, 10)).Obstacle);
        SeparatorRefusedException liquid = Assert.Throws<SeparatorRefusedException>(() => new SeparatorColdBox(Blend, Low, High, 110, Lowest, 10, 10));
        Assert.Contains("all liquid", liquid.Message, StringComparison.Ordinal);
        WorkingFluid pure = WorkingFluid.Pure("propane").WithModel(FluidModel.PengRobinson);
        Assert.Equal(SeparatorObstacle.NothingToSeparate, Assert.Throws<SeparatorRefusedException>(() => new SeparatorColdBox(pure, Low, High, 280, 200, 10, 10)).Obstacle);

        SeparatorColdBox shortOne = new(Blend, Low, High, Warm, 240, 15, 15);
        SeparatorRefusedException cold = Assert.Throws<SeparatorRefusedException>(() => shortOne.Solve(241, Flow));
        Assert.Equal(SeparatorObstacle.ColderThanCovered, cold.Obstacle);
        Assert.Contains("240.00 K", cold.Message, StringComparison.Ordinal);

        // A heavy oil of a liquid does not evaporate behind its throttle but warms.
        WorkingFluid oily = WorkingFluid.Mixture(("helium", 0.5), ("n-hexadecane", 0.5)).WithModel(FluidModel.PengRobinson);
        SeparatorColdBox warming = new(oily, Low, High, 320, 300, 10, 10);
        Assert.Equal(SeparatorObstacle.ReturnTooWarm, Assert.Throws<SeparatorRefusedException>(() => warming.Solve(320, Flow)).Obstacle);
    }

    [Fact]
    public void WrongFiguresAreNamed()
    {
        Assert.Equal("highPressure", Assert.Throws<ArgumentOutOfRangeException>(() => new SeparatorColdBox(Blend, High, Low, Warm, Lowest, 10, 10)).ParamName);
        Assert.Equal("lowestTemperature", Assert.Throws<ArgumentOutOfRangeException>(() => new SeparatorColdBox(Blend, Low, High, Warm, 300, 10, 10)).ParamName);
        Assert.Equal("coldConductance", Assert.Throws<ArgumentOutOfRangeException>(() => new SeparatorColdBox(Blend, Low, High, Warm, Lowest, 10, -1)).ParamName);
        Assert.Equal("warmConductance", Assert.Throws<ArgumentOutOfRangeException>(() => new SeparatorColdBox(Blend, Low, High, Warm, Lowest, 0, 10)).ParamName);
        Assert.Equal("coldTemperature", Assert.Throws<ArgumentOutOfRangeException>(() => Shared.Box.Solve(80, Flow)).ParamName);
        Assert.Equal("flow", Assert.Throws<ArgumentOutOfRangeException>(() => Shared.Box.Solve(120, double.NaN)).ParamName);
        Assert.Equal("cooling", Assert.Throws<ArgumentOutOfRangeException>(() => Shared.Box.LowestTemperature(Flow, double.NaN)).ParamName);
    }

    private static double March(double flow, double conductance, int steps, Func<double, double> difference)
    {
        double exchanged = 0;
        double step = conductance / steps / flow;
        for (int i = 0; i < steps; i++)
        {
            double k1 = difference(exchanged);
            double k2 = difference(exchanged + (0.5 * step * k1));
            double k3 = difference(exchanged + (0.5 * step * k2));
            double k4 = difference(exchanged + (step * k3));
            exchanged += step / 6 * (k1 + (2 * k2) + (2 * k3) + k4);
        }

        return flow * exchanged;
    }

    private static double H(WorkingFluid fluid, double t, double p) => fluid.At(K(t), P(p)).MolarEnthalpy.JoulesPerMole;

    private static double TemperatureOf(WorkingFluid fluid, double p, double enthalpy) => fluid.AtEnthalpy(P(p), MolarEnergy.FromJoulesPerMole(enthalpy)).Temperature.Kelvins;

    private static Temperature K(double kelvins) => Temperature.FromKelvins(kelvins);

    private static Pressure P(double pascals) => Pressure.FromPascals(pascals);

    private static class Shared
    {
        public static readonly SeparatorColdBox Box = new(Blend, Low, High, Warm, Lowest, 15, 15);
    }
}
