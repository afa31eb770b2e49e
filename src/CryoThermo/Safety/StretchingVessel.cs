using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// A thin closed vessel that stretches with pressure, elastic and at one temperature: S. Timoshenko, Strength of Materials, and W. C. Young, R. G. Budynas,
/// Roark's Formulas for Stress and Strain, thin shells (from memory). Immutable and thread-safe. A check of order, not a design.
/// </summary>
public sealed record StretchingVessel
{
    private StretchingVessel(double volumePerPascal, double stressPerPascal)
    {
        VolumePerPascal = volumePerPascal;
        StressPerPascal = stressPerPascal;
    }

    /// <summary>Relative growth of the volume with pressure, 1/Pa.</summary>
    public double VolumePerPascal { get; }

    /// <summary>Greatest membrane stress over the pressure inside.</summary>
    public double StressPerPascal { get; }

    /// <summary>A cylinder with closed ends, a tube shut at both: volume grows by p D/(4 E t) (5 - 4 v), hoop stress p D/(2 t).</summary>
    /// <param name="diameter">Mean diameter.</param>
    /// <param name="wall">Wall, at most a tenth of the diameter.</param>
    /// <param name="youngsModulus">Young's modulus: copper about 120, stainless steel about 195 GPa at room temperature (from memory).</param>
    /// <param name="poissonRatio">Poisson's ratio, 0 to 0.5.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static StretchingVessel Cylinder(Length diameter, Length wall, Pressure youngsModulus, double poissonRatio = 0.3)
    {
        (double slenderness, double e, double v) = Checked(diameter, wall, youngsModulus, poissonRatio);
        return new(slenderness / (4 * e) * (5 - (4 * v)), 0.5 * slenderness);
    }

    /// <summary>A sphere: volume grows by 3 p D/(4 E t) (1 - v), stress p D/(4 t).</summary>
    /// <param name="diameter">Mean diameter.</param>
    /// <param name="wall">Wall, at most a tenth of the diameter.</param>
    /// <param name="youngsModulus">Young's modulus.</param>
    /// <param name="poissonRatio">Poisson's ratio, 0 to 0.5.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static StretchingVessel Sphere(Length diameter, Length wall, Pressure youngsModulus, double poissonRatio = 0.3)
    {
        (double slenderness, double e, double v) = Checked(diameter, wall, youngsModulus, poissonRatio);
        return new(3 * slenderness / (4 * e) * (1 - v), 0.25 * slenderness);
    }

    /// <summary>Gauge pressure at which the membrane stress reaches a strength. A check only: ends, joints, brazing and fatigue give way before.</summary>
    /// <param name="strength">Stress.</param>
    /// <exception cref="ArgumentOutOfRangeException">The strength is not above zero.</exception>
    public Pressure PressureAt(Pressure strength) => Pressure.FromPascals(Guard.Positive(strength.Pascals, "Pa", nameof(strength)) / StressPerPascal);

    private static (double Slenderness, double Modulus, double Ratio) Checked(Length diameter, Length wall, Pressure youngsModulus, double poissonRatio)
    {
        Guard.Positive(diameter.Meters, "m", nameof(diameter));
        Guard.InRange(wall.Meters, double.Epsilon, 0.1 * diameter.Meters, "m", nameof(wall));
        Guard.Positive(youngsModulus.Pascals, "Pa", nameof(youngsModulus));
        Guard.InRange(poissonRatio, 0, 0.5, "(ratio)");
        return (diameter.Meters / wall.Meters, youngsModulus.Pascals, poissonRatio);
    }
}
