using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>Parts of a throttle side by side between the same two pressures. Immutable and thread-safe.</summary>
public sealed class ThrottleBranches : IThrottlePart
{
    /// <summary>Puts parts together.</summary>
    /// <param name="branches">The parts, 2 to 10.</param>
    /// <exception cref="ArgumentException">There are fewer than 2 or more than 10.</exception>
    public ThrottleBranches(params IReadOnlyList<IThrottlePart> branches)
    {
        ArgumentNullException.ThrowIfNull(branches);
        if (branches.Count is < 2 or > 10 || branches.Any(p => p is null))
        {
            throw new ArgumentException($"branches holds {branches.Count}; allowed is 2 to 10, none of them null.", nameof(branches));
        }

        Branches = [.. branches];
    }

    /// <summary>The parts.</summary>
    public IReadOnlyList<IThrottlePart> Branches { get; }

    /// <inheritdoc cref="IThrottlePart.FlowTo"/>
    public BranchFlow FlowTo(State inlet, Pressure outletPressure)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        return new([.. Branches.Select(b => b.FlowTo(inlet, outletPressure))]);
    }

    IThrottleFlow IThrottlePart.FlowTo(State inlet, Pressure outletPressure) => FlowTo(inlet, outletPressure);
}
