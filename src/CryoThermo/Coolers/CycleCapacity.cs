using CryoThermo.Machines;

namespace CryoThermo.Coolers;

/// <summary>Greatest cooling of a throttle cycle at a cold temperature, and what limits it.</summary>
/// <param name="Cooling">Greatest cooling, J a mole circulated; may be negative.</param>
/// <param name="PinchTemperature">Temperature of the least isothermal enthalpy difference, K.</param>
/// <param name="Location">Whether that is the warm end, inside, or the cold end.</param>
internal readonly record struct CycleCapacity(double Cooling, double PinchTemperature, PinchLocation Location);
