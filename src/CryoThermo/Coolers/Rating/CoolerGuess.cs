namespace CryoThermo.Coolers.Rating;

/// <summary>What the states of a cooler are taken with. SI, molar.</summary>
/// <param name="Low">Suction pressure, Pa.</param>
/// <param name="High">Discharge pressure, Pa.</param>
/// <param name="Fractions">Mole fractions of what circulates.</param>
/// <param name="Flow">mol/s.</param>
/// <param name="AfterCooler">Temperature behind the after-cooler, K.</param>
/// <param name="WarmEnd">Temperature at which the cold box is entered, K.</param>
internal sealed record CoolerGuess(double Low, double High, double[] Fractions, double Flow, double AfterCooler, double WarmEnd);
