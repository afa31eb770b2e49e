using System.Text.Json;
using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Insulation;
using CryoThermo.Machines;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>Reads the object "machine" of a cooler file; what it leaves out is taken from the design part of the file.</summary>
internal sealed class MachineReader(Pressure? atmosphere)
{
    // Flow in US gallons a minute at 1 psi for each m3/h at 1 bar, as ControlValve has it.
    private const double CvPerKv = 1.156;

    private static readonly AllowedRange AnyVolume = new(0, 100);
    private static readonly AllowedRange Level = new(0, 1);
    private static readonly AllowedRange VesselVolume = new(1e-12, 100);
    private static readonly AllowedRange AnyConductance = new(0, 1e6, LowExcluded: true);
    private static readonly AllowedRange SpaceVolume = new(1e-12, 1000);
    private static readonly AllowedRange AnyMass = new(1e-9, 1e6);
    private static readonly AllowedRange Standing = new(220, 500);
    private static readonly AllowedRange Room = new(200, 330);
    private static readonly AllowedRange AboveRoom = new(-30, 100);
    private static readonly AllowedRange PreCooled = new(100, 400);
    private static readonly AllowedRange AnyLength = new(1e-3, 1000);
    private static readonly AllowedRange AnyDiameter = new(1e-5, 10);
    private static readonly AllowedRange AnyThickness = new(0, 5, LowExcluded: true);
    private static readonly AllowedRange AnyArea = new(1e-6, 1000);
    private static readonly AllowedRange CrossSection = new(0, 1000, LowExcluded: true);
    private static readonly AllowedRange Coil = new(0, 1000, LowExcluded: true);
    private static readonly AllowedRange Tubes = new(1, 1000);
    private static readonly AllowedRange Bars = new(1, 10_000);
    private static readonly AllowedRange Bore = new(5e-5, 0.02);
    private static readonly AllowedRange CapillaryLength = new(1e-3, 100);
    private static readonly AllowedRange Kv = new(1e-7, 1e5);
    private static readonly AllowedRange Clearance = new(0, 0.3);
    private static readonly AllowedRange Leak = new(0, 0.5);
    private static readonly AllowedRange Ratio = new(0, 1, LowExcluded: true);
    private static readonly AllowedRange PressureRatio = new(1, 1000);
    private static readonly AllowedRange AnyHeat = new(0, 1e7);
    private static readonly AllowedRange BoreTolerance = new(0, 1e-2);
    private static readonly AllowedRange UpToHalf = new(0, 0.5);
    private static readonly AllowedRange TimesOrOver = new(1, 1.8);
    private static readonly AllowedRange LeakTimesOrOver = new(1, 10);
    private static readonly AllowedRange FlowTimesOrOver = new(1, 1.5);
    private static readonly AllowedRange RoomDifference = new(0, 20);

    private static readonly string[] LeakKinds = ["heat", "foam", "bars"];

    private static readonly Source InTheFile = new("as the cooler file states it", FromMemory: false);

    private static readonly Dictionary<string, SpacePlace> Places = new(StringComparer.Ordinal)
    {
        ["suction"] = SpacePlace.Suction,
        ["discharge"] = SpacePlace.Discharge,
        ["warm high side"] = SpacePlace.WarmHighSide,
        ["throttle inlet"] = SpacePlace.ThrottleInlet,
        ["cold head"] = SpacePlace.ColdHead,
    };

    private static readonly ValveStyle[] Styles = [ValveStyle.Needle, ValveStyle.Globe, ValveStyle.Ball];

