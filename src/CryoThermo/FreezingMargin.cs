using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo;

/// <summary>How far a component of a fluid is from freezing at a temperature and pressure. Immutable and thread-safe.</summary>
/// <param name="Component">The component or impurity.</param>
/// <param name="MoleFraction">Its moles over all moles.</param>
/// <param name="LnSaturationRatio">ln of its fugacity in the fluid over that of its pure solid: negative where nothing freezes; minus infinity is never given (see <see cref="CanFreeze"/>).</param>
/// <param name="FreezingTemperature">
/// The nearest temperature at this pressure at which fluid and solid are in equilibrium; null where there is none within the range of the model.
/// </param>
/// <param name="FirstFreezingTemperature">
/// The highest such temperature: what a fluid that comes from the warm meets first. A solid may dissolve again below it.
/// </param>
/// <param name="Margin">
/// Distance to <see cref="FreezingTemperature"/>: positive where the component stays fluid, negative where it is supersaturated; null with it.
/// </param>
/// <param name="CanFreeze">False above all melting temperatures of the component: no mixture freezes it there; the ratio is then that of its hottest possible freezing.</param>
public sealed record FreezingMargin(
    Substance Component,
    double MoleFraction,
    double LnSaturationRatio,
    Temperature? FreezingTemperature,
    Temperature? FirstFreezingTemperature,
    TemperatureDelta? Margin,
    bool CanFreeze)
{
    /// <summary>Fugacity in the fluid over fugacity of the pure solid: above 1 solid forms, 0.5 leaves room for twice the amount of a trace.</summary>
    public double SaturationRatio => Math.Exp(Math.Min(LnSaturationRatio, 700));

    /// <summary>Whether the fluid is supersaturated: solid forms, given time.</summary>
    public bool Freezes => CanFreeze && LnSaturationRatio > 0;
}
