using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using CryoThermo.Coolers.Rating;
using CryoThermo.Materials;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>
/// Reads cooler files: JSON in which every quantity carries its unit and every pressure says gauge or absolute. The format is
/// documented in docs/formats/cooler-file.md. All faults of a file are reported together. Stateless and thread-safe.
/// </summary>
public static class CoolerDescriptionReader
{
    private const double SumTolerance = 1e-6;
    private const string Air = "air";

    private static readonly AllowedRange AnyTemperature = new(0, 1000, LowExcluded: true);
    private static readonly AllowedRange ColdTemperature = new(15, 1000);
    private static readonly AllowedRange PartTemperature = new(1, 400);
    private static readonly AllowedRange Efficiency = new(0, 1, LowExcluded: true);
    private static readonly AllowedRange AnyPower = new(0, 1e7);
    private static readonly AllowedRange AnyDrop = new(0, 1e7);
    private static readonly AllowedRange Barometer = new(25e3, 115e3);
    private static readonly AllowedRange Altitude = new(-500, 9000);

    private static readonly string[] Sides = ["high", "low"];
    private static readonly string[] MaterialNames = [.. ColdService.All.Select(s => s.Name)];

    private static readonly Dictionary<string, MixtureBasis> Bases = new(StringComparer.Ordinal)
    {
        ["mole fraction"] = MixtureBasis.MoleFraction,
        ["mole percent"] = MixtureBasis.MolePercent,
        ["mass fraction"] = MixtureBasis.MassFraction,
        ["partial pressure"] = MixtureBasis.PartialPressure,
    };

    private static readonly Dictionary<string, FluidModel> Models = new(StringComparer.Ordinal)
    {
        ["recommended"] = FluidModel.Recommended,
        ["multi-fluid"] = FluidModel.MultiFluid,
        ["peng-robinson"] = FluidModel.PengRobinson,
        ["soave-redlich-kwong"] = FluidModel.SoaveRedlichKwong,
        ["peng-robinson-quantum-corrected"] = FluidModel.PengRobinsonQuantumCorrected,
    };

    /// <summary>The words a cooler file may use for its fluid model.</summary>
    public static IReadOnlyList<string> ModelNames { get; } = [.. Models.Keys];

    /// <summary>The model of one of these words.</summary>
    internal static FluidModel ModelNamed(string word) => Models[word];

    /// <summary>Which substances the public methods accept: those of the shipped catalogue.</summary>
    internal static Func<string, bool> KnownSubstances { get; } = name => SubstanceCatalog.Default.Contains(name);

    /// <summary>Reads a cooler file.</summary>
    /// <param name="path">The file's path.</param>
    /// <returns>The description.</returns>
    /// <exception cref="CoolerDescriptionException">The file cannot be read or has faults; all of them are carried.</exception>
    public static CoolerDescription Read(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        string fileName = Path.GetFileName(path);
        string json;
        try
        {
            json = File.ReadAllText(path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new CoolerDescriptionException(
                fileName, [new DescriptionFault("(file)", $"cannot be read: {error.Message}")], error);
        }

        return Parse(json, fileName);
    }

    /// <summary>Reads the text of a cooler file.</summary>
    /// <param name="json">The text.</param>
    /// <param name="fileName">The file's name, for messages.</param>
    /// <returns>The description.</returns>
    /// <exception cref="CoolerDescriptionException">The text has faults; all of them are carried.</exception>
    public static CoolerDescription Parse(string json, string fileName) => Parse(json, fileName, KnownSubstances);

    /// <summary>Reads the text of a cooler file without throwing on faults.</summary>
    /// <param name="json">The text.</param>
    /// <param name="fileName">The file's name, for messages.</param>
    /// <param name="description">The description; null when there are faults.</param>
    /// <param name="faults">All faults; empty when there are none.</param>
    /// <returns>True when there are no faults.</returns>
    public static bool TryParse(
        string json,
        string fileName,
        [NotNullWhen(true)] out CoolerDescription? description,
        out IReadOnlyList<DescriptionFault> faults)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(fileName);
        (description, faults) = Build(json, KnownSubstances);
        return description is not null;
    }