    /// <summary>What the design part of the file says of the machine; null members are those at fault there.</summary>
    /// <param name="Charge">The composition.</param>
    /// <param name="Model">The fluid model.</param>
    /// <param name="Ambient">The room.</param>
    /// <param name="AfterCooler">Outlet of the after-cooler.</param>
    /// <param name="PreCooler">Outlet of the pre-cooler; also null without one.</param>
    /// <param name="Compressor">The compressor with its constants.</param>
    /// <param name="Recuperator">The recuperator by its conductance.</param>
    /// <param name="HeatLeak">The leak.</param>
    /// <param name="Relief">Setting of the relief device; also null without one.</param>
    /// <param name="Parts">Parts with their ratings.</param>
    public sealed record DesignPart(
        MixtureDescription? Charge,
        FluidModel? Model,
        Temperature? Ambient,
        Temperature? AfterCooler,
        Temperature? PreCooler,
        CompressorDescription? Compressor,
        RecuperatorDescription? Recuperator,
        Power? HeatLeak,
        GaugePressure? Relief,
        IReadOnlyList<PartDescription> Parts)
    {
        /// <summary>Rating of the weakest part of a side; null where none is told.</summary>
        public Pressure? Rating(bool isHighSide) =>
            Parts.Where(p => p.IsHighSide == isHighSide).Select(p => p.Rating?.Absolute).OfType<Pressure>().OrderBy(p => p.Pascals).Cast<Pressure?>().FirstOrDefault();
    }

    /// <summary>The words for the places of spaces.</summary>
    public static IReadOnlyCollection<string> PlaceNames => Places.Keys;

    /// <summary>Reads the machine; null where anything it needs is missing or at fault.</summary>
    public MachineDescription? Machine(FieldReader? reader, DesignPart design)
    {
        if (reader is null)
        {
            return null;
        }

        (Mass? mass, GaugePressure? pressure, Temperature? temperature) = Charge(reader.Object("charge", required: true));
        bool isCharged = mass is not null || (pressure is not null && temperature is not null);
        Compressor? compressor = Compressor(reader, design.Compressor);
        AfterCooling? afterCooling = AfterCooling(reader, design);
        PreCooling? preCooling = PreCooling(reader, design.PreCooler);
        CoolerRecuperator? recuperator = Recuperator(reader.Object("recuperator", required: true), design.Recuperator);
        PhaseSeparator? separator = Separator(reader, recuperator);
        IThrottlePart? throttle = Throttle(reader);
        List<CoolerSpace>? spaces = Spaces(reader);
        IReadOnlyList<HeatLeakItem>? leaks = Leaks(reader, design);
        UncertaintyDescription uncertainty = Uncertainty(reader.Object("uncertainty", required: false));
        reader.RejectUnknownMembers();
        if (design.Ambient is { } room && !Room.Holds(room.Kelvins))
        {
            reader.FaultOfWhole($"cannot be rated in a room of {room.Kelvins:G6} K, ambientTemperature; allowed is {Room.Text("K")}.");
        }

        if (!isCharged || design.Charge is null || design.Model is null || compressor is null || afterCooling is null || recuperator is null || throttle is null || spaces is null || leaks is null)
        {
            return null;
        }

        CompressorLimits limits = CompressorLimits.Usual;
        if (design.Compressor?.DischargeTemperatureLimit is { } hottest)
        {
            limits = limits with { DischargeLine = LimitBand.Stated(hottest.Kelvins) };
        }

        Cooler? cooler = Built(
            reader,
            () => new Cooler(compressor, afterCooling, recuperator, throttle, spaces, leaks)
            {
                PreCooling = preCooling,
                Separator = separator,
                Limits = limits,
                HighSideRating = design.Rating(isHighSide: true),
                LowSideRating = design.Rating(isHighSide: false),
                HighSideRelief = design.Relief?.Absolute,
            });
        return cooler is null ? null : new(cooler, design.Charge, design.Model, mass, pressure, temperature, uncertainty);
    }

