using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>The gas a machine holds before it is charged: what evacuation left, or an old charge. Immutable and thread-safe.</summary>
public sealed class ResidualContents
{
    /// <summary>Names the gas left in the machine.</summary>
    /// <param name="composition">What it is; its components must be known to the catalogue of the charge.</param>
    /// <param name="pressure">Absolute, above zero, at the temperatures of the machine's volumes.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public ResidualContents(Composition composition, Pressure pressure)
    {
        ArgumentNullException.ThrowIfNull(composition);
        Guard.Positive(pressure.Pascals, "Pa absolute", nameof(pressure));
        Composition = composition;
        Pressure = pressure;
    }

    /// <summary>What it is.</summary>
    public Composition Composition { get; }

    /// <summary>Absolute pressure at the temperatures of the machine's volumes.</summary>
    public Pressure Pressure { get; }

    /// <summary>
    /// Dry air as nitrogen, oxygen and argon: 78.084, 20.9476 and 0.934 % by volume of ISO 2533:1975, divided by their sum.
    /// </summary>
    /// <param name="pressure">Absolute, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public static ResidualContents Air(Pressure pressure)
    {
        const double Sum = 78.084 + 20.9476 + 0.934;
        return new(Composition.FromMoleFractions(("nitrogen", 78.084 / Sum), ("oxygen", 20.9476 / Sum), ("argon", 0.934 / Sum)), pressure);
    }
}
