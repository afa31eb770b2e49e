using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>A vacuum at a time. Immutable and thread-safe.</summary>
/// <param name="Time">Since it was first pumped.</param>
/// <param name="AbsolutePressure">Absolute pressure of all gases.</param>
/// <param name="PartialPressures">That of each gas.</param>
public sealed record VacuumPoint(Duration Time, Pressure AbsolutePressure, IReadOnlyDictionary<string, Pressure> PartialPressures);