    private (Mass? Mass, GaugePressure? Pressure, Temperature? Temperature) Charge(FieldReader? reader)
    {
        if (reader is null)
        {
            return (null, null, null);
        }

        bool isByMass = reader.Has("mass");
        bool isByPressure = reader.Has("standingPressure") | reader.Has("standingTemperature");
        if (isByMass == isByPressure)
        {
            reader.FaultOfWhole(isByMass
                ? "has mass beside standingPressure or standingTemperature; give the mass, or both of the others."
                : "has neither mass nor standingPressure with standingTemperature; give the mass, or both of the others.");
        }

        Mass? mass = reader.Quantity("mass", required: false, UnitNames.Masses, AnyMass);
        GaugePressure? pressure = reader.GaugeOrAbsolute("standingPressure", required: isByPressure && !isByMass, atmosphere);
        Temperature? temperature = reader.Quantity("standingTemperature", required: isByPressure && !isByMass, UnitNames.Temperatures, Standing);
        reader.RejectUnknownMembers();
        return (mass, pressure, temperature);
    }

    private static Compressor? Compressor(FieldReader machine, CompressorDescription? design)
    {
        bool isGiven = machine.Has("compressor");
        FieldReader? reader = machine.Object("compressor", required: false);
        if (reader is null)
        {
            return isGiven || design is null
                ? null
                : Built(machine, () => new Compressor(design.SweptVolumeFlow, design.IsentropicEfficiency, design.VolumetricEfficiency, design.ShellHeatLossFraction));
        }

        bool hasClearance = reader.Has("clearanceFraction");
        bool hasCurve = reader.Has("efficiencyAtPressureRatio");
        bool hasFurther = reader.Has("leakFraction") | reader.Has("suctionHeatingFactor");
        double? clearance = reader.Number("clearanceFraction", required: hasFurther, Clearance);
        double? leak = reader.Number("leakFraction", required: false, Leak);
        double? heating = reader.Number("suctionHeatingFactor", required: false, Ratio);
        List<EfficiencyPoint>? points = reader.Every("efficiencyAtPressureRatio", required: false, Point);
        reader.RejectUnknownMembers();
        if (!hasClearance && !hasCurve && !hasFurther)
        {
            reader.FaultOfWhole("holds nothing; leave it out, and the constants of the file's compressor hold.");
        }

        if (design is null || (hasCurve && points is null) || (hasFurther && clearance is null))
        {
            return null;
        }

        PressureRatioCurve? curve = points is not null
            ? BuiltMember(reader, "efficiencyAtPressureRatio", () => new PressureRatioCurve([.. points.Select(p => (p.PressureRatio, p.Efficiency))], InTheFile))
            : Built(reader, () => PressureRatioCurve.Constant(design.IsentropicEfficiency));
        CylinderFilling? filling = clearance is { } left
            ? Built(reader, () => new CylinderFilling(left, leak ?? 0, heating ?? 1))
            : Built(reader, () => CylinderFilling.Constant(design.VolumetricEfficiency));
        return curve is null || filling is null ? null : Built(reader, () => new Compressor(design.SweptVolumeFlow, filling, curve, design.ShellHeatLossFraction));
    }

    private static EfficiencyPoint? Point(FieldReader reader)
    {
        double? ratio = reader.Number("pressureRatio", required: true, PressureRatio);
        double? efficiency = reader.Number("efficiency", required: true, Ratio);
        reader.RejectUnknownMembers();
        return ratio is { } at && efficiency is { } value ? new(at, value) : null;
    }

    private static AfterCooling? AfterCooling(FieldReader machine, DesignPart design)
    {
        if (machine.Has("afterCooling"))
        {
            FieldReader? reader = machine.Object("afterCooling", required: true);
            TemperatureDelta? above = reader?.Quantity("aboveRoom", required: true, UnitNames.TemperatureDifferences, AboveRoom);
            reader?.RejectUnknownMembers();
            return above is { } given ? Rating.AfterCooling.WithApproach(given) : null;
        }

        if (design.AfterCooler is not { } outlet || design.Ambient is not { } room)
        {
            return null;
        }

        double difference = outlet.Kelvins - room.Kelvins;
        if (AboveRoom.Holds(difference))
        {
            return Rating.AfterCooling.WithApproach(TemperatureDelta.FromKelvins(difference));
        }

        machine.Fault("afterCooling", $"is left out, and afterCoolerOutletTemperature less ambientTemperature is {difference:G6} K; allowed is {AboveRoom.Text("K")}.");
        return null;
    }

