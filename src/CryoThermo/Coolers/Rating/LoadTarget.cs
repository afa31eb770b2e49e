namespace CryoThermo.Coolers.Rating;

/// <summary>A load that the cold head is to carry.</summary>
/// <param name="Load">W, the leak not counted.</param>
/// <param name="WattsPerKelvin">How cooling less leak moves with the cold temperature, not zero.</param>
internal readonly record struct LoadTarget(double Load, double WattsPerKelvin);
