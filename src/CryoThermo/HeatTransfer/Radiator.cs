using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// A coil with a fan, described by one catalogue point and scaled to other flows and temperatures of the air. Each stretch of the coil meets fresh air, so that
/// the coil is a conductance from what flows in it to the inlet temperature of the air. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// One row, or rows beside each other, the air unmixed. In coils of several rows behind each other the inner rows meet warmer air at once for gas that is cooled
/// far: take the catalogue's own point for such a gas. Losses of pressure are not in it.
/// </remarks>
public sealed record Radiator
{
    /// <summary>Heat capacity of air near room temperature, J/(kg K): any table, from memory.</summary>
    private const double AirHeatCapacity = 1006;

    /// <summary>Gas constant of dry air, J/(kg K): any table, from memory.</summary>
    private const double AirGasConstant = 287.05;

    private readonly double conductance;

    /// <summary>Describes the radiator by its catalogue.</summary>
    /// <param name="duty">Heat given to the air, above zero.</param>
    /// <param name="hotInlet">Temperature at which the coil is entered; that of condensing where a catalogue tells of a refrigerant.</param>
    /// <param name="airInlet">Temperature of the air before the coil, -50 to 100 degC, below the former.</param>
    /// <param name="air">Flow of air before the coil, 1e-5 to 1000 m3/s.</param>
    /// <param name="hotCapacityRateWattsPerKelvin">Flow times heat capacity in the coil at the catalogue point; leave it out where something condenses.</param>
    /// <param name="airExponent">By which power of the air's flow UA grows, 0 to 1: 0.4 to 0.6 where the air has most of the resistance (common practice, no source).</param>
    /// <param name="atmosphere">Absolute, 0.3 to 2 bar; 1.01325 bar where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the duty is more than the air or the stream in the coil can take at the temperatures given.</exception>
    public Radiator(
        Power duty,
        Temperature hotInlet,
        Temperature airInlet,
        VolumeFlow air,
        double? hotCapacityRateWattsPerKelvin = null,
        double airExponent = 0.5,
        Pressure? atmosphere = null)
    {
        double heat = Guard.Positive((double)duty.Watts, "W", nameof(duty));
        double difference = Guard.Positive(hotInlet.Kelvins - airInlet.Kelvins, "K above the air", nameof(hotInlet));
        AirExponent = Guard.InRange(airExponent, 0, 1, string.Empty);
        double rate = CapacityRate(air, airInlet, atmosphere);
        Duty = duty;
        HotInlet = hotInlet;
        AirInlet = airInlet;
        Air = air;

        // From the duty back to the conductance to fresh air, and from that to UA.
        double share = heat / difference;
        if (hotCapacityRateWattsPerKelvin is { } given)
        {
            double hot = Guard.Positive(given, "W/K", nameof(hotCapacityRateWattsPerKelvin));
            HotCapacityRateWattsPerKelvin = given;
            share = heat < 0.9999 * hot * difference
                ? -hot * Math.Log(1 - (heat / (hot * difference)))
                : throw TooMuch(heat, 0.9999 * hot * difference, "stream in the coil");
        }

        conductance = share < 0.9999 * rate
            ? -rate * Math.Log(1 - (share / rate))
            : throw TooMuch(heat, heat * 0.9999 * rate / share, "air");
    }

    /// <summary>Heat given to the air at the catalogue point.</summary>
    public Power Duty { get; }

    /// <summary>Temperature at which the coil is entered at the catalogue point.</summary>
    public Temperature HotInlet { get; }

    /// <summary>Temperature of the air before the coil at the catalogue point.</summary>
    public Temperature AirInlet { get; }

    /// <summary>Flow of air before the coil at the catalogue point.</summary>
    public VolumeFlow Air { get; }

    /// <summary>Flow times heat capacity in the coil at the catalogue point; null where something condenses.</summary>
    public double? HotCapacityRateWattsPerKelvin { get; }

    /// <summary>By which power of the air's flow UA grows.</summary>
    public double AirExponent { get; }

    /// <summary>UA at the catalogue point, W/K, from coil to the air as it warms.</summary>
    public double ConductanceWattsPerKelvin => conductance;

    /// <summary>Where it comes from and how sure it is.</summary>
    public static Source Source { get; } = new(
        "cross-flow, air unmixed, coil mixed over its bore: W. M. Kays, A. L. London, Compact Heat Exchangers; growth with the air's flow: common practice, no source",
        FromMemory: true,
        Verified: "the catalogue point comes back; within 5 % of it as sure as the catalogue, at half or double the flow of air 10 % less sure (judged here)");

    /// <summary>Conductance from the stream in the coil to the inlet temperature of the air, W/K; at most the air's capacity rate.</summary>
    /// <param name="air">Flow of air before the coil, a tenth to three times that of the catalogue.</param>
    /// <param name="airInlet">-50 to 100 degC.</param>
    /// <param name="atmosphere">Absolute, 0.3 to 2 bar; 1.01325 bar where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public double ToFreshAirWattsPerKelvin(VolumeFlow air, Temperature airInlet, Pressure? atmosphere = null)
    {
        Guard.InRange(air.CubicMetersPerSecond, 0.0999 * Air.CubicMetersPerSecond, 3.001 * Air.CubicMetersPerSecond, "m3/s", nameof(air));
        double rate = CapacityRate(air, airInlet, atmosphere);

        // Mass counts for the film of the air, not volume.
        double flow = air.CubicMetersPerSecond / Air.CubicMetersPerSecond;
        double density = (atmosphere ?? Pressure.FromAtmospheres(1)).Pascals / 101_325 * AirInlet.Kelvins / airInlet.Kelvins;
        double own = conductance * Math.Pow(flow * density, AirExponent);
        return -rate * (Math.Exp(-own / rate) - 1);
    }

    /// <summary>Flow of the air times its heat capacity, W/K.</summary>
    internal static double CapacityRate(VolumeFlow air, Temperature inlet, Pressure? atmosphere)
    {
        double flow = Guard.InRange(air.CubicMetersPerSecond, 1e-5, 1000, "m3/s", nameof(air));
        Guard.InRange(inlet.DegreesCelsius, -50, 100, "degC of the air", nameof(inlet));
        double pressure = Guard.InRange((atmosphere ?? Pressure.FromAtmospheres(1)).Pascals, 3e4, 2e5, "Pa", nameof(atmosphere));
        return flow * pressure / (AirGasConstant * inlet.Kelvins) * AirHeatCapacity;
    }

    private static ArgumentOutOfRangeException TooMuch(double heat, double most, string stream) => new(
        nameof(Duty).ToLowerInvariant(), heat, $"duty is {heat:G6} W; at these temperatures the {stream} takes at most {most:G6} W: look at the flow and the temperatures of the catalogue point.");
}
