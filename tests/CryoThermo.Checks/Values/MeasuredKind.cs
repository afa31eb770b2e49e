namespace CryoThermo.Checks.Values;

/// <summary>What a set measured.</summary>
public enum MeasuredKind
{
    /// <summary>Pressure and vapour composition over temperature and liquid composition.</summary>
    VaporLiquid,

    /// <summary>Bubble pressure over temperature and liquid composition.</summary>
    Bubble,

    /// <summary>Bubble pressure and density of the liquid.</summary>
    BubbleWithDensity,

    /// <summary>Dew pressure over temperature and vapour composition.</summary>
    Dew,

    /// <summary>Composition of the liquid over temperature and pressure, taken as bubble pressure at that composition.</summary>
    LiquidComposition,

    /// <summary>Composition of the vapour over temperature and pressure.</summary>
    VaporComposition,

    /// <summary>Density of one phase.</summary>
    Density,

    /// <summary>Speed of sound of one phase.</summary>
    SpeedOfSound,

    /// <summary>Isobaric heat capacity of one phase.</summary>
    IsobaricHeatCapacity,

    /// <summary>Isochoric heat capacity of one phase.</summary>
    IsochoricHeatCapacity,

    /// <summary>Vapour pressure of a pure fluid.</summary>
    VaporPressure,

    /// <summary>Density of the saturated liquid of a pure fluid.</summary>
    SaturatedLiquidDensity,

    /// <summary>Viscosity of one phase.</summary>
    Viscosity,

    /// <summary>Thermal conductivity of one phase.</summary>
    ThermalConductivity,

    /// <summary>Surface tension between a liquid and its vapour, over temperature and either pressure or liquid composition.</summary>
    SurfaceTension,
}
