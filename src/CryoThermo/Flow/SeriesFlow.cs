using System.Globalization;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A flow through parts in series. Immutable and thread-safe.</summary>
public sealed class SeriesFlow : IThrottleFlow
{
    internal SeriesFlow(IReadOnlyList<IThrottleFlow> parts) => Parts = parts;

    /// <summary>The flow through each part, in order.</summary>
    public IReadOnlyList<IThrottleFlow> Parts { get; }

    /// <inheritdoc/>
    public State Inlet => Parts[0].Inlet;

    /// <inheritdoc/>
    public Pressure OutletPressure => Parts[^1].OutletPressure;

    /// <inheritdoc/>
    public MassFlow MassFlow => Parts[^1].MassFlow;

    /// <inheritdoc/>
    public bool IsChoked => ChokedPart is not null;

    /// <summary>The last part that is choked: nothing behind it acts back on the flow. Null for none.</summary>
    public int? ChokedPart
    {
        get
        {
            for (int i = Parts.Count - 1; i >= 0; i--)
            {
                if (Parts[i].IsChoked)
                {
                    return i;
                }
            }

            return null;
        }
    }

    /// <summary>
    /// Share of the whole pressure drop that falls over a part. A valve governs the flow while its share is above about 0.3 (common practice,
    /// no source).
    /// </summary>
    /// <param name="part">Index of the part.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such part.</exception>
    public double DropShare(int part)
    {
        Guard.InRange(part, 0, Parts.Count - 1, "as index of a part");
        return (Parts[part].Inlet.Pressure - Parts[part].OutletPressure) / (Inlet.Pressure - OutletPressure);
    }

    /// <summary>The parts as a table.</summary>
    public ResultTable ToTable() => new(
        string.Create(CultureInfo.InvariantCulture, $"{MassFlow.GramsPerSecond:0.0000} g/s through {Parts.Count} parts in series"),
        ["part", "from, bar absolute", "to, bar absolute", "share of the drop, %", "inlet, K", "inlet, °C", "choked"],
        [.. Parts.Select((p, i) => (IReadOnlyList<string>)
        [
            (i + 1).ToString(CultureInfo.InvariantCulture),
            p.Inlet.Pressure.Bars.ToString("0.000", CultureInfo.InvariantCulture),
            p.OutletPressure.Bars.ToString("0.000", CultureInfo.InvariantCulture),
            (100 * DropShare(i)).ToString("0.0", CultureInfo.InvariantCulture),
            p.Inlet.Temperature.Kelvins.ToString("0.00", CultureInfo.InvariantCulture),
            p.Inlet.Temperature.DegreesCelsius.ToString("0.00", CultureInfo.InvariantCulture),
            p.IsChoked ? "yes" : "no",
        ])]);
}
