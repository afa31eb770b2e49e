using CryoThermo.Equilibrium;
using CryoThermo.Substances;
using CryoThermo.Tests.EquationsOfState.Helmholtz;
using UnitsNet;

namespace CryoThermo.Tests.Equilibrium;

/// <summary>Flashes and isobars of pure fluids under every shipped Helmholtz equation: every input leads back to the state it was taken from.</summary>
public sealed class PureEquationFlashTests
{
    public static TheoryData<string> Names => ShippedEquations.PureNames;

    [Theory]
    [MemberData(nameof(Names))]
    public void RandomStatesComeBackFromEveryInput(string name)
    {
        WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
        EquationRange range = fluid.Pedigree.Equation!.Range;
        double critical = fluid.Kernel.Equation.CriticalTemperature(0);
        Random random = new(11);
        int compared = 0;
        for (int k = 0; k < 300; k++)
        {
            double highest = k % 2 == 0 ? range.HighestTemperature : 1.5 * critical;
            double t = range.LowestTemperature + ((highest - range.LowestTemperature) * random.NextDouble());
            double p = 10 * Math.Pow(range.HighestPressure / 10, random.NextDouble());

            // Where it would have frozen the equation is not asked for more than an answer; without a melting curve (helium, hydrogen) that is
            // left out generously.
            bool isFrozen = fluid.Pedigree.Equation.MeltingPressure is { } melting
                ? t >= melting.LowestTemperature && t <= melting.HighestTemperature && p > melting.At(t)
                : t < 3 * critical && p > 10 * fluid.Kernel.Equation.CriticalPressure(0);
            if (isFrozen)
            {
                continue;
            }

            compared++;

            ComesBack(fluid, t, p);
        }

        Assert.True(compared > 150, $"{compared} states compared");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void StatesNearTheCriticalPointComeBack(string name)
    {
        WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
        double tc = fluid.Kernel.Equation.CriticalTemperature(0);
        double pc = fluid.Kernel.Equation.CriticalPressure(0);
        Random random = new(12);
        for (int k = 0; k < 300; k++)
        {
            double t = tc * (1 + (Math.Pow(10, -6 + (4.5 * random.NextDouble())) * (k % 2 == 0 ? 1 : -1)));
            double p = pc * (1 + (Math.Pow(10, -6 + (4.5 * random.NextDouble())) * (k % 4 < 2 ? 1 : -1)));
            ComesBack(fluid, t, p);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void TheEndsOfTheRangeComeBack(string name)
    {
        WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
        FluidKernel kernel = fluid.Kernel;
        double triple = fluid.Pedigree.Equation!.Range.LowestTemperature;
        foreach (double p in new[] { kernel.LowestPressure, 1, 1e5, 1e6, kernel.HighestPressure })
        {
            ComesBack(fluid, kernel.HighestTemperature, p);
            if (p < 1e7)
            {
                ComesBack(fluid, triple, p);
            }

            // Below the stated range enthalpy may turn back: then it has no temperature of its own, but the state found has it, or it is refused.
            State coldest = fluid.At(Temperature.FromKelvins(kernel.Equation.LowestTemperatureAt(p)), Pressure.FromPascals(p));
            if (fluid.TryAtEnthalpy(coldest.Pressure, coldest.MolarEnthalpy, out State? found))
            {
                Assert.Equal(coldest.MolarEnthalpy.JoulesPerMole, found.MolarEnthalpy.JoulesPerMole, 1e-6);
            }
            else
            {
                double atTriple = fluid.At(Temperature.FromKelvins(triple), coldest.Pressure).MolarEnthalpy.JoulesPerMole;
                Assert.True(coldest.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin < 0 || coldest.MolarEnthalpy.JoulesPerMole > atTriple, $"{name} at {coldest.Temperature}, {p} Pa refused");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void BoilingStatesComeBackFromEveryInput(string name)
    {
        WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
        double tc = fluid.Kernel.Equation.CriticalTemperature(0);
        double triple = fluid.Pedigree.Equation!.Range.LowestTemperature;
        foreach (double t in new[] { fluid.Kernel.LowestTemperature, triple, triple + (0.3 * (tc - triple)), triple + (0.8 * (tc - triple)), 0.999 * tc, tc * (1 - 1e-5), tc - 1e-3 })
        {
            Saturation s = fluid.Saturation(Temperature.FromKelvins(t));
            if (s.Pressure.Pascals <= fluid.Kernel.LowestPressure)
            {
                continue;
            }

            double liquid = 1 / s.Liquid.MolarDensity.MolesPerCubicMeter;
            double vapor = 1 / s.Vapor.MolarDensity.MolesPerCubicMeter;
            foreach (double share in new[] { 0.001, 0.3, 0.5, 0.97 })
            {
                double h = s.Liquid.MolarEnthalpy.JoulesPerMole + (share * s.EnthalpyOfVaporization.JoulesPerMole);
                double entropy = s.Liquid.MolarEntropy.JoulesPerMoleKelvin + (share * (s.Vapor.MolarEntropy - s.Liquid.MolarEntropy).JoulesPerMoleKelvin);
                Molarity density = Molarity.FromMolesPerCubicMeter(1 / (liquid + (share * (vapor - liquid))));
                State byDensity = fluid.AtDensity(s.Temperature, density);
                string where = $"{name} boiling at {t:R} K, share {share}";
                Same(where + ", density", byDensity);
                Same(where + ", enthalpy", fluid.AtEnthalpy(s.Pressure, MolarEnergy.FromJoulesPerMole(h)));
                Same(where + ", entropy", fluid.AtEntropy(s.Pressure, MolarEntropy.FromJoulesPerMoleKelvin(entropy)));
                State byEnergy = fluid.AtInternalEnergy(byDensity.MolarInternalEnergy, density);
                Assert.True(Math.Abs(byEnergy.Temperature.Kelvins - t) < 1e-7 * t, $"{where}: {byEnergy.Temperature.Kelvins:R} K from the internal energy");
                Assert.Equal(2, byEnergy.Phases.Count);
                Assert.Equal(h, byDensity.MolarEnthalpy.JoulesPerMole, 1e-8 * Math.Max(Math.Abs(h), s.EnthalpyOfVaporization.JoulesPerMole));

                void Same(string what, State state)
                {
                    Assert.True(state.Phases.Count == 2, $"{what}: {state.PhaseDescription}");
                    Assert.True(Math.Abs(state.Temperature.Kelvins - t) < 1e-9 * t, $"{what}: {state.Temperature.Kelvins:R} K");

                    // One millikelvin below the critical point rounding of the densities is the larger part of their difference.
                    Assert.True(Math.Abs(state.VaporFraction - share) < 1e-6, $"{what}: {state.VaporFraction:R}");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void IsobarsAgreeWithFlashesWithinTheStatedBound(string name)
    {
        WorkingFluid fluid = ShippedEquations.WorkingFluid(name);
        double tc = fluid.Kernel.Equation.CriticalTemperature(0);
        double pc = fluid.Kernel.Equation.CriticalPressure(0);
        double low = fluid.Pedigree.Equation!.Range.LowestTemperature;
        double high = Math.Min(3 * tc, fluid.Kernel.HighestTemperature);
        foreach (double p in new[] { 1, 0.02 * pc, 0.5 * pc, 0.98 * pc, 0.9999 * pc, 1.0001 * pc, 1.02 * pc, 1.5 * pc, 5 * pc })
        {
            Isobar isobar = fluid.Isobar(Pressure.FromPascals(p), Temperature.FromKelvins(low), Temperature.FromKelvins(high));
            IsobarTable table = isobar.Table;
            double bound = Math.Min(1, 1e-4 * (table.MaxEnthalpy - table.MinEnthalpy));
            Random random = new(13);
            double last = double.NegativeInfinity;
            List<double> temperatures = [.. Enumerable.Range(0, 200).Select(k => k % 4 == 0 ? tc * (1 + (0.02 * (random.NextDouble() - 0.5))) : low + ((high - low) * random.NextDouble()))];
            temperatures.Sort();
            foreach (double t in temperatures)
            {
                State s = fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));
                double h = table.Enthalpy(t);
                Assert.True(Math.Abs(h - s.MolarEnthalpy.JoulesPerMole) <= bound, $"{name}: h is off by {h - s.MolarEnthalpy.JoulesPerMole:G4} J/mol at {t:R} K, {p:R} Pa");
                Assert.Equal(s.MolarEntropy.JoulesPerMoleKelvin, table.EntropyAtEnthalpy(h), 2 * bound / t);
                Assert.Equal(t, table.TemperatureAtEnthalpy(h), 1e-9 * t);
                Assert.True(h > last);
                last = h;
            }

            bool boils = fluid.Kernel.Equation.TryBoiling(p, new double[fluid.Kernel.Equation.ScratchLength], out double boiling, out _, out _) && boiling > low;
            IsobarStretch[] plateaus = [.. isobar.Stretches.Where(q => q.Region == PhaseRegion.ConstantTemperatureBoiling)];
            Assert.Equal(boils ? 1 : 0, plateaus.Length);
            if (boils)
            {
                Saturation saturation = fluid.Saturation(Pressure.FromPascals(p));
                Assert.Equal(saturation.Temperature.Kelvins, plateaus[0].From.Kelvins, 2e-9);
                double rise = table.Enthalpy(plateaus[0].From.Kelvins) - table.EnthalpyBelow(plateaus[0].From.Kelvins);

                // The boundary is found to a nanokelvin on each side; next to the critical point the heat capacities make more of it than rounding.
                double heatCapacities = saturation.Liquid.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin + saturation.Vapor.IsobaricHeatCapacity!.Value.JoulesPerMoleKelvin;
                Assert.Equal(saturation.EnthalpyOfVaporization.JoulesPerMole, rise, 2e-6 + (2e-9 * heatCapacities));
            }
        }
    }

    [Fact]
    public void AtPressuresOnlyWarmFluidReachesTheRangeOfEnthalpiesBeginsThere()
    {
        // The pressure of methane's equation at its lowest temperature has a maximum, within densities never met in a fluid.
        WorkingFluid methane = WorkingFluid.Pure("methane");
        double coldest = methane.Kernel.LowestTemperature;
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => methane.At(Temperature.FromKelvins(coldest), Pressure.FromMegapascals(950)));
        Assert.Equal("pressure", refused.ParamName);
        Assert.InRange(methane.Kernel.Equation.LowestTemperatureAt(9.5e8), coldest + 0.1, coldest + 10);
        State warm = methane.At(Temperature.FromKelvins(300), Pressure.FromMegapascals(950));
        Assert.Equal(300, methane.AtEnthalpy(warm.Pressure, warm.MolarEnthalpy).Temperature.Kelvins, 1e-8);
        Assert.Equal(300, methane.AtInternalEnergy(warm.MolarInternalEnergy, warm.MolarDensity).Temperature.Kelvins, 1e-6);

        // Right up to that maximum the root before it is found.
        FluidKernel kernel = methane.Kernel;
        double[] scratch = new double[kernel.Equation.ScratchLength];
        kernel.Equation.SetTemperature(coldest, scratch);
        double highest = 0;
        double densest = 0;
        for (double density = 30000; density < kernel.Equation.DensityLimit([1], []); density += 1)
        {
            double pressure = kernel.Equation.Pressure(coldest, density, [1], scratch, out double byVolume);
            if (byVolume < 0 && pressure > highest)
            {
                (highest, densest) = (pressure, density);
            }
        }

        foreach (double share in new[] { 0.5, 0.9, 0.99, 0.999, 0.99999 })
        {
            State cold = methane.At(Temperature.FromKelvins(coldest), Pressure.FromPascals(share * highest));
            Assert.InRange(cold.MolarDensity.MolesPerCubicMeter, 0.5 * densest, densest + 1);
            Assert.Equal(share * highest, kernel.Equation.Pressure(coldest, cold.MolarDensity.MolesPerCubicMeter, [1], scratch, out double byVolume), 1e-6 * highest);
            Assert.True(byVolume < 0);
        }
    }

    [Theory]
    [InlineData("nitrogen")]
    [InlineData("methane")]
    [InlineData("propane")]
    public void DensitiesThatCannotBeHadAreRefusedByName(string name)
    {
        WorkingFluid fluid = WorkingFluid.Pure(name);
        double coldest = fluid.Kernel.LowestTemperature;
        double limit = fluid.Kernel.Equation.DensityLimit([1], []);

        // Beyond the densities looked at; and on the far side of a maximum of the pressure, where the equation is no fluid any more.
        foreach (double density in new[] { 1.01 * limit, name == "methane" ? 0.99 * limit : 2 * limit })
        {
            ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(
                () => fluid.AtDensity(Temperature.FromKelvins(coldest), Molarity.FromMolesPerCubicMeter(density)));
            Assert.Equal("molarDensity", error.ParamName);
        }

        ArgumentOutOfRangeException energy = Assert.Throws<ArgumentOutOfRangeException>(
            () => fluid.AtInternalEnergy(MolarEnergy.FromJoulesPerMole(1e7), Molarity.FromMolesPerCubicMeter(100)));
        Assert.Contains("molarInternalEnergy", energy.Message, StringComparison.Ordinal);
    }

    private static void ComesBack(WorkingFluid fluid, double t, double p)
    {
        State s = fluid.At(Temperature.FromKelvins(t), Pressure.FromPascals(p));
        string where = $"{fluid.Composition.Components[0].Name} at {t:R} K, {p:R} Pa ({s.PhaseDescription}, {s.MolarDensity.MolesPerCubicMeter:R} mol/m3)";
        double density = s.MolarDensity.MolesPerCubicMeter;
        State byEnthalpy = fluid.AtEnthalpy(s.Pressure, s.MolarEnthalpy);
        Close("T from h", t, byEnthalpy.Temperature.Kelvins, 1e-8);
        Close("T from s", t, fluid.AtEntropy(s.Pressure, s.MolarEntropy).Temperature.Kelvins, 1e-8);

        // The pressure of a liquid hangs on the last digits of its density: its error is judged by the density it stands for.
        State byDensity = fluid.AtDensity(s.Temperature, s.MolarDensity);
        Close("density", density, byDensity.MolarDensity.MolesPerCubicMeter, 1e-10);
        double compressibility = s.Phases[0].IsothermalCompressibility.InversePascals * Math.Abs(byDensity.Pressure.Pascals - p);
        Assert.True(compressibility < 1e-10, $"{where}: pressure from density {byDensity.Pressure.Pascals:R} Pa");
        Assert.True(byDensity.Phases.Count == s.Phases.Count, $"{where}: {byDensity.PhaseDescription} from density");
        State byEnergy = fluid.AtInternalEnergy(s.MolarInternalEnergy, s.MolarDensity);
        Close("T from u", t, byEnergy.Temperature.Kelvins, 1e-7);

        void Close(string what, double expected, double actual, double tolerance) =>
            Assert.True(Math.Abs((actual / expected) - 1) < tolerance, $"{where}: {what} is {actual:R} instead of {expected:R}");
    }
}
