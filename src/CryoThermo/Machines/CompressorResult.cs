using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What a compressor does between a suction state and a discharge pressure.</summary>
/// <param name="Suction">State at the suction port.</param>
/// <param name="Discharge">State at the discharge port.</param>
/// <param name="MolarFlow">Molar flow.</param>
/// <param name="MassFlow">Mass flow.</param>
/// <param name="Power">Power taken up by the gas; the motor takes more.</param>
/// <param name="ShellHeat">Heat leaving through the shell.</param>
/// <param name="PressureRatio">Discharge over suction pressure, absolute.</param>
/// <param name="LiquidAtSuction">True when liquid reaches the compressor, which destroys valves and washes out oil.</param>
public sealed record CompressorResult(
    State Suction,
    State Discharge,
    MolarFlow MolarFlow,
    MassFlow MassFlow,
    Power Power,
    Power ShellHeat,
    double PressureRatio,
    bool LiquidAtSuction);
