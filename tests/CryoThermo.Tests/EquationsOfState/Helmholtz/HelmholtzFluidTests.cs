using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

public sealed class HelmholtzFluidTests
{
    public static TheoryData<string> Names => ShippedEquations.Names;

    public static TheoryData<string> PureNames => ShippedEquations.PureNames;

    [Theory]
    [MemberData(nameof(Names))]
    public void DensityIsFoundEverywhereInTheStatedRangeAndBeyond(string name)
    {
        HelmholtzEquation equation = ShippedEquations.Equation(name);
        HelmholtzFluid fluid = ShippedEquations.Fluid(name);
        double critical = fluid.CriticalTemperature(0);
        double[] scratch = new double[fluid.ScratchLength];
        Random random = new(3);
        double low = Math.Max(fluid.LowestTemperature, 0.9 * equation.Range.LowestTemperature);
        for (int k = 0; k < 3000; k++)
        {
            double temperature = (k % 3) switch
            {
                0 => low + ((equation.Range.HighestTemperature - low) * random.NextDouble()),
                1 => low + (((1.3 * critical) - low) * random.NextDouble()),
                _ => critical + ((random.NextDouble() - 0.5) * Math.Pow(10, -3 + (3 * random.NextDouble()))),
            };
            double pressure = k % 3 == 2
                ? fluid.CriticalPressure(0) * (1 + ((random.NextDouble() - 0.5) * Math.Pow(10, -4 + (3 * random.NextDouble()))))
                : 1e-2 * Math.Pow(equation.Range.HighestPressure / 1e-2, random.NextDouble());
            DensityRoot root = (DensityRoot)random.Next(3);
            fluid.SetTemperature(temperature, scratch);
            double density = fluid.Density(temperature, pressure, root, scratch, out IsothermDerivatives at, out DensityRoot found);

            string where = $"{name} at {temperature:R} K, {pressure:R} Pa, {root}: density {density:R} mol/m3";
            Assert.True(density > 0 && at.Stiffness > 0, $"{where} is not a stable root.");
            double miss = (density * at.Compressibility * fluid.GasConstant * temperature / pressure) - 1;

            // The compressibility factor is the sum of terms of order one: its rounding error grows with its inverse.
            Assert.True(Math.Abs(miss) < 1e-11 / Math.Min(1, Math.Abs(at.Compressibility)), $"{where} misses the pressure by {miss:E1}.");
            Assert.True(temperature >= critical || (found == DensityRoot.Liquid) == (density > fluid.CriticalDensity(0)), $"{where} is called {found}.");
        }
    }

    [Theory]
    [MemberData(nameof(PureNames))]
    public void SaturationIsFoundUpToAMillikelvinBelowTheCriticalPoint(string name)
    {
        HelmholtzFluid fluid = ShippedEquations.Fluid(name);
        double critical = fluid.CriticalTemperature(0);
        double low = fluid.LowestTemperature;
        double[] scratch = new double[fluid.ScratchLength];
        double last = double.PositiveInfinity;
        for (int k = 0; k <= 400; k++)
        {
            // Steps equal in the logarithm of the distance to the critical point, from 1 mK on.
            double temperature = critical - (1e-3 * Math.Pow((critical - low) / 1e-3, k / 400.0) * (1 - 1e-12));
            Assert.True(fluid.TrySaturation(temperature, scratch, out double pressure, out double liquid, out double vapor), $"{name} at {temperature:R} K");
            IsothermDerivatives l = fluid.AlongIsotherm(liquid, scratch);
            IsothermDerivatives v = fluid.AlongIsotherm(vapor, scratch);
            Assert.True(l.Stiffness > 0 && v.Stiffness > 0 && liquid > vapor && pressure < last, $"{name} at {temperature:R} K");

            double gibbs = l.ResidualGibbs - v.ResidualGibbs + Math.Log(liquid / vapor);
            Assert.True(Math.Abs(gibbs) < 2e-12, $"{name} at {temperature:R} K: Gibbs energies differ by {gibbs:E1} R T.");
            double vaporPressure = vapor * v.Compressibility * fluid.GasConstant * temperature;
            Assert.True(Math.Abs((vaporPressure / pressure) - 1) < 1e-11, $"{name} at {temperature:R} K: pressure of the vapour is off.");
            last = pressure;

            Assert.True(fluid.TryBoiling(pressure, scratch, out double boiling, out _, out _), $"{name} at {pressure:R} Pa");
            Assert.True(Math.Abs(boiling - temperature) < 1e-10 * critical, $"{name}: boils at {boiling:R} K instead of {temperature:R} K.");
        }
    }

    [Theory]
    [MemberData(nameof(PureNames))]
    public void TheTableReachesBelowTheTriplePoint(string name)
    {
        HelmholtzFluid fluid = ShippedEquations.Fluid(name);

        Assert.True(
            fluid.LowestTemperature <= 0.86 * fluid.Range.LowestTemperature,
            $"{name}: the coexistence curve ends at {fluid.LowestTemperature:F2} K, the range at {fluid.Range.LowestTemperature} K.");
    }

    [Theory]
    [MemberData(nameof(PureNames))]
    public void CriticalPointIsTheOneInTheFile(string name)
    {
        HelmholtzFluid fluid = ShippedEquations.Fluid(name);
        FluidPoint found = CriticalPointSolver.Find(fluid, ShippedEquations.Equation(name).CriticalPoint);

        Assert.True(
            Math.Abs(found.Temperature - fluid.CriticalTemperature(0)) < 2e-5 && Math.Abs((found.Pressure / fluid.CriticalPressure(0)) - 1) < 1e-5,
            $"{name}: critical point found at {found.Temperature:R} K, {found.Pressure:R} Pa, {found.MolarDensity:R} mol/m3.");
    }

    [Theory]
    [InlineData("nitrogen, Reference", 100)]
    [InlineData("methane, Reference", 150)]
    [InlineData("carbon dioxide, Reference", 250)]
    public void NoRootIsTakenBetweenTheLimitsOfTheBranches(string name, double temperature)
    {
        HelmholtzFluid fluid = ShippedEquations.Fluid(name);
        double[] scratch = new double[fluid.ScratchLength];
        fluid.SetTemperature(temperature, scratch);
        Assert.True(fluid.TryLimits(temperature, scratch, out double vapor, out double liquid));

        // The trap: between the limits the isotherm runs through stable-looking pressures far beyond any real one.
        double highest = 0;
        for (int i = 1; i < 400; i++)
        {
            double density = vapor + ((liquid - vapor) * i / 400);
            IsothermDerivatives at = fluid.AlongIsotherm(density, scratch);
            highest = Math.Max(highest, density * at.Compressibility * fluid.GasConstant * temperature);
        }

        Assert.True(highest > 2 * fluid.CriticalPressure(0));
        for (double pressure = 1e4; pressure < 1e8; pressure *= 1.1)
        {
            foreach (DensityRoot root in Enum.GetValues<DensityRoot>())
            {
                double density = fluid.Density(temperature, pressure, root, scratch, out _, out _);
                Assert.True(density <= vapor * (1 + 1e-6) || density >= liquid * (1 - 1e-6), $"{density} mol/m3 at {pressure} Pa");
            }
        }
    }
}
