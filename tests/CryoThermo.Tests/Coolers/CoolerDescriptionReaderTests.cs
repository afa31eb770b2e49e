using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using CryoThermo.Coolers;

namespace CryoThermo.Tests.Coolers;

public sealed class CoolerDescriptionReaderTests
{
    private static readonly string ExamplePath = Path.Combine(AppContext.BaseDirectory, "Coolers", "bench-cooler.json");
    private static readonly string Example = File.ReadAllText(ExamplePath);

    private static JsonObject GoodCooler() =>
        JsonNode.Parse(Example, documentOptions: new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip })!.AsObject();

    private static IReadOnlyList<DescriptionFault> FaultsOf(string json)
    {
        bool read = CoolerDescriptionReader.TryParse(json, "test.json", out CoolerDescription? description, out IReadOnlyList<DescriptionFault> faults);
        Assert.Equal(read, description is not null);
        Assert.Equal(read, faults.Count == 0);
        return faults;
    }

    private static string With(Action<JsonObject> change)
    {
        JsonObject cooler = GoodCooler();
        change(cooler);
        return cooler.ToJsonString();
    }

    /// <summary>Sets the member at a path such as "feeds[0].name" to a JSON value; an empty value removes it.</summary>
    private static string WithMember(string path, string value)
    {
        JsonObject cooler = GoodCooler();
        JsonNode node = cooler;
        string[] parts = path.Replace("[", ".", StringComparison.Ordinal).Replace("]", string.Empty, StringComparison.Ordinal).Split('.');
        foreach (string part in parts[..^1])
        {
            node = node is JsonArray list ? list[int.Parse(part, CultureInfo.InvariantCulture)]! : node[part]!;
        }

        if (value.Length == 0)
        {
            Assert.True(node.AsObject().Remove(parts[^1]), path);
        }
        else if (node is JsonArray items)
        {
            items[int.Parse(parts[^1], CultureInfo.InvariantCulture)] = JsonNode.Parse(value);
        }
        else
        {
            node[parts[^1]] = JsonNode.Parse(value);
        }

        return cooler.ToJsonString();
    }

    [Fact]
    public void TheBenchCoolerIsRead()
    {
        CoolerDescription cooler = CoolerDescriptionReader.Read(ExamplePath);
        Assert.Equal("Bench cooler for a gamma-ray detector and a small dewar", cooler.Title);
        Assert.Same(FluidModel.Recommended, cooler.Model);
        Assert.Equal(120, cooler.Altitude!.Value.Meters);
        Assert.Equal(GaugePressure.StandardAtmosphere(UnitsNet.Length.FromMeters(120)).Pascals, cooler.Atmosphere.Pascals);
        Assert.Equal(cooler.Atmosphere.Bars + 0.5, cooler.LowPressure.Absolute.Bars, 12);
        Assert.Equal(16, cooler.HighPressure.Reading.Bars, 12);
        Assert.Equal(MixtureBasis.MoleFraction, cooler.Charge.Basis);
        Assert.Equal(
            [("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.22), ("isobutane", 0.10)],
            cooler.Charge.Components.Select(component => (component.Substance, component.Amount)));
        Assert.Equal(293.15, cooler.AmbientTemperature.Kelvins, 9);
        Assert.Equal(297.15, cooler.WarmEndTemperature.Kelvins, 9);
        Assert.Null(cooler.PreCoolerOutletTemperature);
        Assert.Equal(12e-6 * 2900 / 60, cooler.Compressor.SweptVolumeFlow.CubicMetersPerSecond, 12); // 12 cm3, 2900 1/min
        Assert.Equal(0.60, cooler.Compressor.IsentropicEfficiency);
        Assert.Equal(0.75, cooler.Compressor.VolumetricEfficiency);
        Assert.Equal(388.15, cooler.Compressor.DischargeTemperatureLimit!.Value.Kelvins, 9);
        Assert.Equal(40, cooler.Recuperator.ConductanceWattsPerKelvin);
        Assert.Equal(0.1, cooler.Recuperator.LowSidePressureDrop.Bars, 12);
        Assert.Equal(0.2, cooler.Recuperator.HighSidePressureDrop.Bars, 12);
        Assert.Equal(4, (double)cooler.HeatLeak.Watts);
        Assert.Equal(105, cooler.Load.ColdTemperature.Kelvins);
        Assert.Equal(10, (double)cooler.Load.Demanded.Watts);
        Assert.Equal(90, cooler.CoolingCurve!.Lowest.Kelvins);
        Assert.Equal(200, cooler.CoolingCurve.Highest.Kelvins);
        Assert.Equal(["methane", "oxygen", "argon", "nitrogen", "air"], cooler.Feeds.Select(feed => feed.Name));
        Assert.All(cooler.Feeds, feed =>
        {
            Assert.Equal([new ComponentAmount(feed.Name, 1)], feed.Composition.Components);
            Assert.Equal(0.1, feed.LetDownPressure.Reading.Bars, 12);
            Assert.Equal(2, feed.CondensingApproach.Kelvins);
        });
        Assert.False(cooler.Surroundings.ColdEndOpenToRoomAir);
        Assert.True(cooler.Surroundings.FeedLinesOpenToRoomAir);
        Assert.True(cooler.Surroundings.ColdLiquidCanBeShutIn);
        Assert.Equal(20, cooler.Surroundings.HighPressureRelief!.Value.Reading.Bars, 12);
    }

    [Fact]
    public void TheExampleInTheDocumentationIsTheSameFile()
    {
        string page = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Coolers", "cooler-file.md"));
        int start = page.IndexOf("```json\n", StringComparison.Ordinal) + "```json\n".Length;
        int end = page.IndexOf("\n```", start, StringComparison.Ordinal);
        Assert.Equal(Example.Trim(), page[start..end].Trim());
    }

    [Fact]
    public void TheDocumentationNamesEveryUnitAndModel()
    {
        string page = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Coolers", "cooler-file.md"));
        IEnumerable<string> words =
        [
            .. CoolerDescriptionReader.ModelNames, .. UnitNames.Pressures.Names, .. UnitNames.Temperatures.Names, .. UnitNames.Powers.Names,
            .. UnitNames.Conductances.Names, .. UnitNames.Volumes.Names, .. UnitNames.Speeds.Names, .. UnitNames.VolumeFlows.Names,
            .. UnitNames.Lengths.Names, .. UnitNames.Areas.Names, .. UnitNames.Masses.Names,
        ];
        Assert.All(words, word => Assert.Contains($"`{word}`", page, StringComparison.Ordinal));
    }

    [Fact]
    public void OptionalPartsMayBeLeftOut()
    {
        CoolerDescription cooler = CoolerDescriptionReader.Parse(
            With(root =>
            {
                root.Remove("coolingCurve");
                root.Remove("feeds");
                root.Remove("surroundings");
                root["recuperator"]!.AsObject().Remove("lowSidePressureDrop");
                root["recuperator"]!.AsObject().Remove("highSidePressureDrop");
                root["compressor"]!.AsObject().Remove("dischargeTemperatureLimit");
            }),
            "test.json");
        Assert.Null(cooler.CoolingCurve);
        Assert.Empty(cooler.Feeds);
        Assert.Equal(new SurroundingsDescription(true, true, true, null), cooler.Surroundings);
        Assert.Equal(0, cooler.Recuperator.LowSidePressureDrop.Pascals);
        Assert.Equal(0, cooler.Recuperator.HighSidePressureDrop.Pascals);
        Assert.Null(cooler.Compressor.DischargeTemperatureLimit);
    }

    [Fact]
    public void BarometerAbsolutePressuresPreCoolerAndSweptFlowAreRead()
    {
        CoolerDescription cooler = CoolerDescriptionReader.Parse(
            With(root =>
            {
                root["atmosphere"] = JsonNode.Parse("""{ "barometer": { "value": 950, "unit": "mbar", "reference": "absolute" } }""");
                root["lowPressure"] = JsonNode.Parse("""{ "value": 22, "unit": "psi", "reference": "absolute" }""");
                root["preCoolerOutletTemperature"] = JsonNode.Parse("""{ "value": 0, "unit": "degC" }""");
                JsonObject compressor = root["compressor"]!.AsObject();
                compressor.Remove("displacementPerRevolution");
                compressor.Remove("speed");
                compressor["sweptVolumeFlow"] = JsonNode.Parse("""{ "value": 600, "unit": "cm3/s" }""");
            }),
            "test.json");
        Assert.Equal(95000, cooler.Atmosphere.Pascals, 6);
        Assert.Null(cooler.Altitude);
        Assert.Equal(151684.7, cooler.LowPressure.Absolute.Pascals, 0.1); // 1 psi = 6894.757 Pa by definition of the pound and inch
        Assert.Equal(273.15, cooler.WarmEndTemperature.Kelvins, 9);
        Assert.Equal(6e-4, cooler.Compressor.SweptVolumeFlow.CubicMetersPerSecond, 12);
        Assert.Null(cooler.Compressor.Speed);
    }

    [Theory]
    [InlineData("mole percent", "{ \"nitrogen\": 20, \"methane\": 80 }", MixtureBasis.MolePercent)]
    [InlineData("mass fraction", "{ \"nitrogen\": 0.2, \"methane\": 0.8 }", MixtureBasis.MassFraction)]
    [InlineData("partial pressure", "{ \"nitrogen\": 1.3, \"methane\": 2.2 }", MixtureBasis.PartialPressure)]
    public void EveryBasisIsReadAndKeptAsGiven(string word, string components, MixtureBasis basis)
    {
        CoolerDescription cooler = CoolerDescriptionReader.Parse(
            WithMember("charge", $"{{ \"basis\": \"{word}\", \"components\": {components} }}"), "test.json");
        Assert.Equal(basis, cooler.Charge.Basis);
        Assert.Equal(
            JsonNode.Parse(components)!.AsObject().Select(member => new ComponentAmount(member.Key, (double)member.Value!)),
            cooler.Charge.Components);
    }

    [Theory]
    [InlineData("0.1400001", true)] // sum 1.0000001
    [InlineData("0.1400011", false)] // sum 1.0000011
    [InlineData("0.1399989", false)]
    public void TheSumMayBeOffByOneInAMillion(string nitrogen, bool accepted) =>
        Assert.Equal(accepted ? [] : ["charge.components"], FaultsOf(WithMember("charge.components.nitrogen", nitrogen)).Select(fault => fault.Field));

    [Fact]
    public void AFeedMayHaveACompositionAndAnyName()
    {
        CoolerDescription cooler = CoolerDescriptionReader.Parse(
            WithMember(
                "feeds[0]",
                """
                {
                  "name": "pipeline gas",
                  "composition": { "basis": "mole percent", "components": { "methane": 95, "nitrogen": 5 } },
                  "letDownPressure": { "value": 1.2, "unit": "bar", "reference": "absolute" },
                  "condensingApproach": { "value": 3, "unit": "K" }
                }
                """),
            "test.json");
        Assert.Equal("pipeline gas", cooler.Feeds[0].Name);
        Assert.Equal([new("methane", 95), new("nitrogen", 5)], cooler.Feeds[0].Composition.Components);
        Assert.Equal(1.2, cooler.Feeds[0].LetDownPressure.Absolute.Bars, 12);
    }

    // path of the member that is changed, its new JSON text (empty: removed), the field that the only fault names, a part of its message
    public static TheoryData<string, string, string, string> BrokenFiles => new()
    {
        { "title", "", "title", "is missing" },
        { "title", "\"  \"", "title", "is blank" },
        { "title", "7", "title", "the number 7" },
        { "title", "null", "title", "is null" },
        { "", "1", "\"\"", "not a field" },
        { "titel", "\"x\"", "titel", "nearest one is \"title\"" },
        { "compressor.isentropicEficiency", "0.6", "compressor.isentropicEficiency", "nearest one is \"isentropicEfficiency\"" },
        { "compressor.isentropicEfficiency", "", "compressor.isentropicEfficiency", "is missing" },
        { "compressor.isentropicEfficiency", "60", "compressor.isentropicEfficiency", "is 60; allowed is above 0 to 1" },
        { "compressor.isentropicEfficiency", "0", "compressor.isentropicEfficiency", "above 0 to 1" },
        { "compressor.isentropicEfficiency", "\"0.6\"", "compressor.isentropicEfficiency", "without quotation marks" },
        { "compressor.volumetricEfficiency", "1.0001", "compressor.volumetricEfficiency", "is 1.0001" },
        { "compressor.volumetricEfficiency", "1e999", "compressor.volumetricEfficiency", "finite" },
        { "compressor.speed", "", "compressor.speed", "is missing" },
        { "compressor.speed.unit", "\"cm3\"", "compressor.speed.unit", "the unit of a volume" },
        { "compressor.speed.value", "-2900", "compressor.speed", "-2900 1/min; allowed is above 0 to 60000 1/min" },
        { "compressor.displacementPerRevolution.value", "0", "compressor.displacementPerRevolution", "0 cm3" },
        { "compressor.sweptVolumeFlow", "{ \"value\": 2, \"unit\": \"m3/h\" }", "compressor.sweptVolumeFlow", "beside" },
        { "compressor.dischargeTemperatureLimit.value", "20", "compressor.dischargeTemperatureLimit", "afterCoolerOutletTemperature" },
        { "compressor", "[]", "compressor", "is a list; expected is an object" },
        { "recuperator.conductance.value", "0", "recuperator.conductance", "0 W/K; allowed is above 0" },
        { "recuperator.conductance.unit", "\"W\"", "recuperator.conductance.unit", "the unit of a power" },
        { "recuperator.lowSidePressureDrop.reference", "\"gauge\"", "recuperator.lowSidePressureDrop.reference", "\"difference\"" },
        { "recuperator.lowSidePressureDrop.value", "-1", "recuperator.lowSidePressureDrop", "-1 mbar difference" },
        { "recuperator.highSidePressureDrop.value", "15.5", "recuperator.highSidePressureDrop", "to the throttle" },
        { "atmosphere.barometer", "{ \"value\": 1, \"unit\": \"bar\", \"reference\": \"absolute\" }", "atmosphere", "both" },
        { "atmosphere.altitude", "", "atmosphere", "neither" },
        { "atmosphere", "", "atmosphere", "is missing" },
        { "atmosphere.altitude.value", "9001", "atmosphere.altitude", "9001 m; allowed is -500 to 9000 m" },
        { "atmosphere.altitude.reference", "\"gauge\"", "atmosphere.altitude.reference", "not a field" },
        { "atmosphere", "{ \"barometer\": { \"value\": 1013, \"unit\": \"bar\", \"reference\": \"absolute\" } }", "atmosphere.barometer", "1013 bar" },
        { "atmosphere", "{ \"barometer\": { \"value\": 0, \"unit\": \"bar\", \"reference\": \"gauge\" } }", "atmosphere.barometer.reference", "\"absolute\"" },
        { "model", "\"ideal gas\"", "model", "\"recommended\", \"multi-fluid\", \"peng-robinson\", \"soave-redlich-kwong\", \"peng-robinson-quantum-corrected\"" },
        { "charge.basis", "\"moles\"", "charge.basis", "\"mole fraction\"" },
        { "charge.basis", "\"mole percent\"", "charge.components", "expected is 100" },
        { "charge.components", "{}", "charge.components", "is empty" },
        { "charge.components.argon", "0.1", "charge.components", "sums to 1.1" },
        { "charge.components.methane", "-0.3", "charge.components.methane", "is -0.3; allowed is zero or more" },
        { "charge.components.phlogiston", "0", "charge.components.phlogiston", "not a substance" },
        { "charge.components.R-50", "0", "charge.components.R-50", "same substance as methane" },
        { "charge.components.Methane", "0", "charge.components.Methane", "same substance as methane" },
        { "charge.components.methane", "\"0.3\"", "charge.components.methane", "without quotation marks" },
        { "charge", "{ \"basis\": \"partial pressure\", \"components\": { \"argon\": 0 } }", "charge.components", "above 0" },
        { "lowPressure.reference", "", "lowPressure.reference", "\"gauge\", \"absolute\"" },
        { "lowPressure.reference", "\"difference\"", "lowPressure.reference", "\"gauge\", \"absolute\"" },
        { "lowPressure.unit", "\"Bar\"", "lowPressure.unit", "nearest \"bar\"" },
        { "lowPressure.unit", "\"g/s\"", "lowPressure.unit", "the unit of a mass flow" },
        { "lowPressure.unit", "", "lowPressure.unit", "is missing" },
        { "lowPressure.value", "", "lowPressure.value", "is missing" },
        { "lowPressure.value", "-1.01", "lowPressure", "below vacuum" },
        { "lowPressure.value", "1e300", "lowPressure.value", "finite" },
        { "lowPressure.value", "16", "highPressure", "must be above lowPressure" },
        { "lowPressure.value", "17", "highPressure", "16 bar gauge" },
        { "lowPressure", "1.5", "lowPressure", "the number 1.5; expected is an object" },
        { "ambientTemperature.value", "-273.15", "ambientTemperature", "allowed is above 0 to 1000 K" },
        { "ambientTemperature.unit", "\"W/K\"", "ambientTemperature.unit", "the unit of a thermal conductance" },
        { "afterCoolerOutletTemperature.value", "-170", "afterCoolerOutletTemperature", "above the cold end" },
        { "preCoolerOutletTemperature", "{ \"value\": 25, \"unit\": \"degC\" }", "preCoolerOutletTemperature", "not be above afterCoolerOutletTemperature" },
        { "load.temperature.value", "400", "load.temperature", "below the warm end" },
        { "load.temperature.value", "0", "load.temperature", "0 K; allowed is 15 to 1000 K" },
        { "load.power.value", "-10", "load.power", "-10 W; allowed is 0 to" },
        { "load.power.unit", "\"K\"", "load.power.unit", "the unit of a temperature" },
        { "heatLeak.value", "true", "heatLeak.value", "is true; expected is a number" },
        { "coolingCurve.highest.value", "90", "coolingCurve.highest", "above coolingCurve.lowest" },
        { "coolingCurve.highest.value", "298", "coolingCurve.highest", "not be above the warm end" },
        { "coolingCurve.lowest", "", "coolingCurve.lowest", "is missing" },
        { "feeds", "{}", "feeds", "a list in brackets" },
        { "feeds[1]", "\"oxygen\"", "feeds[1]", "expected is an object" },
        { "feeds[1].name", "\"pipeline gas\"", "feeds[1].name", "not a substance" },
        { "feeds[1].name", "\"methane\"", "feeds[1].name", "as another feed" },
        { "feeds[1].composition", "{ \"basis\": \"mole fraction\", \"components\": { \"oxygen\": 0.9 } }", "feeds[1].composition.components", "sums to 0.9" },
        { "feeds[2].letDownPressure", "", "feeds[2].letDownPressure", "is missing" },
        { "feeds[2].letDownPressure.value", "-2", "feeds[2].letDownPressure", "below vacuum" },
        { "feeds[2].condensingApproach.value", "0", "feeds[2].condensingApproach", "above 0 to 100 K" },
        { "feeds[2].condensingApproach.unit", "\"degC\"", "feeds[2].condensingApproach.unit", "the unit of a temperature" },
        { "surroundings.coldEndOpenToRoomAir", "\"no\"", "surroundings.coldEndOpenToRoomAir", "true or false" },
        { "surroundings.coldEndOpen", "true", "surroundings.coldEndOpen", "nearest one is \"coldEndOpenToRoomAir\"" },
        { "surroundings.highPressureRelief.reference", "", "surroundings.highPressureRelief.reference", "is missing" },
    };

    [Theory]
    [MemberData(nameof(BrokenFiles))]
    public void ABrokenFileNamesTheFieldOnce(string path, string value, string field, string message)
    {
        DescriptionFault fault = Assert.Single(FaultsOf(WithMember(path, value)));
        Assert.Equal(field, fault.Field);
        Assert.Contains(message, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ALoadBetweenPreCoolerAndAfterCoolerIsTooWarm()
    {
        DescriptionFault fault = Assert.Single(FaultsOf(With(root =>
        {
            root["preCoolerOutletTemperature"] = JsonNode.Parse("""{ "value": 150, "unit": "K" }""");
            root["load"]!["temperature"]!["value"] = 160;
            root.Remove("coolingCurve");
        })));
        Assert.Equal("load.temperature", fault.Field);
        Assert.Contains("preCoolerOutletTemperature, 150 K", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AMemberGivenTwiceIsAFault()
    {
        string json = Example.Replace("\"methane\": 0.30,", "\"methane\": 0.30, \"methane\": 0.30,", StringComparison.Ordinal);
        DescriptionFault fault = Assert.Single(FaultsOf(json));
        Assert.Equal("charge.components.methane", fault.Field);
        Assert.Contains("given twice", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AllFaultsAreReportedAtOnce()
    {
        string json = With(root =>
        {
            root.Remove("title");
            root["model"] = "ideal gas";
            root["charge"]!["components"]!["methane"] = 0.4;
            root["lowPressure"]!["value"] = 20;
            root["compressor"]!["isentropicEfficiency"] = 1.2;
            root["heatLeak"]!["unit"] = "bar";
            root["feeds"]![3]!["name"] = "phlogiston";
            root["extra"] = 1;
        });
        CoolerDescriptionException error = Assert.Throws<CoolerDescriptionException>(() => CoolerDescriptionReader.Parse(json, "many.json"));
        Assert.Equal("many.json", error.FileName);
        Assert.Equal(
            [
                "charge.components", "compressor.isentropicEfficiency", "extra", "feeds[3].name", "heatLeak.unit", "highPressure", "model", "title",
            ],
            error.Faults.Select(fault => fault.Field).Order(StringComparer.Ordinal));
        Assert.StartsWith("many.json: 8 faults", error.Message, StringComparison.Ordinal);
        Assert.All(error.Faults, fault => Assert.Contains($"{fault.Field}: {fault.Message}", error.Message, StringComparison.Ordinal));
    }

    [Fact]
    public void TheMessageShownInTheDocumentationIsReal()
    {
        string page = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Coolers", "cooler-file.md"));
        string json = With(root =>
        {
            root["highPressure"]!.AsObject().Remove("reference");
            root["compressor"]!["isentropicEfficiency"] = 60;
        });
        CoolerDescriptionException error = Assert.Throws<CoolerDescriptionException>(() => CoolerDescriptionReader.Parse(json, "bench-cooler.json"));
        Assert.Contains(error.Message.ReplaceLineEndings("\n"), page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{\n  \"title\": \"x\"\n  \"model\": \"y\"\n}", "line 3, position 3")]
    [InlineData("{\n  \"title\": NaN\n}", "line 2, position 12")]
    [InlineData("", "line 1, position 1")]
    public void ASyntaxErrorTellsLineAndPosition(string json, string place)
    {
        CoolerDescriptionException error = Assert.Throws<CoolerDescriptionException>(() => CoolerDescriptionReader.Parse(json, "bad.json"));
        DescriptionFault fault = Assert.Single(error.Faults);
        Assert.Equal("(file)", fault.Field);
        Assert.Contains(place, fault.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("LineNumber", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[1, 2]")]
    [InlineData("null")]
    [InlineData("\"text\"")]
    public void AFileThatIsNotAnObjectIsOneFault(string json) => Assert.Equal("(file)", Assert.Single(FaultsOf(json)).Field);

    [Theory]
    [InlineData("{ \"title\": \"\\ud800\" }")]
    [InlineData("{ \"\\ud800\": 1 }")]
    public void AnEscapedHalfOfASurrogatePairIsAFault(string json) =>
        Assert.Contains(FaultsOf(json), fault => fault.Message.Contains("not valid text", StringComparison.Ordinal));

    [Fact]
    public void ABareHalfOfASurrogatePairIsAFault()
    {
        string json = $"{{ \"title\": \"{(char)0xD800}\" }}";
        DescriptionFault fault = Assert.Single(FaultsOf(json));
        Assert.Equal("(file)", fault.Field);
        Assert.Contains("not valid text", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AMissingFileIsAFaultOfTheFile()
    {
        CoolerDescriptionException error = Assert.Throws<CoolerDescriptionException>(
            () => CoolerDescriptionReader.Read(Path.Combine(AppContext.BaseDirectory, "no-such-cooler.json")));
        Assert.Equal("no-such-cooler.json", error.FileName);
        Assert.Equal("(file)", Assert.Single(error.Faults).Field);
    }

    [Fact]
    public void WhichSubstancesAreKnownCanBeChosen()
    {
        string json = WithMember("charge", "{ \"basis\": \"mole fraction\", \"components\": { \"phlogiston\": 1 } }");
        CoolerDescription cooler = CoolerDescriptionReader.Parse(json, "test.json", _ => true);
        Assert.Equal([new ComponentAmount("phlogiston", 1)], cooler.Charge.Components);

        CoolerDescriptionException error = Assert.Throws<CoolerDescriptionException>(
            () => CoolerDescriptionReader.Parse(Example, "test.json", name => name != "isobutane"));
        Assert.Equal("charge.components.isobutane", Assert.Single(error.Faults).Field);
    }

    [Fact]
    public void RandomMutationsGiveADescriptionOrFaults()
    {
        Random random = new(20240607);
        int read = 0, refused = 0;
        for (int i = 0; i < 2000; i++)
        {
            string json = i % 2 == 0 ? MutateText(random) : MutateValues(random);
            try
            {
                CoolerDescription cooler = CoolerDescriptionReader.Parse(json, "mutant.json");
                Assert.True(cooler.HighPressure.Absolute.Pascals > cooler.LowPressure.Absolute.Pascals);
                Assert.True(cooler.Load.ColdTemperature.Kelvins < cooler.WarmEndTemperature.Kelvins);
                read++;
            }
            catch (CoolerDescriptionException error)
            {
                Assert.NotEmpty(error.Faults);
                Assert.All(error.Faults, fault => Assert.True(fault.Field.Length > 0 && fault.Message.Length > 0));
                refused++;
            }
        }

        // Both outcomes must occur often, or the mutations test nothing.
        Assert.True(read > 50 && refused > 500, $"{read} read, {refused} refused");
    }

    private static string MutateText(Random random)
    {
        List<char> text = [.. Example];
        const string Alphabet = "{}[]\",:.-+eE0123456789 \n\\/untrfalsK\u0000\ud800\u00b0";
        for (int n = random.Next(1, 4); n > 0; n--)
        {
            int at = random.Next(text.Count);
            switch (random.Next(4))
            {
                case 0:
                    text.RemoveAt(at);
                    break;
                case 1:
                    text.Insert(at, Alphabet[random.Next(Alphabet.Length)]);
                    break;
                case 2:
                    text[at] = Alphabet[random.Next(Alphabet.Length)];
                    break;
                default:
                    text.RemoveRange(at, Math.Min(random.Next(1, 30), text.Count - at));
                    text.Add(' ');
                    break;
            }
        }

        return string.Concat(text);
    }

    private static string MutateValues(Random random)
    {
        string[] values =
        [
            "null", "true", "[]", "{}", "\"\"", "\"bar\"", "\"K\"", "\"gauge\"", "\"absolute\"", "0", "-1", "1", "1e-320", "1e308", "-1e308", "1e999",
            "1e15", "-1e15", "-273.15", "7.9e28", "[[1]]", "{ \"value\": 1, \"unit\": \"bar\", \"reference\": \"absolute\" }",
            "{ \"value\": 200, \"unit\": \"K\" }", "\"half\"", "\"\\u0000\"",
        ];
        JsonObject root = GoodCooler();
        for (int n = random.Next(1, 4); n > 0; n--)
        {
            JsonNode node = root;
            while (true)
            {
                int count = node is JsonArray list ? list.Count : node.AsObject().Count;
                if (count == 0)
                {
                    break;
                }

                int at = random.Next(count);
                string? key = node is JsonObject parent ? parent.ElementAt(at).Key : null;
                JsonNode? child = key is null ? node[at] : node[key];
                if (child is JsonObject or JsonArray && random.Next(6) > 0)
                {
                    node = child;
                    continue;
                }

                if (key is not null && random.Next(4) == 0)
                {
                    node.AsObject().Remove(key);
                }
                else if (child is JsonValue number && number.GetValueKind() == JsonValueKind.Number && random.Next(2) == 0)
                {
                    JsonNode scaled = JsonValue.Create(Math.Clamp((double)number * (0.5 + random.NextDouble()), -1e308, 1e308)); // the writer takes no infinity
                    if (key is null)
                    {
                        node[at] = scaled;
                    }
                    else
                    {
                        node[key] = scaled;
                    }
                }
                else if (key is null)
                {
                    node[at] = JsonNode.Parse(values[random.Next(values.Length)]);
                }
                else
                {
                    node[key] = JsonNode.Parse(values[random.Next(values.Length)]);
                }

                break;
            }
        }

        // Half of a surrogate pair cannot pass through the writer, so it is put in afterwards.
        return root.ToJsonString().Replace("\"half\"", "\"\\ud800\"", StringComparison.Ordinal);
    }
}
