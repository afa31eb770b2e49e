using UnitsNet;

namespace CryoThermo.Design;

/// <summary>The enthalpy difference of the streams at a temperature.</summary>
/// <param name="Temperature">Of the low-pressure stream; the high-pressure one is warmer by the least approach.</param>
/// <param name="Difference">Enthalpy at low less at high pressure.</param>
/// <param name="IsPinch">Whether it is the least, which limits the cooling.</param>
public sealed record BlendCurvePoint(Temperature Temperature, MolarEnergy Difference, bool IsPinch);
