using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>The compressor of a cooler file. Immutable and thread-safe.</summary>
/// <param name="SweptVolumeFlow">The volume swept in unit time, as given or from displacement and speed.</param>
/// <param name="DisplacementPerRevolution">The volume swept in a revolution; null when the file gives the swept volume flow.</param>
/// <param name="Speed">The shaft speed; null when the file gives the swept volume flow.</param>
/// <param name="IsentropicEfficiency">Isentropic over real enthalpy rise, above 0 to 1.</param>
/// <param name="VolumetricEfficiency">Gas drawn in over volume swept, both at suction state, above 0 to 1.</param>
/// <param name="ShellHeatLossFraction">Share of the compression work that leaves through the shell, 0 to 0.95; 0 when not given.</param>
/// <param name="DischargeTemperatureLimit">The maker's limit of the discharge temperature; null when not given.</param>
public sealed record CompressorDescription(
    VolumeFlow SweptVolumeFlow,
    Volume? DisplacementPerRevolution,
    RotationalSpeed? Speed,
    double IsentropicEfficiency,
    double VolumetricEfficiency,
    double ShellHeatLossFraction,
    Temperature? DischargeTemperatureLimit);
