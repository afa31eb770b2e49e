using UnitsNet;

namespace CryoThermo;

/// <summary>Equilibrium of a fluid with pure solids at a temperature and pressure. Immutable and thread-safe.</summary>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
/// <param name="Solids">The solids, the greatest amount first; empty when nothing is solid.</param>
/// <param name="Fluid">The fluid that is left, with its composition and phases; null when all is solid.</param>
/// <param name="FluidFraction">Fluid moles over all moles.</param>
/// <param name="Residual">Largest difference of ln fugacity between fluid and solid.</param>
/// <param name="Basis">Model, notes and cautions.</param>
public sealed record FrozenState(
    Temperature Temperature,
    Pressure Pressure,
    IReadOnlyList<FrozenAmount> Solids,
    State? Fluid,
    double FluidFraction,
    double Residual,
    FreezingBasis Basis);
