using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>The streams that a recuperator is asked to bring together. Immutable and thread-safe.</summary>
public sealed record RecuperatorStreams
{
    /// <summary>Describes both streams and what is around.</summary>
    /// <param name="hotInlet">State of the stream that is cooled where it enters, at the warm end.</param>
    /// <param name="hotFlow">Its mass flow, above zero.</param>
    /// <param name="coldInlet">State of the stream that is warmed where it enters, at the cold end.</param>
    /// <param name="coldFlow">Its mass flow, above zero.</param>
    /// <param name="surroundings">What is around; null for no heat from outside.</param>
    /// <exception cref="ArgumentOutOfRangeException">A flow is not above zero, or the hot inlet is not the warmer.</exception>
    public RecuperatorStreams(State hotInlet, MassFlow hotFlow, State coldInlet, MassFlow coldFlow, RecuperatorSurroundings? surroundings = null)
    {
        ArgumentNullException.ThrowIfNull(hotInlet);
        ArgumentNullException.ThrowIfNull(coldInlet);
        Guard.InRange(hotFlow.KilogramsPerSecond, 1e-9, 1e4, "kg/s", nameof(hotFlow));
        Guard.InRange(coldFlow.KilogramsPerSecond, 1e-9, 1e4, "kg/s", nameof(coldFlow));
        if (!(hotInlet.Temperature.Kelvins > coldInlet.Temperature.Kelvins))
        {
            throw new ArgumentOutOfRangeException(
                nameof(hotInlet), hotInlet.Temperature.Kelvins, $"hotInlet is at {hotInlet.Temperature.Kelvins:G6} K; it must be warmer than coldInlet, {coldInlet.Temperature.Kelvins:G6} K.");
        }

        HotInlet = hotInlet;
        HotFlow = hotFlow;
        ColdInlet = coldInlet;
        ColdFlow = coldFlow;
        Surroundings = surroundings;
    }

    /// <summary>State of the stream that is cooled where it enters.</summary>
    public State HotInlet { get; }

    /// <summary>Its mass flow.</summary>
    public MassFlow HotFlow { get; }

    /// <summary>State of the stream that is warmed where it enters.</summary>
    public State ColdInlet { get; }

    /// <summary>Its mass flow.</summary>
    public MassFlow ColdFlow { get; }

    /// <summary>What is around; null for no heat from outside.</summary>
    public RecuperatorSurroundings? Surroundings { get; }
}
