namespace CryoThermo.Diagnostics;

/// <summary>
/// Notebooks look for an attribute of this name on a type and ask its source for formatters, by name and shape alone: so nothing of a
/// notebook has to be referenced.
/// </summary>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class TypeFormatterSourceAttribute(Type formatterSourceType) : Attribute
{
    /// <summary>The type that makes the formatters.</summary>
    public Type FormatterSourceType { get; } = formatterSourceType;

    /// <summary>What to show where there is a choice.</summary>
    public string[] PreferredMimeTypes { get; set; } = [];
}

/// <summary>Makes the formatter of <see cref="ResultTable"/>.</summary>
internal sealed class ResultTableFormatterSource
{
    /// <summary>Called by the notebook.</summary>
    public IEnumerable<object> CreateTypeFormatters()
    {
        yield return new HtmlFormatter();
    }

    /// <summary>One formatter, by its shape.</summary>
    internal sealed class HtmlFormatter
    {
        /// <summary>What it writes.</summary>
        public string MimeType => "text/html";

        /// <summary>Writes a table; false for anything else.</summary>
        public bool Format(object instance, TextWriter writer)
        {
            if (instance is not ResultTable table)
            {
                return false;
            }

            writer.Write(table.ToHtml());
            return true;
        }
    }
}
