using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// A bench test of a valve: a compressor of known delivery blows air through it, and the pressure before it tells its opening. Immutable and thread-safe.
/// Uncertainties are standard ones (one standard deviation); what is not stated is zero.
/// </summary>
public sealed record BenchTest
{
    /// <summary>Style of the valve.</summary>
    public required ValveStyle Style { get; init; }

    /// <summary>Free air that the compressor takes in: its free-air delivery, or displaced volume a minute times volumetric efficiency.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public required VolumeFlow FreeAirDelivery
    {
        get;
        init
        {
            Guard.Positive(value.CubicMetersPerSecond, "m3/s", nameof(FreeAirDelivery));
            field = value;
        }
    }

    /// <summary>Absolute pressure at the intake, as a barometer there shows it: 25 to 115 kPa.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of its range.</exception>
    public required Pressure IntakePressure
    {
        get;
        init
        {
            Guard.InRange(value.Pascals, 25e3, 115e3, "Pa absolute", nameof(IntakePressure));
            field = value;
        }
    }

    /// <summary>Temperature at the intake: 230 to 340 K.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of its range.</exception>
    public required Temperature IntakeTemperature
    {
        get;
        init
        {
            Guard.InRange(value.Kelvins, 230, 340, "K", nameof(IntakeTemperature));
            field = value;
        }
    }

    /// <summary>Absolute pressure at which a switch or relief valve ends the rise; readings there tell no flow. Null for none.</summary>
    public Pressure? UpstreamLimit { get; init; }

    /// <summary>Opening up to which the valve must be shut, by its maker. Without it a leak of the seat cannot be told from an opening.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public double? ClosedUpToSteps
    {
        get;
        init
        {
            if (value is { } steps)
            {
                Guard.InRange(steps, 0, 1e9, "steps", nameof(ClosedUpToSteps));
            }

            field = value;
        }
    }

    /// <summary>Error of each gauge reading by itself, as a share of the reading above the atmosphere, 0 to 0.3.</summary>
    public double GaugeReadingShare { get; init => field = Guard.InRange(value, 0, 0.3, "of the reading", nameof(GaugeReadingShare)); }

    /// <summary>Error of each gauge reading by itself.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or above 1 bar.</exception>
    public Pressure GaugeReading
    {
        get;
        init
        {
            Guard.InRange(value.Pascals, 0, 1e5, "Pa", nameof(GaugeReading));
            field = value;
        }
    }

    /// <summary>How the flow strays from reading to reading, as a share of it, 0 to 0.3.</summary>
    public double FlowReadingShare { get; init => field = Guard.InRange(value, 0, 0.3, "of the flow", nameof(FlowReadingShare)); }

    /// <summary>Error of the known flow common to all readings, as a share of it, 0 to 0.3: it moves the whole curve.</summary>
    public double FlowShare { get; init => field = Guard.InRange(value, 0, 0.3, "of the flow", nameof(FlowShare)); }

    /// <summary>Error of each flow measured behind the valve, as a share of it, 0 to 0.3.</summary>
    public double ArrivingFlowShare { get; init => field = Guard.InRange(value, 0, 0.3, "of the flow", nameof(ArrivingFlowShare)); }

    /// <summary>Error of each air temperature.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or above 30 K.</exception>
    public TemperatureDelta AirTemperature
    {
        get;
        init
        {
            Guard.InRange(value.Kelvins, 0, 30, "K", nameof(AirTemperature));
            field = value;
        }
    }
}
