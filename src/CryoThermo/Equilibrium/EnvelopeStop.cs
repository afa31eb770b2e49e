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

    /// <summary>The equations could not be solved any further.</summary>
    NotContinued,
}
