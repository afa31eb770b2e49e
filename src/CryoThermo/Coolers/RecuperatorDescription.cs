using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>The recuperator of a cooler file. Immutable and thread-safe.</summary>
/// <param name="ConductanceWattsPerKelvin">The thermal conductance between the two streams, W/K, above zero.</param>
/// <param name="LowSidePressureDrop">The pressure drop of the returning stream; zero when not given.</param>
/// <param name="HighSidePressureDrop">The pressure drop of the stream from the after-cooler; zero when not given.</param>
public sealed record RecuperatorDescription(
    double ConductanceWattsPerKelvin,
    Pressure LowSidePressureDrop,
    Pressure HighSidePressureDrop);
