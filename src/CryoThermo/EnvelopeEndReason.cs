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

    /// <summary>The equations could not be solved any further: the envelope is unfinished there, and told as open.</summary>
    NotContinued,
}
