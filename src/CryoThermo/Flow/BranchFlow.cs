using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A flow through parts side by side. Immutable and thread-safe.</summary>
public sealed class BranchFlow : IThrottleFlow
{
    internal BranchFlow(IReadOnlyList<IThrottleFlow> branches) => Branches = branches;

    /// <summary>The flow through each.</summary>
    public IReadOnlyList<IThrottleFlow> Branches { get; }

    /// <inheritdoc/>
    public State Inlet => Branches[0].Inlet;

    /// <inheritdoc/>
    public Pressure OutletPressure => Branches[0].OutletPressure;

    /// <inheritdoc/>
    public MassFlow MassFlow => MassFlow.FromKilogramsPerSecond(Branches.Sum(b => b.MassFlow.KilogramsPerSecond));

    /// <summary>Whether every branch is choked.</summary>
    public bool IsChoked => Branches.All(b => b.IsChoked);

    /// <summary>Share of the flow that a branch takes.</summary>
    /// <param name="branch">Index of the branch.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such branch.</exception>
    public double FlowShare(int branch)
    {
        Guard.InRange(branch, 0, Branches.Count - 1, "as index of a branch");
        return Branches[branch].MassFlow / MassFlow;
    }
}
