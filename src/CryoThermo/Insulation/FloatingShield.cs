using CryoThermo.Diagnostics;

namespace CryoThermo.Insulation;

/// <summary>A sheet that hangs free in a vacuum between two walls and takes the temperature that radiation gives it. Immutable and thread-safe.</summary>
public sealed record FloatingShield
{
    /// <summary>Describes a shield.</summary>
    /// <param name="innerSideEmissivity">Of the side towards the inner wall, 1e-4 to 1.</param>
    /// <param name="outerSideEmissivity">Of the side towards the outer wall, 1e-4 to 1.</param>
    /// <param name="areaOverInner">Its area over that of the inner wall, 1 to 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public FloatingShield(double innerSideEmissivity, double outerSideEmissivity, double areaOverInner = 1)
    {
        Guard.InRange(innerSideEmissivity, 1e-4, 1, "of black");
        Guard.InRange(outerSideEmissivity, 1e-4, 1, "of black");
        Guard.InRange(areaOverInner, 1, 100, "of the inner area");
        InnerSideEmissivity = innerSideEmissivity;
        OuterSideEmissivity = outerSideEmissivity;
        AreaOverInner = areaOverInner;
    }

    /// <summary>Of the side towards the inner wall.</summary>
    public double InnerSideEmissivity { get; }

    /// <summary>Of the side towards the outer wall.</summary>
    public double OuterSideEmissivity { get; }

    /// <summary>Its area over that of the inner wall.</summary>
    public double AreaOverInner { get; }
}
