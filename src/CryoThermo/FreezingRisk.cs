namespace CryoThermo;

/// <summary>What freezes first along the path of a fluid, and where. Immutable and thread-safe.</summary>
/// <param name="Points">The places, in the order given.</param>
/// <param name="Impurities">The traces that were judged with the charge.</param>
/// <param name="Basis">Model, notes and cautions.</param>
public sealed record FreezingRisk(IReadOnlyList<FreezingRiskPoint> Points, IReadOnlyList<TraceImpurity> Impurities, FreezingBasis Basis)
{
    /// <summary>The place with the least margin (most supersaturated); null when nothing can be judged.</summary>
    public FreezingRiskPoint? Worst => Points.Where(p => p.Nearest is not null).MinBy(p => (p.Nearest!.Freezes ? 0 : 1, p.Nearest.Margin?.Kelvins ?? double.MaxValue));

    /// <summary>Whether anything is supersaturated anywhere on the path.</summary>
    public bool Freezes => Points.Any(p => p.Margins.Any(m => m.Freezes));
}
