namespace CryoThermo.Checks.Values;

/// <summary>What a figure of a cooler mixture is.</summary>
public enum CoolerQuantity
{
    /// <summary>Lowest temperature with a perfect recuperator and no leak, K.</summary>
    LowestTemperature,

    /// <summary>Greatest cooling at a cold temperature up to a warm end, J/mol.</summary>
    GreatestCooling,

    /// <summary>Where the isothermal enthalpy difference is least between both temperatures, K.</summary>
    PinchTemperature,

    /// <summary>Measured gross cooling over the greatest.</summary>
    ShareOfGreatest,

    /// <summary>Greatest cooling over the enthalpy difference of a pure gas at 300 K between the same pressures.</summary>
    GainOverPureGas,

    /// <summary>Enthalpy difference at a temperature over that of a pure gas between the same pressures.</summary>
    DifferenceOverPureGas,

    /// <summary>Density at the high pressure and the cold temperature over that at the warm end.</summary>
    DensityRatio,

    /// <summary>Bubble temperature at the low pressure, K.</summary>
    BubbleTemperature,

    /// <summary>Dew temperature at the low pressure, K.</summary>
    DewTemperature,

    /// <summary>Dew less bubble temperature at the low pressure, K.</summary>
    Glide,

    /// <summary>Bubble pressure at a temperature, Pa.</summary>
    BubblePressure,

    /// <summary>Temperature at which the first solid forms on cooling at the low pressure, K.</summary>
    FirstSolid,
}
