using CryoThermo.Diagnostics;

namespace CryoThermo.Machines;

/// <summary>The limits of a compressor against what it does. Immutable and thread-safe.</summary>
/// <param name="Checks">Each limit that could be checked.</param>
/// <param name="Cautions">One for each that is not kept, the gravest first.</param>
public sealed record LimitReport(IReadOnlyList<LimitCheck> Checks, IReadOnlyList<Caution> Cautions)
{
    /// <summary>Whether every limit checked is kept.</summary>
    public bool IsKept => Cautions.Count == 0;

    /// <summary>The checks as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        IsKept ? "All limits are kept" : "Limits of the compressor",
        ["limit", "figure", "careful end", "far end", "beyond it", "source"],
        [.. Checks.Select(c => (IReadOnlyList<string>)
        [
            c.Unit.Length == 0 ? c.Name : $"{c.Name}, {c.Unit}",
            $"{c.Figure:F2}",
            $"{c.Limit.Careful:F2}",
            $"{c.Limit.Far:F2}",
            c.Verdict == LimitVerdict.Kept ? "kept" : $"{c.Verdict} by {(c.Verdict == LimitVerdict.Broken ? c.ExcessBeyondFarEnd : c.Excess):F2}",
            c.Limit.Source.Publication,
        ])]);
}
