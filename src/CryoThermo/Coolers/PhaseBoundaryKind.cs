namespace CryoThermo.Coolers;

/// <summary>Which phase boundary an isobar crosses.</summary>
internal enum PhaseBoundaryKind
{
    /// <summary>Below it all is liquid.</summary>
    Bubble,

    /// <summary>Above it all is vapour.</summary>
    Dew,
}
