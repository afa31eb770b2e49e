using System.Globalization;

namespace CryoThermo.Design;

/// <summary>A limit that cannot be kept with the others.</summary>
/// <param name="Constraint">Which.</param>
/// <param name="Value">Its figure at the blend that violates all limits together least.</param>
/// <param name="Limit">The limit.</param>
/// <param name="MissedBy">By how much it is missed there; zero where it is kept only just.</param>
/// <param name="Unit">Unit.</param>
/// <param name="RelaxingItAloneHelps">Whether a blend was found that keeps all the others once this one gives way.</param>
/// <param name="NeededLimit">The limit it would have to give way to; null where that does not help.</param>
public sealed record BlendObstacle(
    BlendConstraintKind Constraint, double Value, double Limit, double MissedBy, string Unit, bool RelaxingItAloneHelps, double? NeededLimit)
{
    /// <inheritdoc/>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Constraint}: at best {Value:G5} {Unit}, limit {Limit:G5} {Unit}; {(NeededLimit is { } needed ? $"a limit of {needed:G5} {Unit} would do, all others kept" : "relaxing it alone does not help")}");
}
