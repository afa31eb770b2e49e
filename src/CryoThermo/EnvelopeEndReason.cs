namespace CryoThermo;

/// <summary>Why a line of a phase envelope begins or ends where it does.</summary>
public enum EnvelopeEndReason
{
    /// <summary>The lowest pressure traced, 1 kPa: the line goes on into the vacuum.</summary>
    LowestPressure,

    /// <summary>The critical point of a pure fluid.</summary>
    CriticalPoint,

    /// <summary>The lowest temperature of the model.</summary>
    LowestTemperature,

    /// <summary>The highest temperature of the model: the envelope is open.</summary>
    HighestTemperature,

    /// <summary>The highest pressure of the model: the line rises without end as far as the model tells, and the envelope is open.</summary>
    HighestPressure,

    /// <summary>
    /// One of the phases reaches the limit beyond which it cannot exist, not even metastably. Another phase has formed before, so that the
    /// points there are not stable.
    /// </summary>
    MetastableLimit,

    /// <summary>The line comes back to where it began: a loop of its own, of unstable points.</summary>
    ClosedLoop,

    /// <summary>
    /// Both phases have become so alike, by less than 1 % in every K-value and in density, that double precision does not tell where the line
    /// goes on: beside two critical points close to each other. It goes on there, and is told as open.
    /// </summary>
    PhasesAlike,

    /// <summary>The equations could not be solved any further: the envelope is unfinished there, and told as open.</summary>
    NotContinued,
}
