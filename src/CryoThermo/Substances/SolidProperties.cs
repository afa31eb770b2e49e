namespace CryoThermo.Substances;

/// <summary>
/// What is known about the solid of a pure substance: enough to tell its fugacity from that of the liquid. Each figure carries its source.
/// Immutable and thread-safe.
/// </summary>
public sealed class SolidProperties
{
    internal SolidProperties()
    {
    }

    /// <summary>Triple-point temperature that belongs to the enthalpy of fusion, K; it may differ a little from that of an equation of state.</summary>
    public double TripleTemperature { get; internal init; }

    /// <summary>Triple-point pressure, Pa absolute; null when none is given.</summary>
    public double? TriplePressure { get; internal init; }

    /// <summary>Source and marks of the triple point.</summary>
    public Provenance TriplePointProvenance { get; internal init; } = null!;

    /// <summary>Enthalpy of fusion at the triple point, J/mol.</summary>
    public double FusionEnthalpy { get; internal init; }

    /// <summary>Source and marks of the enthalpy of fusion.</summary>
    public Provenance FusionProvenance { get; internal init; } = null!;

    /// <summary>Isobaric heat capacity of the liquid less that of the solid at the triple point, J/(mol K); null when not known.</summary>
    public double? HeatCapacityDifference { get; internal init; }

    /// <summary>Source and marks of the heat-capacity difference; null with it.</summary>
    public Provenance? HeatCapacityDifferenceProvenance { get; internal init; }

    /// <summary>Molar volume of the liquid less that of the solid at the triple point, m3/mol (negative for water); null when not known.</summary>
    public double? VolumeChange { get; internal init; }

    /// <summary>Source and marks of the volume change; null with it.</summary>
    public Provenance? VolumeChangeProvenance { get; internal init; }

    /// <summary>Molar volume of the solid at the triple point, m3/mol; null when not known.</summary>
    public double? MolarVolume { get; internal init; }

    /// <summary>Source and marks of the molar volume; null with it.</summary>
    public Provenance? MolarVolumeProvenance { get; internal init; }

    /// <summary>Transitions between crystal forms below the triple point, from warm to cold; empty when none is known.</summary>
    public IReadOnlyList<SolidTransition> Transitions { get; internal init; } = [];

    /// <summary>
    /// Sublimation pressures beside those that stand with a Helmholtz equation of the substance, from warm to cold; empty when there are none.
    /// </summary>
    public IReadOnlyList<SaturationCurve> SublimationPressures { get; internal init; } = [];
}
