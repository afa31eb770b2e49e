using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>
/// How exactly a machine is known, where it is told: bounds that 95 of 100 machines described alike lie within. What is null has its usual bound; a factor of 1 and any other
/// figure of zero says that the thing is known exactly. Immutable and thread-safe.
/// </summary>
public sealed record UncertaintyDescription
{
    /// <summary>Bore of each capillary, and of the opening of each valve, more or less.</summary>
    public Length? ThrottleBore { get; init; }

    /// <summary>Amount of each component, more or less, as a share of it.</summary>
    public double? FillingFraction { get; init; }

    /// <summary>Conductance of the recuperator, times or over: from 1.</summary>
    public double? ConductanceFactor { get; init; }

    /// <summary>Heat leak into the cold head, times or over: from 1.</summary>
    public double? LeakFactor { get; init; }

    /// <summary>Temperature of the room, more or less.</summary>
    public TemperatureDelta? AmbientDifference { get; init; }

    /// <summary>Flow of the compressor, times or over: from 1.</summary>
    public double? CompressorFlowFactor { get; init; }

    /// <summary>Cooling by a fluid model whose own error is not on record, more or less, as a share of it.</summary>
    public double? ModelFraction { get; init; }

    /// <summary>Model that the differences are computed with.</summary>
    public FluidModel? DifferencesBy { get; init; }
}
