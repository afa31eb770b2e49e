using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A point along a capillary. Immutable and thread-safe.</summary>
/// <param name="Position">From the inlet of the first stretch.</param>
/// <param name="Section">Index of the stretch.</param>
/// <param name="Pressure">Static, absolute.</param>
/// <param name="Temperature">Static.</param>
/// <param name="VaporMassFraction">Mass of vapour over mass of the whole.</param>
/// <param name="Velocity">Of all phases.</param>
public sealed record CapillaryPoint(Length Position, int Section, Pressure Pressure, Temperature Temperature, double VaporMassFraction, Speed Velocity);
