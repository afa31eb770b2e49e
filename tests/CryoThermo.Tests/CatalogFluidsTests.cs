using CryoThermo.Substances;
using CryoThermo.Tests.Substances;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class CatalogFluidsTests
{
    [Fact]
    public void TheShippedCatalogueGivesTheSameFluidsAsTheFront()
    {
        double expected = WorkingFluid.Pure("methane").At(Temperature.FromKelvins(150), Pressure.FromBars(8)).MolarEnthalpy.JoulesPerMole;
        Assert.Equal(expected, SubstanceCatalog.Default.Pure("R-50").At(Temperature.FromKelvins(150), Pressure.FromBars(8)).MolarEnthalpy.JoulesPerMole);
    }

    [Fact]
    public void AnOwnFluidComputesWithItsOwnConstants()
    {
        SubstanceCatalog catalog = SubstanceCatalog.Default.With(Substance.FromJson(Example.Json(), Example.File));
        WorkingFluid fluid = catalog.Pure("bench fluid");

        // By definition of the acentric factor 0.152: vapour pressure at Tr = 0.7 is pc 10^-(1 + w); Peng-Robinson keeps it within a few %.
        double ratio = fluid.Saturation(Temperature.FromKelvins(0.7 * 370)).Pressure.Pascals / (4.25e6 * Math.Pow(10, -1.152));
        Assert.InRange(ratio, 0.95, 1.05);
        Assert.Throws<ArgumentException>(() => WorkingFluid.Pure("bench fluid"));
    }

    [Fact]
    public void Nulls()
    {
        Assert.Throws<ArgumentNullException>(() => SubstanceCatalog.Default.Mixture((Composition)null!));
        Assert.Throws<ArgumentNullException>(() => ((SubstanceCatalog)null!).Pure("methane"));
    }
}
