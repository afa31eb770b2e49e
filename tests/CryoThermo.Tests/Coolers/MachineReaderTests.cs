using System.Text.Json.Nodes;
using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Flow;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Coolers;

public sealed class MachineReaderTests
{
    // Every object of the format, where the bench cooler's machine leaves it out. Made up.
    private const string Whole =
        """
        {
          "charge": { "mass": { "value": 40, "unit": "g" } },
          "compressor": {
            "clearanceFraction": 0.03, "leakFraction": 0.04, "suctionHeatingFactor": 0.9,
            "efficiencyAtPressureRatio": [ { "pressureRatio": 4, "efficiency": 0.62 }, { "pressureRatio": 12, "efficiency": 0.55 } ]
          },
          "afterCooling": { "aboveRoom": { "value": 7, "unit": "K" } },
          "preCooler": { "outletTemperature": { "value": -20, "unit": "degC" } },
          "recuperator": {
            "tubes": {
              "length": { "value": 6, "unit": "m" },
              "tube": { "outerDiameter": { "value": 3, "unit": "mm" }, "wall": { "value": 0.5, "unit": "mm" }, "material": "copper RRR 50" },
              "shell": { "outerDiameter": { "value": 12, "unit": "mm" }, "wall": { "value": 1, "unit": "mm" }, "material": "Stainless Steel 304" },
              "tubeCount": 4,
              "coilDiameter": { "value": 150, "unit": "mm" },
              "highPressureInTubes": false
            }
          },
          "throttle": [
            { "valve": { "flowCoefficientCv": 0.0578, "style": "ball valve" } },
            { "capillary": { "bore": { "value": 0.8, "unit": "mm" }, "length": { "value": 2, "unit": "m" } } }
          ],
          "spaces": [
            { "name": "shell", "volume": { "value": 1.5, "unit": "L" }, "place": "suction" },
            { "name": "line", "volume": { "value": 50, "unit": "cm3" }, "place": "throttle inlet" }
          ],
          "insulation": [
            { "name": "wires", "heat": { "value": 300, "unit": "mW" } },
            { "name": "foam", "foam": { "insulation": "Polyurethane foam, 32 kg/m3", "area": { "value": 400, "unit": "cm2" }, "thickness": { "value": 60, "unit": "mm" } } },
            { "name": "posts", "bars": { "material": "stainless steel 304", "length": { "value": 100, "unit": "mm" }, "crossSection": { "value": 7, "unit": "mm2" }, "count": 3 } }
          ],
          "uncertainty": {
            "throttleBore": { "value": 0.03, "unit": "mm" }, "fillingFraction": 0.01, "conductanceFactor": 1.2, "leakFactor": 1.5,
            "ambientDifference": { "value": 3, "unit": "K" }, "compressorFlowFactor": 1.05, "modelFraction": 0.04, "differencesByModel": "soave-redlich-kwong"
          }
        }
        """;

    private static JsonObject WholeMachine() => JsonNode.Parse(Whole)!.AsObject();

    private static JsonObject With(Action<JsonObject> change) => BenchCoolerFile.With(file =>
    {
        file["model"] = "peng-robinson";
        change(file["machine"]!.AsObject());
    });

    private static JsonObject WithWhole(Action<JsonObject> change)
    {
        JsonObject machine = WholeMachine();
        change(machine);
        return BenchCoolerFile.With(file =>
        {
            file["model"] = "peng-robinson";
            file["machine"] = machine;
        });
    }

    private static IReadOnlyList<DescriptionFault> FaultsOf(JsonObject file)
    {
        Assert.Equal(
            CoolerDescriptionReader.TryParse(file.ToJsonString(), "test.json", out CoolerDescription? _, out IReadOnlyList<DescriptionFault> faults), faults.Count == 0);
        return faults;
    }

    private static MachineDescription Machine(JsonObject file) => BenchCoolerFile.Describe(file).Machine!;

