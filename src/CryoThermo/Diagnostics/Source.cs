namespace CryoThermo.Diagnostics;

/// <summary>Where a number comes from: its publication and how far it was checked.</summary>
/// <param name="Publication">Authors, journal, year, page; or a plain statement such as "common practice, no source".</param>
/// <param name="FromMemory">True when the figure was recalled rather than read off the publication.</param>
/// <param name="Verified">What the figure was checked against and how well it agreed; null when it was not checked.</param>
public sealed record Source(string Publication, bool FromMemory, string? Verified = null)
{
    /// <summary>A rule that everybody follows and nobody has published.</summary>
    internal static Source CommonPractice { get; } = new("common practice, no source", FromMemory: true);
}
