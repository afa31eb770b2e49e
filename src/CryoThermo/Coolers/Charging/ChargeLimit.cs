namespace CryoThermo.Coolers.Charging;

/// <summary>Why a charge cannot be filled.</summary>
public enum ChargeLimit
{
    /// <summary>The machine would have to rise to or above what the bottle gives.</summary>
    BottlePressure,

    /// <summary>The bottle holds less than is needed.</summary>
    BottleContents,

    /// <summary>Part of the charge would condense in a volume of the machine.</summary>
    Condensation,

    /// <summary>The machine holds more of a component, or of everything, than is wanted.</summary>
    NegativeAmount,

    /// <summary>The pressure would be above what is allowed for the machine.</summary>
    AllowedPressure,
}
