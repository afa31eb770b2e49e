namespace CryoThermo;

/// <summary>What a solid forms from.</summary>
public enum FreezingOrigin
{
    /// <summary>From gas: frost on cold walls.</summary>
    Gas,

    /// <summary>From liquid.</summary>
    Liquid,

    /// <summary>From gas and liquid in equilibrium.</summary>
    GasAndLiquid,
}
