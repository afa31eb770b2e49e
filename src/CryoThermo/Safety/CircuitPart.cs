using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>A part of a circuit with what it must stand. Immutable and thread-safe.</summary>
/// <param name="Name">What it is, for example "ball valve of the throttle".</param>
/// <param name="Coldest">How cold it becomes.</param>
/// <param name="Highest">Highest pressure in it, absolute.</param>
/// <param name="Material">What it, or its seal, is made of, as <see cref="ColdService.Named"/> finds it; null where it is not told.</param>
/// <param name="Rating">Pressure it is rated for, absolute; null where it is not told.</param>
public sealed record CircuitPart(string Name, Temperature Coldest, Pressure Highest, ColdService? Material = null, Pressure? Rating = null);
