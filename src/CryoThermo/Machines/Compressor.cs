using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A real-gas compressor described by two numbers: how much of its swept volume it fills (volumetric efficiency, of the
/// suction state) and how its work compares with that at constant entropy (isentropic efficiency). A share of the work may
/// leave as heat through the shell; with none, discharge temperatures are on the warm side. Immutable and thread-safe.
/// </summary>
public sealed class Compressor
{
    /// <summary>Creates a compressor.</summary>
    /// <param name="sweptVolumeFlow">Displacement times speed.</param>
    /// <param name="isentropicEfficiency">Isentropic over actual enthalpy rise, above 0 to 1.</param>
    /// <param name="volumetricEfficiency">Suction volume drawn in over swept volume, above 0 to 1.</param>
    /// <param name="shellHeatLossFraction">Share of the compression work that leaves as heat through the shell, 0 to 0.95.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public Compressor(VolumeFlow sweptVolumeFlow, double isentropicEfficiency, double volumetricEfficiency, double shellHeatLossFraction = 0)
    {
        Guard.Positive(sweptVolumeFlow.CubicMetersPerSecond, "m3/s", nameof(sweptVolumeFlow));
        Guard.InRange(isentropicEfficiency, double.Epsilon, 1, "(ratio)");
        Guard.InRange(volumetricEfficiency, double.Epsilon, 1, "(ratio)");
        Guard.InRange(shellHeatLossFraction, 0, 0.95, "(ratio)");
        SweptVolumeFlow = sweptVolumeFlow;
        IsentropicEfficiency = isentropicEfficiency;
        VolumetricEfficiency = volumetricEfficiency;
        ShellHeatLossFraction = shellHeatLossFraction;
    }

    /// <summary>Displacement times speed.</summary>
    public VolumeFlow SweptVolumeFlow { get; }

    /// <summary>Isentropic over actual enthalpy rise.</summary>
    public double IsentropicEfficiency { get; }

    /// <summary>Suction volume drawn in over swept volume.</summary>
    public double VolumetricEfficiency { get; }

    /// <summary>Share of the compression work that leaves as heat through the shell.</summary>
    public double ShellHeatLossFraction { get; }

    /// <summary>Compresses from a suction state to a discharge pressure.</summary>
    /// <param name="suction">State at the suction port. Liquid in it is computed with, and told in the result.</param>
    /// <param name="dischargePressure">Absolute, above the suction pressure.</param>
    /// <exception cref="ArgumentOutOfRangeException">The discharge pressure is not above the suction pressure, or the discharge is hotter than the fluid's highest temperature.</exception>
    public CompressorResult Compress(State suction, Pressure dischargePressure)
    {
        ArgumentNullException.ThrowIfNull(suction);
        if (!(dischargePressure.Pascals > suction.Pressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(dischargePressure),
                dischargePressure,
                $"dischargePressure is {dischargePressure.Bars:G6} bar; it must be above the suction pressure of {suction.Pressure.Bars:G6} bar.");
        }

        State isentropic = suction.Fluid.AtEntropy(dischargePressure, suction.MolarEntropy);
        double rise = (isentropic.MolarEnthalpy.JoulesPerMole - suction.MolarEnthalpy.JoulesPerMole) / IsentropicEfficiency;
        double kept = rise * (1 - ShellHeatLossFraction);
        State discharge = suction.Fluid.AtEnthalpy(dischargePressure, suction.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(kept));
        double flow = SweptVolumeFlow.CubicMetersPerSecond * VolumetricEfficiency * suction.MolarDensity.MolesPerCubicMeter;
        return new(
            suction,
            discharge,
            MolarFlow.FromMolesPerSecond(flow),
            MassFlow.FromKilogramsPerSecond(flow * suction.Fluid.Composition.MolarMass.KilogramsPerMole),
            Power.FromWatts(flow * rise),
            Power.FromWatts(flow * (rise - kept)),
            dischargePressure.Pascals / suction.Pressure.Pascals,
            suction.VaporFraction < 1);
    }
}
