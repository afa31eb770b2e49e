using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class StateTests
{
    [Fact]
    public void MassFiguresFollowFromMolarOnes()
    {
        State s = Blends.Wide.At(Temperature.FromKelvins(160), Pressure.FromBars(6));
        double mass = Blends.Wide.Composition.MolarMass.KilogramsPerMole;
        Assert.Equal(2, s.Phases.Count);
        Assert.Equal(s.MolarEnthalpy.JoulesPerMole / mass, s.SpecificEnthalpy.JoulesPerKilogram, 1e-6);
        Assert.Equal(s.MolarEntropy.JoulesPerMoleKelvin / mass, s.SpecificEntropy.JoulesPerKilogramKelvin, 1e-8);
        Assert.Equal(s.MolarDensity.MolesPerCubicMeter * mass, s.Density.KilogramsPerCubicMeter, 1e-9);

        // The volume of the whole from the mass densities of its phases.
        double volume = s.Phases.Sum(p => p.Fraction * p.Composition.MolarMass.KilogramsPerMole / p.Density.KilogramsPerCubicMeter);
        Assert.Equal(1, mass / volume / s.Density.KilogramsPerCubicMeter, 1e-12);

        // The heavy components stay in the liquid: less of the mass than of the amount is vapour.
        Assert.True(s.VaporMassFraction < s.VaporFraction);
        double vaporMass = s.Phases[0].Fraction * s.Phases[0].Composition.MolarMass.KilogramsPerMole;
        double liquidMass = s.Phases[1].Fraction * s.Phases[1].Composition.MolarMass.KilogramsPerMole;
        Assert.Equal(vaporMass / (vaporMass + liquidMass), s.VaporMassFraction, 1e-12);
    }

    [Theory]
    [InlineData(300, 1, "vapor", 1)]
    [InlineData(160, 6, "liquid + vapor", -1)]
    [InlineData(95, 20, "two liquids", 0)]
    public void PhasesAreDescribed(double t, double bar, string expected, double vapor)
    {
        State s = Blends.TwoLiquids.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));
        Assert.Equal(expected, s.PhaseDescription);
        Assert.Contains(expected, s.ToString(), StringComparison.Ordinal);
        if (vapor >= 0)
        {
            Assert.Equal(vapor, s.VaporFraction);
        }
        else
        {
            Assert.InRange(s.VaporFraction, 0.01, 0.99);
        }

        Assert.Same(Blends.TwoLiquids, s.Fluid);
        Assert.Equal(t, s.Temperature.Kelvins);
        Assert.Equal(bar * 1e5, s.Pressure.Pascals, 1e-6);
    }

    [Fact]
    public void AMultiFluidMixtureTellsItsExtendedRangeOnceAndWhatLiesBeyondWithTheState()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("neon", 0.5), ("nitrogen", 0.5));
        Assert.Contains(blend.Pedigree.Remarks, r => r.Contains("extended range", StringComparison.Ordinal));
        Assert.Empty(blend.At(Temperature.FromKelvins(65), Pressure.FromBars(20)).Notes);
        Assert.Contains("below", Assert.Single(blend.At(Temperature.FromKelvins(50), Pressure.FromBars(1)).Notes).Message, StringComparison.Ordinal);
        Assert.Contains("above", Assert.Single(blend.At(Temperature.FromKelvins(750), Pressure.FromBars(1)).Notes).Message, StringComparison.Ordinal);
        Assert.Contains("1000 bar", Assert.Single(blend.At(Temperature.FromKelvins(300), Pressure.FromBars(1000)).Notes).Message, StringComparison.Ordinal);
        Assert.Equal(2, blend.At(Temperature.FromKelvins(750), Pressure.FromBars(1000)).Notes.Count);
    }

    [Fact]
    public void NotesTellWhatLiesOutsideARange()
    {
        WorkingFluid methane = WorkingFluid.Pure("methane");
        Assert.Empty(methane.At(Temperature.FromKelvins(150), Pressure.FromBars(1)).Notes);
        Assert.Contains(methane.At(Temperature.FromKelvins(80), Pressure.FromBars(1)).Notes, n => n.Message.Contains("below the triple point", StringComparison.Ordinal));

        // Within a mixture a component below its own triple point is normal.
        Assert.Empty(WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.5)).At(Temperature.FromKelvins(80), Pressure.FromBars(1)).Notes);

        // Above a component's stated range it is told for mixtures too.
        WorkingFluid withShortRange = WorkingFluid.Mixture(("1,1-difluoroethane", 0.5), ("methane", 0.5));
        double highest = withShortRange.Composition.Components[0].IdealGasHeatCapacity.HighestTemperature;
        Assert.InRange(highest, 300, 900);
        Assert.Empty(withShortRange.At(Temperature.FromKelvins(highest - 1), Pressure.FromBars(1)).Notes);
        CryoThermo.Diagnostics.RangeNote note = Assert.Single(withShortRange.At(Temperature.FromKelvins(highest + 1), Pressure.FromBars(1)).Notes);
        Assert.Equal("ideal-gas heat capacity of 1,1-difluoroethane", note.Subject);
    }

    [Fact]
    public void SupercriticalFluidIsOnePhaseNamedByItsDensity()
    {
        WorkingFluid methane = WorkingFluid.Pure("methane");
        State dense = methane.At(Temperature.FromKelvins(200), Pressure.FromBars(200));
        State light = methane.At(Temperature.FromKelvins(200), Pressure.FromBars(10));
        Assert.Equal("liquid", dense.PhaseDescription);
        Assert.Equal("vapor", light.PhaseDescription);
        Assert.NotNull(dense.SpeedOfSound);
        Assert.NotNull(light.JouleThomsonCoefficientKelvinsPerBar);
    }
}
