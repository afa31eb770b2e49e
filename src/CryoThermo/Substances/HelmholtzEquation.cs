namespace CryoThermo.Substances;

/// <summary>
/// A fundamental equation of state of a pure fluid in the Helmholtz energy: its terms, constants, range, uncertainty and marks, as
/// published. Every number keeps the equation's own gas constant and molar mass. Immutable and thread-safe.
/// </summary>
public sealed class HelmholtzEquation
{
    internal HelmholtzEquation()
    {
    }

    /// <summary>What the equation was made for.</summary>
    public required EquationStandard Standard { get; init; }

    /// <summary>Source and marks.</summary>
    public required Provenance Provenance { get; init; }

    /// <summary>Molar gas constant of the publication, J/(mol K).</summary>
    public required double GasConstant { get; init; }

    /// <summary>Molar mass of the publication, kg/mol.</summary>
    public required double MolarMass { get; init; }

    /// <summary>Reducing temperature, K: tau = this / T.</summary>
    public required double ReducingTemperature { get; init; }

    /// <summary>Reducing molar density, mol/m3: delta = density / this.</summary>
    public required double ReducingMolarDensity { get; init; }

    /// <summary>
    /// The equation's own critical point, where dp/drho and d2p/drho2 vanish. Short forms put it up to 0.6 K above the measured one. For a
    /// pseudo-pure fluid: the point of highest temperature at which two phases exist.
    /// </summary>
    public required FluidPoint CriticalPoint { get; init; }

    /// <summary>Triple-point temperature, K (helium: lambda point); null when none is given.</summary>
    public double? TripleTemperature { get; init; }

    /// <summary>Triple-point pressure as recalled with the publication, Pa; null when none is given.</summary>
    public double? TriplePressure { get; init; }

    /// <summary>Stated range.</summary>
    public required EquationRange Range { get; init; }

    /// <summary>Stated uncertainty.</summary>
    public required PropertyUncertainty Uncertainty { get; init; }

    /// <summary>Ideal-gas part.</summary>
    public required IdealGasForm IdealGas { get; init; }

    /// <summary>Polynomial and exponential terms.</summary>
    public required IReadOnlyList<DensityTerm> DensityTerms { get; init; }

    /// <summary>Bell-shaped terms; may be empty.</summary>
    public required IReadOnlyList<BellTerm> BellTerms { get; init; }

    /// <summary>Non-analytic terms for the critical region; may be empty.</summary>
    public required IReadOnlyList<CriticalTerm> CriticalTerms { get; init; }

    /// <summary>True for a mixture of fixed composition described as if it were pure: it has separate bubble and dew lines, given by curves.</summary>
    public bool IsPseudoPure { get; init; }

    /// <summary>Vapour pressure over temperature by an independent curve, Pa; of a pseudo-pure fluid the bubble pressure. Null when none is given.</summary>
    public SaturationCurve? VaporPressure { get; init; }

    /// <summary>Dew pressure of a pseudo-pure fluid, Pa; null for all others.</summary>
    public SaturationCurve? DewPressure { get; init; }

    /// <summary>Molar density of the saturated liquid by an independent curve, mol/m3; null when none is given.</summary>
    public SaturationCurve? SaturatedLiquidDensity { get; init; }

    /// <summary>Molar density of the saturated vapour by an independent curve, mol/m3; null when none is given.</summary>
    public SaturationCurve? SaturatedVaporDensity { get; init; }

    /// <summary>Melting pressure over temperature, Pa; null when none is given.</summary>
    public SaturationCurve? MeltingPressure { get; init; }

    /// <summary>Sublimation pressure over temperature, Pa; null when none is given.</summary>
    public SaturationCurve? SublimationPressure { get; init; }

    /// <summary>
    /// What must be added to the published enthalpy to put the spin forms of hydrogen on one scale, J/mol: the ideal gas of
    /// molecules at rest without rotation at 0 K. Zero for all other fluids.
    /// </summary>
    public double SpinEnthalpyOffset { get; init; }

    /// <summary>What must be added to the published entropy to put the spin forms of hydrogen on one scale, J/(mol K). Zero for all other fluids.</summary>
    public double SpinEntropyOffset { get; init; }

    /// <summary>Further remarks of the source; empty when there are none.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];

    /// <inheritdoc/>
    public override string ToString() => Provenance.Source.Publication;
}
