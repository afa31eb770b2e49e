using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>Cooling at one cold temperature.</summary>
/// <param name="ColdTemperature">Temperature of the stream leaving the cold head.</param>
/// <param name="GreatestCooling">With a perfect recuperator, leak not taken off.</param>
/// <param name="GrossCooling">With the described recuperator, leak not taken off.</param>
/// <param name="NetCooling">With the described recuperator, leak taken off.</param>
public sealed record CoolingPoint(Temperature ColdTemperature, Power GreatestCooling, Power GrossCooling, Power NetCooling);
