using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo;

/// <summary>Where a component begins to freeze on cooling at constant pressure. Immutable and thread-safe.</summary>
/// <param name="Component">The component whose solid forms.</param>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
/// <param name="Origin">What it forms from.</param>
/// <param name="FluidPhases">The phases of the fluid there, in words.</param>
/// <param name="DissolvesAgainAt">Colder temperature at which the solid disappears again; null when it does not within the range of the model.</param>
/// <param name="Basis">Model, notes and cautions.</param>
public sealed record FreezingPoint(
    Substance Component,
    Temperature Temperature,
    Pressure Pressure,
    FreezingOrigin Origin,
    string FluidPhases,
    Temperature? DissolvesAgainAt,
    FreezingBasis Basis)
{
    /// <inheritdoc/>
    public override string ToString() =>
        $"{Component.Name} freezes from {Temperature.Kelvins:0.00} K ({Temperature.DegreesCelsius:0.00} degC) at {Pressure.Bars:0.###} bar absolute, from {FluidPhases}";
}