    private static PreCooling? PreCooling(FieldReader machine, Temperature? design)
    {
        if (machine.Has("preCooler"))
        {
            FieldReader? reader = machine.Object("preCooler", required: true);
            Temperature? given = reader?.Quantity("outletTemperature", required: true, UnitNames.Temperatures, PreCooled);
            reader?.RejectUnknownMembers();
            return given is { } told ? Rating.PreCooling.To(told) : null;
        }

        if (design is not { } outlet)
        {
            return null;
        }

        if (PreCooled.Holds(outlet.Kelvins))
        {
            return Rating.PreCooling.To(outlet);
        }

        machine.Fault("preCooler", $"is left out, and preCoolerOutletTemperature is {outlet.Kelvins:G6} K; allowed is {PreCooled.Text("K")}.");
        return null;
    }

    private static CoolerRecuperator? Recuperator(FieldReader? reader, RecuperatorDescription? design)
    {
        if (reader is null)
        {
            return null;
        }

        bool hasTubes = reader.Has("tubes");
        bool hasVolumes = reader.Has("highSideVolume") | reader.Has("lowSideVolume");
        if (hasTubes && hasVolumes)
        {
            reader.FaultOfWhole("has tubes beside highSideVolume or lowSideVolume; the tubes tell their volumes.");
        }

        CoolerRecuperator? tubes = hasTubes ? TubesInTube(reader.Object("tubes", required: true)) : null;
        Volume? high = reader.Quantity("highSideVolume", required: !hasTubes, UnitNames.Volumes, AnyVolume);
        Volume? low = reader.Quantity("lowSideVolume", required: !hasTubes, UnitNames.Volumes, AnyVolume);
        reader.RejectUnknownMembers();
        if (hasTubes || design is null || high is not { } highSide || low is not { } lowSide)
        {
            return tubes;
        }

        return Built(reader, () => CoolerRecuperator.OfConductance(design.ConductanceWattsPerKelvin, highSide, lowSide, design.HighSidePressureDrop, design.LowSidePressureDrop));
    }

    private static PhaseSeparator? Separator(FieldReader machine, CoolerRecuperator? recuperator)
    {
        FieldReader? reader = machine.Object("separator", required: false);
        if (reader is null)
        {
            return null;
        }

        Volume? volume = reader.Quantity("volume", required: true, UnitNames.Volumes, VesselVolume);
        double? level = reader.Number("liquidLevel", required: true, Level);
        CoolerRecuperator? cold = ColdExchanger(reader.Object("coldExchanger", required: true));
        reader.RejectUnknownMembers();
        if (recuperator?.Tubes is not null)
        {
            reader.FaultOfWhole("stands beside recuperator.tubes; with a separator the recuperator is given by its volumes, and by the conductance of the file.");
            return null;
        }

        return volume is { } vessel && level is { } held && cold is not null ? Built(reader, () => new PhaseSeparator(vessel, held, cold)) : null;
    }

    private static CoolerRecuperator? ColdExchanger(FieldReader? reader)
    {
        if (reader is null)
        {
            return null;
        }

        double? conductance = reader.Quantity("conductance", required: true, UnitNames.Conductances, AnyConductance);
        Volume? high = reader.Quantity("highSideVolume", required: true, UnitNames.Volumes, AnyVolume);
        Volume? low = reader.Quantity("lowSideVolume", required: true, UnitNames.Volumes, AnyVolume);
        reader.RejectUnknownMembers();
        return conductance is { } value && high is { } highSide && low is { } lowSide ? Built(reader, () => CoolerRecuperator.OfConductance(value, highSide, lowSide)) : null;
    }

