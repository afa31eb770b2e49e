namespace CryoThermo.Substances;

/// <summary>How the solids of two substances mix.</summary>
public enum SolidBehaviour
{
    /// <summary>Each freezes pure; a eutectic was measured.</summary>
    Eutectic,

    /// <summary>Each freezes practically pure.</summary>
    PureSolids,

    /// <summary>They dissolve in one another in part, with a eutectic.</summary>
    PartialSolidSolution,

    /// <summary>They freeze together as one solid over all or most of the range.</summary>
    SolidSolution,
}
