using CryoThermo.Substances;
using CryoThermo.Transport;

namespace CryoThermo.Tests.Transport;

public sealed class TransportKernelTests
{
    private static readonly string[] FiveNames = ["nitrogen", "methane", "ethane", "propane", "isobutane"];
    private static readonly double[] Five = [0.2, 0.3, 0.2, 0.2, 0.1];

    // By a separate program from the same formulas: a regression, six digits.
    [Theory]
    [InlineData(110, 20.0, 390.449, 171.924)]
    [InlineData(150, 16.9, 117.968, 115.225)]
    [InlineData(200, 0.5, 7.54039, 13.7312)]
    [InlineData(300, 0.1, 10.4304, 23.3847)]
    [InlineData(300, 0.8, 11.0302, 24.486)]
    public void AFiveComponentBlendIsAsComputedBefore(double temperature, double density, double viscosity, double conductivity)
    {
        TransportKernel kernel = Kernel(FiveNames);
        Assert.Equal(viscosity, kernel.Viscosity(temperature, density * 1000, Five) * 1e6, viscosity * 1e-5);

        // The heat capacities of the ideal gas of methane and ethane are those of this library, other than the ones used there: 0.5 % at 200 K.
        Assert.Equal(conductivity, kernel.BackgroundConductivity(temperature, density * 1000, Five) * 1e3, conductivity * 6e-3);
    }

    [Fact]
    public void NothingIsAllocated()
    {
        TransportKernel kernel = Kernel(FiveNames);
        double sum = kernel.Viscosity(150, 100, Five) + kernel.BackgroundConductivity(150, 100, Five);
        long before = GC.GetAllocatedBytesForCurrentThread();
        sum += kernel.Viscosity(150, 100, Five) + kernel.BackgroundConductivity(150, 100, Five);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
        Assert.True(sum > 0);
    }

    // Methane and ethane divide by what vanishes a little above the density of their cold liquids, where a cubic equation is dense: once -9.3 mPa s at 85 K.
    [Fact]
    public void ADenseLiquidOfAnySubstanceKeepsPositiveFigures()
    {
        foreach (Substance substance in SubstanceCatalog.Default.All)
        {
            TransportKernel kernel = new([substance]);
            foreach (double reduced in new[] { 0.3, 0.45, 0.6, 0.8, 1, 1.5 })
            {
                // Between vapour and liquid there is no state, and none beyond what the covolume of a cubic equation leaves.
                for (double share = reduced > 0.6 ? 1.8 : 2.6; share < 3.6; share *= 1.02)
                {
                    double t = reduced * substance.CriticalTemperature;
                    double viscosity = kernel.Viscosity(t, share * substance.CriticalMolarDensity, [1]);
                    double conductivity = kernel.BackgroundConductivity(t, share * substance.CriticalMolarDensity, [1]);
                    Assert.True(viscosity > 0 && conductivity > 0, $"{substance.Name} at {t:G6} K and {share:G4} of the critical density: {viscosity:G6} Pa s, {conductivity:G6} W/(m K)");
                }
            }
        }
    }

    [Fact]
    public void ASingleComponentIsThePureFluid()
    {
        TransportKernel kernel = Kernel(FiveNames);
        for (int i = 0; i < FiveNames.Length; i++)
        {
            double[] x = new double[5];
            x[i] = 1;
            TransportKernel pure = Kernel(FiveNames[i]);
            Assert.Equal(pure.Viscosity(200, 12000, [1]), kernel.Viscosity(200, 12000, x));
            Assert.Equal(pure.BackgroundConductivity(200, 12000, [1]), kernel.BackgroundConductivity(200, 12000, x));
        }
    }

    [Theory]
    [InlineData("methane", 120, 25000)]
    [InlineData("hydrogen", 30, 30000)]
    [InlineData("helium", 80, 5000)]
    [InlineData("tetrafluoromethane", 145, 18200)]
    [InlineData("xenon", 170, 22000)]
    public void AMixtureThatBecomesPureTendsToCorrespondingStates(string name, double temperature, double density)
    {
        TransportKernel kernel = Kernel(name, "nitrogen", "isobutane");
        const double Trace = 1e-9;
        double[] x = [1 - (2 * Trace), Trace, Trace];
        TransportComponent pure = kernel.Components[0];
        Assert.Equal(1, kernel.Viscosity(temperature, density, x) / pure.ViscosityByStates(temperature, density), 1e-6);
        Assert.Equal(1, kernel.BackgroundConductivity(temperature, density, x) / pure.ConductivityByStates(temperature, density), 1e-6);
        Assert.Equal(1, kernel.Viscosity(temperature, 0, x) / pure.DiluteViscosity(temperature), 1e-6);
        Assert.Equal(1, kernel.BackgroundConductivity(temperature, 0, x) / pure.DiluteConductivity(temperature), 1e-6);
    }

    /// <summary>Nitrogen is the fluid others are compared with: corresponding states give its own correlation.</summary>
    [Fact]
    public void NitrogenIsTheReferenceOfCorrespondingStates()
    {
        TransportComponent nitrogen = Kernel("nitrogen").Components[0];
        Assert.Equal(1, nitrogen.ViscosityByStates(90, 26000) / nitrogen.Viscosity(90, 26000), 1e-5);
        Assert.Equal(1, nitrogen.ConductivityByStates(90, 26000) / nitrogen.Conductivity(90, 26000), 1e-5);
    }

    /// <summary>The published parts for helium lie 2 % apart where they meet; here they are joined.</summary>
    [Fact]
    public void TheGasOfHeliumHasNoStepAt100Kelvins()
    {
        TransportComponent helium = Kernel("helium").Components[0];
        for (double t = 95; t < 115; t += 0.25)
        {
            Assert.InRange(helium.DiluteViscosity(t + 0.25) / helium.DiluteViscosity(t), 1, 1.003);
        }
    }

    /// <summary>Liquids far below their freezing point come close to where the free-volume term of the correlation diverges.</summary>
    [Theory]
    [InlineData("propane", 60, 17500)]
    [InlineData("n-butane", 97.5, 13260)]
    [InlineData("isobutane", 70, 14000)]
    public void NearTheDivergenceOfTheFreeVolumeThereIsNoStep(string name, double temperature, double density)
    {
        TransportComponent fluid = Kernel(name).Components[0];
        for (double share = 0.9; share < 1.1; share += 1e-3)
        {
            Assert.InRange(fluid.Viscosity(temperature, (share + 1e-3) * density) / fluid.Viscosity(temperature, share * density), 1, 1.1);
        }
    }

    private static TransportKernel Kernel(params string[] names) => new([.. names.Select(SubstanceCatalog.Default.Find)]);
}
