namespace CryoThermo.Coolers.Charging;

/// <summary>What tells the builder to close the valve.</summary>
public enum ChargeControl
{
    /// <summary>The scale under the bottle.</summary>
    Mass,

    /// <summary>The gauge on the machine.</summary>
    Gauge,
}
