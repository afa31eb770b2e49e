using System.Globalization;

namespace CryoThermo.Charts;

/// <summary>The unit of power that keeps an axis readable.</summary>
internal readonly record struct PowerScale(string Unit, double PerWatt)
{
    public static PowerScale For(double largestWatts) => largestWatts switch
    {
        >= 10_000 => new PowerScale("kW", 1e-3),
        < 1 => new PowerScale("mW", 1e3),
        _ => new PowerScale("W", 1),
    };

    public double From(double watts) => watts * PerWatt;

    public double[] From(double[] watts) => Array.ConvertAll(watts, From);

    public string Text(double watts) => $"{ThreeDigits(From(watts))} {Unit}";

    /// <summary>About three digits, never an exponent for what a cooler can reach, no trailing zeros.</summary>
    public static string ThreeDigits(double value) =>
        value.ToString(Math.Abs(value) >= 100 ? "0" : Math.Abs(value) >= 10 ? "0.#" : "0.##", CultureInfo.InvariantCulture);
}
