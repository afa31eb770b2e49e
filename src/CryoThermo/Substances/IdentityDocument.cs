namespace CryoThermo.Substances;

internal sealed class IdentityEntry
{
    public string? Cas { get; init; }

    public string? Name { get; init; }

    public string? Formula { get; init; }

    public string? Designation { get; init; }

    public IReadOnlyList<string?>? Spellings { get; init; }

    public static IdentityEntry From(JsonBlock at)
    {
        at.RequireOnly("cas", "name", "formula", "designation", "spellings");
        return new IdentityEntry
        {
            Cas = at.Text("cas"),
            Name = at.Text("name"),
            Formula = at.Text("formula"),
            Designation = at.Text("designation"),
            Spellings = at.Texts("spellings"),
        };
    }
}

/// <summary>The identity table as written.</summary>
internal sealed class IdentityDocument
{
    public IReadOnlyList<IdentityEntry?>? Substances { get; init; }

    public static IdentityDocument From(JsonBlock at)
    {
        at.RequireOnly("substances");
        return new IdentityDocument
        {
            Substances = at.Blocks("substances", IdentityEntry.From),
        };
    }
}
