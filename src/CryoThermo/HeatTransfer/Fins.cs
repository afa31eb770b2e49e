using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Efficiency of fins: heat that a fin takes over what it would take were all of it as warm as its foot. One coefficient all over, heat along the fin only.
/// Stateless and thread-safe.
/// </summary>
public static class Fins
{
    /// <summary>Where the relations come from.</summary>
    public static Source Source { get; } = new(
        "straight fins: any textbook of heat transfer, with the length corrected for the tip (W. B. Harper, D. R. Brown, NACA Rep. 158, 1922); round plates on a tube: Th. E. Schmidt, Refrig. Eng. 57 (1949) 351",
        FromMemory: true,
        Verified: "Schmidt's form within 2 % of the exact solution with Bessel functions where the efficiency is above 0.5 and the fin at most three times as wide as the tube");

    /// <summary>A wire or pin.</summary>
    /// <param name="coefficient">At its surface, 0 to 1e6 W/(m2 K).</param>
    /// <param name="conductivity">Of the metal, 0.01 to 1e4 W/(m K).</param>
    /// <param name="diameter">1 micrometre to 1 m.</param>
    /// <param name="length">From foot to tip, 0 to 10 m; for a wire soldered at both ends half of it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Wire(HeatTransferCoefficient coefficient, ThermalConductivity conductivity, Length diameter, Length length)
    {
        (double h, double k) = Check(coefficient, conductivity);
        double d = Guard.InRange(diameter.Meters, 1e-6, 1, "m", nameof(diameter));
        double l = Guard.InRange(length.Meters, 0, 10, "m", nameof(length));
        return Tanh(Math.Sqrt(4 * h / (k * d)) * (l + (0.25 * d)));
    }

    /// <summary>A straight plate with both sides in the stream.</summary>
    /// <param name="coefficient">At its surface, 0 to 1e6 W/(m2 K).</param>
    /// <param name="conductivity">Of the metal, 0.01 to 1e4 W/(m K).</param>
    /// <param name="thickness">1 micrometre to 0.1 m.</param>
    /// <param name="length">From foot to tip, 0 to 10 m; for a plate between two tubes half of it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double Plate(HeatTransferCoefficient coefficient, ThermalConductivity conductivity, Length thickness, Length length)
    {
        (double h, double k) = Check(coefficient, conductivity);
        double t = Guard.InRange(thickness.Meters, 1e-6, 0.1, "m", nameof(thickness));
        double l = Guard.InRange(length.Meters, 0, 10, "m", nameof(length));
        return Tanh(Math.Sqrt(2 * h / (k * t)) * (l + (0.5 * t)));
    }

    /// <summary>A round plate on a tube, both sides in the stream.</summary>
    /// <param name="coefficient">At its surface, 0 to 1e6 W/(m2 K).</param>
    /// <param name="conductivity">Of the metal, 0.01 to 1e4 W/(m K).</param>
    /// <param name="thickness">1 micrometre to 0.1 m.</param>
    /// <param name="tubeDiameter">Outside of the tube, 0.1 mm to 10 m.</param>
    /// <param name="finDiameter">From that to five times that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double RoundPlate(
        HeatTransferCoefficient coefficient, ThermalConductivity conductivity, Length thickness, Length tubeDiameter, Length finDiameter)
    {
        (double h, double k) = Check(coefficient, conductivity);
        double t = Guard.InRange(thickness.Meters, 1e-6, 0.1, "m", nameof(thickness));
        double inner = 0.5 * Guard.InRange(tubeDiameter.Meters, 1e-4, 10, "m", nameof(tubeDiameter));
        double outer = (0.5 * Guard.InRange(finDiameter.Meters, 2 * inner, 10 * inner, "m", nameof(finDiameter))) + (0.5 * t);
        double ratio = outer / inner;
        return Tanh(Math.Sqrt(2 * h / (k * t)) * inner * (ratio - 1) * (1 + (0.35 * Math.Log(ratio))));
    }

    /// <summary>Efficiency of a surface of which a share are fins.</summary>
    /// <param name="finEfficiency">0 to 1.</param>
    /// <param name="finShare">Area of the fins over all of the area, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double OfSurface(double finEfficiency, double finShare) =>
        1 - (Guard.InRange(finShare, 0, 1, "of the area") * (1 - Guard.InRange(finEfficiency, 0, 1, string.Empty)));

    /// <summary>tanh(x)/x.</summary>
    internal static double Tanh(double x) => x < 1e-4 ? 1 - (x * x / 3) : Math.Tanh(x) / x;

    private static (double H, double K) Check(HeatTransferCoefficient coefficient, ThermalConductivity conductivity) => (
        Guard.InRange(coefficient.WattsPerSquareMeterKelvin, 0, 1e6, "W/(m2 K)", nameof(coefficient)),
        Guard.InRange(conductivity.WattsPerMeterKelvin, 0.01, 1e4, "W/(m K)", nameof(conductivity)));
}
