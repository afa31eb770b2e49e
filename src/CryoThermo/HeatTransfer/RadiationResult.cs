using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>Radiation between two grey surfaces. Immutable and thread-safe.</summary>
/// <param name="Flux">From the first to the second surface, for each area of the first; negative where the second is the warmer.</param>
/// <param name="Coefficient">The same over the difference of temperatures.</param>
/// <param name="ExchangeFactor">The flux over that of black surfaces of the same temperatures, 0 to 1.</param>
public sealed record RadiationResult(HeatFlux Flux, HeatTransferCoefficient Coefficient, double ExchangeFactor);