    [Fact]
    public void AFileMayHaveNoMachine() => Assert.Null(BenchCoolerFile.Describe(BenchCoolerFile.With(file => file.Remove("machine"))).Machine);

    [Fact]
    public void WhatAMachineLeavesOutIsTakenFromTheDesign()
    {
        CoolerDescription file = BenchCoolerFile.Describe(With(_ => { }));
        Cooler cooler = file.Machine!.ToCooler();
        State suction = WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(300), Pressure.FromBars(1.5));
        CompressorResult result = cooler.Compressor.Compress(suction, Pressure.FromBars(9));
        Assert.Equal(file.Compressor.SweptVolumeFlow, cooler.Compressor.SweptVolumeFlow);
        Assert.Equal(file.Compressor.IsentropicEfficiency, result.IsentropicEfficiency, 12);
        Assert.Equal(file.Compressor.VolumetricEfficiency, result.VolumetricEfficiency, 12);
        Assert.Equal(file.Compressor.ShellHeatLossFraction, cooler.Compressor.ShellHeatLossFraction);
        Assert.Equal(file.AfterCoolerOutletTemperature.Kelvins, cooler.AfterCooling.OutletTemperature(result.Discharge, 1, file.AmbientTemperature.Kelvins), 9);
        Assert.Null(cooler.PreCooling);
        Assert.Equal(file.Recuperator.ConductanceWattsPerKelvin, cooler.Recuperator.ConductanceWattsPerKelvin);
        Assert.Equal(file.Recuperator.HighSidePressureDrop, cooler.Recuperator.HighSidePressureDrop);
        Assert.Equal(file.Recuperator.LowSidePressureDrop, cooler.Recuperator.LowSidePressureDrop);
        Assert.Equal((double)file.HeatLeak.Watts, Assert.Single(cooler.Leaks).Between(Temperature.FromKelvins(100), file.AmbientTemperature).Nominal, 12);
        Assert.Equal(file.Compressor.DischargeTemperatureLimit!.Value.Kelvins, cooler.Limits.DischargeLine!.Far, 9);
        Assert.Equal(file.Surroundings.HighPressureRelief!.Value.Absolute.Bars, cooler.AppliedLimits.HighPressureBars!.Far, 9);
        Assert.Equal(new UncertaintyDescription(), file.Machine.Uncertainty);

