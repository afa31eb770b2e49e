namespace CryoThermo.Flow;

/// <summary>Where a march along a tube stopped.</summary>
internal enum TubeEnd
{
    /// <summary>At the end of the tube.</summary>
    Length,

    /// <summary>At the pressure it must not fall below, inside the tube.</summary>
    Pressure,

    /// <summary>At the speed of sound, inside the tube.</summary>
    Choked,
}
