namespace CryoThermo.Diagnostics;

/// <summary>A substance or pair file breaks a rule of its format. Names the file, the field and the rule.</summary>
public sealed class SubstanceDataException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="file">The file's name.</param>
    /// <param name="field">The field's path within the file, for example "critical.temperature".</param>
    /// <param name="rule">The rule that is broken, with the value found.</param>
    /// <param name="inner">The underlying error, if any.</param>
    public SubstanceDataException(string file, string field, string rule, Exception? inner = null)
        : base($"{file}: field '{field}': {rule}", inner)
    {
        File = file;
        Field = field;
        Rule = rule;
    }

    /// <summary>The file's name.</summary>
    public string File { get; }

    /// <summary>The field's path within the file.</summary>
    public string Field { get; }

    /// <summary>The rule that is broken, with the value found.</summary>
    public string Rule { get; }
}
