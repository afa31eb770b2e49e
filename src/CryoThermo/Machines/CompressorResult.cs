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
    bool LiquidAtSuction)
{
    /// <summary>Suction volume drawn in over swept volume.</summary>
    public double VolumetricEfficiency { get; init; }

    /// <summary>Isentropic work over <see cref="Power"/>.</summary>
    public double IsentropicEfficiency { get; init; }

    /// <summary>
    /// n of p v^n between the suction state and the one at discharge pressure and equal entropy, from the fluid itself: by it the gas left in the clearance expands
    /// again. Null where the density does not rise.
    /// </summary>
    public double? ReexpansionExponent { get; init; }

    /// <summary>Whether the pressure ratio lies beyond the curve of efficiency, whose last value then stands: less sure than the rest.</summary>
    public bool IsEfficiencyExtrapolated { get; init; }

    /// <summary>
    /// State at the discharge valve when no heat has left on the way there: all of the work in the gas. The valve and the oil on it are about this hot; the line behind
    /// the shell is cooler.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">It would be hotter than the fluid's highest temperature.</exception>
    public State AtValve => ShellHeat.Watts == 0
        ? Discharge
        : Compressor.Discharge(Suction, Discharge.Pressure, Suction.MolarEnthalpy.JoulesPerMole + ((double)Power.Watts / MolarFlow.MolesPerSecond), Discharge);
}
