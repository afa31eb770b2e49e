using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// Checks the data of a substance without evaluating its equations of state: completeness, units, exponents, ranges and curves that fit one
/// another. For whoever adds a fluid: it reports all that is wrong instead of throwing at the first fault. Thread-safe.
/// </summary>
/// <remarks>
/// The bounds catch wrong units, lost digits and misplaced columns; they are common practice, no source, and no judgement of physics.
/// </remarks>
public static class StructuralValidator
{
    private const string FileFormat = "file format";

    /// <summary>Checks the text of a substance file (docs/formats/substance-file.md).</summary>
    /// <param name="text">The text.</param>
    /// <param name="fileName">The name by which the report calls the file.</param>
    /// <returns>
    /// The findings. A fault of the format itself (a missing or misspelt field, a value of the wrong kind, constants that contradict one
    /// another) ends the check; then it is the only finding.
    /// </returns>
    public static ValidationReport Validate(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentException.ThrowIfNullOrWhiteSpace(fileName);
        try
        {
            Substance substance = SubstanceReader.ReadUnchecked(text, fileName, SubstanceIdentityTable.Default);
            return new ValidationReport(fileName, [FileFormat, .. EquationRules.Names], EquationRules.Broken(substance));
        }
        catch (SubstanceDataException error)
        {
            return new ValidationReport(
                fileName, [FileFormat], [new ValidationFinding(FileFormat, error.Field, "see the message", error.Rule, error.Message)]);
        }
    }

    /// <summary>Checks a substance that was read already.</summary>
    /// <param name="substance">The substance.</param>
    public static ValidationReport Validate(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return new ValidationReport(substance.Name, EquationRules.Names, EquationRules.Broken(substance));
    }
}
