using System.Text.Json;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// Whether metals, seals, plastics and solders are fit for the cold, from memory of handbooks: a first sieve, no approval. Immutable and thread-safe.
/// </summary>
public sealed class ColdService
{
    private static readonly Lazy<IReadOnlyList<ColdService>> Loaded = new(() => MaterialFile.Read("Materials/cold-service.json", "entries", e => new ColdService(e)));

    private ColdService(JsonElement record)
    {
        Name = record.GetProperty("name").GetString()!;
        Kind = Enum.Parse<ColdServiceKind>(record.GetProperty("kind").GetString()!, ignoreCase: true);
        Suitability = record.GetProperty("suitability").GetString() switch
        {
            "suited" => ColdSuitability.Suited,
            "limited" => ColdSuitability.SuitedToLimit,
            "notSuited" => ColdSuitability.NotSuited,
            _ => ColdSuitability.NotKnown,
        };
        Lowest = MaterialFile.Number(record, "lowestKelvins") is { } lowest ? Temperature.FromKelvins(lowest) : null;
        Reason = record.GetProperty("reason").GetString()!;
        HydrogenNote = MaterialFile.Text(record, "hydrogen");
        OxygenNote = MaterialFile.Text(record, "oxygen");
        Source = MaterialFile.Source(record);
        Materials = MaterialFile.Texts(record, "materials");
    }

    /// <summary>All statements.</summary>
    public static IReadOnlyList<ColdService> All => Loaded.Value;

    /// <summary>What goes for every part that hydrogen touches.</summary>
    public static string HydrogenRule => "Avoid high-strength ferritic and martensitic steels, hardened springs and 17-4PH; prefer 316L with more than 12 % nickel, aluminium, oxygen-free copper.";

    /// <summary>What goes for every part that oxygen touches.</summary>
    public static string OxygenRule => "No oils, no hydrocarbon seals, no titanium; aluminium only where energy and velocity are low. See ISO 21010, ASTM G88 and G94.";

    /// <summary>What it is about.</summary>
    public string Name { get; }

    /// <summary>Metal, plastic, seal or solder.</summary>
    public ColdServiceKind Kind { get; }

    /// <summary>Whether it is fit.</summary>
    public ColdSuitability Suitability { get; }

    /// <summary>Lowest temperature, the cautious end of what is recalled; null where none is set.</summary>
    public Temperature? Lowest { get; }

    /// <summary>Why.</summary>
    public string Reason { get; }

    /// <summary>What hydrogen asks of it beside <see cref="HydrogenRule"/>; null for nothing more.</summary>
    public string? HydrogenNote { get; }

    /// <summary>What oxygen asks of it beside <see cref="OxygenRule"/>; null for nothing more.</summary>
    public string? OxygenNote { get; }

    /// <summary>Where the statement comes from.</summary>
    public Source Source { get; }

    /// <summary>Names of the materials of this library it is about.</summary>
    internal IReadOnlyList<string> Materials { get; }

    /// <summary>Finds a statement.</summary>
    /// <param name="name">Its name, for example "NBR seal"; case does not matter.</param>
    /// <exception cref="ArgumentException">There is none; the message lists them.</exception>
    public static ColdService Named(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return All.FirstOrDefault(s => string.Equals(s.Name, name.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? throw new ArgumentException($"name is '{name}'; known are {string.Join("; ", All.Select(s => s.Name))}.", nameof(name));
    }

    /// <summary>What to beware of at a temperature; null where nothing is known against it.</summary>
    /// <param name="coldest">Coldest temperature it meets, above 0 to 400 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range.</exception>
    public Caution? CautionAt(Temperature coldest)
    {
        double t = Guard.InRange(coldest.Kelvins, 1e-3, 400, "K", nameof(coldest));
        const double Warm = 273.15;
        string? rule = Suitability switch
        {
            ColdSuitability.SuitedToLimit when t < Lowest!.Value.Kelvins => $"down to {Lowest.Value.Kelvins:G4} K only",
            ColdSuitability.NotSuited when t < Warm => "not used in the cold",
            ColdSuitability.NotKnown when t < Warm => "no statement for the cold is held here",
            _ => null,
        };
        return rule is null ? null : new(
            Suitability == ColdSuitability.NotKnown ? CautionSeverity.Notice : CautionSeverity.Warning,
            $"{Name} in the cold",
            $"coldest {t:F1} K ({t - 273.15:F1} degC)",
            rule,
            $"{Reason} {Caution.Deference}",
            Source);
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    internal static ColdService? OfMaterial(string material) => All.FirstOrDefault(s => s.Materials.Contains(material, StringComparer.Ordinal));
}
