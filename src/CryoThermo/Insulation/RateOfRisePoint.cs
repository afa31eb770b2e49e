using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>One reading of a shut vacuum. Immutable and thread-safe.</summary>
/// <param name="Time">Since the valve to the pump was shut.</param>
/// <param name="AbsolutePressure">Absolute pressure.</param>
public sealed record RateOfRisePoint(Duration Time, Pressure AbsolutePressure);
