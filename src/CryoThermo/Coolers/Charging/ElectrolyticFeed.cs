using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Hydrogen and oxygen that a water electrolyser gives, by Faraday's law: n = I N eta/(z F) with z = 2 for hydrogen, 4 for oxygen and
/// F = 96485.33212 C/mol (exact, SI). Immutable and thread-safe.
/// </summary>
/// <param name="Hydrogen">Flow of hydrogen.</param>
/// <param name="Oxygen">Flow of oxygen.</param>
/// <param name="Water">Water used up, without what the gases carry away as vapour.</param>
/// <param name="Cautions">What to mind.</param>
public sealed record ElectrolyticFeed(MolarFlow Hydrogen, MolarFlow Oxygen, MolarFlow Water, IReadOnlyList<Caution> Cautions)
{
    private const double FaradayCoulombsPerMole = 96485.33212;

    /// <summary>Computes the flows.</summary>
    /// <param name="current">Current through the cells, above zero.</param>
    /// <param name="cells">Cells in series, 1 to 10 000.</param>
    /// <param name="currentEfficiency">Share of the current that makes gas, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static ElectrolyticFeed Of(ElectricCurrent current, int cells, double currentEfficiency)
    {
        double amperes = Guard.Positive(current.Amperes, "A", nameof(current));
        Guard.InRange(cells, 1, 10000, "cells");
        Guard.InRange(currentEfficiency, double.Epsilon, 1, "of the current");
        double hydrogen = amperes * cells * currentEfficiency / (2 * FaradayCoulombsPerMole);
        return new(
            MolarFlow.FromMolesPerSecond(hydrogen),
            MolarFlow.FromMolesPerSecond(hydrogen / 2),
            MolarFlow.FromMolesPerSecond(hydrogen),
            [
                new(
                    CautionSeverity.Danger,
                    "Hydrogen and oxygen from one source",
                    $"{hydrogen * 3600 * 22.413969545:G4} L/h of hydrogen and half of that of oxygen (0 degC, 1 atm)",
                    "a leaking membrane or a pump on the wrong side mixes them to a gas that explodes by itself (threshold: any electrolyser)",
                    $"Watch each gas for the other with an analyser that shuts down; purge lines with inert gas first; vent both outdoors, apart from each other. Gas from an electrolyser is saturated with water and may carry the other gas: remove oxygen by a catalyst and dry to below 1 ppm before any cold part. {Caution.Deference}",
                    Source.CommonPractice),
            ]);
    }
}
