namespace CryoThermo.Checks.Values;

/// <summary>What a published value of a pure-fluid equation of state is a value of.</summary>
public enum EquationQuantity
{
    /// <summary>Pressure at temperature and density.</summary>
    PressureAtDensity,

    /// <summary>cv at temperature and density.</summary>
    IsochoricHeatCapacity,

    /// <summary>cp at temperature and density.</summary>
    IsobaricHeatCapacity,

    /// <summary>Speed of sound at temperature and density.</summary>
    SpeedOfSoundAtDensity,

    /// <summary>Enthalpy at temperature and density from the published reference state.</summary>
    PublishedEnthalpy,

    /// <summary>Entropy at temperature and density from the published reference state.</summary>
    PublishedEntropy,

    /// <summary>Vapour pressure at the triple-point temperature.</summary>
    TriplePressure,

    /// <summary>Boiling temperature at a pressure.</summary>
    BoilingTemperature,

    /// <summary>Mass density of the liquid boiling at a pressure.</summary>
    BoilingLiquidMassDensity,

    /// <summary>Heat of vaporisation at a pressure.</summary>
    HeatOfVaporization,

    /// <summary>1 - log10(p/pc) at seven tenths of the critical temperature less 1, plus 1.</summary>
    AcentricFactorPlusOne,

    /// <summary>Second virial coefficient.</summary>
    SecondVirial,

    /// <summary>Speed of sound at temperature and pressure.</summary>
    SpeedOfSound,

    /// <summary>Mass density at temperature and pressure.</summary>
    MassDensity,

    /// <summary>Ideal-gas enthalpy at 298.15 K from the published reference state.</summary>
    PublishedIdealGasEnthalpy,

    /// <summary>Ideal-gas entropy at 298.15 K and 101325 Pa from the published reference state.</summary>
    PublishedIdealGasEntropy,

    /// <summary>Melting pressure at a temperature.</summary>
    MeltingPressure,

    /// <summary>Sublimation pressure at a temperature.</summary>
    SublimationPressure,

    /// <summary>Vapour pressure at a temperature.</summary>
    SaturationPressure,

    /// <summary>Mass density of the saturated liquid.</summary>
    SaturatedLiquidMassDensity,

    /// <summary>Mass density of the saturated vapour.</summary>
    SaturatedVaporMassDensity,

    /// <summary>Molar density of the saturated liquid.</summary>
    SaturatedLiquidMolarDensity,

    /// <summary>Enthalpy of the saturated liquid from the published reference state.</summary>
    PublishedSaturatedLiquidEnthalpy,

    /// <summary>Bubble pressure of a pseudo-pure fluid.</summary>
    BubblePressure,

    /// <summary>Dew pressure of a pseudo-pure fluid.</summary>
    DewPressure,
}
