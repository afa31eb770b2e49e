namespace CryoThermo.Coolers.Rating;

/// <summary>Where in the loop a space of the machine lies, and so what fills it while the machine runs.</summary>
public enum SpacePlace
{
    /// <summary>Compressor shell, suction line, buffer on the suction side: gas at suction pressure and at the temperature of the room.</summary>
    Suction,

    /// <summary>Discharge line, oil separator: gas at discharge pressure and temperature.</summary>
    Discharge,

    /// <summary>After-cooler, drier, lines to the cold box: the stream as it enters the cold box, partly liquid where it condenses there.</summary>
    WarmHighSide,

    /// <summary>Line before the throttle: the stream at the cold end of the recuperator.</summary>
    ThrottleInlet,

    /// <summary>Evaporator or cold plate: the stream from the throttle's outlet to where it leaves the cold head.</summary>
    ColdHead,
}
