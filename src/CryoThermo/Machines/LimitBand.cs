using CryoThermo.Diagnostics;

namespace CryoThermo.Machines;

/// <summary>A limit known within a band; a stated limit has both ends alike. Immutable and thread-safe.</summary>
public sealed record LimitBand
{
    private static readonly Source AsStated = new("limit as stated for the machine", FromMemory: false);

    /// <summary>Names both ends.</summary>
    /// <param name="careful">From here on it is doubtful.</param>
    /// <param name="far">From here on it is broken.</param>
    /// <param name="source">Where the limit comes from.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is not finite.</exception>
    public LimitBand(double careful, double far, Source source)
    {
        ArgumentNullException.ThrowIfNull(source);
        Careful = Guard.InRange(careful, double.MinValue, double.MaxValue, string.Empty);
        Far = Guard.InRange(far, double.MinValue, double.MaxValue, string.Empty);
        Source = source;
    }

    /// <summary>From here on it is doubtful.</summary>
    public double Careful { get; }

    /// <summary>From here on it is broken.</summary>
    public double Far { get; }

    /// <summary>Where the limit comes from.</summary>
    public Source Source { get; }

    /// <summary>A limit as the maker of the part states it.</summary>
    /// <param name="limit">The limit.</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is not finite.</exception>
    public static LimitBand Stated(double limit) => new(limit, limit, AsStated);

    /// <summary>Whether it is one as stated, not a value of a class of machines.</summary>
    internal bool IsStated => ReferenceEquals(Source, AsStated);
}
