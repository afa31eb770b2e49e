using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>What one source of error does to a charge filled by a recipe. Immutable and thread-safe.</summary>
/// <param name="Source">The source, for example "gauge zero" or "weighing of propane".</param>
/// <param name="MoleFractionShifts">Shift of each mole fraction by one standard deviation of it, in the order of the study's components.</param>
/// <param name="PressureShift">Shift of the final pressure by one standard deviation of it.</param>
public sealed record ToleranceSource(string Source, IReadOnlyList<double> MoleFractionShifts, Pressure PressureShift);