    private static CoolerRecuperator? TubesInTube(FieldReader? reader)
    {
        if (reader is null)
        {
            return null;
        }

        Length? length = reader.Quantity("length", required: true, UnitNames.Lengths, AnyLength);
        TubeWall? tube = Wall(reader.Object("tube", required: true));
        TubeWall? shell = Wall(reader.Object("shell", required: true));
        int? count = reader.Has("tubeCount") ? reader.WholeNumber("tubeCount", Tubes) : 1;
        bool isCoiled = reader.Has("coilDiameter");
        Length? coil = reader.Quantity("coilDiameter", required: false, UnitNames.Lengths, Coil);
        bool isHighInTubes = reader.Boolean("highPressureInTubes") ?? true;
        reader.RejectUnknownMembers();
        return length is { } along && tube is not null && shell is not null && count is { } number && isCoiled == coil is not null
            ? Built(reader, () => CoolerRecuperator.OfTubes(TubeRecuperator.TubesInTube(along, tube, shell, number, coil, isHighInTubes)))
            : null;
    }

    private static TubeWall? Wall(FieldReader? reader)
    {
        if (reader is null)
        {
            return null;
        }

        Length? outer = reader.Quantity("outerDiameter", required: true, UnitNames.Lengths, AnyDiameter);
        Length? wall = reader.Quantity("wall", required: true, UnitNames.Lengths, AnyThickness);
        SolidMaterial? material = Material(reader);
        reader.RejectUnknownMembers();
        return outer is { } diameter && wall is { } thickness && material is not null ? Built(reader, () => new TubeWall(material, diameter, thickness)) : null;
    }

    private static SolidMaterial? Material(FieldReader reader) =>
        Known(reader, "material", [.. SolidMaterial.All.Where(m => m.HasConductivity)], m => m.AlsoKnownAs.Prepend(m.Name), "a material whose conductivity is known");

    /// <summary>Reads the name of something known, in any case; a fault names the nearest.</summary>
    private static T? Known<T>(FieldReader reader, string field, IReadOnlyList<T> all, Func<T, IEnumerable<string>> names, string expected)
        where T : class
    {
        if (reader.Text(field, required: true, expected)?.Trim() is not { } text)
        {
            return null;
        }

        T? found = all.FirstOrDefault(one => names(one).Contains(text, StringComparer.OrdinalIgnoreCase));
        if (found is null)
        {
            reader.Fault(field, $"is \"{FieldReader.Shorten(text)}\", which is not known; expected is {expected}, the nearest is \"{NearestName.Of(text, all.SelectMany(names))}\".");
        }

        return found;
    }

    private static IThrottlePart? Throttle(FieldReader machine)
    {
        const string Expected = "a valve or a capillary in braces, or a list of 2 to 5 of them";
        if (machine.Element("throttle", required: true, Expected) is not { } element)
        {
            return null;
        }

        if (element.ValueKind != JsonValueKind.Array)
        {
            return element.ValueKind == JsonValueKind.Object
                ? ThrottlePart(machine.Object("throttle", required: true))
                : Fault();
        }

        List<IThrottlePart>? parts = machine.Every("throttle", required: true, ThrottlePart);
        if (element.GetArrayLength() is var count and (< 2 or > 5))
        {
            machine.Fault("throttle", $"is a list of {count}; expected is {Expected}.");
            return null;
        }

        return parts is null ? null : new ThrottleSeries(parts);

        IThrottlePart? Fault()
        {
            machine.Fault("throttle", $"is {FieldReader.Describe(element)}; expected is {Expected}.");
            return null;
        }
    }

    private static IThrottlePart? ThrottlePart(FieldReader? reader)
    {
        if (reader is null)
        {
            return null;
        }

        bool isValve = reader.Has("valve");
        bool isCapillary = reader.Has("capillary");
        if (isValve == isCapillary)
        {
            reader.FaultOfWhole(isValve ? "has both valve and capillary; for both in series write a list." : "has neither valve nor capillary; give one of them.");
        }

        IThrottlePart? valve = isValve ? Valve(reader.Object("valve", required: true)) : null;
        IThrottlePart? capillary = isCapillary ? Capillary(reader.Object("capillary", required: true)) : null;
        reader.RejectUnknownMembers();
        return isValve == isCapillary ? null : valve ?? capillary;
    }

