namespace CryoThermo.Substances;

/// <summary>Reads the solid block of a substance file and holds its rules.</summary>
internal static class SolidReader
{
    // Bounds that catch slips and wrong units; common practice, no source.
    private const double TripleTolerance = 0.01;
    private const double LowestFusionEntropy = 0.5;
    private const double HighestFusionEntropy = 60;
    private const double HighestHeatCapacityDifference = 50;
    private const double LargestVolumeShare = 0.3;
    private const double CurveEndTolerance = 0.1;
    private const double CurveEndReach = 0.5;
    private const int Probes = 40;

    /// <summary>Reads the block; the triple temperature is that of the substance, for comparison.</summary>
    public static SolidProperties Read(JsonBlock block, SourceTable sources, double? substanceTriple, double criticalTemperature, double criticalVolume)
    {
        block.RequireOnly("triplePoint", "fusion", "heatCapacityDifference", "volumeChange", "molarVolume", "transitions", "sublimation");
        JsonBlock triplePoint = block.RequiredBlock("triplePoint");
        triplePoint.RequireMarked("temperature", "pressure");
        double triple = triplePoint.Positive("temperature", "K");
        if (triple >= criticalTemperature)
        {
            throw triplePoint.Check.Broken("temperature", $"must be below the critical temperature of {criticalTemperature:G6} K, found {triple:G6}");
        }

        if (substanceTriple is { } known && Math.Abs((triple / known) - 1) > TripleTolerance)
        {
            throw triplePoint.Check.Broken("temperature", $"must agree within 1 % with the triple temperature of {known:G6} K, found {triple:G6}");
        }

        double? triplePressure = triplePoint.Number("pressure") is null ? null : triplePoint.Positive("pressure", "Pa");
        JsonBlock fusion = block.RequiredBlock("fusion");
        fusion.RequireMarked("enthalpy");
        double enthalpy = fusion.Positive("enthalpy", "J/mol");
        double entropy = enthalpy / (SubstanceReader.GasConstant * triple);
        if (entropy is < LowestFusionEntropy or > HighestFusionEntropy)
        {
            throw fusion.Check.Broken(
                "enthalpy", $"gives an entropy of fusion of {entropy:G4} R; allowed is {LowestFusionEntropy} to {HighestFusionEntropy} R");
        }

        JsonBlock? difference = Marked("heatCapacityDifference");
        JsonBlock? change = Marked("volumeChange");
        JsonBlock? volume = Marked("molarVolume");
        double most = LargestVolumeShare * criticalVolume;
        SolidProperties solid = new()
        {
            TripleTemperature = triple,
            TriplePressure = triplePressure,
            TriplePointProvenance = sources.Provenance(triplePoint),
            FusionEnthalpy = enthalpy,
            FusionProvenance = sources.Provenance(fusion),
            HeatCapacityDifference = difference?.InRange(
                "value", -HighestHeatCapacityDifference * SubstanceReader.GasConstant, HighestHeatCapacityDifference * SubstanceReader.GasConstant, "J/(mol K)"),
            HeatCapacityDifferenceProvenance = Provenance(difference),
            VolumeChange = change?.InRange("value", -most, most, "m3/mol"),
            VolumeChangeProvenance = Provenance(change),
            MolarVolume = volume?.InRange("value", 0.1 * criticalVolume, criticalVolume, "m3/mol"),
            MolarVolumeProvenance = Provenance(volume),
            Transitions = block.List("transitions", ReadTransition),
            SublimationPressures = block.List("sublimation", ReadSublimation),
        };
        double below = triple;
        for (int i = 0; i < solid.Transitions.Count; i++)
        {
            if (!(solid.Transitions[i].Temperature < below))
            {
                throw block.Check.Broken($"transitions[{i}].temperature", $"must be below {below:G6} K: transitions stand from warm to cold, found {solid.Transitions[i].Temperature:G6}");
            }

            below = solid.Transitions[i].Temperature;
        }

        return solid;

        Provenance? Provenance(JsonBlock? marked) => marked is null ? null : sources.Provenance(marked);

        JsonBlock? Marked(string field)
        {
            JsonBlock? marked = block.OptionalBlock(field);
            marked?.RequireMarked("value");
            return marked;
        }

        SolidTransition ReadTransition(JsonBlock transition)
        {
            transition.RequireMarked("temperature", "enthalpy", "phases");
            return new(
                transition.Positive("temperature", "K"),
                transition.Positive("enthalpy", "J/mol"),
                transition.RequiredText("phases"),
                sources.Provenance(transition));
        }

        SaturationCurve ReadSublimation(JsonBlock curve)
        {
            SaturationCurve line = EquationReader.ReadCurve(curve, sources);
            if (line.HighestTemperature > triple + CurveEndReach)
            {
                throw curve.Check.Broken("highestTemperature", $"must not be above the triple temperature of {triple:G6} K, found {line.HighestTemperature:G6}");
            }

            if (triplePressure is { } end && line.HighestTemperature > triple - CurveEndReach
                && Math.Abs((line.At(line.HighestTemperature) / end) - 1) > CurveEndTolerance)
            {
                throw curve.Check.Broken("terms", $"give {line.At(line.HighestTemperature):G4} Pa at {line.HighestTemperature:G6} K; the triple pressure is {end:G4} Pa");
            }

            double previous = 0;
            for (int i = 0; i <= Probes; i++)
            {
                double temperature = line.LowestTemperature + ((line.HighestTemperature - line.LowestTemperature) * i / Probes);
                double pressure = line.At(Math.Min(temperature, line.HighestTemperature));
                if (!(pressure > previous && double.IsFinite(pressure)))
                {
                    throw curve.Check.Broken("terms", $"must give a positive pressure that rises with temperature; {pressure:G4} Pa at {temperature:G6} K");
                }

                previous = pressure;
            }

            return line;
        }
    }
}
