using CryoThermo.Diagnostics;

namespace CryoThermo.Machines;

/// <summary>
/// What machines of one kind have in common, for the figures a nameplate leaves out. Class values from memory, with the spread they leave; a figure of your own machine
/// is better than any of them. Immutable and thread-safe.
/// </summary>
public sealed record CompressorClass
{
    private static readonly Source Texts = new(
        "class data of refrigeration compressor texts (W. B. Gosney, Principles of Refrigeration; ASHRAE Handbook, HVAC Systems and Equipment)", FromMemory: true);

    /// <summary>Describes a class.</summary>
    /// <param name="name">What it is called in results.</param>
    /// <param name="clearanceFraction">Volume left at the end of the stroke over swept volume: nominal, least and greatest, 0 to 0.3.</param>
    /// <param name="efficiency">Isentropic efficiency over pressure ratio, counted from the terminals of the motor.</param>
    /// <param name="levelSpread">Share by which the efficiency of one machine may be off the curve, 0 to 0.5.</param>
    /// <param name="tiltSpread">Power of the pressure ratio by which its curve may be steeper or flatter, 0 to 0.5.</param>
    /// <param name="source">Where it comes from.</param>
    /// <exception cref="ArgumentException">The name is blank, or a figure is out of its range or order.</exception>
    public CompressorClass(
        string name, FigureBand<double> clearanceFraction, PressureRatioCurve efficiency, double levelSpread, double tiltSpread, Source source)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(clearanceFraction);
        ArgumentNullException.ThrowIfNull(efficiency);
        ArgumentNullException.ThrowIfNull(source);
        Guard.InRange(clearanceFraction.Least, 0, 0.3, "of the swept volume", nameof(clearanceFraction));
        Guard.InRange(clearanceFraction.Greatest, clearanceFraction.Least, 0.3, "of the swept volume", nameof(clearanceFraction));
        Guard.InRange(clearanceFraction.Nominal, clearanceFraction.Least, clearanceFraction.Greatest, "of the swept volume", nameof(clearanceFraction));
        Name = name;
        ClearanceFraction = clearanceFraction;
        Efficiency = efficiency;
        LevelSpread = Guard.InRange(levelSpread, 0, 0.5, "of the efficiency");
        TiltSpread = Guard.InRange(tiltSpread, 0, 0.5, string.Empty);
        Source = source;
    }

    /// <summary>
    /// Small hermetic reciprocating, 50 to 300 W: clearance 1.5 to 4 %, efficiency 0.50 at pressure ratios of 3 and 6, 0.45 at 10, 0.35 at 15. Spread: judged here, no
    /// source.
    /// </summary>
    public static CompressorClass SmallHermeticReciprocating { get; } = new(
        "small hermetic reciprocating",
        new(0.0275, 0.015, 0.04),
        new([(3, 0.50), (6, 0.50), (10, 0.45), (15, 0.35)], Texts),
        0.15,
        0.1,
        Texts);

    /// <summary>
    /// Rotary with a rolling piston, 0.5 to 3 kW: clearance 0.5 to 1.5 %, efficiency 0.68 at 2.5, 0.65 at 4, 0.50 at 8. Spread: judged here, no source.
    /// </summary>
    public static CompressorClass RollingPiston { get; } = new(
        "rotary, rolling piston", new(0.01, 0.005, 0.015), new([(2.5, 0.68), (4, 0.65), (8, 0.50)], Texts), 0.15, 0.1, Texts);

    /// <summary>Scroll, 0.5 to 3 kW: no clearance; efficiency 0.68 at 2.5, 0.65 at 4, 0.50 at 8. Spread: judged here, no source.</summary>
    public static CompressorClass Scroll { get; } = new(
        "scroll", new(0, 0, 0), new([(2.5, 0.68), (4, 0.65), (8, 0.50)], Texts), 0.15, 0.1, Texts);

    /// <summary>What it is called in results.</summary>
    public string Name { get; }

    /// <summary>Volume left at the end of the stroke over swept volume.</summary>
    public FigureBand<double> ClearanceFraction { get; }

    /// <summary>Isentropic efficiency over pressure ratio, counted from the terminals of the motor.</summary>
    public PressureRatioCurve Efficiency { get; }

    /// <summary>Share by which the efficiency of one machine may be off the curve.</summary>
    public double LevelSpread { get; }

    /// <summary>Power of the pressure ratio by which its curve may be steeper or flatter.</summary>
    public double TiltSpread { get; }

    /// <summary>Where it comes from.</summary>
    public Source Source { get; }

    /// <summary>Share of the flow that leaks back, and factor of suction heating: nominal of the class values (0.85 to 0.95, from memory; the leak is judged here).</summary>
    internal static (double Leak, double Heating) Typical { get; } = (0.02, 0.90);

    /// <summary>The efficiency expected of one machine: nominal, least and greatest.</summary>
    /// <param name="pressureRatio">Discharge over suction pressure, absolute, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is below 1.</exception>
    public FigureBand<double> EfficiencyBand(double pressureRatio)
    {
        double nominal = Efficiency.At(pressureRatio);
        return new(nominal, nominal * (1 - LevelSpread), Math.Min(1, nominal * (1 + LevelSpread)));
    }
}
