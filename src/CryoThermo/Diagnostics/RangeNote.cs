namespace CryoThermo.Diagnostics;

/// <summary>Tells that a result lies outside the stated range of a correlation it used.</summary>
/// <param name="Subject">The correlation or model, for example "ideal-gas heat capacity of propane".</param>
/// <param name="Message">The value, the stated range and what that means for the result.</param>
public sealed record RangeNote(string Subject, string Message);
