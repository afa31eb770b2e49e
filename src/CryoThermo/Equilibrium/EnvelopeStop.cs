namespace CryoThermo.Equilibrium;

/// <summary>Why the tracing of a line ended.</summary>
internal enum EnvelopeStop
{
    /// <summary>It began or came back to the lowest pressure traced.</summary>
    LowestPressure,

    /// <summary>It rises beyond the highest pressure of the model.</summary>
    HighestPressure,

    /// <summary>It leaves the temperatures of the model on the cold side.</summary>
    LowestTemperature,

    /// <summary>It leaves the temperatures of the model on the hot side.</summary>
    HighestTemperature,

    /// <summary>It ends in the critical point of a pure fluid.</summary>
    CriticalPoint,

    /// <summary>A phase reaches the limit of its metastability; another phase has formed before.</summary>
    MetastableLimit,

    /// <summary>It comes back to where it began: a loop of its own.</summary>
    ClosedLoop,

    /// <summary>Its phases are so alike that the digits do not tell them apart.</summary>
    PhasesAlike,

    /// <summary>The equations could not be solved any further.</summary>
    NotContinued,
}
