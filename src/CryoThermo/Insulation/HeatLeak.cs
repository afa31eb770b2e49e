using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>One line of a heat-leak budget. Immutable and thread-safe.</summary>
/// <param name="Rank">1 for the item that costs the most work.</param>
/// <param name="Name">The item.</param>
/// <param name="ColdEnd">Temperature at which the heat arrives.</param>
/// <param name="WarmEnd">Temperature from which it comes.</param>
/// <param name="Heat">With its least and greatest.</param>
/// <param name="Share">Of the work that all items cost together; without intercepts that is its share of the heat.</param>
/// <param name="IdealWork">Work that a perfect refrigerator needs for it: heat times (T0/T - 1) where it arrives, less the same where it leaves an intercept; T0 is the room.</param>
/// <param name="Work">The ideal work over the share of Carnot.</param>
/// <param name="Sources">What the figure rests on.</param>
/// <param name="Notes">What to know; empty for nothing.</param>
/// <param name="Cautions">Hazards; empty for none.</param>
public sealed record HeatLeak(
    int Rank,
    string Name,
    Temperature ColdEnd,
    Temperature WarmEnd,
    FigureBand<Power> Heat,
    Ratio Share,
    Power IdealWork,
    Power Work,
    IReadOnlyList<Source> Sources,
    IReadOnlyList<string> Notes,
    IReadOnlyList<Caution> Cautions)
{
    /// <summary>What in it was recalled rather than read off a publication.</summary>
    public IReadOnlyList<Source> FromMemory { get; } = [.. Sources.Where(s => s.FromMemory)];
}
