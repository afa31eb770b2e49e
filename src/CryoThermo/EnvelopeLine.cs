namespace CryoThermo;

/// <summary>A continuous line of a phase envelope. Immutable and thread-safe.</summary>
public sealed class EnvelopeLine
{
    internal EnvelopeLine(IReadOnlyList<EnvelopePoint> points, EnvelopeEnd start, EnvelopeEnd end, IReadOnlyList<CriticalPoint> criticalPoints)
    {
        Points = points;
        Start = start;
        End = end;
        CriticalPoints = criticalPoints;
    }

    /// <summary>The points in order along the line; extrema of temperature and pressure are among them.</summary>
    public IReadOnlyList<EnvelopePoint> Points { get; }

    /// <summary>Where the line begins.</summary>
    public EnvelopeEnd Start { get; }

    /// <summary>Where the line ends.</summary>
    public EnvelopeEnd End { get; }

    /// <summary>Critical points that the line passes through, in order.</summary>
    public IReadOnlyList<CriticalPoint> CriticalPoints { get; }
}
