using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo;

/// <summary>How much of a component a cold liquid holds before solid forms. Immutable and thread-safe.</summary>
/// <param name="Component">The component whose solid is in equilibrium with the liquid.</param>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure; the bubble pressure of the solution where saturation was asked for.</param>
/// <param name="MoleFraction">Mole fraction in the liquid; 1 when the component is itself liquid there.</param>
/// <param name="IsLimited">False when the component is liquid itself, so that solid limits nothing.</param>
/// <param name="Liquid">Composition of the saturated solution.</param>
/// <param name="Basis">Model, notes and cautions.</param>
public sealed record Solubility(
    Substance Component, Temperature Temperature, Pressure Pressure, double MoleFraction, bool IsLimited, Composition Liquid, FreezingBasis Basis);
