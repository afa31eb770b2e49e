using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>Pressure and temperature of a shut machine at one time. Immutable and thread-safe.</summary>
/// <param name="Gauge">What the gauge shows, with the atmosphere at that time: a barometer that moved looks like a leak.</param>
/// <param name="Temperature">Temperature of the gas.</param>
public sealed record PressureDecayReading(GaugePressure Gauge, Temperature Temperature);
