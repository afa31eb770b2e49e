namespace CryoThermo;

/// <summary>Why an inversion curve ends.</summary>
public enum InversionCurveEnd
{
    /// <summary>Zero pressure: the inversion temperature of the dilute gas.</summary>
    ZeroPressure,

    /// <summary>The highest temperature of the model.</summary>
    HighestTemperature,

    /// <summary>The lowest temperature of the model.</summary>
    LowestTemperature,

    /// <summary>The highest pressure of the model.</summary>
    HighestPressure,

    /// <summary>The liquid begins to boil, or the fluid to split into phases.</summary>
    PhaseBoundary,

    /// <summary>The equations could not be solved any further.</summary>
    NotContinued,
}
