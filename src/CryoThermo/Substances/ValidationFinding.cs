namespace CryoThermo.Substances;

/// <summary>One broken rule of a substance. Immutable.</summary>
/// <param name="Check">Name of the check that found it, in lower case, for example "range".</param>
/// <param name="Subject">The field or property it concerns, for example "equations[0].range.highestTemperature".</param>
/// <param name="Value">The value found, with its unit.</param>
/// <param name="Allowed">What is allowed, with the unit.</param>
/// <param name="Message">The finding in a sentence.</param>
public sealed record ValidationFinding(string Check, string Subject, string Value, string Allowed, string Message);
