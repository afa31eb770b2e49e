using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>What arrives at one temperature: the cold, or an intercept. Immutable and thread-safe.</summary>
/// <param name="Temperature">Of the cold or the intercept.</param>
/// <param name="Heat">All that arrives less all that goes on from it; least and greatest with every item at that end at once.</param>
/// <param name="IdealWork">Work that a perfect refrigerator needs for the nominal heat.</param>
public sealed record HeatLeakLevel(Temperature Temperature, FigureBand<Power> Heat, Power IdealWork);
