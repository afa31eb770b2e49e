using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>The load of a cooler file. Immutable and thread-safe.</summary>
/// <param name="ColdTemperature">The temperature at which the load is to be held.</param>
/// <param name="Demanded">The cooling power demanded there, zero or more.</param>
public sealed record LoadDescription(Temperature ColdTemperature, Power Demanded);
