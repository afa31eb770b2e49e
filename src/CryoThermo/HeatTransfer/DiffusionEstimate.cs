using CryoThermo.Diagnostics;

namespace CryoThermo.HeatTransfer;

/// <summary>A diffusion coefficient of two gases. Immutable and thread-safe.</summary>
/// <param name="SquareMetersPerSecond">The coefficient, m2/s.</param>
/// <param name="UncertaintyPercent">How far it may be off, percent: 5 near room temperature as the authors found, more where it is cold (judged here).</param>
/// <param name="Source">The correlation.</param>
/// <param name="VolumeSources">Where the diffusion volumes of both gases come from, one line each.</param>
public sealed record DiffusionEstimate(double SquareMetersPerSecond, double UncertaintyPercent, Source Source, IReadOnlyList<string> VolumeSources);
