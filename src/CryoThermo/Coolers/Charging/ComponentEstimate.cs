using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>How much of a component is in a machine, by its readings. Immutable and thread-safe.</summary>
/// <param name="Component">Which one.</param>
/// <param name="Amount">Amount in the machine, what was there before included.</param>
/// <param name="AmountUncertainty">Its standard uncertainty.</param>
/// <param name="MoleFraction">Share of everything in the machine.</param>
/// <param name="StandardUncertainty">Standard uncertainty of the mole fraction.</param>
public sealed record ComponentEstimate(
    Substance Component, AmountOfSubstance Amount, AmountOfSubstance AmountUncertainty, double MoleFraction, double StandardUncertainty)
{
    /// <summary>Factor of the standard uncertainty for 95 % of a normal distribution.</summary>
    public const double Coverage95 = 1.959964;

    /// <summary>Lower end of the band that holds the mole fraction with 95 %; not below 0.</summary>
    public double Lower95 => Math.Max(0, MoleFraction - (Coverage95 * StandardUncertainty));

    /// <summary>Upper end of the band that holds the mole fraction with 95 %; not above 1.</summary>
    public double Upper95 => Math.Min(1, MoleFraction + (Coverage95 * StandardUncertainty));
}
