namespace CryoThermo.HeatTransfer;

/// <summary>How a film of condensate runs down.</summary>
public enum CondensateRegime
{
    /// <summary>Smooth: film Reynolds number below 30, and on tubes lying.</summary>
    Laminar,

    /// <summary>With waves: 30 to 1600.</summary>
    Wavy,

    /// <summary>Turbulent: above 1600.</summary>
    Turbulent,
}
