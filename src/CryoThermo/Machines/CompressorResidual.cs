namespace CryoThermo.Machines;

/// <summary>How far a fitted compressor is from one measured point. Immutable and thread-safe.</summary>
/// <param name="Reading">The point.</param>
/// <param name="Flow">Computed over measured mass flow, less 1; null where it was not measured.</param>
/// <param name="Power">Computed over measured power, less 1; null where it was not measured.</param>
public sealed record CompressorResidual(CompressorReading Reading, double? Flow, double? Power);
