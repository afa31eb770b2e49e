namespace CryoThermo.Substances;

internal sealed class IdentityEntry
{
    public string? Cas { get; set; }

    public string? Name { get; set; }

    public string? Formula { get; set; }

    public string? Designation { get; set; }

    public IReadOnlyList<string?>? Spellings { get; set; }
}

/// <summary>The identity table as written.</summary>
internal sealed class IdentityDocument
{
    public IReadOnlyList<IdentityEntry>? Substances { get; set; }
}