    /// <summary>Reads the text of a cooler file, with another notion of which substances are known.</summary>
    internal static CoolerDescription Parse(string json, string fileName, Func<string, bool> isKnownSubstance)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(fileName);
        (CoolerDescription? description, List<DescriptionFault> faults) = Build(json, isKnownSubstance);
        return description ?? throw new CoolerDescriptionException(fileName, faults);
    }

    private static (CoolerDescription? Description, List<DescriptionFault> Faults) Build(string json, Func<string, bool> isKnownSubstance)
    {
        List<DescriptionFault> faults = [];
        try
        {
            using JsonDocument document = JsonDocument.Parse(
                json, new JsonDocumentOptions { AllowTrailingCommas = true, CommentHandling = JsonCommentHandling.Skip });
            CoolerDescription? description = FieldReader.Open(document.RootElement, string.Empty, faults) is { } root
                ? new Reading(faults, isKnownSubstance).Cooler(root)
                : null;
            return (faults.Count == 0 ? description : null, faults);
        }
        catch (JsonException error)
        {
            long line = (error.LineNumber ?? 0) + 1;
            long position = (error.BytePositionInLine ?? 0) + 1;
            int end = error.Message.IndexOf(" LineNumber:", StringComparison.Ordinal);
            string reason = end < 0 ? error.Message : error.Message[..end];
            return (null, [new DescriptionFault("(file)", $"is not valid JSON at line {line}, position {position}: {reason}")]);
        }
        catch (ArgumentException error) when (error is not ArgumentOutOfRangeException)
        {
            // The text itself holds half of a surrogate pair, which no encoding can carry.
            return (null, [new DescriptionFault("(file)", "holds characters that are not valid text.")]);
        }
    }

    /// <summary>One pass over one file.</summary>
    private sealed class Reading(List<DescriptionFault> faults, Func<string, bool> isKnownSubstance)
    {
        /// <summary>Reads the whole file; null as soon as a part that is needed is missing.</summary>
        public CoolerDescription? Cooler(FieldReader root)
        {
            string? title = root.Text("title", required: true);
            (Pressure? atmosphere, Length? altitude) = Atmosphere(root.Object("atmosphere", required: true));
            string? model = root.Word("model", required: true, ModelNames);
            MixtureDescription? charge = Mixture(root.Object("charge", required: true));
            GaugePressure? low = root.GaugeOrAbsolute("lowPressure", required: true, atmosphere);
            GaugePressure? high = root.GaugeOrAbsolute("highPressure", required: true, atmosphere);
            Temperature? ambient = root.Quantity("ambientTemperature", required: true, UnitNames.Temperatures, AnyTemperature);
            Temperature? afterCooler =
                root.Quantity("afterCoolerOutletTemperature", required: true, UnitNames.Temperatures, AnyTemperature);
            Temperature? preCooler =
                root.Quantity("preCoolerOutletTemperature", required: false, UnitNames.Temperatures, AnyTemperature);
            CompressorDescription? compressor = Compressor(root.Object("compressor", required: true), afterCooler);
            RecuperatorDescription? recuperator = Recuperator(root.Object("recuperator", required: true), low, high);
            Power? heatLeak = root.Quantity("heatLeak", required: true, UnitNames.Powers, AnyPower);
            LoadDescription? load = Load(root.Object("load", required: true));
            CoolingCurveDescription? curve = Curve(root.Object("coolingCurve", required: false));
            List<FeedDescription> feeds = Feeds(root, atmosphere);
            List<PartDescription> parts = Parts(root, atmosphere);
            SurroundingsDescription surroundings = Surroundings(root.Object("surroundings", required: false), atmosphere);
            if (low is { } lowGiven && high is { } highGiven && highGiven.Absolute.Pascals <= lowGiven.Absolute.Pascals)
            {
                root.Fault("highPressure", $"is {highGiven}; it must be above lowPressure, {lowGiven}.");
            }

            int faultsBefore = faults.Count;
            CheckTemperatures(root, ambient, afterCooler, preCooler, load, curve);
            bool areTemperaturesSound = faults.Count == faultsBefore;
            FluidModel? fluidModel = model is null ? null : Models[model];
            MachineDescription? machine = new MachineReader(atmosphere).Machine(
                root.Object("machine", required: false),
                new(charge, fluidModel, ambient, areTemperaturesSound ? afterCooler : null, areTemperaturesSound ? preCooler : null, compressor, recuperator, heatLeak, surroundings.HighPressureRelief, parts));
            root.RejectUnknownMembers();

            return faults.Count == 0
                ? new CoolerDescription(
                    title!,
                    atmosphere!.Value,
                    altitude,
                    fluidModel!,
                    charge!,
                    low!.Value,
                    high!.Value,
                    ambient!.Value,
                    afterCooler!.Value,
                    preCooler,
                    compressor!,
                    recuperator!,
                    heatLeak!.Value,
                    load!,
                    curve,
                    feeds,
                    parts,
                    surroundings,
                    machine)
                : null;
        }

        private static void CheckTemperatures(
            FieldReader root,
            Temperature? ambient,
            Temperature? afterCooler,
            Temperature? preCooler,
            LoadDescription? load,
            CoolingCurveDescription? curve)
        {
            if (afterCooler is not { } after)
            {
                return;
            }

            if (preCooler is { } pre && pre.Kelvins > after.Kelvins)
            {
                root.Fault(
                    "preCoolerOutletTemperature",
                    $"is {Text(pre)}; it must not be above afterCoolerOutletTemperature, {Text(after)}.");
            }

            Temperature warmEnd = preCooler ?? after;
            string warmEndName = preCooler is null ? "afterCoolerOutletTemperature" : "preCoolerOutletTemperature";
            if (load is { ColdTemperature: var cold } && cold.Kelvins >= warmEnd.Kelvins)
            {
                // Both fields take part; the one that is far from where it belongs is named.
                if (ambient is { } room && cold.Kelvins < room.Kelvins && cold.Kelvins >= after.Kelvins)
                {
                    root.Fault(
                        "afterCoolerOutletTemperature",
                        $"is {Text(after)}; it must be above the cold end, load.temperature, {Text(cold)}.");
                }
                else
                {
                    root.Fault("load.temperature", $"is {Text(cold)}; it must be below the warm end, {warmEndName}, {Text(warmEnd)}.");
                }

                return; // a warm end in doubt is no measure of the cooling curve
            }

            if (curve is { Highest: var highest } && highest.Kelvins > warmEnd.Kelvins)
            {
                root.Fault(
                    "coolingCurve.highest", $"is {Text(highest)}; it must not be above the warm end, {warmEndName}, {Text(warmEnd)}.");
            }
        }

        private (Pressure? Pressure, Length? Altitude) Atmosphere(FieldReader? reader)
        {
            if (reader is null)
            {
                return (null, null);
            }

            bool barometerGiven = reader.Has("barometer");
            bool altitudeGiven = reader.Has("altitude");
            if (barometerGiven == altitudeGiven)
            {
                reader.FaultOfWhole(
                    barometerGiven
                        ? "has both altitude and barometer; give one of them."
                        : "has neither altitude nor barometer; give one of them.");
            }

            Pressure? barometer = barometerGiven ? reader.Absolute("barometer", Barometer) : null;
            Length? altitude = altitudeGiven ? reader.Quantity("altitude", required: true, UnitNames.Lengths, Altitude) : null;
            reader.RejectUnknownMembers();
            return (barometer ?? (altitude is { } height ? GaugePressure.StandardAtmosphere(height) : null), altitude);
        }

        private MixtureDescription? Mixture(FieldReader? reader)
        {
            if (reader is null)
            {
                return null;
            }

            string? basisWord = reader.Word("basis", required: true, [.. Bases.Keys]);
            FieldReader? list = reader.Object("components", required: true);
            reader.RejectUnknownMembers();
            if (list is null)
            {
                return null;
            }

            List<ComponentAmount> components = [];
            Dictionary<string, string> seen = new(StringComparer.OrdinalIgnoreCase);
            bool sound = true;
            foreach ((string written, JsonElement element) in list.Members)
            {
                sound &= Component(list, written, element, components, seen);
            }

            if (components.Count == 0 && sound)
            {
                list.FaultOfWhole("is empty; expected is at least one substance with its amount.");
                return null;
            }

            if (basisWord is null || !sound)
            {
                return null;
            }

            MixtureBasis basis = Bases[basisWord];
            return SumIsRight(list, basisWord, basis, components.Sum(component => component.Amount))
                ? new MixtureDescription(basis, components)
                : null;
        }

        private bool Component(
            FieldReader list, string written, JsonElement element, List<ComponentAmount> components, Dictionary<string, string> seen)
        {
            bool sound = true;
            string name = written.Trim();
            if (name.Length == 0 || !isKnownSubstance(name))
            {
                string near = string.Join(", ", SubstanceCatalog.Default.Identities.NearMatches(name).Select(i => i.Name).Where(isKnownSubstance));
                list.Fault(
                    written,
                    "is not a substance known here; chemical name, formula or ISO 817 designation is expected." + (near.Length == 0 ? string.Empty : $" It resembles: {near}."));
                sound = false;
            }

            // Two names of one substance are a duplicate too.
            string substance = SubstanceCatalog.Default.TryFind(name, out Substance? known) ? known.Name : name;
            if (!seen.TryAdd(substance, written))
            {
                list.Fault(written, $"is the same substance as {seen[substance]}; give it once.");
                sound = false;
            }

            if (list.FiniteNumber(written, element) is not { } amount)
            {
                return false;
            }

            if (amount < 0)
            {
                list.Fault(written, $"is {amount:G9}; allowed is zero or more.");
                return false;
            }

            components.Add(new ComponentAmount(name, amount));
            return sound;
        }

        private static bool SumIsRight(FieldReader list, string basisWord, MixtureBasis basis, double sum)
        {
            if (basis == MixtureBasis.PartialPressure)
            {
                if (sum > 0)
                {
                    return true;
                }

                list.FaultOfWhole("has partial pressures that sum to 0; expected is a sum above 0.");
                return false;
            }

            double expected = basis == MixtureBasis.MolePercent ? 100 : 1;
            if (Math.Abs(sum - expected) <= SumTolerance * expected)
            {
                return true;
            }

            list.FaultOfWhole(
                $"sums to {sum:G9} on the basis \"{basisWord}\"; expected is {expected:G3} within {SumTolerance * expected:G1}. Amounts are never renormalised.");
            return false;
        }

        private static CompressorDescription? Compressor(FieldReader? reader, Temperature? afterCooler)
        {
            if (reader is null)
            {
                return null;
            }

            bool flowGiven = reader.Has("sweptVolumeFlow");
            bool shaftGiven = reader.Has("displacementPerRevolution") | reader.Has("speed");
            if (flowGiven && shaftGiven)
            {
                reader.Fault("sweptVolumeFlow", "is given beside displacementPerRevolution or speed; give the flow, or both of the others.");
            }

            VolumeFlow? flow = reader.Quantity(
                "sweptVolumeFlow", required: false, UnitNames.VolumeFlows, new AllowedRange(0, 10, LowExcluded: true));
            Volume? displacement = reader.Quantity(
                "displacementPerRevolution", required: !flowGiven, UnitNames.Volumes, new AllowedRange(0, 0.1, LowExcluded: true));
            RotationalSpeed? speed = reader.Quantity(
                "speed", required: !flowGiven, UnitNames.Speeds, new AllowedRange(0, 60000, LowExcluded: true));
            double? isentropic = reader.Number("isentropicEfficiency", required: true, Efficiency);
            double? volumetric = reader.Number("volumetricEfficiency", required: true, Efficiency);
            double? shellLoss = reader.Number("shellHeatLossFraction", required: false, new AllowedRange(0, 0.95));
            Temperature? limit = reader.Quantity(
                "dischargeTemperatureLimit", required: false, UnitNames.Temperatures, AnyTemperature);
            reader.RejectUnknownMembers();
            if (limit is { } hottest && afterCooler is { } after && hottest.Kelvins <= after.Kelvins)
            {
                reader.Fault(
                    "dischargeTemperatureLimit", $"is {Text(hottest)}; it must be above afterCoolerOutletTemperature, {Text(after)}.");
            }

            flow ??= displacement is { } volume && speed is { } shaft
                ? VolumeFlow.FromCubicMetersPerSecond(volume.CubicMeters * shaft.RevolutionsPerSecond)
                : null;
            return flow is { } swept && isentropic is { } isentropicValue && volumetric is { } volumetricValue
                ? new CompressorDescription(swept, displacement, speed, isentropicValue, volumetricValue, shellLoss ?? 0, limit)
                : null;
        }

        private static RecuperatorDescription? Recuperator(FieldReader? reader, GaugePressure? low, GaugePressure? high)
        {
            if (reader is null)
            {
                return null;
            }

            double? conductance = reader.Quantity(
                "conductance", required: true, UnitNames.Conductances, new AllowedRange(0, 1e7, LowExcluded: true));
            Pressure lowDrop = reader.Difference("lowSidePressureDrop", AnyDrop) ?? Pressure.Zero;
            Pressure highDrop = reader.Difference("highSidePressureDrop", AnyDrop) ?? Pressure.Zero;
            reader.RejectUnknownMembers();
            if (low is { } suction && high is { } discharge && discharge.Absolute.Pascals > suction.Absolute.Pascals)
            {
                double available = discharge.Absolute.Pascals - suction.Absolute.Pascals;
                if (lowDrop.Pascals + highDrop.Pascals >= available)
                {
                    string larger = lowDrop.Pascals >= highDrop.Pascals ? "lowSidePressureDrop" : "highSidePressureDrop";
                    reader.Fault(
                        larger,
                        $"makes the drops of both sides sum to {lowDrop.Bars + highDrop.Bars:G6} bar; they must leave something of the {available / 1e5:G6} bar between highPressure and lowPressure to the throttle.");
                }
            }

            return conductance is { } value ? new RecuperatorDescription(value, lowDrop, highDrop) : null;
        }

        private static LoadDescription? Load(FieldReader? reader)
        {
            if (reader is null)
            {
                return null;
            }

            Temperature? temperature = reader.Quantity("temperature", required: true, UnitNames.Temperatures, ColdTemperature);
            Power? power = reader.Quantity("power", required: true, UnitNames.Powers, AnyPower);
            reader.RejectUnknownMembers();
            return temperature is { } cold && power is { } demanded ? new LoadDescription(cold, demanded) : null;
        }

        private static CoolingCurveDescription? Curve(FieldReader? reader)
        {
            if (reader is null)
            {
                return null;
            }

            Temperature? lowest = reader.Quantity("lowest", required: true, UnitNames.Temperatures, ColdTemperature);
            Temperature? highest = reader.Quantity("highest", required: true, UnitNames.Temperatures, AnyTemperature);
            reader.RejectUnknownMembers();
            if (lowest is not { } from || highest is not { } to)
            {
                return null;
            }

            if (to.Kelvins <= from.Kelvins)
            {
                reader.Fault("highest", $"is {Text(to)}; it must be above coolingCurve.lowest, {Text(from)}.");
                return null;
            }

            return new CoolingCurveDescription(from, to);
        }

        private List<FeedDescription> Feeds(FieldReader root, Pressure? atmosphere)
        {
            HashSet<string> names = new(StringComparer.OrdinalIgnoreCase);
            return root.Each("feeds", reader => Feed(reader, atmosphere, names));
        }

        private List<PartDescription> Parts(FieldReader root, Pressure? atmosphere) => root.Each("parts", reader => Part(reader, atmosphere));

        private PartDescription? Part(FieldReader reader, Pressure? atmosphere)
        {
            string? name = reader.Text("name", required: true)?.Trim();
            string? side = reader.Word("side", required: true, Sides);
            Temperature? coldest = reader.Quantity("coldest", required: false, UnitNames.Temperatures, PartTemperature);
            string? material = reader.Word("material", required: false, MaterialNames);
            GaugePressure? rating = reader.GaugeOrAbsolute("rating", required: false, atmosphere);
            bool tells = reader.Has("material") || reader.Has("rating");
            reader.RejectUnknownMembers();
            if (!tells)
            {
                reader.FaultOfWhole("tells neither material nor rating; give one of them, or leave the part out.");
            }

            return name is not null && side is not null
                ? new PartDescription(name, side == Sides[0], coldest, material is null ? null : ColdService.Named(material), rating)
                : null;
        }

        private FeedDescription? Feed(FieldReader reader, Pressure? atmosphere, HashSet<string> names)
        {
            string? name = reader.Text("name", required: true, "a substance, \"air\", or any name beside a composition")?.Trim();
            bool compositionGiven = reader.Has("composition");
            MixtureDescription? composition = compositionGiven ? Mixture(reader.Object("composition", required: true)) : null;
            GaugePressure? letDown = reader.GaugeOrAbsolute("letDownPressure", required: true, atmosphere);
            TemperatureDelta? approach = reader.Quantity(
                "condensingApproach", required: true, UnitNames.TemperatureDifferences, new AllowedRange(0, 100, LowExcluded: true));
            reader.RejectUnknownMembers();
            if (name is null)
            {
                return null;
            }

            if (!names.Add(name))
            {
                reader.Fault("name", $"is \"{FieldReader.Shorten(name)}\", as another feed is; give each feed a name of its own.");
            }

            if (!compositionGiven)
            {
                if (!string.Equals(name, Air, StringComparison.OrdinalIgnoreCase) && !isKnownSubstance(name))
                {
                    reader.Fault(
                        "name",
                        $"is \"{FieldReader.Shorten(name)}\", which is not a substance known here; expected is a substance, \"air\", or a composition beside the name.");
                    return null;
                }

                composition = new MixtureDescription(MixtureBasis.MoleFraction, [new ComponentAmount(name, 1)]);
            }

            return composition is not null && letDown is { } pressure && approach is { } difference
                ? new FeedDescription(name, composition, pressure, difference)
                : null;
        }

        private SurroundingsDescription Surroundings(FieldReader? reader, Pressure? atmosphere)
        {
            if (reader is null)
            {
                return new SurroundingsDescription(true, true, true, null);
            }

            SurroundingsDescription surroundings = new(
                reader.Boolean("coldEndOpenToRoomAir") ?? true,
                reader.Boolean("feedLinesOpenToRoomAir") ?? true,
                reader.Boolean("coldLiquidCanBeShutIn") ?? true,
                reader.GaugeOrAbsolute("highPressureRelief", required: false, atmosphere));
            reader.RejectUnknownMembers();
            return surroundings;
        }

        private static string Text(Temperature temperature) => $"{temperature.Kelvins:G6} K ({temperature.DegreesCelsius:G4} degC)";
    }
}
