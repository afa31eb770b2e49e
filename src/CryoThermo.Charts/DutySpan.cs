namespace CryoThermo.Charts;

/// <summary>A stretch of the duty axis of a recuperator, for example where one stream holds two phases.</summary>
/// <param name="FromWatts">Where the stretch begins, W.</param>
/// <param name="ToWatts">Where the stretch ends, W; greater than <paramref name="FromWatts"/>.</param>
public sealed record DutySpan(double FromWatts, double ToWatts);
