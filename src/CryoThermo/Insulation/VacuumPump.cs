using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// A vacuum pump of constant displacement that leaks back in proportion to its outlet pressure: Q = S (p - p_out/K - p_oil), with the volume it sweeps,
/// the compression ratio it holds against a shut inlet, and the vapour pressure of what it is sealed with. That is a piston or rotary pump, and a compressor
/// used as one; a turbomolecular pump too where it runs within its limits. Immutable and thread-safe.
/// </summary>
/// <remarks>The form is common practice, no source. Clearance re-expands as p_out/K just so.</remarks>
public sealed record VacuumPump
{
    /// <summary>Creates a pump from the ratio it holds.</summary>
    /// <param name="speed">Volume swept, above zero.</param>
    /// <param name="compressionRatio">Greatest ratio of outlet to inlet pressure, at no flow, above 1.</param>
    /// <param name="sealantVaporPressure">Vapour pressure of the oil or what else seals it, 0 to 1 000 Pa.</param>
    /// <param name="highestInlet">Inlet pressure above which it must not run; null for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public VacuumPump(VolumeFlow speed, double compressionRatio, Pressure sealantVaporPressure = default, Pressure? highestInlet = null)
    {
        Guard.Positive(speed.CubicMetersPerSecond, "m3/s", nameof(speed));
        if (!(compressionRatio > 1 && double.IsFinite(compressionRatio)))
        {
            throw new ArgumentOutOfRangeException(nameof(compressionRatio), compressionRatio, $"compressionRatio is {compressionRatio:G6}; it must be finite and above 1.");
        }

        Guard.InRange(sealantVaporPressure.Pascals, 0, 1000, "Pa", nameof(sealantVaporPressure));
        if (highestInlet is { } limit)
        {
            Guard.Positive(limit.Pascals, "Pa", nameof(highestInlet));
        }

        Speed = speed;
        CompressionRatio = compressionRatio;
        SealantVaporPressure = sealantVaporPressure;
        HighestInlet = highestInlet;
    }

    /// <summary>Volume swept.</summary>
    public VolumeFlow Speed { get; }

    /// <summary>Greatest ratio of outlet to inlet pressure, at no flow.</summary>
    public double CompressionRatio { get; }

    /// <summary>Vapour pressure of what seals it.</summary>
    public Pressure SealantVaporPressure { get; }

    /// <summary>Inlet pressure above which it must not run; null for none.</summary>
    public Pressure? HighestInlet { get; }

    /// <summary>A pump from the lowest pressure it reaches.</summary>
    /// <param name="speed">Volume swept.</param>
    /// <param name="ultimate">Inlet pressure it reaches at no flow, absolute, below the outlet pressure.</param>
    /// <param name="outlet">Outlet pressure at which it does, absolute; null for one standard atmosphere.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static VacuumPump WithUltimate(VolumeFlow speed, Pressure ultimate, Pressure? outlet = null)
    {
        double from = outlet?.Pascals ?? PumpSet.StandardAtmospherePascals;
        Guard.Positive(from, "Pa", nameof(outlet));
        Guard.Positive(ultimate.Pascals, "Pa", nameof(ultimate));
        return ultimate.Pascals < from
            ? new(speed, from / ultimate.Pascals)
            : throw new ArgumentOutOfRangeException(nameof(ultimate), ultimate, $"ultimate is {ultimate.Pascals:G6} Pa; it must lie below the outlet pressure of {from:G6} Pa.");
    }
}
