namespace CryoThermo.Substances;

internal sealed class ReducingEntry
{
    public double? Temperature { get; set; }

    public double? MolarDensity { get; set; }
}

internal sealed class FluidPointEntry
{
    public double? Temperature { get; set; }

    public double? Pressure { get; set; }

    public double? MolarDensity { get; set; }
}

internal sealed class EquationTripleEntry
{
    public double? Temperature { get; set; }

    public double? Pressure { get; set; }
}

internal sealed class EquationRangeEntry
{
    public double? LowestTemperature { get; set; }

    public double? HighestTemperature { get; set; }

    public double? HighestPressure { get; set; }

    public double? HighestMolarDensity { get; set; }

    public string? Note { get; set; }
}

internal sealed class PropertyUncertaintyEntry
{
    public string? Density { get; set; }

    public string? VaporPressure { get; set; }

    public string? SaturatedDensity { get; set; }

    public string? HeatCapacity { get; set; }

    public string? SpeedOfSound { get; set; }

    public string? Remark { get; set; }
}

internal sealed class DensityTermEntry
{
    public double? Coefficient { get; set; }

    public double? TemperatureExponent { get; set; }

    public double? DensityExponent { get; set; }

    public double? DecayExponent { get; set; }
}

internal sealed class BellTermEntry
{
    public double? Coefficient { get; set; }

    public double? TemperatureExponent { get; set; }

    public double? DensityExponent { get; set; }

    public double? DensitySharpness { get; set; }

    public double? DensityCenter { get; set; }

    public double? TemperatureSharpness { get; set; }

    public double? TemperatureCenter { get; set; }
}

internal sealed class CriticalTermEntry
{
    public double? Coefficient { get; set; }

    public double? DistanceExponent { get; set; }

    public double? Exponent { get; set; }

    public double? CurveExponent { get; set; }

    public double? CurveWeight { get; set; }

    public double? DistanceWeight { get; set; }

    public double? DensitySharpness { get; set; }

    public double? TemperatureSharpness { get; set; }
}

internal sealed class IdealGasTermEntry
{
    public string? Kind { get; set; }

    public double? Coefficient { get; set; }

    public double? Exponent { get; set; }

    public double? Weight { get; set; }

    public double? Temperature { get; set; }

    public double? ReducedTemperature { get; set; }

    public double? DegeneracyRatio { get; set; }

    public double? Constant { get; set; }

    public double? Factor { get; set; }
}

internal sealed class IdealGasEntry
{
    public string? Form { get; set; }

    public double? Constant { get; set; }

    public double? Slope { get; set; }

    public IReadOnlyList<IdealGasTermEntry?>? Terms { get; set; }

    public string? Reference { get; set; }

    public string? Source { get; set; }

    public string? Note { get; set; }
}

internal sealed class CurveTermEntry
{
    public double? Coefficient { get; set; }

    public double? Exponent { get; set; }
}

internal sealed class SaturationCurveEntry : MarkedEntry
{
    public string? Form { get; set; }

    public double? ReducingTemperature { get; set; }

    public double? ReducingValue { get; set; }

    public IReadOnlyList<CurveTermEntry?>? Terms { get; set; }

    public IReadOnlyList<CurveTermEntry?>? ShiftedTerms { get; set; }

    public double? LogarithmicCoefficient { get; set; }

    public double? LowestTemperature { get; set; }

    public double? HighestTemperature { get; set; }
}

internal sealed class SaturationCurvesEntry
{
    public SaturationCurveEntry? VaporPressure { get; set; }

    public SaturationCurveEntry? BubblePressure { get; set; }

    public SaturationCurveEntry? DewPressure { get; set; }

    public SaturationCurveEntry? LiquidDensity { get; set; }

    public SaturationCurveEntry? VaporDensity { get; set; }

    public SaturationCurveEntry? Melting { get; set; }

    public SaturationCurveEntry? Sublimation { get; set; }
}

internal sealed class SpinOffsetsEntry
{
    public double? Enthalpy { get; set; }

    public double? Entropy { get; set; }

    public string? Source { get; set; }
}

/// <summary>A Helmholtz equation as written in a substance file; the rules are held by <see cref="EquationReader"/>.</summary>
internal sealed class EquationEntry
{
    public string? Standard { get; set; }

    public string? Source { get; set; }

    public double? GasConstant { get; set; }

    public double? MolarMass { get; set; }

    public ReducingEntry? Reducing { get; set; }

    public FluidPointEntry? CriticalPoint { get; set; }

    public EquationTripleEntry? TriplePoint { get; set; }

    public EquationRangeEntry? Range { get; set; }

    public PropertyUncertaintyEntry? Uncertainty { get; set; }

    public bool? PseudoPure { get; set; }

    public IdealGasEntry? IdealGas { get; set; }

    public IReadOnlyList<DensityTermEntry?>? DensityTerms { get; set; }

    public IReadOnlyList<BellTermEntry?>? BellTerms { get; set; }

    public IReadOnlyList<CriticalTermEntry?>? CriticalTerms { get; set; }

    public SaturationCurvesEntry? SaturationCurves { get; set; }

    public SpinOffsetsEntry? SpinOffsets { get; set; }

    public IReadOnlyList<string?>? Remarks { get; set; }
}
