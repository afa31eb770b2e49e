using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>What lets a flow through between two pressures: a valve, a capillary, several of them. Immutable and thread-safe.</summary>
public interface IThrottlePart
{
    /// <summary>The flow from a fluid at rest to a lower pressure.</summary>
    /// <param name="inlet">The fluid at rest before it.</param>
    /// <param name="outletPressure">Absolute pressure behind it, below that of the inlet.</param>
    /// <exception cref="ArgumentOutOfRangeException">The outlet pressure is out of its range, or states on the way are out of the range of the model.</exception>
    /// <exception cref="Diagnostics.ConvergenceException">A state did not converge.</exception>
    IThrottleFlow FlowTo(State inlet, Pressure outletPressure);
}
