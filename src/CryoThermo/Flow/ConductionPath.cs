using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>Bars in series between a warm place and the outlet of a throttle. Immutable and thread-safe.</summary>
public sealed record ConductionPath
{
    /// <summary>Describes a path.</summary>
    /// <param name="name">For reports: "body", "stem".</param>
    /// <param name="bars">From the warm to the cold end, one or more.</param>
    /// <param name="warmEnd">Temperature of its warm end where that is not the inlet of the throttle: the room, for a stem with its drive outside.</param>
    /// <exception cref="ArgumentException">The name is empty, or there is no bar.</exception>
    public ConductionPath(string name, IReadOnlyList<ConductionBar> bars, Temperature? warmEnd = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(bars);
        if (bars.Count == 0)
        {
            throw new ArgumentException($"bars of '{name}' is empty; at least one is needed.", nameof(bars));
        }

        Name = name;
        Bars = [.. bars];
        WarmEnd = warmEnd;
    }

    /// <summary>For reports.</summary>
    public string Name { get; }

    /// <summary>From the warm to the cold end.</summary>
    public IReadOnlyList<ConductionBar> Bars { get; }

    /// <summary>Temperature of the warm end; null where that is the inlet of the throttle.</summary>
    public Temperature? WarmEnd { get; }
}
