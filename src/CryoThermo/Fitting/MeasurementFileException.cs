namespace CryoThermo.Fitting;

/// <summary>A measurement file breaks a rule of its format. Names the file, the line, the column and the rule with the value found.</summary>
public sealed class MeasurementFileException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="file">The file's name.</param>
    /// <param name="line">Line, counted from 1.</param>
    /// <param name="column">Header of the column, or the name of a setting; empty when the whole line is meant.</param>
    /// <param name="rule">The rule that is broken, with the value found and what is allowed.</param>
    /// <param name="inner">The underlying error, if any.</param>
    public MeasurementFileException(string file, int line, string column, string rule, Exception? inner = null)
        : base($"{file}, line {line}{(string.IsNullOrEmpty(column) ? string.Empty : $", column '{column}'")}: {rule}", inner)
    {
        File = file;
        Line = line;
        Column = column;
        Rule = rule;
    }

    /// <summary>The file's name.</summary>
    public string File { get; }

    /// <summary>Line, counted from 1.</summary>
    public int Line { get; }

    /// <summary>Header of the column, or the name of a setting; empty when the whole line is meant.</summary>
    public string Column { get; }

    /// <summary>The rule that is broken, with the value found and what is allowed.</summary>
    public string Rule { get; }
}
