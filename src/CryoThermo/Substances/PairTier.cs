namespace CryoThermo.Substances;

/// <summary>How well a pair parameter is founded, best first.</summary>
public enum PairTier
{
    /// <summary>Published, or part of a standard.</summary>
    Published,

    /// <summary>Fitted here to named measurements.</summary>
    FittedHere,

    /// <summary>Estimated by a rule, with an error band taken from the pairs that are known.</summary>
    Estimated,
}
