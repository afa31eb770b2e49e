using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>Where the moisture of room air settles. Stateless and thread-safe.</summary>
public static class MoistAir
{
    /// <summary>Where the vapour pressures come from.</summary>
    public static Source Source { get; } = new(
        "Magnus forms of O. A. Alduchov, R. E. Eskridge, J. Appl. Meteorol. 35 (1996) 601: within 0.4 % from -40 to 50 degC", FromMemory: true, Verified: "steam tables at 0 and 20 degC within 0.3 %");

    /// <summary>Temperature at which dew forms on a surface (over water, also below 0 degC).</summary>
    /// <param name="air">Temperature of the air, -40 to 60 degC.</param>
    /// <param name="humidity">Relative humidity over water, 1 to 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static Temperature DewPoint(Temperature air, RelativeHumidity humidity)
    {
        double x = Math.Log(VaporPressure(air, humidity) / 610.94);
        return Temperature.FromDegreesCelsius(243.04 * x / (17.625 - x));
    }

    /// <summary>Temperature at which rime forms on a surface; only below 0 degC is it met before dew.</summary>
    /// <param name="air">Temperature of the air, -40 to 60 degC.</param>
    /// <param name="humidity">Relative humidity over water, 1 to 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static Temperature FrostPoint(Temperature air, RelativeHumidity humidity)
    {
        double x = Math.Log(VaporPressure(air, humidity) / 611.21);
        return Temperature.FromDegreesCelsius(273.86 * x / (22.587 - x));
    }

    /// <summary>Partial pressure of the moisture, Pa.</summary>
    internal static double VaporPressure(Temperature air, RelativeHumidity humidity) =>
        0.01 * Guard.InRange(humidity.Percent, 1, 100, "%", nameof(humidity)) * OverWater(Guard.InRange(air.DegreesCelsius, -40, 60, "degC", nameof(air)));

    /// <summary>Vapour pressure at a surface, Pa: over ice below 0 degC, of nothing far below.</summary>
    internal static double AtSurface(double celsius) => celsius >= 0 ? OverWater(celsius)
        : celsius > -150 ? 611.21 * Math.Exp(22.587 * celsius / (273.86 + celsius))
        : 0;

    private static double OverWater(double celsius) => 610.94 * Math.Exp(17.625 * celsius / (243.04 + celsius));
}
