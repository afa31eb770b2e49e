using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>A lowest temperature of a throttle cycle.</summary>
/// <param name="Temperature">The temperature.</param>
/// <param name="EndOfSearch">True when only the end of the temperature range searched stopped it: it may reach lower.</param>
public sealed record LowestTemperature(Temperature Temperature, bool EndOfSearch);
