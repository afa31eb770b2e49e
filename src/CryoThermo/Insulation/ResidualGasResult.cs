using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>Heat that gas carries across a gap, radiation left out. Immutable and thread-safe.</summary>
/// <param name="Flux">For each area of the inner wall, towards it; negative where it is the warmer. Least and greatest as <see cref="ResidualGas"/> tells.</param>
/// <param name="FreeMolecularFlux">If molecules flew from wall to wall.</param>
/// <param name="ContinuumFlux">If they met one another all the time, with natural convection.</param>
/// <param name="KnudsenNumber">Mean free path over width of the gap.</param>
/// <param name="Regime">How the gas carries heat.</param>
/// <param name="MeanFreePath">At the pressure read and the mean temperature.</param>
/// <param name="NusseltNumber">Continuum heat over that of conduction alone, 1 or more.</param>
/// <param name="AccommodationFactor">Of both walls together, 0 to 1.</param>
/// <param name="Sources">Where formulae and coefficients come from.</param>
/// <param name="Notes">What to know; empty for nothing.</param>
public sealed record ResidualGasResult(
    FigureBand<HeatFlux> Flux,
    HeatFlux FreeMolecularFlux,
    HeatFlux ContinuumFlux,
    double KnudsenNumber,
    GasRegime Regime,
    Length MeanFreePath,
    double NusseltNumber,
    double AccommodationFactor,
    IReadOnlyList<Source> Sources,
    IReadOnlyList<string> Notes);
