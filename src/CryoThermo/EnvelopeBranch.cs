namespace CryoThermo;

/// <summary>Which phase forms at a point of a phase envelope.</summary>
public enum EnvelopeBranch
{
    /// <summary>The first drop of a denser phase forms.</summary>
    Dew,

    /// <summary>The first bubble of a less dense phase forms.</summary>
    Bubble,

    /// <summary>
    /// Both phases are dense: a second liquid forms, or a gas as dense as one. By convention the less dense phase then has less than 0.66 of
    /// the mixture's pseudo-critical molar volume.
    /// </summary>
    SecondLiquid,

    /// <summary>Two phases in given shares, on a line of a vapour fraction between 0 and 1.</summary>
    TwoPhases,
}
