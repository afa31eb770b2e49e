namespace CryoThermo.Substances;

internal sealed class SourceEntry
{
    public string? Publication { get; set; }

    public bool? FromMemory { get; set; }

    public string? Verified { get; set; }
}

internal abstract class MarkedEntry
{
    public string? Source { get; set; }

    public string? Uncertainty { get; set; }

    public string? Note { get; set; }
}

internal sealed class ValueEntry : MarkedEntry
{
    public double? Value { get; set; }
}

internal sealed class CriticalEntry : MarkedEntry
{
    public double? Temperature { get; set; }

    public double? Pressure { get; set; }

    public double? MolarDensity { get; set; }
}

internal sealed class TemperatureEntry : MarkedEntry
{
    public double? Temperature { get; set; }
}

internal sealed class TriplePointEntry : MarkedEntry
{
    public double? Temperature { get; set; }

    public double? Pressure { get; set; }
}

internal sealed class HeatCapacityTermEntry
{
    public string? Kind { get; set; }

    public double? Coefficient { get; set; }

    public double? Exponent { get; set; }

    public double? Weight { get; set; }

    public double? Temperature { get; set; }

    public double? DegeneracyRatio { get; set; }
}

internal sealed class HeatCapacityEntry : MarkedEntry
{
    public IReadOnlyList<HeatCapacityTermEntry?>? Terms { get; set; }

    public double? LowestTemperature { get; set; }

    public double? HighestTemperature { get; set; }
}

internal sealed class LiquidDensityEntry : MarkedEntry
{
    public double? Temperature { get; set; }

    public double? MolarDensity { get; set; }
}

internal sealed class VolumeTranslationEntry : MarkedEntry
{
    public double? PengRobinson { get; set; }

    public double? SoaveRedlichKwong { get; set; }

    public LiquidDensityEntry? FittedTo { get; set; }
}

internal sealed class StryjekVeraEntry : MarkedEntry
{
    public double? Kappa1 { get; set; }
}

internal sealed class QuantumCubicEntry : MarkedEntry
{
    public double? CovolumeNumerator { get; set; }

    public double? CovolumeOffset { get; set; }

    public double? AlphaL { get; set; }

    public double? AlphaM { get; set; }

    public double? AlphaN { get; set; }

    public double? CriticalTemperature { get; set; }

    public double? CriticalPressure { get; set; }
}

/// <summary>A substance file as written; the rules are held by <see cref="SubstanceReader"/>.</summary>
internal sealed class SubstanceDocument
{
    public string? Name { get; set; }

    public string? Cas { get; set; }

    public string? Formula { get; set; }

    public string? Designation { get; set; }

    public IReadOnlyList<string?>? Spellings { get; set; }

    public IReadOnlyDictionary<string, SourceEntry?>? Sources { get; set; }

    public ValueEntry? MolarMass { get; set; }

    public CriticalEntry? Critical { get; set; }

    public ValueEntry? AcentricFactor { get; set; }

    public TemperatureEntry? NormalBoilingPoint { get; set; }

    public TemperatureEntry? SublimationPoint { get; set; }

    public TriplePointEntry? TriplePoint { get; set; }

    public HeatCapacityEntry? IdealGasHeatCapacity { get; set; }

    public VolumeTranslationEntry? VolumeTranslation { get; set; }

    public StryjekVeraEntry? StryjekVera { get; set; }

    public QuantumCubicEntry? QuantumCubic { get; set; }

    public IReadOnlyList<EquationEntry?>? Equations { get; set; }
}
