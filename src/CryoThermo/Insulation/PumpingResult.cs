using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>What a set of pumps takes from a vacuum at a pressure. Immutable and thread-safe.</summary>
/// <param name="ThroughputPascalCubicMetersPerSecond">Pressure times volume pumped, Pa m3/s; 1 Pa m3/s = 10 mbar L/s.</param>
/// <param name="SpeedAtVacuum">That over the pressure in the vacuum: what of the speed is left there.</param>
/// <param name="Inlets">Pressure at the inlet of each pump, in the order in which the gas passes.</param>
/// <param name="OverloadedPump">Index of the first pump above the inlet pressure it may run at; null for none.</param>
public sealed record PumpingResult(
    double ThroughputPascalCubicMetersPerSecond,
    VolumeFlow SpeedAtVacuum,
    IReadOnlyList<Pressure> Inlets,
    int? OverloadedPump);
