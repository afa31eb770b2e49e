using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// Accommodation coefficients of gases on technical surfaces, straight between the temperatures known (4, 20, 77, 300 K) and held beyond. Clean metals have much
/// lower ones. Stateless and thread-safe.
/// </summary>
public static class Accommodation
{
    private static readonly double[] Temperatures = [4, 20, 77, 300];

    private static readonly Dictionary<string, double[]> Known = new(StringComparer.Ordinal)
    {
        ["helium"] = [0.57, 0.59, 0.42, 0.29],
        ["hydrogen"] = [1, 0.97, 0.53, 0.29],
        ["neon"] = [1, 1, 0.83, 0.66],
        ["air"] = [1, 1, 1, 0.87],
    };

    /// <summary>Where the coefficients come from.</summary>
    public static Source Source { get; } = new("R. J. Corruccini, Vacuum 7-8 (1959) 19; Barron, Cryogenic Systems", FromMemory: true);

    /// <summary>The coefficient of a gas at a wall.</summary>
    /// <param name="gas">
    /// Helium, hydrogen in any spin form, neon, air; nitrogen and oxygen count as air. Any other, and every blend, has 1: the most that can be.
    /// </param>
    /// <param name="surface">Temperature of the wall, 3 to 500 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range.</exception>
    public static double Of(WorkingFluid gas, Temperature surface)
    {
        ArgumentNullException.ThrowIfNull(gas);
        double t = Guard.InRange(surface.Kelvins, 3, 500, "K", nameof(surface));
        if (KeyOf(gas) is not { } key)
        {
            return 1;
        }

        double[] values = Known[key];
        int i = 1;
        while (i < Temperatures.Length - 1 && Temperatures[i] < t)
        {
            i++;
        }

        double share = Math.Clamp((t - Temperatures[i - 1]) / (Temperatures[i] - Temperatures[i - 1]), 0, 1);
        return values[i - 1] + (share * (values[i] - values[i - 1]));
    }

    /// <summary>The gas of the table that stands for a fluid; null where none does.</summary>
    internal static string? KeyOf(WorkingFluid gas)
    {
        if (gas.Composition.Components.Count != 1)
        {
            return gas.Composition.Components.All(c => c.Name is "nitrogen" or "oxygen" or "argon") ? "air" : null;
        }

        string name = gas.Composition.Components[0].Name;
        return name switch
        {
            "nitrogen" or "oxygen" or "air" => "air",
            _ when name.EndsWith("hydrogen", StringComparison.Ordinal) => "hydrogen",
            _ => Known.ContainsKey(name) ? name : null,
        };
    }
}