        JsonObject colder = With(_ => { });
        colder["preCoolerOutletTemperature"] = JsonNode.Parse("""{ "value": -30, "unit": "degC" }""");
        PreCooling pre = Machine(colder).ToCooler().PreCooling!;
        Assert.Equal(243.15, pre.Cool(suction, 1, 293.15, null).Outlet, 9);
    }

    [Fact]
    public void StandingPressureGivesTheChargeOfAllVolumes()
    {
        CoolerDescription file = BenchCoolerFile.Describe(With(machine =>
        {
            machine["charge"] = JsonNode.Parse("""{ "standingPressure": { "value": 1.4, "unit": "bar", "reference": "gauge" }, "standingTemperature": { "value": 20, "unit": "degC" } }""");
            machine["recuperator"] = JsonNode.Parse("""{ "highSideVolume": { "value": 80, "unit": "cm3" }, "lowSideVolume": { "value": 300, "unit": "mL" } }""");
            machine["spaces"] = JsonNode.Parse("""[ { "name": "shell", "volume": { "value": 3.5, "unit": "L" }, "place": "suction" }, { "name": "plate", "volume": { "value": 40, "unit": "cm3" }, "place": "cold head" } ]""");
        }));
        MachineDescription machine = file.Machine!;
        Assert.Equal(80e-6 + 300e-6 + 3.5e-3 + 40e-6, machine.TotalVolume.CubicMeters, 12);
        Assert.Equal(file.Atmosphere.Bars + 1.4, machine.StandingPressure!.Value.Absolute.Bars, 9);
        Assert.Null(machine.ChargeMass);
        CoolerCharge charge = machine.ToCharge();
        Assert.Same(FluidModel.PengRobinson, charge.Fluid.Model);
        State standing = charge.Fluid.AtDensity(Temperature.FromDegreesCelsius(20), Molarity.FromMolesPerCubicMeter(charge.Amount.Moles / machine.TotalVolume.CubicMeters));
        Assert.Equal(file.Atmosphere.Bars + 1.4, standing.Pressure.Bars, 8);
    }

    [Fact]
    public void EveryPartOfAMachineIsRead()
    {
        MachineDescription machine = Machine(WithWhole(_ => { }));
        Cooler cooler = machine.ToCooler();
        Assert.Equal(40, machine.ChargeMass!.Value.Grams, 12);
        Assert.Null(machine.StandingPressure);
        Assert.Null(machine.StandingTemperature);
        Assert.Equal(40, machine.ToCharge().Mass.Grams, 9);
        Assert.Equal(new CylinderFilling(0.03, 0.04, 0.9), cooler.Compressor.Filling);
        Assert.Equal([(4.0, 0.62), (12.0, 0.55)], cooler.Compressor.Efficiency.Points);
        State suction = WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(300), Pressure.FromBars(1.5));
        Assert.Equal(300, cooler.AfterCooling.OutletTemperature(suction, 1, 293), 9);
        Assert.Equal(253.15, cooler.PreCooling!.Cool(suction, 1, 293, null).Outlet, 9);
        TubeRecuperator tubes = cooler.Recuperator.Tubes!;
        Assert.Equal((6.0, 1, 4), (tubes.Length.Meters, tubes.HotTubes, tubes.ColdTubes));
        Assert.Equal(2, tubes.ColdPassage.OuterDiameter.Millimeters, 9);
        Assert.Equal(10, tubes.HotPassage.OuterDiameter.Millimeters, 9);
        Assert.Equal(150, tubes.ColdPassage.CoilDiameter!.Value.Millimeters, 9);
        ThrottleSeries throttle = Assert.IsType<ThrottleSeries>(cooler.Throttle);
        ControlValve valve = Assert.IsType<ControlValve>(throttle.Parts[0]);
        Assert.Same(ValveStyle.Ball, valve.Style);
        Assert.Equal(0.0578, valve.FlowCoefficientCv, 12);
        CapillarySection bore = Assert.Single(Assert.IsType<Capillary>(throttle.Parts[1]).Sections);
        Assert.Equal((0.8, 2.0), (Math.Round(bore.Bore.Millimeters, 9), bore.Length.Meters));
        Assert.Equal([("shell", 1500.0, SpacePlace.Suction), ("line", 50.0, SpacePlace.ThrottleInlet)], cooler.Spaces.Select(s => (s.Name, Math.Round(s.Volume.CubicCentimeters, 9), s.Place)));
        Assert.Equal(["wires", "foam", "posts"], cooler.Leaks.Select(l => l.Name));
        Assert.All(cooler.Leaks, l => Assert.InRange(l.Between(Temperature.FromKelvins(110), Temperature.FromKelvins(293)).Nominal, 0.1, 20));

        UncertaintyDescription told = machine.Uncertainty;
        Assert.Equal((0.03, 0.01, 1.2, 1.5), (Math.Round(told.ThrottleBore!.Value.Millimeters, 9), told.FillingFraction, told.ConductanceFactor, told.LeakFactor));
        Assert.Equal((3.0, 1.05, 0.04), (told.AmbientDifference!.Value.Kelvins, told.CompressorFlowFactor, told.ModelFraction));
        Assert.Same(FluidModel.SoaveRedlichKwong, told.DifferencesBy);

        // Three posts lead three times as much as one.
        double one = Machine(WithWhole(m => m["insulation"]![2]!["bars"]!.AsObject().Remove("count"))).ToCooler().Leaks[2].Between(Temperature.FromKelvins(110), Temperature.FromKelvins(293)).Nominal;
        Assert.Equal(3 * one, cooler.Leaks[2].Between(Temperature.FromKelvins(110), Temperature.FromKelvins(293)).Nominal, 9);
    }

    [Theory]
    [InlineData("suction", SpacePlace.Suction)]
    [InlineData("discharge", SpacePlace.Discharge)]
    [InlineData("warm high side", SpacePlace.WarmHighSide)]
    [InlineData("throttle inlet", SpacePlace.ThrottleInlet)]
    [InlineData("cold head", SpacePlace.ColdHead)]
    public void EveryPlaceHasAWord(string word, SpacePlace place)
    {
        Assert.Equal(Enum.GetValues<SpacePlace>().Length, MachineReader.PlaceNames.Count);
        Assert.Equal(place, Machine(WithWhole(m => m["spaces"]![1]!["place"] = word)).ToCooler().Spaces[1].Place);
    }

    [Theory]
    [InlineData("needle valve", "flowCoefficientKv")]
    [InlineData("globe valve", "flowCoefficientKv")]
    [InlineData("ball valve", "flowCoefficientCv")]
    public void AValveAloneIsReadByEitherCoefficient(string style, string coefficient)
    {
        ControlValve valve = Assert.IsType<ControlValve>(Machine(With(m => m["throttle"] = JsonNode.Parse($$"""{ "valve": { "{{coefficient}}": 0.02, "style": "{{style}}" } }"""))).ToCooler().Throttle);
        Assert.Equal(style, valve.Style.Name);
        Assert.Equal(0.02, coefficient == "flowCoefficientKv" ? valve.FlowCoefficientKv : valve.FlowCoefficientCv, 12);
    }

    // The weakest part of each side; the lower of rating and relief is the limit of the high side.
    [Fact]
    public void RatingsOfThePartsAreThoseOfTheMachine()
    {
        Cooler cooler = Machine(With(_ => { })).ToCooler();
        double atmosphere = BenchCoolerFile.Describe(BenchCoolerFile.Read()).Atmosphere.Bars;
        Assert.Equal(40 + atmosphere, cooler.HighSideRating!.Value.Bars, 9);
        Assert.Equal(9 + atmosphere, cooler.LowSideRating!.Value.Bars, 9);
        Assert.Equal(20 + atmosphere, cooler.HighSideRelief!.Value.Bars, 9);
        JsonObject weaker = With(_ => { });
        weaker["parts"]!.AsArray().Add(JsonNode.Parse("""{ "name": "filter", "side": "high", "rating": { "value": 18, "unit": "bar", "reference": "absolute" } }"""));
        Assert.Equal(18, Machine(weaker).ToCooler().HighSideRating!.Value.Bars, 9);
        Assert.Equal(18, Machine(weaker).ToCooler().AppliedLimits.HighPressureBars!.Far, 9);
        weaker.Remove("parts");
        Assert.Null(Machine(weaker).ToCooler().HighSideRating);
    }

    [Fact]
    public void AnEmptyListOfInsulationIsNoLeak() => Assert.Empty(Machine(With(m => m["insulation"] = new JsonArray())).ToCooler().Leaks);

    // path below the machine, its new JSON text (empty: removed), the field that the only fault names, a part of its message
    public static TheoryData<string, string, string, string> Broken => new()
    {
        { "", "7", "machine", "the number 7; expected is an object" },
        { "", "null", "machine", "is null" },
        { "chargge", "{}", "machine.chargge", "nearest one is \"charge\"" },
        { "charge", "", "machine.charge", "is missing" },
        { "charge", "{}", "machine.charge", "neither mass nor standingPressure" },
        { "charge.mass.value", "0", "machine.charge.mass", "allowed is 1E-09 to 1E+06 kg" },
        { "charge.mass.unit", "\"g/s\"", "machine.charge.mass.unit", "the unit of a mass flow" },
        { "charge.standingTemperature", "{ \"value\": 20, \"unit\": \"degC\" }", "machine.charge", "mass beside" },
        { "charge", "{ \"standingTemperature\": { \"value\": 20, \"unit\": \"degC\" } }", "machine.charge.standingPressure", "is missing" },
        { "charge", "{ \"standingPressure\": { \"value\": 2, \"unit\": \"bar\", \"reference\": \"gauge\" } }", "machine.charge.standingTemperature", "is missing" },
        { "charge", "{ \"standingPressure\": { \"value\": -2, \"unit\": \"bar\", \"reference\": \"gauge\" }, \"standingTemperature\": { \"value\": 300, \"unit\": \"K\" } }", "machine.charge.standingPressure", "below vacuum" },
        { "charge", "{ \"standingPressure\": { \"value\": 2, \"unit\": \"bar\", \"reference\": \"gauge\" }, \"standingTemperature\": { \"value\": 100, \"unit\": \"K\" } }", "machine.charge.standingTemperature", "allowed is 220 to 500 K" },
        { "compressor", "{}", "machine.compressor", "holds nothing" },
        { "compressor.clearanceFraction", "0.4", "machine.compressor.clearanceFraction", "allowed is 0 to 0.3" },
        { "compressor.clearanceFraction", "", "machine.compressor.clearanceFraction", "is missing" },
        { "compressor.leakFraction", "0.6", "machine.compressor.leakFraction", "allowed is 0 to 0.5" },
        { "compressor.suctionHeatingFactor", "0", "machine.compressor.suctionHeatingFactor", "above 0 to 1" },
        { "compressor.efficiencyAtPressureRatio", "[]", "machine.compressor.efficiencyAtPressureRatio", "points is empty" },
        { "compressor.efficiencyAtPressureRatio", "{}", "machine.compressor.efficiencyAtPressureRatio", "a list in brackets" },
        { "compressor.efficiencyAtPressureRatio[0].pressureRatio", "13", "machine.compressor.efficiencyAtPressureRatio", "the ratios must rise" },
        { "compressor.efficiencyAtPressureRatio[1].efficiency", "1.2", "machine.compressor.efficiencyAtPressureRatio[1].efficiency", "above 0 to 1" },
        { "compressor.efficiencyAtPressureRatio[1].speed", "3", "machine.compressor.efficiencyAtPressureRatio[1].speed", "not a field" },
        { "afterCooling", "{}", "machine.afterCooling.aboveRoom", "is missing" },
        { "afterCooling.aboveRoom.value", "101", "machine.afterCooling.aboveRoom", "-30 to 100 K" },
        { "preCooler", "{}", "machine.preCooler.outletTemperature", "is missing" },
        { "preCooler.outletTemperature.value", "-200", "machine.preCooler.outletTemperature", "allowed is 100 to 400 K" },
        { "recuperator", "", "machine.recuperator", "is missing" },
        { "recuperator", "{}", "machine.recuperator.highSideVolume|machine.recuperator.lowSideVolume", "is missing" },
        { "recuperator.lowSideVolume", "{ \"value\": 1, \"unit\": \"L\" }", "machine.recuperator", "tubes beside" },
        { "recuperator.tubes.length", "", "machine.recuperator.tubes.length", "is missing" },
        { "recuperator.tubes.tube.material", "\"coper\"", "machine.recuperator.tubes.tube.material", "nearest is \"copper" },
        { "recuperator.tubes.tube.wall.value", "1.6", "machine.recuperator.tubes.tube", "wall is 0.0016 m" },
        { "recuperator.tubes.tube.outerDiameter.value", "9", "machine.recuperator.tubes", "cannot be built" },
        { "recuperator.tubes.tubeCount", "2.5", "machine.recuperator.tubes.tubeCount", "a whole number" },
        { "recuperator.tubes.coilDiameter.value", "3", "machine.recuperator.tubes", "coilDiameter is 0.003 m" },
        { "recuperator.tubes.highPressureInTubes", "1", "machine.recuperator.tubes.highPressureInTubes", "true or false" },
        { "throttle", "", "machine.throttle", "is missing" },
        { "throttle", "3", "machine.throttle", "a valve or a capillary in braces" },
        { "throttle", "[]", "machine.throttle", "a list of 0" },
        { "throttle", "{}", "machine.throttle", "neither valve nor capillary" },
        { "throttle[1].valve", "{ \"flowCoefficientKv\": 0.1, \"style\": \"ball valve\" }", "machine.throttle[1]", "for both in series write a list" },
        { "throttle[0].valve.style", "\"gate valve\"", "machine.throttle[0].valve.style", "\"needle valve\", \"globe valve\", \"ball valve\"" },
        { "throttle[0].valve.flowCoefficientCv", "", "machine.throttle[0].valve", "neither" },
        { "throttle[0].valve.flowCoefficientKv", "0.1", "machine.throttle[0].valve", "both" },
        { "throttle[0].valve.flowCoefficientCv", "0", "machine.throttle[0].valve.flowCoefficientCv", "allowed is 1.156E-07" },
        { "throttle[1].capillary.bore.value", "30", "machine.throttle[1].capillary.bore", "allowed is 5E-05 to 0.02 m" },
        { "spaces", "", "machine.spaces", "is missing" },
        { "spaces", "[]", "machine.spaces", "none at the place \"suction\"" },
        { "spaces[0].place", "\"discharge\"", "machine.spaces", "none at the place \"suction\"" },
        { "spaces[0].place", "\"shell\"", "machine.spaces[0].place", "\"warm high side\"" },
        { "spaces[1].name", "\"shell\"", "machine.spaces[1].name", "as another space is" },
        { "spaces[1].volume.value", "0", "machine.spaces[1].volume", "0 cm3" },
        { "spaces[1].volume.unit", "\"cm2\"", "machine.spaces[1].volume.unit", "the unit of an area" },
        { "insulation", "{}", "machine.insulation", "a list in brackets" },
        { "insulation[0].heat.value", "-1", "machine.insulation[0].heat", "-1 mW" },
        { "insulation[0].foam", "{ \"insulation\": \"x\" }", "machine.insulation[0]|machine.insulation[0].foam.area|machine.insulation[0].foam.insulation|machine.insulation[0].foam.thickness", "" },
        { "insulation[0].heat", "", "machine.insulation[0]", "has none of heat, foam, bars" },
        { "insulation[1].foam.insulation", "\"straw\"", "machine.insulation[1].foam.insulation", "nearest is" },
        { "insulation[1].foam.area.value", "0", "machine.insulation[1].foam.area", "0 cm2" },
        { "insulation[2].bars.material", "\"PVC\"", "machine.insulation[2].bars.material", "not known" },
        { "uncertainty", "3", "machine.uncertainty", "an object in braces" },
        { "uncertainty.throttleBore.value", "11", "machine.uncertainty.throttleBore", "allowed is 0 to 0.01 m" },
        { "uncertainty.throttleBore", "0.02", "machine.uncertainty.throttleBore", "an object in braces" },
        { "uncertainty.fillingFraction", "2", "machine.uncertainty.fillingFraction", "allowed is 0 to 0.5" },
        { "uncertainty.conductanceFactor", "0.9", "machine.uncertainty.conductanceFactor", "allowed is 1 to 1.8" },
        { "uncertainty.leakFactor", "11", "machine.uncertainty.leakFactor", "allowed is 1 to 10" },
        { "uncertainty.ambientDifference.value", "-1", "machine.uncertainty.ambientDifference", "allowed is 0 to 20 K" },
        { "uncertainty.compressorFlowFactor", "1.6", "machine.uncertainty.compressorFlowFactor", "allowed is 1 to 1.5" },
        { "uncertainty.modelFraction", "0.6", "machine.uncertainty.modelFraction", "allowed is 0 to 0.5" },
        { "uncertainty.differencesByModel", "\"fast\"", "machine.uncertainty.differencesByModel", "\"peng-robinson\"" },
        { "uncertainty.leakFaktor", "2", "machine.uncertainty.leakFaktor", "nearest one is \"leakFactor\"" },
        { "insulation[2].bars.count", "0", "machine.insulation[2].bars.count", "allowed is 1 to 10000" },
    };

    private const string SeparatorText =
        """
        {
          "volume": { "value": 30, "unit": "cm3" }, "liquidLevel": 0.4,
          "coldExchanger": { "conductance": { "value": 15, "unit": "W/K" }, "highSideVolume": { "value": 70, "unit": "cm3" }, "lowSideVolume": { "value": 0.17, "unit": "L" } }
        }
        """;

    [Fact]
    public void ASeparatorIsRead()
    {
        Assert.Null(Machine(With(_ => { })).ToCooler().Separator);
        MachineDescription without = Machine(With(_ => { }));
        MachineDescription machine = Machine(With(m => m["separator"] = JsonNode.Parse(SeparatorText)));
        PhaseSeparator separator = machine.ToCooler().Separator!;
        Assert.Equal(30, separator.Volume.CubicCentimeters, 9);
        Assert.Equal(0.4, separator.LiquidLevel);
        Assert.Equal(15, separator.ColdExchanger.ConductanceWattsPerKelvin, 12);
        Assert.Equal(70, separator.ColdExchanger.HighSideVolume.CubicCentimeters, 9);
        Assert.Equal(170, separator.ColdExchanger.LowSideVolume.CubicCentimeters, 9);
        Assert.Equal(270, (machine.TotalVolume - without.TotalVolume).CubicCentimeters, 6);
    }

    [Theory]
    [InlineData("separator", "3", "machine.separator", "an object in braces")]
    [InlineData("separator.volume", "", "machine.separator.volume", "is missing")]
    [InlineData("separator.volume.value", "0", "machine.separator.volume", "0 cm3")]
    [InlineData("separator.liquidLevel", "", "machine.separator.liquidLevel", "is missing")]
    [InlineData("separator.liquidLevel", "1.2", "machine.separator.liquidLevel", "allowed is 0 to 1")]
    [InlineData("separator.level", "1", "machine.separator.level", "not a field")]
    [InlineData("separator.coldExchanger", "", "machine.separator.coldExchanger", "is missing")]
    [InlineData("separator.coldExchanger.conductance.value", "0", "machine.separator.coldExchanger.conductance", "above 0")]
    [InlineData("separator.coldExchanger.lowSideVolume", "", "machine.separator.coldExchanger.lowSideVolume", "is missing")]
    public void ABrokenSeparatorNamesTheFieldOnce(string path, string value, string field, string message)
    {
        JsonObject file = With(m => m["separator"] = JsonNode.Parse(SeparatorText));
        Set(file, $"machine.{path}", value);
        DescriptionFault fault = Assert.Single(FaultsOf(file));
        Assert.Equal(field, fault.Field);
        Assert.Contains(message, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ASeparatorBesideTubesIsAFault()
    {
        DescriptionFault fault = Assert.Single(FaultsOf(WithWhole(m => m["separator"] = JsonNode.Parse(SeparatorText))));
        Assert.Equal("machine.separator", fault.Field);
        Assert.Contains("tubes", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Broken))]
    public void ABrokenMachineNamesTheFieldOnce(string path, string value, string fields, string message)
    {
        JsonObject file = WithWhole(_ => { });
        Set(file, path.Length == 0 ? "machine" : $"machine.{path}", value);
        IReadOnlyList<DescriptionFault> faults = FaultsOf(file);
        Assert.Equal(fields.Split('|'), faults.Select(f => f.Field).Order(StringComparer.Ordinal));
        Assert.All(faults, f => Assert.Contains(message, f.Message, StringComparison.Ordinal));
        Assert.All(faults, f => Assert.DoesNotContain("Parameter", f.Message, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(70, 75, "machine", "cannot be rated in a room")]
    [InlineData(20, 140, "machine.afterCooling", "is left out")]
    public void WhatTheDesignCannotGiveIsAFaultOfTheMachine(double room, double afterCooler, string at, string message)
    {
        JsonObject file = With(_ => { });
        file["ambientTemperature"]!["value"] = room;
        file["afterCoolerOutletTemperature"]!["value"] = afterCooler;
        file["compressor"]!.AsObject().Remove("dischargeTemperatureLimit");
        file.Remove("coolingCurve");
        DescriptionFault fault = Assert.Single(FaultsOf(file));
        Assert.Equal(at, fault.Field);
        Assert.Contains(message, fault.Message, StringComparison.Ordinal);

        // The same design without a machine has none.
        file.Remove("machine");
        Assert.Empty(FaultsOf(file));
    }

    [Fact]
    public void AllFaultsOfAMachineAreReportedAtOnce() => Assert.Equal(
        ["machine.charge.mass.unit", "machine.compressor.clearanceFraction", "machine.extra", "machine.insulation[2].bars.count", "machine.recuperator.tubes.length", "machine.spaces[1].place", "machine.throttle[1].capillary.bore"],
        FaultsOf(WithWhole(machine =>
        {
            machine["charge"]!["mass"]!["unit"] = "bar";
            machine["compressor"]!["clearanceFraction"] = -1;
            machine["extra"] = true;
            machine["insulation"]![2]!["bars"]!["count"] = 0.5;
            machine["recuperator"]!["tubes"]!.AsObject().Remove("length");
            machine["spaces"]![1]!["place"] = "somewhere";
            machine["throttle"]![1]!["capillary"]!["bore"]!["value"] = 0;
        })).Select(f => f.Field).Order(StringComparer.Ordinal));

    [Fact]
    public void TheDocumentationNamesEveryField()
    {
        string page = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Coolers", "cooler-file.md"));
        JsonObject file = WithWhole(machine =>
        {
            int objects = Spoil(machine);
            Assert.True(objects >= 15, $"{objects} objects");
        });
        List<DescriptionFault> unknown = [.. FaultsOf(file).Where(f => f.Field.EndsWith("zzz", StringComparison.Ordinal))];
        Assert.True(unknown.Count >= 15);
        string[] fields = [.. unknown.SelectMany(f => f.Message[(f.Message.IndexOf("Allowed here: ", StringComparison.Ordinal) + 14)..].TrimEnd('.').Split(", ")).Distinct()];
        Assert.Contains("suctionHeatingFactor", fields);
        Assert.All(fields.Except(["value", "unit"]), field => Assert.Matches($"`([a-zA-Z\\[\\].]*\\.)?{field}[`.\\[]", page));
        Assert.All(MachineReader.PlaceNames, word => Assert.Contains($"`{word}`", page, StringComparison.Ordinal));

        // A member of a name that no object has, in every object that is no quantity.
        static int Spoil(JsonNode node)
        {
            int count = 0;
            foreach (JsonNode child in node is JsonArray list ? list.OfType<JsonNode>() : node is JsonObject members ? members.Select(m => m.Value!).ToArray() : [])
            {
                count += Spoil(child);
            }

            if (node is JsonObject one && !one.ContainsKey("unit"))
            {
                one["zzz"] = 1;
                count++;
            }

            return count;
        }
    }

    private static void Set(JsonObject file, string path, string value)
    {
        JsonNode node = file;
        string[] parts = path.Replace("[", ".", StringComparison.Ordinal).Replace("]", string.Empty, StringComparison.Ordinal).Split('.');
        foreach (string part in parts[..^1])
        {
            node = node is JsonArray list ? list[int.Parse(part, System.Globalization.CultureInfo.InvariantCulture)]! : node[part]!;
        }

        if (value.Length == 0)
        {
            Assert.True(node.AsObject().Remove(parts[^1]), path);
        }
        else
        {
            node.AsObject()[parts[^1]] = JsonNode.Parse(value);
        }
    }
}
