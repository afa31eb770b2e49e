using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Standard uncertainties (one standard deviation) of what is read while charging. Some errors are common to all readings, a zero or a span
/// of the gauge that is off; others differ from reading to reading. They act differently: a common zero hardly moves the steps between
/// readings, a common span moves them all alike. Immutable and thread-safe; what is not stated is zero.
/// </summary>
public sealed class ReadingUncertainty
{
    /// <summary>Zero of the gauge, common to all readings.</summary>
    public Pressure GaugeZero { get; init => field = Checked(value, nameof(GaugeZero)); }

    /// <summary>Span of the gauge, common to all readings: share of the gauge reading, 0 to 0.2.</summary>
    public double GaugeSpan { get; init => field = Guard.InRange(value, 0, 0.2, "of the reading", nameof(GaugeSpan)); }

    /// <summary>Error of each gauge reading by itself: repeatability, parallax, the last digit.</summary>
    public Pressure GaugeReading { get; init => field = Checked(value, nameof(GaugeReading)); }

    /// <summary>Error of each gauge reading by itself, as a share of the gauge reading, 0 to 0.2.</summary>
    public double GaugeReadingShare { get; init => field = Guard.InRange(value, 0, 0.2, "of the reading", nameof(GaugeReadingShare)); }

    /// <summary>Error of each mass filled: of the difference of two weighings, not of one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public Mass Weighing
    {
        get;
        init
        {
            Guard.InRange(value.Kilograms, 0, 1000, "kg", nameof(Weighing));
            field = value;
        }
    }

    /// <summary>Temperature of the gas, common to all volumes and steps.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or above 30 K.</exception>
    public TemperatureDelta Temperature
    {
        get;
        init
        {
            Guard.InRange(value.Kelvins, 0, 30, "K", nameof(Temperature));
            field = value;
        }
    }

    /// <summary>Volume of the machine, common to all volumes: a share, 0 to 0.2.</summary>
    public double VolumeShare { get; init => field = Guard.InRange(value, 0, 0.2, "of the volume", nameof(VolumeShare)); }

    private static Pressure Checked(Pressure value, string parameter)
    {
        Guard.InRange(value.Pascals, 0, 1e7, "Pa", parameter);
        return value;
    }
}
