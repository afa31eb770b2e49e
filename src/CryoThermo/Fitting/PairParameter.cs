namespace CryoThermo.Fitting;

/// <summary>A parameter of a pair that a fit may free.</summary>
public enum PairParameter
{
    /// <summary>gamma of the reducing temperature of the multi-fluid model: the strength of the attraction. The first one to free.</summary>
    TemperatureGamma,

    /// <summary>beta of the reducing temperature: its asymmetry over composition. The second one to free.</summary>
    TemperatureBeta,

    /// <summary>gamma of the reducing volume. Needs densities, or many points over the whole range of compositions.</summary>
    VolumeGamma,

    /// <summary>beta of the reducing volume.</summary>
    VolumeBeta,

    /// <summary>The factor of the pair's departure function.</summary>
    DepartureWeight,

    /// <summary>The interaction parameter k of a cubic equation; at 298.15 K, where it depends on temperature.</summary>
    Interaction,

    /// <summary>c of the interaction parameter k + c (298.15 K/T - 1) of a cubic equation. Needs points over a range of temperatures.</summary>
    InverseTemperatureCoefficient,
}
