using System.Collections.ObjectModel;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>The pairs of substances whose solids are known to mix or not to. Immutable and thread-safe.</summary>
public static class SolidSystemTable
{
    private const double LowestTemperature = 1;
    private const double HighestTemperature = 1000;

    private static readonly Lazy<ReadOnlyCollection<SolidSystem>> Shipped = new(() => Read(DataFiles.ReadText(DataFiles.SolidSystems), DataFiles.SolidSystems));

    /// <summary>All pairs of the library.</summary>
    public static IReadOnlyList<SolidSystem> All => Shipped.Value;

    /// <summary>The pairs among some substances.</summary>
    /// <param name="substances">The substances.</param>
    public static IReadOnlyList<SolidSystem> Among(IEnumerable<Substance> substances)
    {
        ArgumentNullException.ThrowIfNull(substances);
        HashSet<string> keys = [.. substances.Select(s => s.Identity.Key)];
        return [.. All.Where(system => keys.Contains(system.First.Key) && keys.Contains(system.Second.Key))];
    }

    private static ReadOnlyCollection<SolidSystem> Read(string text, string file) => JsonBlock.ReadFile(text, file, block =>
    {
        block.RequireOnly("systems");
        return block.List("systems", ReadSystem);
    });

    private static SolidSystem ReadSystem(JsonBlock block)
    {
        block.RequireOnly("components", "behaviour", "temperature", "moleFractionOfFirst", "note", "source");
        IReadOnlyList<string> names = block.RequiredTexts("components");
        if (names.Count != 2)
        {
            throw block.Check.Broken("components", $"must name two substances, found {names.Count}");
        }

        SolidBehaviour behaviour = block.RequiredText("behaviour") switch
        {
            "eutectic" => SolidBehaviour.Eutectic,
            "pureSolids" => SolidBehaviour.PureSolids,
            "partialSolidSolution" => SolidBehaviour.PartialSolidSolution,
            "solidSolution" => SolidBehaviour.SolidSolution,
            string other => throw block.Check.Broken("behaviour", $"must be 'eutectic', 'pureSolids', 'partialSolidSolution' or 'solidSolution', found '{other}'"),
        };
        JsonBlock source = block.RequiredBlock("source");
        source.RequireOnly("publication", "fromMemory", "verified");
        return new(
            SubstanceIdentityTable.Default.Find(names[0]),
            SubstanceIdentityTable.Default.Find(names[1]),
            behaviour,
            block.Holds("temperature") ? block.InRange("temperature", LowestTemperature, HighestTemperature, "K") : null,
            block.Holds("moleFractionOfFirst") ? block.InRange("moleFractionOfFirst", 0, 1, string.Empty) : null,
            block.OptionalText("note"),
            new Source(
                source.RequiredText("publication"),
                source.Flag("fromMemory") ?? throw source.Check.Broken("fromMemory", "is missing"),
                source.OptionalText("verified")));
    }
}
