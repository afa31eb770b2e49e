using UnitsNet;

namespace CryoThermo;

/// <summary>
/// A critical point of a fluid of given composition: two phases become the same there. Found by the conditions of Heidemann, Khalil, AIChE J.
/// 26 (1980) 769, met to 1e-8.
/// </summary>
/// <param name="Temperature">Critical temperature.</param>
/// <param name="Pressure">Critical pressure, absolute.</param>
/// <param name="MolarDensity">Critical density.</param>
/// <param name="IsStable">False where another phase has formed before, so that the point is not met on the way there.</param>
public sealed record CriticalPoint(Temperature Temperature, Pressure Pressure, Molarity MolarDensity, bool IsStable);
