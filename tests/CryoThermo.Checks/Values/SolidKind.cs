namespace CryoThermo.Checks.Values;

/// <summary>What a set with a solid measured.</summary>
public enum SolidKind
{
    /// <summary>Pressure at which a solid forms from gas, at temperature and composition.</summary>
    Frost,

    /// <summary>Temperature at which a solid meets a fluid of given composition and pressure.</summary>
    Freezing,

    /// <summary>Composition of a saturated liquid with its pressure.</summary>
    Solubility,

    /// <summary>Freezing temperature of a liquid under its own vapour.</summary>
    Liquidus,

    /// <summary>Pressure of the vapour above a pure solid.</summary>
    Sublimation,
}
