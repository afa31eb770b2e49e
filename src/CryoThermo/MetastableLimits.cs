using UnitsNet;

namespace CryoThermo;

/// <summary>
/// How far the liquid and the vapour of a pure fluid can be carried past their saturation at one temperature: the spinodals, where dp/drho
/// vanishes. Some long equations have a branch on which dp/drho passes a minimum instead; the limit is there then. Immutable and thread-safe.
/// </summary>
/// <param name="Temperature">Temperature.</param>
/// <param name="LiquidPressure">Lowest pressure of the superheated liquid, absolute; negative where the liquid bears tension.</param>
/// <param name="LiquidDensity">Its molar density.</param>
/// <param name="VaporPressure">Highest pressure of the supersaturated vapour, absolute.</param>
/// <param name="VaporDensity">Its molar density.</param>
public sealed record MetastableLimits(
    Temperature Temperature, Pressure LiquidPressure, Molarity LiquidDensity, Pressure VaporPressure, Molarity VaporDensity);
