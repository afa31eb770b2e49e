namespace CryoThermo;

/// <summary>What a phase is.</summary>
public enum PhaseKind
{
    /// <summary>Liquid, or a single phase denser than the pseudo-critical density.</summary>
    Liquid,

    /// <summary>Vapour, or a single phase less dense than the pseudo-critical density.</summary>
    Vapor,
}
