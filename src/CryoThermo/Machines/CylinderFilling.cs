using CryoThermo.Diagnostics;

namespace CryoThermo.Machines;

/// <summary>
/// How much of its swept volume a compressor fills with suction gas (volumetric efficiency): gas left in the clearance expands again, some leaks back, and the suction
/// gas is warmed on its way in. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// [1 - C (density ratio - 1)] (1 - leak) (suction-heating factor), with the density ratio of the clearance gas over its expansion at constant entropy: from the fluid
/// itself, (pressure ratio)^(1/n) for an ideal gas of exponent n. Form: refrigeration compressor texts (W. B. Gosney, Principles of Refrigeration), from memory.
/// </remarks>
public sealed record CylinderFilling
{
    /// <summary>Describes the filling.</summary>
    /// <param name="clearanceFraction">
    /// Volume left at the end of the stroke over swept volume, 0 to 0.3: small hermetic reciprocating 0.015 to 0.04, semi-hermetic 0.03 to 0.06, rolling piston 0.005 to
    /// 0.015, scroll 0 (class values, from memory).
    /// </param>
    /// <param name="leakFraction">Share that leaks back past rings, valves and flanks, 0 to 0.5; a few percent in a sound machine (common practice, no source).</param>
    /// <param name="suctionHeatingFactor">Absolute temperature at the suction port over that in the cylinder, above 0 to 1: 0.85 to 0.95 (class values, from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CylinderFilling(double clearanceFraction, double leakFraction = 0, double suctionHeatingFactor = 1)
    {
        ClearanceFraction = Guard.InRange(clearanceFraction, 0, 0.3, "of the swept volume");
        LeakFraction = Guard.InRange(leakFraction, 0, 0.5, "of the flow");
        SuctionHeatingFactor = Guard.InRange(suctionHeatingFactor, double.Epsilon, 1, "(ratio)");
    }

    /// <summary>Volume left at the end of the stroke over swept volume.</summary>
    public double ClearanceFraction { get; }

    /// <summary>Share that leaks back.</summary>
    public double LeakFraction { get; }

    /// <summary>Absolute temperature at the suction port over that in the cylinder.</summary>
    public double SuctionHeatingFactor { get; }

    /// <summary>Greatest density ratio at which anything is drawn in; infinite without clearance.</summary>
    public double GreatestDensityRatio => 1 + (1 / ClearanceFraction);

    /// <summary>One volumetric efficiency for every pressure ratio.</summary>
    /// <param name="volumetricEfficiency">Suction volume drawn in over swept volume, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CylinderFilling Constant(double volumetricEfficiency) =>
        new(0, 0, Guard.InRange(volumetricEfficiency, double.Epsilon, 1, "(ratio)"));

    /// <summary>The volumetric efficiency; zero or negative where the clearance gas fills the cylinder alone.</summary>
    /// <param name="densityRatio">Density of the clearance gas at discharge over that at suction pressure, at constant entropy; 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is below 1 or not finite.</exception>
    public double VolumetricEfficiency(double densityRatio)
    {
        Guard.InRange(densityRatio, 1, double.MaxValue, "(density ratio)");
        return (1 - (ClearanceFraction * (densityRatio - 1))) * (1 - LeakFraction) * SuctionHeatingFactor;
    }
}
