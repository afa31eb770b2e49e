namespace CryoThermo.Coolers.Rating;

/// <summary>What keeps a cooler from running, or from holding its load.</summary>
public enum CoolerObstacle
{
    /// <summary>The charge is too small: the suction pressure falls to a vacuum in which nothing circulates.</summary>
    ChargeTooSmall,

    /// <summary>The charge is too large for the volumes: pressures beyond the model.</summary>
    ChargeTooLarge,

    /// <summary>The throttle lets so little through that the high pressure rises beyond the model or what the compressor delivers against.</summary>
    ThrottleTooSmall,

    /// <summary>The throttle lets so much through that both pressures come together.</summary>
    ThrottleTooLarge,

    /// <summary>The discharge would be hotter than the model knows.</summary>
    DischargeTooHot,

    /// <summary>A stream loses most of its pressure in the recuperator.</summary>
    RecuperatorTooNarrow,

    /// <summary>The pre-cooler has no steady state.</summary>
    PreCooler,

    /// <summary>Expansion at the warm end does not cool, or less than the leak: nothing gets cold.</summary>
    NoCooling,

    /// <summary>The load is more than the cooler carries at any cold temperature.</summary>
    LoadTooLarge,

    /// <summary>The oil would take up more gas than Henry's law can say.</summary>
    OilSaturated,

    /// <summary>A steady state is known to lie between two temperatures, but was not found to the last digits.</summary>
    NotFound,

    /// <summary>States leave the range of the fluid's model.</summary>
    ModelRange,

    /// <summary>The heat leak is not known at that cold temperature: the figures of an insulation or a support end before.</summary>
    LeakNotKnown,

    /// <summary>The stream reaches the phase separator as vapour or as liquid alone.</summary>
    NothingToSeparate,
}
