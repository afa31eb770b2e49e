namespace CryoThermo.Substances;

/// <summary>
/// What is known about viscosity, thermal conductivity and surface tension of a pure substance. Where a part is missing,
/// corresponding states take its place. Immutable and thread-safe.
/// </summary>
public sealed class TransportData
{
    internal TransportData()
    {
    }

    /// <summary>Viscosity of the dilute gas; null when none is given.</summary>
    public TransportCorrelation? DiluteViscosity { get; internal init; }

    /// <summary>Viscosity of the dense gas and the liquid; null when none is given.</summary>
    public TransportCorrelation? DenseViscosity { get; internal init; }

    /// <summary>Thermal conductivity of the dilute gas; null when none is given.</summary>
    public TransportCorrelation? DiluteConductivity { get; internal init; }

    /// <summary>Thermal conductivity of the dense gas and the liquid; null when none is given.</summary>
    public TransportCorrelation? DenseConductivity { get; internal init; }

    /// <summary>Thermal conductivity near the critical point; null when none is given.</summary>
    public CriticalEnhancement? CriticalEnhancement { get; internal init; }

    /// <summary>Coefficients for corresponding states with nitrogen; null when none are given.</summary>
    public CorrespondingStatesCoefficients? CorrespondingStates { get; internal init; }

    /// <summary>Surface tension; null when none is given.</summary>
    public SurfaceTensionCurve? SurfaceTension { get; internal init; }

    /// <summary>Parachor in the customary unit (mN/m)^(1/4) cm3/mol; null when none is given.</summary>
    public double? Parachor { get; internal init; }

    /// <summary>Source and marks of the parachor; null with it.</summary>
    public Provenance? ParachorProvenance { get; internal init; }

    internal DiluteFunction? DiluteViscosityFunction { get; init; }

    internal DiluteFunction? DiluteConductivityFunction { get; init; }

    internal DenseFunction? DenseViscosityFunction { get; init; }

    internal DenseFunction? DenseConductivityFunction { get; init; }
}
