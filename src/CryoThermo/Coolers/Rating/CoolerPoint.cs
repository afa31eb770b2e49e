using CryoThermo.Machines;

namespace CryoThermo.Coolers.Rating;

/// <summary>A cooler at a cold temperature: states, flows and contents, and how far they are from belonging together.</summary>
internal sealed record CoolerPoint
{
    public required double Cold { get; init; }

    public required CoolerGuess Guess { get; init; }

    public required ColdBoxCourse Course { get; init; }

    public required CompressorResult Compression { get; init; }

    public required State AfterCooler { get; init; }

    public required State WarmEnd { get; init; }

    public required State ThrottleInlet { get; init; }

    public required State EvaporatorInlet { get; init; }

    public required State ColdOutlet { get; init; }

    /// <summary>What a phase separator parts; null without one.</summary>
    public required SeparatedStreams? Separated { get; init; }

    public required ThrottlePassage Passage { get; init; }

    public required IReadOnlyList<SpaceFilling> Fillings { get; init; }

    /// <summary>States in the slices of each passage of the recuperators; null where one has no volume.</summary>
    public required SliceState[]?[] Slices { get; init; }

    /// <summary>Temperature behind the after-cooler that the discharge found asks for, K.</summary>
    public required double NextAfterCooler { get; init; }

    /// <summary>Temperature behind the pre-cooler that the stream found asks for, K.</summary>
    public required double NextWarmEnd { get; init; }

    /// <summary>What the pre-cooler makes of the stream; null without one.</summary>
    public required PreCooledStream? PreCooled { get; init; }

    /// <summary>Logarithm of the flow of the throttle over that of the compressor.</summary>
    public required double FlowMiss { get; init; }

    /// <summary>Largest difference of a component's content to the charge, over all of the charge.</summary>
    public required double ContentMiss { get; init; }

    /// <summary>Largest change of what the states were taken with.</summary>
    public required double Drift { get; init; }

    public WorkingFluid Fluid => WarmEnd.Fluid;

    public double Flow => Compression.MolarFlow.MolesPerSecond;

    /// <summary>Through throttle and cold head, mol/s: behind a separator its vapour alone.</summary>
    public double ThrottleFlow => Flow * (Separated?.VaporShare ?? 1);

    /// <summary>Cooling at the cold head, leak not taken off, W.</summary>
    public double Gross => ThrottleFlow * (ColdOutlet.MolarEnthalpy.JoulesPerMole - EvaporatorInlet.MolarEnthalpy.JoulesPerMole);

    public double Miss => Math.Max(Math.Abs(FlowMiss), Math.Max(ContentMiss, Drift));
}
