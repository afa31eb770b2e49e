using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>A recuperator at one duty.</summary>
/// <param name="Duty">Heat exchanged.</param>
/// <param name="ConductanceWattsPerKelvin">Conductance (U times A) for it, W/K; infinite at the greatest duty.</param>
/// <param name="Pinch">Where the streams are closest.</param>
/// <param name="Profile">Temperatures of both streams from the cold to the warm end; every phase boundary is a point.</param>
/// <param name="EntropyProductionPerSecond">Entropy produced each second.</param>
public sealed record RecuperatorResult(
    Power Duty,
    double ConductanceWattsPerKelvin,
    PinchPoint Pinch,
    IReadOnlyList<RecuperatorPoint> Profile,
    Entropy EntropyProductionPerSecond);
