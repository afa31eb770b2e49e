namespace CryoThermo.Equilibrium.Solids;

/// <summary>Where on an isobar fluid and solid fugacity of a component are equal.</summary>
/// <param name="Component">Index of the component.</param>
/// <param name="Temperature">K.</param>
/// <param name="FreezesOnCooling">True where the solid forms on cooling; false where it dissolves again.</param>
/// <param name="Fluid">The fluid there.</param>
internal sealed record FreezeCrossing(int Component, double Temperature, bool FreezesOnCooling, EquilibriumResult Fluid);
