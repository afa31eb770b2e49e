namespace CryoThermo.Coolers.Rating;

/// <summary>What keeps a cold box with a phase separator from a steady state.</summary>
public enum SeparatorObstacle
{
    /// <summary>The fluid arrives at the separator as liquid or as vapour alone.</summary>
    NothingToSeparate,

    /// <summary>The mixed return would be warmer than the streams that the warm exchanger has to cool.</summary>
    ReturnTooWarm,

    /// <summary>The streams meet below the lowest temperature considered.</summary>
    ColderThanCovered,
}
