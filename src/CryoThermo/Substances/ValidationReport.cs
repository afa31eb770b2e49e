namespace CryoThermo.Substances;

/// <summary>What the checks of a substance found. Immutable and thread-safe.</summary>
public sealed class ValidationReport
{
    /// <summary>Makes a report.</summary>
    /// <param name="subject">What was checked: a file or a substance.</param>
    /// <param name="checks">Names of the checks that were made.</param>
    /// <param name="findings">The broken rules, in the order in which they were found.</param>
    public ValidationReport(string subject, IEnumerable<string> checks, IEnumerable<ValidationFinding> findings)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(subject);
        ArgumentNullException.ThrowIfNull(checks);
        ArgumentNullException.ThrowIfNull(findings);
        Subject = subject;
        Checks = [.. checks];
        Findings = [.. findings];
    }

    /// <summary>What was checked: a file or a substance.</summary>
    public string Subject { get; }

    /// <summary>Names of the checks that were made.</summary>
    public IReadOnlyList<string> Checks { get; }

    /// <summary>The broken rules; empty when there are none.</summary>
    public IReadOnlyList<ValidationFinding> Findings { get; }

    /// <summary>True when no rule is broken.</summary>
    public bool IsValid => Findings.Count == 0;

    /// <summary>The outcome, a line for each finding.</summary>
    public override string ToString() =>
        IsValid
            ? $"{Subject}: {Checks.Count} checks, nothing found"
            : string.Join(
                Environment.NewLine,
                Findings.Select(f => $"{f.Check}: {f.Message}").Prepend($"{Subject}: {Checks.Count} checks, {Findings.Count} findings"));
}
