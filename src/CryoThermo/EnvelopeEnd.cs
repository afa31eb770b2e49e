namespace CryoThermo;

/// <summary>An end of a line of a phase envelope.</summary>
/// <param name="Reason">Why the line ends there.</param>
/// <param name="Point">The last point.</param>
/// <param name="Explanation">The same in words, with figures.</param>
public sealed record EnvelopeEnd(EnvelopeEndReason Reason, EnvelopePoint Point, string Explanation)
{
    /// <summary>True where the boundary goes on beyond the end: to ever higher pressure, beyond the highest temperature, or untraced.</summary>
    public bool IsOpen => Reason is EnvelopeEndReason.HighestPressure or EnvelopeEndReason.HighestTemperature or EnvelopeEndReason.PhasesAlike
        or EnvelopeEndReason.NotContinued;
}
