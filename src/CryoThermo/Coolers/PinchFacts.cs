using CryoThermo.Equilibrium;
using CryoThermo.Machines;

namespace CryoThermo.Coolers;

/// <summary>Why a throttle cycle's capacity is limited where it is. "Low" and "high" are the streams' pressures.</summary>
internal sealed record PinchFacts
{
    /// <summary>By how much the warm end is lowered for <see cref="GainFromColderWarmEnd"/>, K.</summary>
    public const double WarmEndStep = 5;

    /// <summary>Where the limit lies.</summary>
    public required PinchLocation Location { get; init; }

    /// <summary>Temperature of the limit, K.</summary>
    public required double Temperature { get; init; }

    /// <summary>Greatest cooling, J a mole circulated.</summary>
    public required double Cooling { get; init; }

    /// <summary>Cold temperature asked for, K.</summary>
    public required double ColdTemperature { get; init; }

    /// <summary>Warm-end temperature, K.</summary>
    public required double WarmEndTemperature { get; init; }

    /// <summary>Phases of the low-pressure stream just below the limit; null at the cold end.</summary>
    public required PhaseRegion? LowRegionBelow { get; init; }

    /// <summary>Phases of the low-pressure stream just above the limit; null at the warm end.</summary>
    public required PhaseRegion? LowRegionAbove { get; init; }

    /// <summary>Phases of the high-pressure stream just below the limit; null at the cold end.</summary>
    public required PhaseRegion? HighRegionBelow { get; init; }

    /// <summary>Phases of the high-pressure stream just above the limit; null at the warm end.</summary>
    public required PhaseRegion? HighRegionAbove { get; init; }

    /// <summary>Heat capacity of the low- over that of the high-pressure stream just below the limit; null at the cold end.</summary>
    public required double? CapacityRatioBelow { get; init; }

    /// <summary>Heat capacity of the low- over that of the high-pressure stream just above the limit; null at the warm end.</summary>
    public required double? CapacityRatioAbove { get; init; }

    /// <summary>Nearest bubble or dew point of the low-pressure stream; null when it has none.</summary>
    public required PhaseBoundary? NearestLowBoundary { get; init; }

    /// <summary>Nearest bubble or dew point of the high-pressure stream; null when it has none.</summary>
    public required PhaseBoundary? NearestHighBoundary { get; init; }

    /// <summary>Dew point of the high-pressure stream, K; null when its isobar has none.</summary>
    public required double? HighDewPoint { get; init; }

    /// <summary>Bubble point of the low-pressure stream, K; null when its isobar has none.</summary>
    public required double? LowBubblePoint { get; init; }

    /// <summary>Whether the high-pressure stream is all vapour at the warm end.</summary>
    public required bool HighGasAtWarmEnd { get; init; }

    /// <summary>
    /// By how much the greatest cooling would rise with a warm end <see cref="WarmEndStep"/> colder, J/mol, never
    /// negative; null when that would lie below the cold temperature.
    /// </summary>
    public required double? GainFromColderWarmEnd { get; init; }
}
