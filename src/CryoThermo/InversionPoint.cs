using UnitsNet;

namespace CryoThermo;

/// <summary>A point at which throttling neither cools nor warms.</summary>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
/// <param name="MolarDensity">Molar density.</param>
public sealed record InversionPoint(Temperature Temperature, Pressure Pressure, Molarity MolarDensity);
