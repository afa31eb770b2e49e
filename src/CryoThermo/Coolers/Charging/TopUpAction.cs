namespace CryoThermo.Coolers.Charging;

/// <summary>What to do with a charge that is not as wanted.</summary>
public enum TopUpAction
{
    /// <summary>It is as wanted already.</summary>
    Leave,

    /// <summary>Add the stated grams.</summary>
    Add,

    /// <summary>No addition brings it within tolerance below the allowed pressure: recover it and charge afresh.</summary>
    RecoverAndRefill,
}
