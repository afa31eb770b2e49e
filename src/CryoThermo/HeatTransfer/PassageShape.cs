namespace CryoThermo.HeatTransfer;

/// <summary>Cross-section of a passage.</summary>
internal enum PassageShape
{
    /// <summary>Inside one tube.</summary>
    RoundTube,

    /// <summary>Between two concentric tubes.</summary>
    Annulus,

    /// <summary>Along several tubes inside a tube.</summary>
    AroundTubes,
}
