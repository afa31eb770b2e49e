namespace CryoThermo.Substances;

internal sealed class SourceEntry
{
    public string? Publication { get; init; }

    public bool? FromMemory { get; init; }

    public string? Verified { get; init; }

    public static SourceEntry From(JsonBlock at)
    {
        at.RequireOnly("publication", "fromMemory", "verified");
        return new SourceEntry
        {
            Publication = at.Text("publication"),
            FromMemory = at.Flag("fromMemory"),
            Verified = at.Text("verified"),
        };
    }
}
