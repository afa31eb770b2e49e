using CryoThermo.HeatTransfer;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.HeatTransfer;

public sealed class GasDiffusionTests(ITestOutputHelper output)
{
    /// <summary>Measured at 1 atm: R. B. Bird, W. E. Stewart, E. N. Lightfoot, Transport Phenomena, table of diffusivities; helium and nitrogen: CRC Handbook. All from memory.</summary>
    [Theory]
    [InlineData("carbon dioxide", "nitrogen", 298.2, 0.165)]
    [InlineData("carbon dioxide", "nitrogen", 273.2, 0.144)]
    [InlineData("carbon dioxide", "carbon monoxide", 273.2, 0.139)]
    [InlineData("argon", "oxygen", 293.2, 0.20)]
    [InlineData("hydrogen", "methane", 298.2, 0.726)]
    [InlineData("helium", "nitrogen", 298, 0.687)]
    public void MeasuredPairsAreMet(string first, string second, double t, double squareCentimeters)
    {
        DiffusionEstimate found = GasDiffusion.Of(first, second, Temperature.FromKelvins(t), Pressure.FromAtmospheres(1));
        output.WriteLine($"{first} {second}: {found.SquareMetersPerSecond * 1e4:F4} cm2/s, measured {squareCentimeters}");
        Assert.Equal(1, found.SquareMetersPerSecond * 1e4 / squareCentimeters, 0.08);
        Assert.Equal(2, found.VolumeSources.Count(v => v.Contains("from memory", StringComparison.Ordinal)));
    }

    /// <summary>
    /// Chapman and Enskog with the collision integral of P. D. Neufeld, A. R. Janzen, R. A. Aziz, J. Chem. Phys. 57 (1972) 1100, and Lennard-Jones constants from memory: independent of Fuller's form, and down where no
    /// measurement was at hand.
    /// </summary>
    [Theory]
    [InlineData("nitrogen", 3.798, 71.4, "helium", 2.551, 10.22, 80)]
    [InlineData("nitrogen", 3.798, 71.4, "helium", 2.551, 10.22, 300)]
    [InlineData("methane", 3.758, 148.6, "nitrogen", 3.798, 71.4, 120)]
    [InlineData("methane", 3.758, 148.6, "nitrogen", 3.798, 71.4, 300)]
    [InlineData("nitrogen", 3.798, 71.4, "neon", 2.820, 32.8, 80)]
    public void KineticTheoryIsNear(string first, double sigma1, double energy1, string second, double sigma2, double energy2, double t)
    {
        double sigma = 0.5 * (sigma1 + sigma2);
        double reduced = t / Math.Sqrt(energy1 * energy2);
        double omega = (1.06036 / Math.Pow(reduced, 0.15610)) + (0.19300 / Math.Exp(0.47635 * reduced)) + (1.03587 / Math.Exp(1.52996 * reduced)) + (1.76474 / Math.Exp(3.89411 * reduced));
        double masses = (1 / WorkingFluid.Pure(first).Composition.MolarMass.GramsPerMole) + (1 / WorkingFluid.Pure(second).Composition.MolarMass.GramsPerMole);
        double theory = 0.0018583e-4 * Math.Sqrt(t * t * t * masses) / (sigma * sigma * omega);
        double found = GasDiffusion.Of(first, second, Temperature.FromKelvins(t), Pressure.FromAtmospheres(1)).SquareMetersPerSecond;
        output.WriteLine($"{first} {second} {t} K: {found:G4}, kinetic theory {theory:G4} m2/s, {(found / theory) - 1:P1}");
        Assert.Equal(1, found / theory, t < 200 ? 0.15 : 0.08);
    }

    [Fact]
    public void TheOrderOfTheNamesDoesNotMatterAndBadInputIsRefused()
    {
        Temperature t = Temperature.FromKelvins(200);
        Pressure p = Pressure.FromBars(2);
        Assert.Equal(GasDiffusion.Of("propane", "argon", t, p).SquareMetersPerSecond, GasDiffusion.Of("argon", "propane", t, p).SquareMetersPerSecond, 1e-18);
        Assert.Equal("temperature", Assert.Throws<ArgumentOutOfRangeException>(() => GasDiffusion.Of("propane", "argon", Temperature.FromKelvins(5), p)).ParamName);
        Assert.Throws<ArgumentException>(() => GasDiffusion.Of("propane", "unobtainium", t, p));
    }
}
