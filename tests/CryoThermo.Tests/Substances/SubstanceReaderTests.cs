using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

public sealed class SubstanceReaderTests
{
    [Fact]
    public void TheUnchangedExampleIsRead()
    {
        Substance fluid = Substance.FromJson(Example.Json(), Example.File);
        Assert.Equal(370, fluid.CriticalTemperature);
        Assert.Equal(0.0002, fluid.TriplePressure);
        Assert.Equal(600, fluid.IdealGasHeatCapacity.HighestTemperature);
        Assert.Equal(
            [new PowerTerm(4, 0), new VibrationTerm(3, 400), new TwoLevelTerm(1, 900, 2)], fluid.IdealGasHeatCapacity.Terms);
        Assert.Equal(-4e-6, fluid.VolumeTranslation!.PengRobinson);
        Assert.Null(fluid.StryjekVeraKappa1);
        Assert.Null(fluid.QuantumCorrection);
    }

    /// <summary>Each broken rule names file and field; the rule holds the words given.</summary>
    [Theory]
    [InlineData("\"name\": \"bench fluid\",", "", "name", "is missing")]
    [InlineData("\"bench fluid\"", "\" \"", "name", "must not be empty")]
    [InlineData("\"bench fluid\"", "\"Bench\"", "name", "lower case")]
    [InlineData("\"bench fluid\"", "\"ethane\"", "name", "already names ethane")]
    [InlineData("\"own/bench-fluid\"", "\"74-98-7\"", "cas", "the other digits demand 6")]
    [InlineData("\"own/bench-fluid\"", "\"propane\"", "cas", "not a CAS registry number")]
    [InlineData("\"own/bench-fluid\"", "\"74-84-0\"", "formula", "does not fit 74-84-0")]
    [InlineData("\"C3H8\",", "\"C3Zz8\",", "formula", "plain molecular formula")]
    [InlineData("\"formula\"", "\"designation\": \"290\", \"formula\"", "designation", "ISO 817")]
    [InlineData("\"formula\"", "\"designation\": \"R-290\", \"formula\"", "designation", "already names propane")]
    [InlineData("\"formula\"", "\"spellings\": [\"benchy\", \"N2\"], \"formula\"", "spellings[1]", "already names nitrogen")]
    [InlineData("\"formula\"", "\"spellings\": [null], \"formula\"", "spellings[0]", "is missing")]
    [InlineData("\"fromMemory\": false", "\"fromMemory\": null", "sources.made up.fromMemory", "is missing")]
    [InlineData("\"invented for a test, no source\"", "\"\"", "sources.made up.publication", "must not be empty")]
    [InlineData("\"sources\": {", "\"sources\": { \"idle\": { \"publication\": \"x\", \"fromMemory\": true },", "sources.idle", "not used")]
    [InlineData("\"value\": 0.0441, ", "", "molarMass.value", "is missing")]
    [InlineData("0.0441,", "44.1,", "molarMass.value", "0.001 to 1 kg/mol")]
    [InlineData("0.0441,", "0.0451,", "molarMass.value", "of the formula C3H8")]
    [InlineData("0.0441, \"source\": \"made up\"", "0.0441", "molarMass.source", "is missing")]
    [InlineData("0.0441, \"source\": \"made up\"", "0.0441, \"source\": \"elsewhere\"", "molarMass.source", "'elsewhere' is not among")]
    [InlineData("\"temperature\": 370", "\"temperature\": -370", "critical.temperature", "1 to 2000 K")]
    [InlineData("\"temperature\": 370", "\"temperature\": \"hot\"", "critical.temperature", "could not be converted")]
    [InlineData("\"temperature\": 370", "\"temperature\": 370, \"temperature\": 370", "critical.temperature", "Duplicate")]
    [InlineData("\"pressure\": 4.25e6", "\"pressure\": 42.5", "critical.pressure", "100000 to 1E+08 Pa")]
    [InlineData("\"molarDensity\": 5000", "\"molarDensity\": 3900", "critical.molarDensity", "compressibility factor of 0.3542")]
    [InlineData("\"molarDensity\": 5000", "\"molarDensity\": 8000", "critical.molarDensity", "compressibility factor of 0.1727")]
    [InlineData("\"molarDensity\": 5000", "\"molarDensity\": 0", "critical.molarDensity", "greater than zero")]
    [InlineData("0.152", "3", "acentricFactor.value", "-0.6 to 2")]
    [InlineData("0.152", "0.45", "normalBoilingPoint.temperature", "does not fit the critical point and acentric factor")]
    [InlineData("\"normalBoilingPoint\": { \"temperature\": 231", "\"normalBoilingPoint\": { \"temperature\": 371", "normalBoilingPoint.temperature", "below the critical temperature")]
    [InlineData("\"normalBoilingPoint\": { \"temperature\": 231", "\"normalBoilingPoint\": { \"temperature\": 84", "normalBoilingPoint.temperature", "below the triple temperature")]
    [InlineData("\"normalBoilingPoint\"", "\"sublimationPoint\": { \"temperature\": 86, \"source\": \"made up\" }, \"normalBoilingPoint\"", "sublimationPoint.temperature", "above the triple temperature")]
    [InlineData("\"temperature\": 85,", "\"temperature\": 0,", "triplePoint.temperature", "greater than zero")]
    [InlineData("\"temperature\": 85,", "\"temperature\": 380,", "triplePoint.temperature", "below the critical temperature")]
    [InlineData("0.0002", "5e6", "triplePoint.pressure", "below the critical pressure")]
    [InlineData("\"kind\": \"vibration\"", "\"kind\": \"wobble\"", "idealGasHeatCapacity.terms[1].kind", "'power', 'vibration' or 'twoLevel'")]
    [InlineData("\"kind\": \"vibration\", ", "", "idealGasHeatCapacity.terms[1].kind", "is missing")]
    [InlineData("\"weight\": 3, ", "", "idealGasHeatCapacity.terms[1].weight", "is missing")]
    [InlineData("\"weight\": 3, ", "\"weight\": 3, \"exponent\": 1, ", "idealGasHeatCapacity.terms[1].exponent", "does not belong")]
    [InlineData("\"temperature\": 400", "\"temperature\": -400", "idealGasHeatCapacity.terms[1].temperature", "greater than zero")]
    [InlineData("\"degeneracyRatio\": 2", "\"degeneracyRatio\": 0", "idealGasHeatCapacity.terms[2].degeneracyRatio", "greater than zero")]
    [InlineData("\"coefficient\": 4", "\"coefficient\": 1", "idealGasHeatCapacity.terms", "allowed is 2.5 to 200")]
    [InlineData("\"coefficient\": 4", "\"coefficient\": 250", "idealGasHeatCapacity.terms", "allowed is 2.5 to 200")]
    [InlineData("\"highestTemperature\": 600", "\"highestTemperature\": 80", "idealGasHeatCapacity.highestTemperature", "above lowestTemperature")]
    [InlineData("\"lowestTemperature\": 85,", "", "idealGasHeatCapacity.lowestTemperature", "is missing")]
    [InlineData("\"pengRobinson\": -4e-6", "\"pengRobinson\": -4", "volumeTranslation.pengRobinson", "m3/mol")]
    [InlineData("\"molarDensity\": 13170", "\"molarDensity\": 1317", "volumeTranslation.fittedTo.molarDensity", "above the critical molar density")]
    [InlineData("\"formula\"", "\"colour\": \"blue\", \"formula\"", "colour", "is not a field of the format")]
    public void ABrokenRuleNamesFileFieldAndRule(string old, string replacement, string field, string rule)
    {
        SubstanceDataException error =
            Assert.Throws<SubstanceDataException>(() => Substance.FromJson(Example.Json((old, replacement)), Example.File));
        Assert.Equal(Example.File, error.File);
        Assert.Equal(field, error.Field);
        Assert.Contains(rule, error.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void TextThatIsNotJsonNamesTheLine()
    {
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Substance.FromJson("{\n  \"name\" \"x\"\n}", "bad.json"));
        Assert.Equal("bad.json", error.File);
        Assert.Contains("(line 2)", error.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void NullIsNoSubstance()
    {
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Substance.FromJson("null", "bad.json"));
        Assert.Equal("(whole file)", error.Field);
    }

    [Fact]
    public void AMissingBlockIsNamed()
    {
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(
            () => Substance.FromJson("{ \"name\": \"x\", \"cas\": \"own/x\", \"sources\": {} }", "bad.json"));
        Assert.Equal("molarMass", error.Field);
        Assert.Equal("is missing", error.Rule);
    }

    [Fact]
    public void ASpellingOfAnotherAddedSubstanceIsRefused()
    {
        SubstanceCatalog first = SubstanceCatalog.Default.With(Substance.FromJson(Example.Json(), Example.File));
        Substance second = Substance.FromJson(Example.Json(("\"own/bench-fluid\"", "\"own/other\"")), "other.json");
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => first.With(second));
        Assert.Equal("other.json", error.File);
        Assert.Equal("name", error.Field);
        Assert.Contains("own/bench-fluid", error.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void AnOwnSubstanceMayCarryOwnQuantumParameters()
    {
        string text = Example.Json((
            "\"volumeTranslation\"",
            "\"quantumCorrection\": { \"covolumeNumerator\": 1, \"covolumeOffset\": 2, \"alphaL\": 0.4, \"alphaM\": 0.9, \"alphaN\": 0.8, "
            + "\"criticalTemperature\": 370, \"criticalPressure\": 4e6, \"source\": \"made up\" },\n\"stryjekVera\": { \"kappa1\": 0.03, "
            + "\"source\": \"made up\" },\n\"volumeTranslation\""));
        Substance fluid = Substance.FromJson(text, Example.File);
        Assert.Equal(0.9, fluid.QuantumCorrection!.AlphaM);
        Assert.Equal(0.03, fluid.StryjekVeraKappa1);
        Assert.Equal("invented for a test, no source", fluid.StryjekVeraProvenance!.Source.Publication);
    }
}
