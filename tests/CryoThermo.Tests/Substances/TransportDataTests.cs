using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

public sealed class TransportDataTests
{
    [Fact]
    public void TheLibraryHasTransportOfTheGasesOfCoolers()
    {
        Substance[] own = [.. SubstanceCatalog.Default.All.Where(s => s.Transport is not null)];
        Assert.Equal(21, own.Length);
        Assert.Equal(16, own.Count(s => s.Transport!.DenseViscosity is not null));
        Assert.All(own, s =>
        {
            TransportData t = s.Transport!;
            Assert.NotNull(t.DiluteViscosity);
            Assert.NotNull(t.DiluteConductivity);
            Assert.Equal(t.DenseViscosity is null, t.DenseConductivity is null);
            Assert.True(s.Name == "air" || (t.CorrespondingStates is not null && t.SurfaceTension is not null && t.Parachor is not null), s.Name);
            Assert.False(string.IsNullOrWhiteSpace(t.DiluteViscosity!.Provenance.Source.Publication));
        });
    }

    [Theory]
    [InlineData("\"form\": \"kinetic\"", "\"form\": \"kinetics\"", "transport.viscosity.diluteGas.form")]
    [InlineData("\"scale\": 7.41e-7", "\"scale\": 0.741", "transport.viscosity.diluteGas")]
    [InlineData("\"scale\": 188.5", "\"scale\": 188500", "transport.conductivity.diluteGas")]
    [InlineData("\"translation\": 3.75", "\"translation\": -3.75", "transport.conductivity.diluteGas.translation")]
    [InlineData("\"energyTemperature\": 290, ", "", "transport.viscosity.diluteGas.energyTemperature")]
    [InlineData("\"criticalMolarVolume\": 2.0e-4", "\"criticalMolarVolume\": 200", "transport.correspondingStates.criticalMolarVolume")]
    [InlineData("\"constant\": 1.19, \"slope\": -0.084", "\"constant\": 1.19, \"slope\": -0.84", "transport.correspondingStates.viscosity.slope")]
    [InlineData("\"coefficient\": 0.052, \"exponent\": 1.23", "\"coefficient\": 52, \"exponent\": 1.23", "transport.surfaceTension.terms")]
    [InlineData("\"parachor\": { \"value\": 152", "\"parachor\": { \"value\": 0.152", "transport.parachor.value")]
    [InlineData("\"internalConstant\": 1.3,", "\"internalConstant\": 1.3, \"uncertainty\": 5,", "transport.conductivity.diluteGas.uncertainty")]
    [InlineData("\"lowestTemperature\": 150, \"highestTemperature\": 600,\n        \"uncertaintyPercent\": 5", "\"lowestTemperature\": 700, \"highestTemperature\": 600,\n        \"uncertaintyPercent\": 5", "transport.viscosity.diluteGas.highestTemperature")]
    public void ABrokenRuleNamesTheField(string good, string bad, string field)
    {
        string text = FormatPageTests.ExampleOf("substance-file.md");
        Assert.Contains(good, text, StringComparison.Ordinal);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Substance.FromJson(text.Replace(good, bad, StringComparison.Ordinal), "own.json"));
        Assert.Equal(field, error.Field);
    }

    [Fact]
    public void ConductivityNeedsTheViscosityOfTheGas()
    {
        string text = FormatPageTests.ExampleOf("substance-file.md");
        int start = text.IndexOf("    \"viscosity\": {\n      \"diluteGas\"", StringComparison.Ordinal);
        int end = text.IndexOf("    \"conductivity\": {\n      \"diluteGas\"", StringComparison.Ordinal);
        Assert.True(start > 0 && end > start);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Substance.FromJson(text.Remove(start, end - start), "own.json"));
        Assert.Equal("transport.viscosity", error.Field);
    }

    [Fact]
    public void AnOwnSubstanceIsTakenInABlend()
    {
        SubstanceCatalog catalog = SubstanceCatalog.Default.With(Substance.FromJson(FormatPageTests.ExampleOf("substance-file.md"), "own.json"));
        TransportProperties own = catalog.Mixture(("bench fluid", 0.3), ("methane", 0.7)).At(UnitsNet.Temperature.FromKelvins(350), UnitsNet.Pressure.FromBars(1)).Transport;
        TransportProperties propane = WorkingFluid.Mixture(("propane", 0.3), ("methane", 0.7)).At(UnitsNet.Temperature.FromKelvins(350), UnitsNet.Pressure.FromBars(1)).Transport;
        Assert.False(own.ViscosityMethod.IsEstimated);
        Assert.Equal(1, own.Viscosity / propane.Viscosity, 0.03);
    }
}
