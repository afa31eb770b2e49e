namespace CryoThermo.Checks.Values;

/// <summary>Quantities of columns, uncertainties and deviations.</summary>
public enum MeasuredQuantity
{
    /// <summary>K.</summary>
    Temperature,

    /// <summary>Pa.</summary>
    Pressure,

    /// <summary>Mole fraction in the liquid.</summary>
    LiquidFraction,

    /// <summary>Mole fraction in the vapour.</summary>
    VaporFraction,

    /// <summary>Mole fraction of the whole, one phase.</summary>
    OverallFraction,

    /// <summary>mol/m3.</summary>
    MolarDensity,

    /// <summary>kg/m3.</summary>
    MassDensity,

    /// <summary>Either density, where only relative deviations matter.</summary>
    Density,

    /// <summary>m/s.</summary>
    SpeedOfSound,

    /// <summary>J/(mol K).</summary>
    IsobaricHeatCapacity,

    /// <summary>J/(mol K).</summary>
    IsochoricHeatCapacity,

    /// <summary>Either heat capacity, where only relative deviations matter.</summary>
    HeatCapacity,

    /// <summary>Pa s.</summary>
    Viscosity,

    /// <summary>W/(m K).</summary>
    ThermalConductivity,

    /// <summary>N/m.</summary>
    SurfaceTension,
}
