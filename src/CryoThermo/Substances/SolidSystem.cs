using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>What is known of the solids of a pair of substances. Immutable and thread-safe.</summary>
/// <param name="First">The first substance.</param>
/// <param name="Second">The second substance.</param>
/// <param name="Behaviour">How their solids mix.</param>
/// <param name="EutecticTemperature">Temperature of the eutectic, K; null when there is or is known none.</param>
/// <param name="EutecticFractionOfFirst">Mole fraction of the first substance in the liquid of the eutectic; null with it.</param>
/// <param name="Note">Anything else.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record SolidSystem(
    SubstanceIdentity First,
    SubstanceIdentity Second,
    SolidBehaviour Behaviour,
    double? EutecticTemperature,
    double? EutecticFractionOfFirst,
    string? Note,
    Source Source)
{
    /// <summary>
    /// False where a solid holds both substances: it forms at a higher temperature than a pure one would, so that freezing temperatures
    /// computed for pure solids are too low, which is not on the safe side.
    /// </summary>
    public bool IsPureSolidConservative => Behaviour is SolidBehaviour.Eutectic or SolidBehaviour.PureSolids;

    /// <summary>The pair and its behaviour in words.</summary>
    public override string ToString() => $"{First.Name} and {Second.Name}: " + Behaviour switch
    {
        SolidBehaviour.Eutectic => "simple eutectic",
        SolidBehaviour.PureSolids => "pure solids",
        SolidBehaviour.PartialSolidSolution => "solids dissolve in one another in part",
        _ => "solid solution",
    };
}
