using System.Text.Json.Nodes;
using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

public sealed class StructuralValidatorTests
{
    public static TheoryData<string> ShippedFiles => [.. DataFiles.Substances];

    /// <summary>Path in the file, the value planted there (null: removed), the check that must find it and the field it must name.</summary>
    public static TheoryData<string, string, string?, string, string> PlantedFaults => new()
    {
        { "nitrogen", "equations/0/gasConstant", "8.33", "gas constant", "equations[0].gasConstant" },
        { "nitrogen", "equations/0/gasConstant", "1.98721", "gas constant", "equations[0].gasConstant" },
        { "nitrogen", "equations/0/molarMass", "0.0281", "molar mass", "equations[0].molarMass" },
        { "nitrogen", "equations/1/reducing/temperature", "140", "reducing point", "equations[1].reducing.temperature" },
        { "nitrogen", "equations/0/reducing/molarDensity", "313.3", "reducing point", "equations[0].reducing.molarDensity" },
        { "nitrogen", "equations/0/criticalPoint/temperature", "128.2", "critical point", "equations[0].criticalPoint.temperature" },
        { "nitrogen", "equations/0/criticalPoint/pressure", "3395.8", "critical point", "equations[0].criticalPoint.pressure" },
        { "nitrogen", "equations/0/criticalPoint/molarDensity", "7000", "critical point", "equations[0].criticalPoint.molarDensity" },
        { "nitrogen", "equations/0/triplePoint/temperature", "136.151", "triple point", "equations[0].triplePoint.temperature" },
        { "nitrogen", "equations/0/triplePoint/temperature", "65", "triple point", "equations[0].triplePoint.temperature" },
        { "nitrogen", "equations/0/triplePoint/pressure", "1.25e7", "triple point", "equations[0].triplePoint.pressure" },
        { "nitrogen", "equations/0/range/lowestTemperature", "163", "range", "equations[0].range.lowestTemperature" },
        { "nitrogen", "equations/0/range/highestTemperature", "100", "range", "equations[0].range.highestTemperature" },
        { "nitrogen", "equations/0/range/highestPressure", "2200", "range", "equations[0].range.highestPressure" },
        { "nitrogen", "equations/0/range/highestMolarDensity", "53.15", "range", "equations[0].range.highestMolarDensity" },
        { "nitrogen", "equations/0/range/highestMolarDensity", "5.315e7", "range", "equations[0].range.highestMolarDensity" },
        { "nitrogen", "equations/0/uncertainty", "{}", "uncertainty", "equations[0].uncertainty" },
        { "nitrogen", "equations/0/densityTerms", "[]", "terms", "equations[0].densityTerms" },
        { "nitrogen", "equations/0/densityTerms", null, "terms", "equations[0].densityTerms" },
        { "nitrogen", "equations/0/densityTerms/3/coefficient", "0", "terms", "equations[0].densityTerms[3].coefficient" },
        { "nitrogen", "equations/0/densityTerms/3/densityExponent", "-1", "terms", "equations[0].densityTerms[3].densityExponent" },
        { "nitrogen", "equations/0/densityTerms/3/temperatureExponent", "-30", "terms", "equations[0].densityTerms[3].temperatureExponent" },
        { "nitrogen", "equations/0/densityTerms/1/temperatureExponent", "0.25", "terms", "equations[0].densityTerms[1]" },
        { "nitrogen", "equations/0/densityTerms/0/densityExponent", "0", "zero-density limit", "equations[0].densityTerms" },
        { "nitrogen", "equations/0/bellTerms/0/coefficient", "0", "terms", "equations[0].bellTerms[0].coefficient" },
        { "nitrogen", "equations/0/bellTerms/0/densitySharpness", "-20", "terms", "equations[0].bellTerms[0].densitySharpness" },
        { "nitrogen", "equations/0/bellTerms/1/temperatureSharpness", "0", "terms", "equations[0].bellTerms[1].temperatureSharpness" },
        { "nitrogen", "equations/0/bellTerms/1/densityCenter", "325", "terms", "equations[0].bellTerms[1].densityCenter" },
        { "nitrogen", "equations/0/bellTerms/1/temperatureCenter", "325", "terms", "equations[0].bellTerms[1].temperatureCenter" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/coefficient", "0", "terms", "equations[0].criticalTerms[0].coefficient" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/distanceExponent", "0", "terms", "equations[0].criticalTerms[0].distanceExponent" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/exponent", "0.3", "terms", "equations[0].criticalTerms[0].exponent" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/curveExponent", "3", "terms", "equations[0].criticalTerms[0].curveExponent" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/curveWeight", "-0.7", "terms", "equations[0].criticalTerms[0].curveWeight" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/distanceWeight", "0", "terms", "equations[0].criticalTerms[0].distanceWeight" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/densitySharpness", "0", "terms", "equations[0].criticalTerms[0].densitySharpness" },
        { "carbon-dioxide", "equations/0/criticalTerms/0/temperatureSharpness", "-275", "terms", "equations[0].criticalTerms[0].temperatureSharpness" },
        { "nitrogen", "equations/0/idealGas/terms/0/coefficient", "3.5", "ideal gas", "equations[0].idealGas.terms" },
        { "nitrogen", "equations/0/idealGas/terms/0/coefficient", "1.0", "ideal gas", "equations[0].idealGas.terms" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/terms", "[]", "saturation curves", "equations[0].saturationCurves.vaporPressure.terms" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/lowestTemperature", "150", "saturation curves", "equations[0].saturationCurves.vaporPressure.lowestTemperature" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/highestTemperature", "150", "saturation curves", "equations[0].saturationCurves.vaporPressure.highestTemperature" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/terms/0/coefficient", "6.12", "saturation curves", "equations[0].saturationCurves.vaporPressure" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/reducingValue", "3.3958", "saturation curves", "equations[0].saturationCurves.vaporPressure" },
        { "nitrogen", "equations/0/saturationCurves/liquidDensity/terms/0/coefficient", "-1.48", "saturation curves", "equations[0].saturationCurves.liquidDensity" },
        { "nitrogen", "equations/0/saturationCurves/vaporDensity/terms/2/coefficient", "30", "saturation curves", "equations[0].saturationCurves.vaporDensity" },
        { "nitrogen", "equations/0/saturationCurves/vaporDensity/reducingValue", "400000", "saturation curves", "equations[0].saturationCurves.liquidDensity" },
        { "nitrogen", "equations/0/saturationCurves/melting/terms/0/coefficient", "-12798.61", "saturation curves", "equations[0].saturationCurves.melting" },
        { "nitrogen", "equations/0/saturationCurves/sublimation/highestTemperature", "70", "saturation curves", "equations[0].saturationCurves.sublimation.highestTemperature" },
        { "nitrogen", "equations/0/saturationCurves/sublimation/reducingValue", "12000", "saturation curves", "equations[0].saturationCurves.sublimation" },
        { "ethylene", "equations/1/saturationCurves/liquidDensity/terms/0/coefficient", "-20", "saturation curves", "equations[1].saturationCurves.liquidDensity" },
        { "air", "equations/0/saturationCurves/dewPressure", null, "saturation curves", "equations[0].saturationCurves.dewPressure" },
        { "air", "equations/0/saturationCurves/bubblePressure", null, "saturation curves", "equations[0].saturationCurves.bubblePressure" },
        { "air", "equations/0/saturationCurves/dewPressure/reducingValue", "5.0e6", "saturation curves", "equations[0].saturationCurves.bubblePressure" },
        { "argon", "equations/0/spinOffsets", "{ \"enthalpy\": 1, \"entropy\": 0, \"source\": \"constants\" }", "spin offsets", "equations[0].spinOffsets" },
        { "nitrogen", "equations/0/densityTerms/3/decayExponent", "8", "file format", "equations[0].densityTerms[3].decayExponent" },
        { "nitrogen", "equations/0/densityTerms/3/decayExponent", "1.5", "file format", "equations[0].densityTerms[3].decayExponent" },
        { "nitrogen", "equations/0/densityTerms/3/coefficient", null, "file format", "equations[0].densityTerms[3].coefficient" },
        { "nitrogen", "equations/0/densityTerms/3/coefficient", "\"2\"", "file format", "equations[0].densityTerms[3].coefficient" },
        { "nitrogen", "equations/0/densityTerms/3/power", "2", "file format", "equations[0].densityTerms[3].power" },
        { "nitrogen", "equations/0/densityTerms/3", "null", "file format", "equations[0].densityTerms[3]" },
        { "nitrogen", "equations/0/standard", "\"best\"", "file format", "equations[0].standard" },
        { "nitrogen", "equations/0/source", "\"elsewhere\"", "file format", "equations[0].source" },
        { "nitrogen", "equations/0/gasConstant", null, "file format", "equations[0].gasConstant" },
        { "nitrogen", "equations/0/reducing/temperature", "-126", "file format", "equations[0].reducing.temperature" },
        { "nitrogen", "equations/0/criticalPoint", null, "file format", "equations[0].criticalPoint" },
        { "nitrogen", "equations/0/pseudoPure", "true", "file format", "equations[0].saturationCurves.vaporPressure" },
        { "air", "equations/0/pseudoPure", "false", "file format", "equations[0].saturationCurves.bubblePressure" },
        { "nitrogen", "equations/0/remarks/0", "\" \"", "file format", "equations[0].remarks[0]" },
        { "nitrogen", "equations/0/idealGas/form", "\"entropy\"", "file format", "equations[0].idealGas.form" },
        { "nitrogen", "equations/0/idealGas/terms", "[]", "file format", "equations[0].idealGas.terms" },
        { "nitrogen", "equations/0/idealGas/terms/0/kind", "\"wobble\"", "file format", "equations[0].idealGas.terms[0].kind" },
        { "nitrogen", "equations/0/idealGas/terms/0/weight", "1", "file format", "equations[0].idealGas.terms[0].weight" },
        { "nitrogen", "equations/1/idealGas/terms/0/kind", "\"logarithm\"", "file format", "equations[1].idealGas.terms[0].kind" },
        { "air", "equations/0/idealGas/terms/7/factor", "-3", "file format", "equations[0].idealGas.terms[7].factor" },
        { "air", "equations/0/idealGas/terms/7/constant", "0", "file format", "equations[0].idealGas.terms[7].factor" },
        { "oxygen", "equations/0/idealGas/terms/4/constant", "-0.6", "file format", "equations[0].idealGas.terms[4].factor" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/form", "\"polynomial\"", "file format", "equations[0].saturationCurves.vaporPressure.form" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/shiftedTerms", "[{ \"coefficient\": 1, \"exponent\": 1 }]", "file format", "equations[0].saturationCurves.vaporPressure.shiftedTerms" },
        { "nitrogen", "equations/0/saturationCurves/vaporPressure/logarithmicCoefficient", "1", "file format", "equations[0].saturationCurves.vaporPressure.logarithmicCoefficient" },
    };

    [Theory]
    [MemberData(nameof(ShippedFiles))]
    public void NothingIsFoundInAShippedFile(string file)
    {
        ValidationReport report = StructuralValidator.Validate(DataFiles.ReadText(file), file);
        Assert.True(report.IsValid, report.ToString());
        Assert.Equal(file, report.Subject);
        Assert.True(report.Checks.Count > 10);
        Assert.True(StructuralValidator.Validate(SubstanceCatalog.Default.All.Single(s => s.FileName == file)).IsValid);
    }

    [Theory]
    [MemberData(nameof(PlantedFaults))]
    public void APlantedFaultIsFoundAndNamed(string substance, string path, string? value, string check, string subject)
    {
        string text = Planted(substance, path, value);
        ValidationReport report = StructuralValidator.Validate(text, "planted.json");
        Assert.False(report.IsValid);
        ValidationFinding? finding = report.Findings.FirstOrDefault(f => f.Check == check && f.Subject == subject);
        Assert.True(finding is not null, report.ToString());
        Assert.Contains(subject, finding.Message, StringComparison.Ordinal);
        Assert.NotEmpty(finding.Value);
        Assert.NotEmpty(finding.Allowed);
        Assert.Contains(check, report.Checks);
        Assert.Contains(finding.Message, report.ToString(), StringComparison.Ordinal);

        // Reading refuses the same file; it names the first finding.
        SubstanceDataException error = Assert.Throws<SubstanceDataException>(() => Substance.FromJson(text, "planted.json"));
        Assert.Equal(report.Findings[0].Subject, error.Field);
    }

    [Fact]
    public void EveryCheckHasAPlantedFault()
    {
        IEnumerable<string> planted = PlantedFaults.Select(fault => (string)fault[3]).Distinct();
        Assert.Equal(EquationRules.Names.Append("file format").Order(StringComparer.Ordinal), planted.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void AllFaultsOfAFileAreReportedTogether()
    {
        JsonNode file = JsonNode.Parse(DataFiles.ReadText("nitrogen.json"))!;
        file["equations"]![0]!["gasConstant"] = 8.4;
        file["equations"]![0]!["bellTerms"]![0]!["densitySharpness"] = 0;
        file["equations"]![1]!["range"]!["highestTemperature"] = 60;
        ValidationReport report = StructuralValidator.Validate(file.ToJsonString(), "three.json");
        Assert.Equal(
            ["equations[0].gasConstant", "equations[0].bellTerms[0].densitySharpness", "equations[1].range.highestTemperature"],
            report.Findings.Select(f => f.Subject));
        Assert.StartsWith("three.json: 13 checks, 3 findings", report.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void TextThatIsNoSubstanceFileIsAFindingToo()
    {
        ValidationReport report = StructuralValidator.Validate("[1, 2]", "list.json");
        Assert.Equal("(whole file)", Assert.Single(report.Findings).Subject);
        Assert.False(StructuralValidator.Validate("{", "broken.json").IsValid);
    }

    private static string Planted(string substance, string path, string? value)
    {
        JsonNode file = JsonNode.Parse(DataFiles.ReadText(substance + ".json"))!;
        string[] steps = path.Split('/');
        JsonNode node = file;
        foreach (string step in steps[..^1])
        {
            node = node is JsonArray list ? list[int.Parse(step, System.Globalization.CultureInfo.InvariantCulture)]! : node[step]!;
        }

        JsonNode? planted = value is null ? null : JsonNode.Parse(value);
        if (node is JsonArray array)
        {
            array[int.Parse(steps[^1], System.Globalization.CultureInfo.InvariantCulture)] = planted;
        }
        else if (value is null)
        {
            Assert.True(node.AsObject().Remove(steps[^1]));
        }
        else
        {
            node[steps[^1]] = planted;
        }

        return file.ToJsonString();
    }
}
