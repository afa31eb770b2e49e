using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// How fast a trace can close a restriction with its frost. It assumes that everything that freezes out settles in the bore, evenly over the
/// stated length, as dense solid: the shortest time on average, but frost is loose and a lump can close a bore at once. Common practice, no
/// source. Immutable and thread-safe.
/// </summary>
/// <param name="Impurity">The trace.</param>
/// <param name="Component">Its substance.</param>
/// <param name="SaturationRatio">Fugacity in the fluid over that of the pure solid; at most 1 when nothing freezes.</param>
/// <param name="FrozenFraction">Share of the trace that freezes out at the temperature and pressure.</param>
/// <param name="FrostRate">Mass of frost over time.</param>
/// <param name="SolidDensity">Density of the solid.</param>
/// <param name="TimeToClose">Time until the volume of the bore is full; null when nothing freezes, or where it is longer than 100 years.</param>
/// <param name="Basis">Model, notes and cautions.</param>
public sealed record PluggingEstimate(
    TraceImpurity Impurity,
    Substance Component,
    double SaturationRatio,
    double FrozenFraction,
    MassFlow FrostRate,
    Density SolidDensity,
    Duration? TimeToClose,
    FreezingBasis Basis)
{
    /// <summary>The assumption, in words.</summary>
    public static string Assumption =>
        "all that freezes out settles in the bore, evenly over its length, as dense solid; frost is loose, and a lump can close a bore at once";
}
