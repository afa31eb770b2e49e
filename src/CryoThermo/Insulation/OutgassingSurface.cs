using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// A surface that gives off gas the less the longer it is pumped: q = q1 (1 h/t)^n, with q1 after an hour. Within the first minute q is held.
/// With a pressure at which it stands in balance it gives off q (1 - p/p_balance), so that a shut space levels off. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The law with n near 1 for unbaked metals and 0.5 for what gases are dissolved in (elastomers, plastics): R. J. Elsey, Vacuum 25 (1975) 299 and 347, from
/// memory. Rates of the same material differ by ten between cleanings: measure, with <see cref="RateOfRise"/>.
/// </remarks>
public sealed record OutgassingSurface
{
    /// <summary>Held before that, s.</summary>
    internal const double FirstSeconds = 60;

    /// <summary>Creates a surface.</summary>
    /// <param name="name">What it is, for tables.</param>
    /// <param name="area">Area, above zero.</param>
    /// <param name="rateAfterAnHourPascalMetersPerSecond">Pa m3/s from a m2 after an hour of pumping, zero or more (1 Pa m/s = 7.5e-4 torr L/(s cm2)).</param>
    /// <param name="exponent">n, 0 to 2.</param>
    /// <param name="gas">Name of the gas in the library; from unbaked surfaces it is water.</param>
    /// <param name="balance">Partial pressure of that gas at which it gives off nothing more; null where it goes on at any.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    /// <exception cref="ArgumentException">A name is empty.</exception>
    public OutgassingSurface(
        string name, Area area, double rateAfterAnHourPascalMetersPerSecond, double exponent = 1, string gas = "water", Pressure? balance = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentException.ThrowIfNullOrWhiteSpace(gas);
        Guard.Positive(area.SquareMeters, "m2", nameof(area));
        RateAfterAnHourPascalMetersPerSecond = Guard.InRange(rateAfterAnHourPascalMetersPerSecond, 0, 100, "Pa m/s");
        Exponent = Guard.InRange(exponent, 0, 2, "(power)");
        if (balance is { } at)
        {
            Guard.Positive(at.Pascals, "Pa", nameof(balance));
        }

        Name = name;
        Area = area;
        Gas = gas;
        Balance = balance;
    }

    /// <summary>What it is.</summary>
    public string Name { get; }

    /// <summary>Area.</summary>
    public Area Area { get; }

    /// <summary>Pa m3/s from a m2 after an hour of pumping.</summary>
    public double RateAfterAnHourPascalMetersPerSecond { get; }

    /// <summary>Power of time with which it falls.</summary>
    public double Exponent { get; }

    /// <summary>The gas.</summary>
    public string Gas { get; }

    /// <summary>Partial pressure at which it gives off nothing more; null where it goes on at any.</summary>
    public Pressure? Balance { get; }

    /// <summary>The rate of the whole surface against no pressure, Pa m3/s.</summary>
    /// <param name="pumped">Time since it was first pumped, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative.</exception>
    public double RatePascalCubicMetersPerSecond(Duration pumped) => RateAt(Guard.InRange(pumped.Seconds, 0, 1e12, "s", nameof(pumped)));

    internal double RateAt(double seconds) =>
        Area.SquareMeters * RateAfterAnHourPascalMetersPerSecond * Math.Pow(3600 / Math.Max(FirstSeconds, seconds), Exponent);
}
