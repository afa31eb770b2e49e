using System.Diagnostics.CodeAnalysis;
using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

[Experimental("CRYO001")]
public sealed class FlashKernelTests
{
    /// <summary>A sum off by less than the tolerance must not make phases: it once gave two equal liquids and an unresolved phase.</summary>
    [Theory]
    [InlineData(150)]
    [InlineData(190)]
    [InlineData(250)]
    [InlineData(300)]
    public void ASumWithinTheToleranceChangesNothing(double temperature)
    {
        FlashKernel kernel = WorkingFluid.Mixture(("methane", 0.5), ("ethane", 0.5)).FlashKernel;
        double[] light = new double[2];
        double[] middle = new double[2];
        double[] heavy = new double[2];
        FlashFigures exact = kernel.Solve(temperature, 1e6, [0.5, 0.5], light, middle, heavy);
        foreach (double share in (double[])[1 - 9e-7, 1 + 9e-7])
        {
            FlashFigures found = kernel.Solve(temperature, 1e6, [0.5 * share, 0.5 * share], light, middle, heavy);
            Assert.Equal(exact.PhaseCount, found.PhaseCount);
            Assert.False(found.HasUnresolvedPhase);
            Assert.Equal(1, light[0] + light[1], 1e-12);
            Assert.Equal(1, heavy[0] + heavy[1], 1e-12);
            Assert.Equal(exact.MolarEnthalpy, found.MolarEnthalpy, 1e-7);
            Assert.Equal(exact.LightFraction, found.LightFraction, 1e-10);
        }
    }

    [Fact]
    public void ASumBeyondTheToleranceIsRefused()
    {
        FlashKernel kernel = WorkingFluid.Mixture(("methane", 0.5), ("ethane", 0.5)).FlashKernel;
        Assert.Equal(
            "moleFractions",
            Assert.Throws<ArgumentException>(() => kernel.Solve(200, 1e6, [0.5, 0.500002], new double[2], new double[2], new double[2])).ParamName);
    }
}
