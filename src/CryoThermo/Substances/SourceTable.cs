using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>The labelled sources of a data file; each label must be defined and used.</summary>
internal sealed class SourceTable
{
    private readonly Dictionary<string, Source> sources = new(StringComparer.Ordinal);
    private readonly HashSet<string> unused = new(StringComparer.Ordinal);
    private readonly FieldCheck root;

    public SourceTable(FieldCheck root, IReadOnlyList<KeyValuePair<string, SourceEntry?>>? entries)
    {
        this.root = root;
        foreach ((string label, SourceEntry? entry) in root.Required(entries, "sources"))
        {
            FieldCheck at = root.Within($"sources.{label}");
            if (entry is null)
            {
                throw root.Broken($"sources.{label}", "must be an object, found null");
            }

            bool fromMemory = entry.FromMemory ?? throw at.Broken("fromMemory", "is missing");
            sources[label] = new Source(at.Text(entry.Publication, "publication"), fromMemory, entry.Verified);
            unused.Add(label);
        }
    }

    public Source Find(FieldCheck at, string? label)
    {
        string wanted = at.Required(label, "source");
        unused.Remove(wanted);
        return sources.TryGetValue(wanted, out Source? source)
            ? source
            : throw at.Broken("source", $"'{wanted}' is not among the labels of 'sources' ({string.Join(", ", sources.Keys)})");
    }

    public Provenance Provenance(JsonBlock block) => new(Find(block.Check, block.Text("source")), block.Text("uncertainty"), block.Text("note"));

    public void RequireAllUsed()
    {
        if (unused.Count > 0)
        {
            throw root.Broken($"sources.{unused.Min(StringComparer.Ordinal)}", "is not used by any field");
        }
    }
}
