namespace CryoThermo.Machines;

/// <summary>What keeps a pre-cooler from a steady state.</summary>
public enum PreCoolerObstacle
{
    /// <summary>The stream enters too cold to boil and superheat the refrigerant at any pressure.</summary>
    StreamTooCold,

    /// <summary>The evaporator is too small for the compressor: the suction pressure falls until the compressor reaches its limits.</summary>
    EvaporatorTooSmall,

    /// <summary>The condenser cannot reject the heat at any pressure: too small, or its air or water too warm.</summary>
    CondenserTooSmall,

    /// <summary>Air or water are colder than what is to be cooled: the refrigerant would condense below the pressure at which it boils.</summary>
    MediumTooCold,

    /// <summary>The discharge would be hotter than the model of the refrigerant knows.</summary>
    DischargeTooHot,
}
