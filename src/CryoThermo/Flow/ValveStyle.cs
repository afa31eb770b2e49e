using CryoThermo.Diagnostics;

namespace CryoThermo.Flow;

/// <summary>How a restriction behaves beside its size: factors of IEC 60534-2-1. Immutable and thread-safe.</summary>
public sealed record ValveStyle
{
    private static readonly Source TypicalValues = new("typical values of IEC 60534-2-1", FromMemory: true);

    /// <summary>Describes a style.</summary>
    /// <param name="name">For reports.</param>
    /// <param name="pressureRecovery">F_L, 0.5 to 1: square root of the whole pressure drop over that to the narrowest place of the stream.</param>
    /// <param name="pressureRatioFactor">x_T, 0.1 to 1: pressure drop over inlet pressure at which air chokes.</param>
    /// <param name="styleModifier">F_d, 0.05 to 1: hydraulic diameter of a flow path over the diameter of a circle of the whole area; for the Reynolds number alone.</param>
    /// <param name="source">Where the factors come from.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A factor is out of its range.</exception>
    public ValveStyle(string name, double pressureRecovery, double pressureRatioFactor, double styleModifier, Source source)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(source);
        Name = name;
        PressureRecovery = Guard.InRange(pressureRecovery, 0.5, 1, "(F_L)");
        PressureRatioFactor = Guard.InRange(pressureRatioFactor, 0.1, 1, "(x_T)");
        StyleModifier = Guard.InRange(styleModifier, 0.05, 1, "(F_d)");
        Source = source;
    }

    /// <summary>A needle valve: F_L 0.90 (0.85 to 0.95), x_T 0.75 (0.65 to 0.84), F_d 0.7.</summary>
    public static ValveStyle Needle { get; } = new("needle valve", 0.90, 0.75, 0.7, TypicalValues);

    /// <summary>A globe valve with contoured plug: F_L 0.90, x_T 0.72, F_d 0.46.</summary>
    public static ValveStyle Globe { get; } = new("globe valve", 0.90, 0.72, 0.46, TypicalValues);

    /// <summary>A ball valve: F_L 0.60, x_T 0.25, F_d 0.98.</summary>
    public static ValveStyle Ball { get; } = new("ball valve", 0.60, 0.25, 0.98, TypicalValues);

    /// <summary>For reports.</summary>
    public string Name { get; }

    /// <summary>F_L.</summary>
    public double PressureRecovery { get; }

    /// <summary>x_T.</summary>
    public double PressureRatioFactor { get; }

    /// <summary>F_d.</summary>
    public double StyleModifier { get; }

    /// <summary>Where the factors come from.</summary>
    public Source Source { get; }
}
