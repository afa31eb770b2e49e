using System.Text.Json;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// An allowable stress at room temperature for orientation only, from memory and not checked: what is built takes it from the edition of the code in force.
/// Immutable and thread-safe.
/// </summary>
public sealed class AllowableStress
{
    private static readonly Lazy<IReadOnlyList<AllowableStress>> Loaded = new(() => MaterialFile.Read("Materials/orientation-stress.json", "stresses", e => new AllowableStress(e)));

    private AllowableStress(JsonElement record)
    {
        Material = SolidMaterial.Named(record.GetProperty("material").GetString()!);
        Condition = record.GetProperty("condition").GetString()!;
        Least = Pressure.FromMegapascals(record.GetProperty("leastMegapascals").GetDouble());
        Greatest = Pressure.FromMegapascals(record.GetProperty("greatestMegapascals").GetDouble());
        Source = MaterialFile.Source(record);
    }

    /// <summary>All that are known.</summary>
    public static IReadOnlyList<AllowableStress> All => Loaded.Value;

    /// <summary>The material.</summary>
    public SolidMaterial Material { get; }

    /// <summary>Its grade or condition.</summary>
    public string Condition { get; }

    /// <summary>Lowest recalled.</summary>
    public Pressure Least { get; }

    /// <summary>Highest recalled.</summary>
    public Pressure Greatest { get; }

    /// <summary>Where it comes from.</summary>
    public Source Source { get; }

    /// <summary>What goes with every such figure.</summary>
    public Caution Caution => new(
        CautionSeverity.Warning,
        "Allowable stress for orientation only",
        Least.Megapascals.Equals(Greatest.Megapascals) ? $"{Least.Megapascals:F0} MPa" : $"{Least.Megapascals:F0} to {Greatest.Megapascals:F0} MPa",
        "design stresses come from the edition of the code in force; the strength that metals gain in the cold is not credited, pressure parts are rated at room temperature",
        $"Do not build to this figure. {Caution.Deference}",
        Source);

    /// <summary>Those of a material, by grade or condition; empty where none is known.</summary>
    /// <param name="material">The material.</param>
    public static IReadOnlyList<AllowableStress> Of(SolidMaterial material)
    {
        ArgumentNullException.ThrowIfNull(material);
        return [.. All.Where(s => s.Material == material)];
    }
}
