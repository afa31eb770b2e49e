using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Safety;

public sealed class ReliefEstimateTests(ITestOutputHelper output)
{
    private static readonly WorkingFluid Nitrogen = WorkingFluid.Pure("nitrogen");

    [Fact]
    public void TheWorkedExampleForGasIsReproduced()
    {
        // API 520-I, gas at critical flow: 53 500 lb/h, M 65, k 1.09, Z 0.84, 627 degR, 97.2 psia give 4.93 in2 with Kd 0.975 (from memory).
        Area area = ReliefEstimate.GasArea(
            MassFlow.FromPoundsPerHour(53500), Pressure.FromPoundsForcePerSquareInch(97.2), Temperature.FromDegreesRankine(627), MolarMass.FromGramsPerMole(65), 1.09, 0.84);
        output.WriteLine($"{area.SquareInches:F4} in2");

        // The figure follows with its own constants, C = 326 of the printed 520 sqrt(...); these are rounded, and with the gas constant it is 0.2 % more.
        Assert.Equal(4.93, 53500 / (326 * 0.975 * 97.2) * Math.Sqrt(627 * 0.84 / 65), 0.005);
        Assert.Equal(1, area.SquareInches / 4.93, 0.0025);

        // 849.7 kg/h of air of 10 bar and 293.15 K through 100 mm2: gas dynamics, 0.040414 A p/sqrt(T) (Saint-Venant and Wantzel; constant as printed in texts, from memory).
        Area hundred = ReliefEstimate.GasArea(
            MassFlow.FromKilogramsPerHour(849.7), Pressure.FromBars(10), Temperature.FromKelvins(293.15), MolarMass.FromGramsPerMole(28.965), 1.4, 1, 1);
        Assert.Equal(100, hundred.SquareMillimeters, 0.02);
    }

    [Fact]
    public void ANozzleOfTheRealFluidAgreesForAnAlmostIdealGas()
    {
        State inlet = Nitrogen.At(Temperature.FromKelvins(300), Pressure.FromBars(2));
        MassFlow flow = MassFlow.FromGramsPerSecond(10);
        double gas = ReliefEstimate.GasArea(flow, inlet.Pressure, inlet.Temperature, MolarMass.FromGramsPerMole(28.0134), 1.4).SquareMillimeters;
        double real = ReliefEstimate.HomogeneousArea(flow, inlet, Pressure.FromBars(0.8)).SquareMillimeters;
        output.WriteLine($"{gas:F3} and {real:F3} mm2");
        Assert.Equal(1, gas / real, 3e-3);

        // Boiling liquid needs less area for the same mass than its vapour.
        Saturation boiling = Nitrogen.Saturation(Pressure.FromBars(10));
        Assert.True(
            ReliefEstimate.HomogeneousArea(flow, boiling.Liquid, Pressure.FromBars(1)) < 0.7 * ReliefEstimate.HomogeneousArea(flow, boiling.Vapor, Pressure.FromBars(1)));
    }

    [Fact]
    public void LossOfVacuumIsABandThatGrowsWithTheCold()
    {
        // 10 L class dewar, 0.3 m2, with its blanket in place, 200 W/m2: 60 W (arithmetic).
        FigureBand<Power> nitrogen = ReliefEstimate.LossOfVacuumHeat(Area.FromSquareMeters(0.3), Temperature.FromKelvins(77.4), true);
        Assert.Equal(60, (double)nitrogen.Nominal.Watts, 1e-9);
        Assert.True(nitrogen.Least < nitrogen.Nominal && nitrogen.Nominal < nitrogen.Greatest);
        Assert.Equal(0.3 * 38000, (double)ReliefEstimate.LossOfVacuumHeat(Area.FromSquareMeters(0.3), Temperature.FromKelvins(4.2), false).Nominal.Watts, 1e-6);
        Assert.True(ReliefEstimate.LossOfVacuumHeat(Area.FromSquareMeters(0.3), Temperature.FromKelvins(20), false).Least > 50 * nitrogen.Nominal);
        Assert.Throws<ArgumentOutOfRangeException>(() => ReliefEstimate.LossOfVacuumHeat(Area.Zero, Temperature.FromKelvins(77), true));
    }

    [Fact]
    public void WhatBoilsOffFollowsTheHeat()
    {
        // 60 W into nitrogen boiling at 1 atm: 1.09 kg/h (arithmetic with a heat of 199 kJ/kg), less what takes the place of the liquid.
        ReliefFlow small = ReliefEstimate.FlowFor(Nitrogen, Pressure.FromPascals(101325), Power.FromWatts(60));
        Assert.Equal(1.085 * (1 - (4.612 / 806.1)), small.MassFlow.KilogramsPerHour, 0.005);

        // Both forms meet at the critical pressure: (v'' - v')/(h'' - h')/v'' becomes 1/(v dh/dv).
        double below = ReliefEstimate.FlowFor(Nitrogen, Nitrogen.CriticalPoint().Pressure * 0.998, Power.FromWatts(60)).MassFlow.KilogramsPerHour;
        double above = ReliefEstimate.FlowFor(Nitrogen, Nitrogen.CriticalPoint().Pressure * 1.002, Power.FromWatts(60)).MassFlow.KilogramsPerHour;
        output.WriteLine($"{below:F3} and {above:F3} kg/h about the critical pressure");
        Assert.Equal(1, below / above, 0.2);
        Assert.Throws<ArgumentException>(() => ReliefEstimate.FlowFor(WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.5)), Pressure.FromBars(1), Power.FromWatts(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ReliefEstimate.FlowFor(Nitrogen, Pressure.FromBars(1), Power.Zero));
    }
}
