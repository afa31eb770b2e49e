using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>Entropy produced each second in the parts of a cold box with a phase separator.</summary>
/// <param name="Separation">In the separator: nothing, but for rounding.</param>
/// <param name="WarmExchanger">In the warm exchanger.</param>
/// <param name="LiquidThrottle">In the throttle of the liquid stream.</param>
/// <param name="Mixing">Where the liquid stream joins the return.</param>
/// <param name="ColdExchanger">In the cold exchanger.</param>
/// <param name="VaporThrottle">In the throttle of the vapour stream.</param>
public sealed record SeparatorEntropyProduction(
    Entropy Separation, Entropy WarmExchanger, Entropy LiquidThrottle, Entropy Mixing, Entropy ColdExchanger, Entropy VaporThrottle)
{
    /// <summary>In all of them.</summary>
    public Entropy Total => Separation + WarmExchanger + LiquidThrottle + Mixing + ColdExchanger + VaporThrottle;
}
