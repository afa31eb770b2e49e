using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>Radiation across a vacuum with shields. Immutable and thread-safe.</summary>
/// <param name="Flux">For each area of the inner wall, towards it; negative where it is the warmer.</param>
/// <param name="ExchangeFactor">The flux over that between black walls without shields, 0 to 1.</param>
/// <param name="Shields">Temperatures that the shields take, from the inner to the outer.</param>
public sealed record VacuumRadiationResult(HeatFlux Flux, double ExchangeFactor, IReadOnlyList<Temperature> Shields);
