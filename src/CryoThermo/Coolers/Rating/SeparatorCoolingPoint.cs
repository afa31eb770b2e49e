using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>Cooling of a cold box with a phase separator at one cold temperature.</summary>
/// <param name="ColdTemperature">Of the return leaving the cold head.</param>
/// <param name="Cooling">Gross cooling at the cold head.</param>
/// <param name="MiddleTemperature">Of both high-pressure streams between the exchangers.</param>
public sealed record SeparatorCoolingPoint(Temperature ColdTemperature, Power Cooling, Temperature MiddleTemperature);
