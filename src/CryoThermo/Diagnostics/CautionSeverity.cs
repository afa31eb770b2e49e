namespace CryoThermo.Diagnostics;

/// <summary>How much harm a caution warns of, in rising order.</summary>
public enum CautionSeverity
{
    /// <summary>Good to know; no direct harm expected.</summary>
    Notice,

    /// <summary>Can damage the machine or hurt a person when ignored.</summary>
    Warning,

    /// <summary>Can kill; do not run before the stated measure is taken.</summary>
    Danger,
}
