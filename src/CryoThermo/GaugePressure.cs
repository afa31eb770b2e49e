using CryoThermo.Diagnostics;
using UnitsNet;
using UnitsNet.Units;

namespace CryoThermo;

/// <summary>
/// A pressure as a gauge shows it: the reading above (or, negative, below) the atmosphere around the gauge, together with
/// that atmosphere. Immutable and thread-safe; the default value reads zero at the standard atmosphere of 101 325 Pa.
/// </summary>
public readonly struct GaugePressure : IEquatable<GaugePressure>
{
    private const double SeaLevelPascals = 101325;
    private const double SeaLevelKelvins = 288.15;
    private const double LapseKelvinsPerMetre = 0.0065;
    private const double GravityMetresPerSecondSquared = 9.80665;
    private const double AirGasConstantJoulesPerKilogramKelvin = 287.05287;
    private const double EarthRadiusMetres = 6356766;

    // A wide band around what a barometer can show between -500 m and 9000 m; it catches a wrong unit, not bad weather.
    private const double LeastAtmospherePascals = 25000;
    private const double GreatestAtmospherePascals = 115000;

    private readonly Pressure? atmosphere;

    /// <summary>Creates a gauge pressure from a reading and the local atmosphere.</summary>
    /// <param name="reading">What the gauge shows; negative for a vacuum, down to minus the atmosphere.</param>
    /// <param name="atmosphere">The local atmosphere, absolute, as a barometer shows it (not reduced to sea level): 25 to 115 kPa.</param>
    /// <exception cref="ArgumentOutOfRangeException">The atmosphere is out of its range, or the reading lies below vacuum.</exception>
    public GaugePressure(Pressure reading, Pressure atmosphere)
    {
        Guard.InRange(
            atmosphere.Pascals, LeastAtmospherePascals, GreatestAtmospherePascals, "Pa absolute", nameof(atmosphere));
        if (reading.Pascals < -atmosphere.Pascals)
        {
            throw new ArgumentOutOfRangeException(
                nameof(reading),
                reading.Pascals,
                $"reading is {reading.Pascals:G9} Pa gauge; the least possible is vacuum, {-atmosphere.Pascals:G9} Pa gauge.");
        }

        Reading = reading;
        this.atmosphere = atmosphere;
    }

    /// <summary>What the gauge shows, relative to <see cref="Atmosphere"/>; negative for a vacuum.</summary>
    public Pressure Reading { get; }

    /// <summary>The local atmosphere, absolute.</summary>
    public Pressure Atmosphere => atmosphere ?? Pressure.FromPascals(SeaLevelPascals);

    /// <summary>The absolute pressure, zero or more.</summary>
    public Pressure Absolute => Pressure.FromPascals(Math.Max(0, Reading.Pascals + Atmosphere.Pascals)).ToUnit(Reading.Unit);

    /// <summary>Creates a gauge pressure from a reading at a place whose altitude is known.</summary>
    /// <param name="reading">What the gauge shows; negative for a vacuum, down to minus the atmosphere.</param>
    /// <param name="altitude">The altitude above mean sea level, -500 to 9000 m.</param>
    /// <returns>The gauge pressure, with the standard atmosphere of that altitude.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is out of its range, or the reading lies below vacuum.</exception>
    public static GaugePressure AtAltitude(Pressure reading, Length altitude) => new(reading, StandardAtmosphere(altitude));

    /// <summary>Creates a gauge pressure from an absolute pressure.</summary>
    /// <param name="absolute">The absolute pressure, zero or more.</param>
    /// <param name="atmosphere">The local atmosphere, absolute: 25 to 115 kPa.</param>
    /// <returns>The pressure as a gauge in that atmosphere shows it, in the unit of <paramref name="absolute"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A pressure is out of its range.</exception>
    public static GaugePressure FromAbsolute(Pressure absolute, Pressure atmosphere)
    {
        Guard.InRange(absolute.Pascals, 0, double.MaxValue, "Pa absolute", nameof(absolute));
        Guard.InRange(
            atmosphere.Pascals, LeastAtmospherePascals, GreatestAtmospherePascals, "Pa absolute", nameof(atmosphere));

        // The subtraction is done in pascals; converting back may round a perfect vacuum to just below minus the atmosphere.
        Pressure reading = Pressure.FromPascals(absolute.Pascals - atmosphere.Pascals).ToUnit(absolute.Unit);
        return new GaugePressure(
            reading.Pascals < -atmosphere.Pascals ? Pressure.FromPascals(-atmosphere.Pascals) : reading, atmosphere);
    }

    /// <summary>
    /// The standard atmosphere at an altitude in the troposphere: p = 101 325 Pa (1 - L H / 288.15 K)^(g / (L R)) with
    /// L = 6.5 K/km, R = 287.05287 J/(kg K), g = 9.80665 m/s2 and the geopotential altitude H = r h / (r + h), r = 6356.766 km.
    /// The real barometer strays a few per cent from it with the weather.
    /// </summary>
    /// <remarks>Source: ISO 2533:1975, Standard Atmosphere (the ICAO standard atmosphere, Doc 7488, is the same in this range).</remarks>
    /// <param name="altitude">The geometric altitude above mean sea level, -500 to 9000 m.</param>
    /// <returns>The absolute pressure.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is out of its range.</exception>
    public static Pressure StandardAtmosphere(Length altitude)
    {
        double height = Guard.InRange(altitude.Meters, -500, 9000, "m", nameof(altitude));
        double geopotential = EarthRadiusMetres * height / (EarthRadiusMetres + height);
        double exponent = GravityMetresPerSecondSquared / (LapseKelvinsPerMetre * AirGasConstantJoulesPerKilogramKelvin);
        return Pressure.FromPascals(
            SeaLevelPascals * Math.Pow(1 - (LapseKelvinsPerMetre * geopotential / SeaLevelKelvins), exponent));
    }

    /// <summary>Tells whether two gauge pressures have equal readings in equal atmospheres, compared in pascals.</summary>
    /// <param name="left">One gauge pressure.</param>
    /// <param name="right">The other gauge pressure.</param>
    /// <returns>True when both are equal.</returns>
    public static bool operator ==(GaugePressure left, GaugePressure right) => left.Equals(right);

    /// <summary>Tells whether two gauge pressures differ in reading or atmosphere, compared in pascals.</summary>
    /// <param name="left">One gauge pressure.</param>
    /// <param name="right">The other gauge pressure.</param>
    /// <returns>True when they differ.</returns>
    public static bool operator !=(GaugePressure left, GaugePressure right) => !left.Equals(right);

    /// <inheritdoc/>
    public bool Equals(GaugePressure other) =>
        Reading.Pascals == other.Reading.Pascals && Atmosphere.Pascals == other.Atmosphere.Pascals;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is GaugePressure other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Reading.Pascals, Atmosphere.Pascals);

    /// <summary>The reading in its own unit followed by the word gauge, and the absolute pressure beside it.</summary>
    /// <returns>For example "0.5 bar gauge (1.51325 bar absolute)".</returns>
    public override string ToString()
    {
        PressureUnit unit = Reading.Unit;
        string abbreviation = Pressure.GetAbbreviation(unit);
        return $"{Reading.Value:G6} {abbreviation} gauge ({Absolute.As(unit):G6} {abbreviation} absolute)";
    }
}
