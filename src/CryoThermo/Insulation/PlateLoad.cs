using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>What a pressure does to a round plate. Immutable and thread-safe.</summary>
/// <param name="Force">Pressure times area: what the wall below must carry.</param>
/// <param name="BendingStress">The greatest: at the edge of a clamped, in the middle of a supported plate.</param>
/// <param name="Deflection">In the middle; null where no Young's modulus is given.</param>
/// <param name="Source">Where the formulae come from.</param>
/// <param name="Notes">Where they do not hold; empty for nothing.</param>
/// <param name="Cautions">What can hurt.</param>
public sealed record PlateLoad(Force Force, Pressure BendingStress, Length? Deflection, Source Source, IReadOnlyList<string> Notes, IReadOnlyList<Caution> Cautions)
{
    /// <summary>The stress over the lowest allowable stress recalled for a material: a first look, no proof.</summary>
    /// <param name="stress">For orientation only, see its caution.</param>
    public double StressShare(AllowableStress stress)
    {
        ArgumentNullException.ThrowIfNull(stress);
        return BendingStress.Pascals / stress.Least.Pascals;
    }
}
