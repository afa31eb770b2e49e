namespace CryoThermo.Diagnostics;

/// <summary>
/// A hazard that a result carries: what can happen, the figure that triggered it, the rule applied and its source.
/// A caution is an estimate; local codes and licensed practice decide.
/// </summary>
/// <param name="Severity">How much harm is at stake.</param>
/// <param name="Title">A few words naming the hazard.</param>
/// <param name="Figure">The computed or given figure that triggered the rule, with its unit.</param>
/// <param name="Rule">The rule that was applied, with its threshold.</param>
/// <param name="Advice">What to do about it.</param>
/// <param name="Source">Where the rule and its threshold come from.</param>
public sealed record Caution(
    CautionSeverity Severity,
    string Title,
    string Figure,
    string Rule,
    string Advice,
    Source Source)
{
    /// <summary>What every advice ends with.</summary>
    internal const string Deference = "Local codes and licensed practice decide.";
}
