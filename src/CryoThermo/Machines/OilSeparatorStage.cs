using CryoThermo.Diagnostics;

namespace CryoThermo.Machines;

/// <summary>One oil separator: what it lets pass of the mist that comes. Oil vapour passes all of them. Immutable and thread-safe.</summary>
public sealed record OilSeparatorStage
{
    private OilSeparatorStage(string name, FigureBand<double>? passing, FigureBand<double>? floor, Source source)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Name = name;
        PassingShare = passing;
        OutletPartsPerMillion = floor;
        Source = source;
    }

    /// <summary>What it is called in results.</summary>
    public string Name { get; }

    /// <summary>Share of the mist that passes; null where it is known by what leaves it.</summary>
    public FigureBand<double>? PassingShare { get; }

    /// <summary>Mist that leaves it, ppm (mass), or all that comes where that is less; null where it is known by a share.</summary>
    public FigureBand<double>? OutletPartsPerMillion { get; }

    /// <summary>Where the figures come from.</summary>
    public Source Source { get; }

    /// <summary>Cyclone or impingement separator: 50 to 500 ppm of mist leave it (class values, from memory).</summary>
    public static OilSeparatorStage Impingement { get; } = new("cyclone or impingement", null, new(158, 50, 500), new("compressor texts, class values", FromMemory: true));

    /// <summary>Coalescing filter: 0.1 to 5 ppm of mist leave it (class values, from memory).</summary>
    public static OilSeparatorStage Coalescing { get; } = new("coalescing filter", null, new(0.71, 0.1, 5), new("compressor texts, class values", FromMemory: true));

    /// <summary>A separator by its efficiency.</summary>
    /// <param name="name">What it is called in results.</param>
    /// <param name="efficiency">Share of the mist that stays, nominal, least and greatest, 0 to 1.</param>
    /// <exception cref="ArgumentException">The name is blank.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range or order.</exception>
    public static OilSeparatorStage OfEfficiency(string name, FigureBand<double> efficiency)
    {
        Ordered(efficiency, 1, "(ratio)", nameof(efficiency));
        return new(name, new(1 - efficiency.Nominal, 1 - efficiency.Greatest, 1 - efficiency.Least), null, new("efficiency as stated for the separator", FromMemory: false));
    }

    /// <summary>A separator by what leaves it.</summary>
    /// <param name="name">What it is called in results.</param>
    /// <param name="partsPerMillion">Mist that leaves it, ppm (mass), nominal, least and greatest, 0 to 1e6.</param>
    /// <exception cref="ArgumentException">The name is blank.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range or order.</exception>
    public static OilSeparatorStage OfOutlet(string name, FigureBand<double> partsPerMillion)
    {
        Ordered(partsPerMillion, 1e6, "ppm (mass)", nameof(partsPerMillion));
        return new(name, null, partsPerMillion, new("outlet as stated for the separator", FromMemory: false));
    }

    /// <summary>Requires least, nominal and greatest in this order from zero to a limit.</summary>
    internal static void Ordered(FigureBand<double> band, double most, string unit, string parameter)
    {
        ArgumentNullException.ThrowIfNull(band);
        Guard.InRange(band.Least, 0, most, unit, parameter);
        Guard.InRange(band.Nominal, band.Least, most, unit, parameter);
        Guard.InRange(band.Greatest, band.Nominal, most, unit, parameter);
    }

    /// <summary>Mist behind it in ppm (mass).</summary>
    internal double Behind(double before, Func<FigureBand<double>, double> end) =>
        PassingShare is { } share ? before * end(share) : Math.Min(before, end(OutletPartsPerMillion!));
}
