using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// A stream alongside a capillary, as a suction line soldered to it: heat passes over a given conductance. The pressure of the stream is taken
/// as constant. Immutable and thread-safe.
/// </summary>
public sealed record CapillaryExchange
{
    /// <summary>Describes the stream.</summary>
    /// <param name="streamInlet">Its state where it comes to the capillary.</param>
    /// <param name="streamFlow">Its mass flow.</param>
    /// <param name="conductanceWattsPerMeterKelvin">Heat flow over length and temperature difference, W/(m K), 0 to 1000: films, tubes and solder.</param>
    /// <param name="isCounterFlow">Whether it runs against the capillary.</param>
    /// <param name="start">Where along the capillary contact begins; null for its inlet.</param>
    /// <param name="end">Where contact ends; null for its outlet.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CapillaryExchange(
        State streamInlet, MassFlow streamFlow, double conductanceWattsPerMeterKelvin, bool isCounterFlow = true, Length? start = null, Length? end = null)
    {
        ArgumentNullException.ThrowIfNull(streamInlet);
        StreamInlet = streamInlet;
        Guard.Positive(streamFlow.KilogramsPerSecond, "kg/s", nameof(streamFlow));
        StreamFlow = streamFlow;
        ConductanceWattsPerMeterKelvin = Guard.InRange(conductanceWattsPerMeterKelvin, 0, 1000, "W/(m K)");
        IsCounterFlow = isCounterFlow;
        Start = Length.FromMeters(Guard.InRange(start?.Meters ?? 0, 0, 1000, "m", nameof(start)));
        if (end is { } last)
        {
            Guard.InRange(last.Meters, Start.Meters, 1000, "m", nameof(end));
        }

        End = end;
    }

    /// <summary>State of the stream where it comes to the capillary.</summary>
    public State StreamInlet { get; }

    /// <summary>Mass flow of the stream.</summary>
    public MassFlow StreamFlow { get; }

    /// <summary>Heat flow over length and temperature difference, W/(m K).</summary>
    public double ConductanceWattsPerMeterKelvin { get; }

    /// <summary>Whether the stream runs against the capillary.</summary>
    public bool IsCounterFlow { get; }

    /// <summary>Where along the capillary contact begins.</summary>
    public Length Start { get; }

    /// <summary>Where contact ends; null for the outlet.</summary>
    public Length? End { get; }
}
