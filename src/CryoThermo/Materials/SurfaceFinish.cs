using System.Text.Json;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// A surface and the range of its total hemispherical emissivity, from memory of handbooks: an oxide film, a fingerprint or frost changes it more than the
/// range tells. Immutable and thread-safe.
/// </summary>
public sealed class SurfaceFinish
{
    /// <summary>Up to here the figures of 300 K are held, K.</summary>
    private const double Held = 330;

    private static readonly Lazy<IReadOnlyList<SurfaceFinish>> Loaded = new(() => MaterialFile.Read("Materials/surface-finishes.json", "finishes", e => new SurfaceFinish(e)));

    private readonly double[] warm;
    private readonly double[] cold;
    private readonly double? coldest;

    private SurfaceFinish(JsonElement record)
    {
        Name = record.GetProperty("name").GetString()!;
        warm = MaterialFile.Numbers(record.GetProperty("at300Kelvins"));
        cold = MaterialFile.Numbers(record.GetProperty("at77Kelvins"));
        coldest = MaterialFile.Number(record, "at4Kelvins");
        Source = MaterialFile.Source(record);
    }

    /// <summary>All finishes known.</summary>
    public static IReadOnlyList<SurfaceFinish> All => Loaded.Value;

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>Where the figures come from.</summary>
    public Source Source { get; }

    /// <summary>Lowest temperature of its emissivity: 4 K where a figure is known, else 77 K.</summary>
    public Temperature Lowest => Temperature.FromKelvins(coldest is null ? 77 : 4);

    /// <summary>Highest temperature: 330 K, with the figures of 300 K held above that.</summary>
    public Temperature Highest => Temperature.FromKelvins(Held);

    /// <summary>Finds a finish.</summary>
    /// <param name="name">Its name, for example "copper, polished"; case does not matter.</param>
    /// <exception cref="ArgumentException">There is none; the message lists them.</exception>
    public static SurfaceFinish Named(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return All.FirstOrDefault(f => string.Equals(f.Name, name.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? throw new ArgumentException($"name is '{name}'; known are {string.Join("; ", All.Select(f => f.Name))}.", nameof(name));
    }

    /// <summary>The emissivity at a temperature of the surface, straight between the temperatures known (4, 77 and 300 K).</summary>
    /// <param name="surface">Within the range.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    public EmissivityRange EmissivityAt(Temperature surface)
    {
        double t = surface.Kelvins;
        if (!(t >= Lowest.Kelvins && t <= Held))
        {
            throw new ArgumentOutOfRangeException(nameof(surface), t, $"surface is {t:G6} K; the emissivity of {Name} is known from {Lowest.Kelvins:G3} to {Held:G3} K only.");
        }

        double least = Between(t, 0);
        double greatest = Between(t, 1);
        return new(least, Math.Sqrt(least * greatest), greatest);
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    // Of one figure at 4 K both ends are taken; ends may not cross on the way.
    private double Between(double t, int end) => t >= 77
        ? cold[end] + ((warm[end] - cold[end]) * Math.Min(1, (t - 77) / (300 - 77)))
        : coldest!.Value + ((cold[end] - coldest.Value) * (t - 4) / (77 - 4));
}
