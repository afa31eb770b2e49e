namespace CryoThermo.Checks.Values;

/// <summary>Which phase a handbook figure belongs to.</summary>
public enum HandbookPhase
{
    /// <summary>The gas at 101325 Pa.</summary>
    Gas,

    /// <summary>The saturated liquid.</summary>
    BoilingLiquid,
}
