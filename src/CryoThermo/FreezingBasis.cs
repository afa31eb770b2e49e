using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>What a figure about freezing rests on. Immutable and thread-safe.</summary>
/// <param name="Model">Model of the fluid; solid fugacities are those of its own subcooled liquids times the ratio from fusion.</param>
/// <param name="Notes">What is estimated, continued or not known, one line each.</param>
/// <param name="NotJudged">Components without figures of their solid: whether they freeze is not told.</param>
/// <param name="NotConservative">
/// Pairs among the components that freeze as a common solid: computed as pure solids they freeze too late, which is not on the safe side.
/// </param>
/// <param name="Cautions">The usual cautions.</param>
public sealed record FreezingBasis(
    FluidModel Model,
    IReadOnlyList<string> Notes,
    IReadOnlyList<Substance> NotJudged,
    IReadOnlyList<SolidSystem> NotConservative,
    IReadOnlyList<Caution> Cautions)
{
    /// <summary>False where a solid solution makes the answer too optimistic.</summary>
    public bool IsConservative => NotConservative.Count == 0;
}
