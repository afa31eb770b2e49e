namespace CryoThermo.Substances;

internal sealed class SourceEntry
{
    public string? Publication { get; init; }

    public bool? FromMemory { get; init; }

    public string? Verified { get; init; }

    public static SourceEntry From(JsonBlock at)
    {
        at.RequireOnly("publication", "fromMemory", "verified");
        return new SourceEntry
        {
            Publication = at.Text("publication"),
            FromMemory = at.Flag("fromMemory"),
            Verified = at.Text("verified"),
        };
    }
}

internal abstract class MarkedEntry
{
    public string? Source { get; init; }

    public string? Uncertainty { get; init; }

    public string? Note { get; init; }
}

internal sealed class ValueEntry : MarkedEntry
{
    public double? Value { get; init; }

    public static ValueEntry From(JsonBlock at)
    {
        at.RequireOnly("value", "source", "uncertainty", "note");
        return new ValueEntry
        {
            Value = at.Number("value"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class CriticalEntry : MarkedEntry
{
    public double? Temperature { get; init; }

    public double? Pressure { get; init; }

    public double? MolarDensity { get; init; }

    public static CriticalEntry From(JsonBlock at)
    {
        at.RequireOnly("temperature", "pressure", "molarDensity", "source", "uncertainty", "note");
        return new CriticalEntry
        {
            Temperature = at.Number("temperature"),
            Pressure = at.Number("pressure"),
            MolarDensity = at.Number("molarDensity"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class TemperatureEntry : MarkedEntry
{
    public double? Temperature { get; init; }

    public static TemperatureEntry From(JsonBlock at)
    {
        at.RequireOnly("temperature", "source", "uncertainty", "note");
        return new TemperatureEntry
        {
            Temperature = at.Number("temperature"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class TriplePointEntry : MarkedEntry
{
    public double? Temperature { get; init; }

    public double? Pressure { get; init; }

    public static TriplePointEntry From(JsonBlock at)
    {
        at.RequireOnly("temperature", "pressure", "source", "uncertainty", "note");
        return new TriplePointEntry
        {
            Temperature = at.Number("temperature"),
            Pressure = at.Number("pressure"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class HeatCapacityTermEntry
{
    public string? Kind { get; init; }

    public double? Coefficient { get; init; }

    public double? Exponent { get; init; }

    public double? Weight { get; init; }

    public double? Temperature { get; init; }

    public double? DegeneracyRatio { get; init; }

    public static HeatCapacityTermEntry From(JsonBlock at)
    {
        at.RequireOnly("kind", "coefficient", "exponent", "weight", "temperature", "degeneracyRatio");
        return new HeatCapacityTermEntry
        {
            Kind = at.Text("kind"),
            Coefficient = at.Number("coefficient"),
            Exponent = at.Number("exponent"),
            Weight = at.Number("weight"),
            Temperature = at.Number("temperature"),
            DegeneracyRatio = at.Number("degeneracyRatio"),
        };
    }
}

internal sealed class HeatCapacityEntry : MarkedEntry
{
    public IReadOnlyList<HeatCapacityTermEntry?>? Terms { get; init; }

    public double? LowestTemperature { get; init; }

    public double? HighestTemperature { get; init; }

    public static HeatCapacityEntry From(JsonBlock at)
    {
        at.RequireOnly("terms", "lowestTemperature", "highestTemperature", "source", "uncertainty", "note");
        return new HeatCapacityEntry
        {
            Terms = at.Blocks("terms", HeatCapacityTermEntry.From),
            LowestTemperature = at.Number("lowestTemperature"),
            HighestTemperature = at.Number("highestTemperature"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class LiquidDensityEntry : MarkedEntry
{
    public double? Temperature { get; init; }

    public double? MolarDensity { get; init; }

    public static LiquidDensityEntry From(JsonBlock at)
    {
        at.RequireOnly("temperature", "molarDensity", "source", "uncertainty", "note");
        return new LiquidDensityEntry
        {
            Temperature = at.Number("temperature"),
            MolarDensity = at.Number("molarDensity"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class VolumeTranslationEntry : MarkedEntry
{
    public double? PengRobinson { get; init; }

    public double? SoaveRedlichKwong { get; init; }

    public LiquidDensityEntry? FittedTo { get; init; }

    public static VolumeTranslationEntry From(JsonBlock at)
    {
        at.RequireOnly("pengRobinson", "soaveRedlichKwong", "fittedTo", "source", "uncertainty", "note");
        return new VolumeTranslationEntry
        {
            PengRobinson = at.Number("pengRobinson"),
            SoaveRedlichKwong = at.Number("soaveRedlichKwong"),
            FittedTo = at.Block("fittedTo", LiquidDensityEntry.From),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class StryjekVeraEntry : MarkedEntry
{
    public double? Kappa1 { get; init; }

    public static StryjekVeraEntry From(JsonBlock at)
    {
        at.RequireOnly("kappa1", "source", "uncertainty", "note");
        return new StryjekVeraEntry
        {
            Kappa1 = at.Number("kappa1"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

internal sealed class QuantumCubicEntry : MarkedEntry
{
    public double? CovolumeNumerator { get; init; }

    public double? CovolumeOffset { get; init; }

    public double? AlphaL { get; init; }

    public double? AlphaM { get; init; }

    public double? AlphaN { get; init; }

    public double? CriticalTemperature { get; init; }

    public double? CriticalPressure { get; init; }

    public static QuantumCubicEntry From(JsonBlock at)
    {
        at.RequireOnly(
            "covolumeNumerator",
            "covolumeOffset",
            "alphaL",
            "alphaM",
            "alphaN",
            "criticalTemperature",
            "criticalPressure",
            "source",
            "uncertainty",
            "note");
        return new QuantumCubicEntry
        {
            CovolumeNumerator = at.Number("covolumeNumerator"),
            CovolumeOffset = at.Number("covolumeOffset"),
            AlphaL = at.Number("alphaL"),
            AlphaM = at.Number("alphaM"),
            AlphaN = at.Number("alphaN"),
            CriticalTemperature = at.Number("criticalTemperature"),
            CriticalPressure = at.Number("criticalPressure"),
            Source = at.Text("source"),
            Uncertainty = at.Text("uncertainty"),
            Note = at.Text("note"),
        };
    }
}

/// <summary>A substance file as written; the rules are held by <see cref="SubstanceReader"/>.</summary>
internal sealed class SubstanceDocument
{
    public string? Name { get; init; }

    public string? Cas { get; init; }

    public string? Formula { get; init; }

    public string? Designation { get; init; }

    public IReadOnlyList<string?>? Spellings { get; init; }

    public IReadOnlyList<KeyValuePair<string, SourceEntry?>>? Sources { get; init; }

    public ValueEntry? MolarMass { get; init; }

    public CriticalEntry? Critical { get; init; }

    public ValueEntry? AcentricFactor { get; init; }

    public TemperatureEntry? NormalBoilingPoint { get; init; }

    public TemperatureEntry? SublimationPoint { get; init; }

    public TriplePointEntry? TriplePoint { get; init; }

    public HeatCapacityEntry? IdealGasHeatCapacity { get; init; }

    public VolumeTranslationEntry? VolumeTranslation { get; init; }

    public StryjekVeraEntry? StryjekVera { get; init; }

    public QuantumCubicEntry? QuantumCubic { get; init; }

    public static SubstanceDocument From(JsonBlock at)
    {
        at.RequireOnly(
            "name",
            "cas",
            "formula",
            "designation",
            "spellings",
            "sources",
            "molarMass",
            "critical",
            "acentricFactor",
            "normalBoilingPoint",
            "sublimationPoint",
            "triplePoint",
            "idealGasHeatCapacity",
            "volumeTranslation",
            "stryjekVera",
            "quantumCubic",
            "equations");
        return new SubstanceDocument
        {
            Name = at.Text("name"),
            Cas = at.Text("cas"),
            Formula = at.Text("formula"),
            Designation = at.Text("designation"),
            Spellings = at.Texts("spellings"),
            Sources = at.Labelled("sources", SourceEntry.From),
            MolarMass = at.Block("molarMass", ValueEntry.From),
            Critical = at.Block("critical", CriticalEntry.From),
            AcentricFactor = at.Block("acentricFactor", ValueEntry.From),
            NormalBoilingPoint = at.Block("normalBoilingPoint", TemperatureEntry.From),
            SublimationPoint = at.Block("sublimationPoint", TemperatureEntry.From),
            TriplePoint = at.Block("triplePoint", TriplePointEntry.From),
            IdealGasHeatCapacity = at.Block("idealGasHeatCapacity", HeatCapacityEntry.From),
            VolumeTranslation = at.Block("volumeTranslation", VolumeTranslationEntry.From),
            StryjekVera = at.Block("stryjekVera", StryjekVeraEntry.From),
            QuantumCubic = at.Block("quantumCubic", QuantumCubicEntry.From),
        };
    }
}
