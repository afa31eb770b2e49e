namespace CryoThermo.Coolers.Charging;

/// <summary>Where a leak takes its fluid from.</summary>
public enum LeakKind
{
    /// <summary>From a place that all of the charge passes, as a gas or mixture of one composition: the composition of what is left does not change.</summary>
    WholeCharge,

    /// <summary>From the vapour above liquid at rest: the light components leave first.</summary>
    VaporAboveLiquid,

    /// <summary>From the liquid below vapour at rest: the heavy components leave first.</summary>
    LiquidBelowVapor,
}
