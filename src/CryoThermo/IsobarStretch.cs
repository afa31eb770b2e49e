using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>A stretch of an isobar over which the same phases exist.</summary>
/// <param name="Region">The phases.</param>
/// <param name="From">Lower end.</param>
/// <param name="To">Upper end; equal to the lower end where a pure fluid boils.</param>
public sealed record IsobarStretch(PhaseRegion Region, Temperature From, Temperature To);
