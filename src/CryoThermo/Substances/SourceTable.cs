using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>The labelled sources of a data file; each label must be defined and used.</summary>
internal sealed class SourceTable
{
    private readonly Dictionary<string, Source> _sources = new(StringComparer.Ordinal);
    private readonly HashSet<string> _unused = new(StringComparer.Ordinal);
    private readonly FieldCheck _root;

    public SourceTable(FieldCheck root, IReadOnlyDictionary<string, SourceEntry?>? entries)
    {
        _root = root;
        foreach ((string label, SourceEntry? entry) in root.Required(entries, "sources"))
        {
            FieldCheck at = root.Within($"sources.{label}");
            if (entry is null)
            {
                throw root.Broken($"sources.{label}", "must be an object, found null");
            }

            bool fromMemory = entry.FromMemory ?? throw at.Broken("fromMemory", "is missing");
            _sources[label] = new Source(at.Text(entry.Publication, "publication"), fromMemory, entry.Verified);
            _unused.Add(label);
        }
    }

    public Source Find(FieldCheck at, string? label)
    {
        string wanted = at.Required(label, "source");
        _unused.Remove(wanted);
        return _sources.TryGetValue(wanted, out Source? source)
            ? source
            : throw at.Broken("source", $"'{wanted}' is not among the labels of 'sources' ({string.Join(", ", _sources.Keys)})");
    }

    public Provenance Provenance(FieldCheck at, MarkedEntry entry) => new(Find(at, entry.Source), entry.Uncertainty, entry.Note);

    public void RequireAllUsed()
    {
        foreach (string label in _unused.Order(StringComparer.Ordinal))
        {
            throw _root.Broken($"sources.{label}", "is not used by any field");
        }
    }
}