    private static ControlValve? Valve(FieldReader? reader)
    {
        if (reader is null)
        {
            return null;
        }

        bool isKv = reader.Has("flowCoefficientKv");
        bool isCv = reader.Has("flowCoefficientCv");
        if (isKv == isCv)
        {
            reader.FaultOfWhole(isKv ? "has both flowCoefficientKv and flowCoefficientCv; give one of them." : "has neither flowCoefficientKv nor flowCoefficientCv; give one of them.");
        }

        double? kv = reader.Number("flowCoefficientKv", required: false, Kv);
        double? cv = reader.Number("flowCoefficientCv", required: false, new AllowedRange(CvPerKv * Kv.Low, CvPerKv * Kv.High));
        string? style = reader.Word("style", required: true, [.. Styles.Select(s => s.Name)]);
        reader.RejectUnknownMembers();
        return isKv != isCv && (kv ?? (cv / CvPerKv)) is { } coefficient && style is not null
            ? Built(reader, () => new ControlValve(coefficient, Styles.First(s => s.Name == style)))
            : null;
    }

    private static Capillary? Capillary(FieldReader? reader)
    {
        if (reader is null)
        {
            return null;
        }

        Length? bore = reader.Quantity("bore", required: true, UnitNames.Lengths, Bore);
        Length? length = reader.Quantity("length", required: true, UnitNames.Lengths, CapillaryLength);
        reader.RejectUnknownMembers();
        return bore is { } inner && length is { } along ? Built(reader, () => new Capillary(inner, along)) : null;
    }

    private static List<CoolerSpace>? Spaces(FieldReader machine)
    {
        HashSet<string> names = new(StringComparer.Ordinal);
        bool hasSuction = false;
        List<CoolerSpace>? spaces = machine.Every("spaces", required: true, reader =>
        {
            string? name = reader.Text("name", required: true)?.Trim();
            Volume? volume = reader.Quantity("volume", required: true, UnitNames.Volumes, SpaceVolume);
            string? place = reader.Word("place", required: true, [.. Places.Keys]);
            reader.RejectUnknownMembers();
            hasSuction |= place is not null && Places[place] == SpacePlace.Suction;
            if (name is not null && !names.Add(name))
            {
                reader.Fault("name", $"is \"{FieldReader.Shorten(name)}\", as another space is; give each space a name of its own.");
                return null;
            }

            return name is not null && volume is { } free && place is not null ? new CoolerSpace(name, free, Places[place]) : null;
        });
        if (spaces is null || hasSuction)
        {
            return spaces;
        }

        machine.Fault("spaces", "holds none at the place \"suction\"; the shell of the compressor or its suction line is one at least.");
        return null;
    }

    private static IReadOnlyList<HeatLeakItem>? Leaks(FieldReader machine, DesignPart design)
    {
        if (machine.Has("insulation"))
        {
            return machine.Every("insulation", required: true, reader => LeakItem(reader, design.Ambient));
        }

        return design.HeatLeak is { } heat ? [HeatLeakItem.Known("heat leak of the file", Alike(heat), InTheFile)] : null;
    }

    private static HeatLeakItem? LeakItem(FieldReader reader, Temperature? room)
    {
        string? name = reader.Text("name", required: true)?.Trim();
        string[] kinds = [.. LeakKinds.Where(reader.Has)];
        if (kinds.Length != 1)
        {
            reader.FaultOfWhole($"has {(kinds.Length == 0 ? "none" : string.Join(" and ", kinds))} of {string.Join(", ", LeakKinds)}; give one of them.");
        }

        Power? heat = reader.Quantity("heat", required: false, UnitNames.Powers, AnyHeat);
        InsulatedSurface? foam = Foam(reader.Object("foam", required: false), room);
        (ConductionBar Bar, int Count)? bars = Conduction(reader.Object("bars", required: false));
        reader.RejectUnknownMembers();
        return kinds.Length != 1 || name is null ? null
            : heat is { } known ? HeatLeakItem.Known(name, Alike(known), InTheFile)
            : foam is not null ? HeatLeakItem.Insulated(name, foam)
            : bars is { } some ? Built(reader, () => HeatLeakItem.Bars(name, [some.Bar], some.Count))
            : null;
    }

