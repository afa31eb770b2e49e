namespace CryoThermo;

/// <summary>Where enthalpy and entropy of each component are zero. Differences never depend on it.</summary>
public enum ReferenceState
{
    /// <summary>The ideal gas of each component at 298.15 K and 101325 Pa.</summary>
    IdealGasAt25DegreesCelsius,

    /// <summary>The saturated liquid of each component at 101325 Pa, as the chosen model has it.</summary>
    SaturatedLiquidAtOneAtmosphere,

    /// <summary>Where the publication of the equation of state puts it, to compare with its tables. Helmholtz equations of pure fluids only.</summary>
    AsPublished,
}
