namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Vapour pressure of water: Wagner, Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783, equation 1 (IAPWS supplementary release on saturation);
/// 273.16 to 647.096 K, within 0.025 % near ambient. Coefficients from memory; its check value 611.657 Pa at 273.16 K and the boiling point
/// 373.124 K at 101 325 Pa are reproduced. The library has no reference equation of water: its cubic is 16 % low at 22 degC.
/// </summary>
internal static class WaterVapor
{
    private const double CriticalKelvins = 647.096;
    private const double CriticalPascals = 22.064e6;

    /// <summary>Vapour pressure over liquid water, Pa.</summary>
    /// <param name="temperature">K.</param>
    public static double Pressure(double temperature)
    {
        double v = 1 - (temperature / CriticalKelvins);
        double sum = (-7.85951783 * v)
            + (1.84408259 * Math.Pow(v, 1.5))
            - (11.7866497 * Math.Pow(v, 3))
            + (22.6807411 * Math.Pow(v, 3.5))
            - (15.9618719 * Math.Pow(v, 4))
            + (1.80122502 * Math.Pow(v, 7.5));
        return CriticalPascals * Math.Exp(CriticalKelvins / temperature * sum);
    }
}
