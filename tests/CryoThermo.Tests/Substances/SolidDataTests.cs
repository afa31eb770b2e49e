using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

public sealed class SolidDataTests
{
    public static TheoryData<string> WithMeltingLine =>
    [
        .. SubstanceCatalog.Default.All
            .Where(s => s.Solid?.VolumeChange is not null && s.Equations.Any(e => e.MeltingPressure is not null))
            .Select(s => s.Name),
    ];

    [Fact]
    public void TheLibraryKnowsTheSolidsOfMostSubstances()
    {
        Substance[] without = [.. SubstanceCatalog.Default.All.Where(s => s.Solid is null)];
        Assert.Equal(35, SubstanceCatalog.Default.All.Count(s => s.Solid is not null));
        Assert.Contains(without, s => s.Name == "helium");
        Assert.DoesNotContain(without, s => s.Name is "water" or "carbon dioxide" or "propane" or "benzene");
    }

    /// <summary>
    /// Clapeyron: enthalpy of fusion over triple temperature times volume change is the slope of the melting line, which other people measured.
    /// Tolerance: the data note has them up to 8 % apart (krypton).
    /// </summary>
    [Theory]
    [MemberData(nameof(WithMeltingLine))]
    public void FusionVolumeAndMeltingLineAgreeByClapeyron(string name)
    {
        Substance substance = SubstanceCatalog.Default.Find(name);
        SolidProperties solid = substance.Solid!;
        SaturationCurve line = substance.Equations.Select(e => e.MeltingPressure).First(c => c is not null)!;
        double start = line.LowestTemperature;
        double step = 1e-3 * start;
        double slope = (line.At(start + step) - line.At(start)) / step;
        double byClapeyron = solid.FusionEnthalpy / (solid.TripleTemperature * slope);
        Assert.Equal(byClapeyron, solid.VolumeChange!.Value, 0.09 * Math.Abs(byClapeyron));
    }

    [Theory]
    [InlineData("\"enthalpy\": 3500", "\"enthalpy\": 3.5", "solid.fusion.enthalpy")]
    [InlineData("\"pressure\": 1.7e-4, \"source\": \"data sheet\" },\n    \"fusion\"", "\"pressure\": 1.7, \"source\": \"data sheet\" },\n    \"fusion\"", "solid.sublimation[0].terms")]
    [InlineData("\"value\": 3.8e-6", "\"value\": 3.8", "solid.volumeChange.value")]
    [InlineData("{ \"temperature\": 60.0, \"enthalpy\": 250", "{ \"temperature\": 90.0, \"enthalpy\": 250", "solid.transitions[0].temperature")]
    [InlineData("\"molarVolume\": { \"value\"", "\"volume\": { \"value\"", "solid.volume")]
    [InlineData("\"triplePoint\": { \"temperature\": 85.5, \"pressure\": 1.7e-4", "\"triplePoint\": { \"temperature\": 95.5, \"pressure\": 1.7e-4", "solid.triplePoint.temperature")]
    [InlineData("\"highestTemperature\": 85.5, \"source\"", "\"highestTemperature\": 95.5, \"source\"", "solid.sublimation[0].highestTemperature")]
    public void ABrokenRuleNamesTheField(string good, string bad, string field)
    {
        string page = File.ReadAllText(RepositoryFiles.PathOf("docs", "formats", "substance-file.md"));
        string text = page.Split("```json")[1];
        text = text[..text.IndexOf("```", StringComparison.Ordinal)];
        Assert.Contains(good, text, StringComparison.Ordinal);
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(
            () => Substance.FromJson(text.Replace(good, bad, StringComparison.Ordinal), "bench-fluid.json"));
        Assert.Equal(field, error.Field);
    }

    [Fact]
    public void ThePairsThatFreezeTogetherAreListed()
    {
        Assert.Equal(15, SolidSystemTable.All.Count);
        SolidSystem eutectic = Assert.Single(SolidSystemTable.Among([SubstanceCatalog.Default.Find("ethane"), SubstanceCatalog.Default.Find("methane")]));
        Assert.True(eutectic.IsPureSolidConservative);
        Assert.Equal(71.15, eutectic.EutecticTemperature);
        Assert.All(SolidSystemTable.All.Where(s => s.Behaviour == SolidBehaviour.SolidSolution), s => Assert.False(s.IsPureSolidConservative));
    }
}
