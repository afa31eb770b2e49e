namespace CryoThermo.Substances;

/// <summary>The uncertainties an equation of state states, in words with figures, per property; null where the source says nothing. Immutable.</summary>
/// <param name="Density">Density of single phases.</param>
/// <param name="VaporPressure">Vapour pressure.</param>
/// <param name="SaturatedDensity">Densities of the saturated liquid and vapour.</param>
/// <param name="HeatCapacity">Isobaric and isochoric heat capacity.</param>
/// <param name="SpeedOfSound">Speed of sound.</param>
/// <param name="Remark">What holds for all of them: from where, and where they grow; null when nothing is to be said.</param>
public sealed record PropertyUncertainty(
    string? Density, string? VaporPressure, string? SaturatedDensity, string? HeatCapacity, string? SpeedOfSound, string? Remark);