    private static InsulatedSurface? Foam(FieldReader? reader, Temperature? room)
    {
        if (reader is null)
        {
            return null;
        }

        PorousInsulation? insulation = Known(
            reader, "insulation", [.. PorousInsulation.All.Where(i => i.IsKnownAtOneAtmosphere)], i => [i.Name], "an insulation known at 1 atm");
        Area? area = reader.Quantity("area", required: true, UnitNames.Areas, AnyArea);
        Length? thickness = reader.Quantity("thickness", required: true, UnitNames.Lengths, new AllowedRange(1e-4, 10));
        reader.RejectUnknownMembers();
        if (room is { } warm && insulation is not null && warm.Kelvins > insulation.Highest.Kelvins)
        {
            reader.FaultOfWhole($"is of {insulation.Name}, known up to {insulation.Highest.Kelvins:G6} K only; ambientTemperature is {warm.Kelvins:G6} K.");
        }

        return insulation is not null && area is { } covered && thickness is { } thick
            ? Built(reader, () => new InsulatedSurface(InsulatedBody.Wall(covered), insulation, thick))
            : null;
    }

    private static (ConductionBar Bar, int Count)? Conduction(FieldReader? reader)
    {
        if (reader is null)
        {
            return null;
        }

        SolidMaterial? material = Material(reader);
        Length? length = reader.Quantity("length", required: true, UnitNames.Lengths, AnyLength);
        Area? section = reader.Quantity("crossSection", required: true, UnitNames.Areas, CrossSection);
        int? count = reader.Has("count") ? reader.WholeNumber("count", Bars) : 1;
        reader.RejectUnknownMembers();
        return material is not null && length is { } along && section is { } across && count is { } number
            && Built(reader, () => new ConductionBar(material, along, across)) is { } bar
            ? (bar, number)
            : null;
    }

    private static UncertaintyDescription Uncertainty(FieldReader? reader)
    {
        if (reader is null)
        {
            return new();
        }

        UncertaintyDescription told = new()
        {
            ThrottleBore = reader.Quantity("throttleBore", required: false, UnitNames.Lengths, BoreTolerance),
            FillingFraction = reader.Number("fillingFraction", required: false, UpToHalf),
            ConductanceFactor = reader.Number("conductanceFactor", required: false, TimesOrOver),
            LeakFactor = reader.Number("leakFactor", required: false, LeakTimesOrOver),
            AmbientDifference = reader.Quantity("ambientDifference", required: false, UnitNames.TemperatureDifferences, RoomDifference),
            CompressorFlowFactor = reader.Number("compressorFlowFactor", required: false, FlowTimesOrOver),
            ModelFraction = reader.Number("modelFraction", required: false, UpToHalf),
            DifferencesBy = reader.Word("differencesByModel", required: false, CoolerDescriptionReader.ModelNames) is { } word ? CoolerDescriptionReader.ModelNamed(word) : null,
        };
        reader.RejectUnknownMembers();
        return told;
    }

    private static FigureBand<Power> Alike(Power heat) => new(heat, heat, heat);

    /// <summary>Builds a part; a fault of the object where its figures do not go together.</summary>
    private static T? Built<T>(FieldReader reader, Func<T> build)
        where T : class
    {
        try
        {
            return build();
        }
        catch (ArgumentException error)
        {
            reader.FaultOfWhole($"cannot be built: {MessageText.Of(error)}");
            return null;
        }
    }

    private static T? BuiltMember<T>(FieldReader reader, string member, Func<T> build)
        where T : class
    {
        try
        {
            return build();
        }
        catch (ArgumentException error)
        {
            reader.Fault(member, $"cannot be taken: {MessageText.Of(error)}");
            return null;
        }
    }

    private sealed record EfficiencyPoint(double PressureRatio, double Efficiency);
}
