using System.Text;

namespace CryoThermo.Checks.Accuracy;

/// <summary>A Markdown page in the making, with numbered sources.</summary>
internal sealed class AccuracyPage
{
    private readonly StringBuilder text = new();
    private readonly Dictionary<string, int> references = new(StringComparer.Ordinal);

    /// <summary>The sources cited so far, in order.</summary>
    public IEnumerable<string> Sources => references.OrderBy(r => r.Value).Select(r => r.Key);

    /// <summary>A number in three figures.</summary>
    public static string Number(double value) => double.IsNaN(value) ? "-" : value == 0 ? "0" : value.ToString(Math.Abs(value) is >= 100 and < 1e6 ? "F0" : "G3");

    /// <summary>A number with its sign.</summary>
    public static string Signed(double value) => (value > 0 ? "+" : string.Empty) + Number(value);

    /// <summary>Adds a line.</summary>
    public void Line(string line = "") => text.Append(line).Append('\n');

    /// <summary>Adds a row of a table.</summary>
    public void Row(params string[] cells) => Line("| " + string.Join(" | ", cells) + " |");

    /// <summary>Begins a table.</summary>
    public void Head(params string[] cells)
    {
        Line();
        Row(cells);
        Line("|" + string.Concat(Enumerable.Repeat(" --- |", cells.Length)));
    }

    /// <summary>The mark of a source.</summary>
    public string Cite(string source)
    {
        if (!references.TryGetValue(source, out int number))
        {
            references[source] = number = references.Count + 1;
        }

        return $"[{number}]";
    }

    /// <inheritdoc/>
    public override string ToString() => text.ToString();
}
