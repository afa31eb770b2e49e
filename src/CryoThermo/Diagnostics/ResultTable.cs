using System.Net;
using System.Text;

namespace CryoThermo.Diagnostics;

/// <summary>
/// A table of a result: headings with units, and rows of text. Notebooks that format types by convention show it as a table; a console
/// prints it with <see cref="ToString"/>. Immutable and thread-safe.
/// </summary>
[TypeFormatterSource(typeof(ResultTableFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed class ResultTable
{
    /// <summary>Creates a table.</summary>
    /// <param name="title">What it shows.</param>
    /// <param name="headings">One a column, with the unit.</param>
    /// <param name="rows">Rows of as many cells as there are headings.</param>
    /// <exception cref="ArgumentException">There is no heading, or a row has another number of cells.</exception>
    public ResultTable(string title, IReadOnlyList<string> headings, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(title);
        ArgumentNullException.ThrowIfNull(headings);
        ArgumentNullException.ThrowIfNull(rows);
        if (headings.Count == 0)
        {
            throw new ArgumentException("headings is empty; at least one is needed.", nameof(headings));
        }

        for (int i = 0; i < rows.Count; i++)
        {
            if (rows[i].Count != headings.Count)
            {
                throw new ArgumentException($"rows[{i}] has {rows[i].Count} cells; expected are {headings.Count}, one a heading.", nameof(rows));
            }
        }

        Title = title;
        Headings = [.. headings];
        Rows = [.. rows.Select(IReadOnlyList<string> (row) => [.. row])];
    }

    /// <summary>What it shows.</summary>
    public string Title { get; }

    /// <summary>One a column, with the unit.</summary>
    public IReadOnlyList<string> Headings { get; }

    /// <summary>The cells, row by row.</summary>
    public IReadOnlyList<IReadOnlyList<string>> Rows { get; }

    /// <summary>The table as HTML, every cell encoded.</summary>
    public string ToHtml()
    {
        StringBuilder text = new();
        text.Append("<table><caption>").Append(WebUtility.HtmlEncode(Title)).Append("</caption><thead><tr>");
        foreach (string heading in Headings)
        {
            text.Append("<th>").Append(WebUtility.HtmlEncode(heading)).Append("</th>");
        }

        text.Append("</tr></thead><tbody>");
        foreach (IReadOnlyList<string> row in Rows)
        {
            text.Append("<tr>");
            foreach (string cell in row)
            {
                text.Append("<td>").Append(WebUtility.HtmlEncode(cell)).Append("</td>");
            }

            text.Append("</tr>");
        }

        return text.Append("</tbody></table>").ToString();
    }

    /// <summary>The table as text with aligned columns.</summary>
    public override string ToString()
    {
        int[] widths = [.. Headings.Select((h, i) => Math.Max(h.Length, Rows.Count == 0 ? 0 : Rows.Max(row => row[i].Length)))];
        StringBuilder text = new(Title);
        text.AppendLine();
        Line(Headings);
        Line([.. widths.Select(w => new string('-', w))]);
        foreach (IReadOnlyList<string> row in Rows)
        {
            Line(row);
        }

        return text.ToString();

        void Line(IReadOnlyList<string> cells) =>
            text.AppendLine(string.Join("  ", cells.Select((cell, i) => i == 0 ? cell.PadRight(widths[i]) : cell.PadLeft(widths[i]))).TrimEnd());
    }
}
