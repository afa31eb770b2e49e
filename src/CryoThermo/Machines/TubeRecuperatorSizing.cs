using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>A recuperator of tubes made as long as a duty needs. Immutable and thread-safe.</summary>
/// <param name="Length">Length by the formulae as they stand; least with every film at the high end of its uncertainty, greatest with every film at the low end: null where no length will do.</param>
/// <param name="Rating">The recuperator of the nominal length with the streams.</param>
public sealed record TubeRecuperatorSizing(FigureBand<Length?> Length, TubeRecuperatorRating Rating);
