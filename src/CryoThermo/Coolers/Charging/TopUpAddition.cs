using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>What to add of a component. Immutable and thread-safe.</summary>
/// <param name="Component">Which one.</param>
/// <param name="Present">Amount in the machine.</param>
/// <param name="Amount">Amount to add.</param>
/// <param name="Mass">Mass to add.</param>
/// <param name="AbsolutePressure">Pressure in the machine after it, least volatile component first.</param>
/// <param name="Gauge">The same as a gauge shows it.</param>
public sealed record TopUpAddition(
    Substance Component, AmountOfSubstance Present, AmountOfSubstance Amount, Mass Mass, Pressure AbsolutePressure, GaugePressure Gauge);
