using System.Globalization;

namespace CryoThermo.Design;

/// <summary>How far a blend keeps a limit.</summary>
/// <param name="Constraint">Which.</param>
/// <param name="Value">Its figure.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Margin">Distance to the limit, positive where it is kept, in the unit of the figure.</param>
/// <param name="Unit">Unit of the three.</param>
public sealed record ConstraintMargin(BlendConstraintKind Constraint, double Value, double Limit, double Margin, string Unit)
{
    /// <summary>Whether the limit is kept.</summary>
    public bool IsKept => Margin >= 0;

    /// <inheritdoc/>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"{Constraint}: {Value:G6} {Unit}, limit {Limit:G6} {Unit}, {(IsKept ? "kept" : "missed")} by {Math.Abs(Margin):G4} {Unit}");
}
